"""What is listed: take-off sums, findings and verdicts, files."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tests.verifier.plain import NOISE, Record, Violation

RANK = ("pass", "note", "confirm", "warn", "fail")


def check_takeoff(plan: Record) -> Iterator[Violation]:
    for row in plan["takeoff"]:
        total = math.fsum(term["value"] for term in row["terms"])
        if abs(total - row["quantity"]) > 1e-6 * (1 + len(row["terms"])) + 1e-9 * abs(total):
            yield Violation("takeoff-sum", f"{row['item']}: {row['quantity']} is not the sum {total} of its terms")
        packages = math.ceil(row["quantity"] / row["package_size"] - 1e-6)
        if packages != row["packages"]:
            yield Violation("takeoff-packages", f"{row['item']}: {row['packages']} packages, computed {packages}")
    counts = {
        "sheet": len(plan["sheets"]),
        "screw": len(plan["fasteners"]),
        "washer": len(plan["fasteners"]),
        "collar": sum(b["kind"] == "collar" for b in plan["bands"]),
    }
    for kind, count in counts.items():
        listed = math.fsum(row["quantity"] for row in plan["takeoff"] if row["kind"] == kind)
        if abs(listed - count) > NOISE:
            yield Violation("takeoff-count", f"{kind} rows add up to {listed}, the plan has {count}")


def check_findings(plan: Record) -> Iterator[Violation]:
    walls = {wall["id"] for wall in plan["walls"]}
    for finding in plan["findings"]:
        name = f"{finding['rule']} ({finding['subject']})"
        if finding["rule"] not in plan["rules"]:
            yield Violation("finding-rule", f"{name}: no such rule")
            continue
        if finding["place"]["wall"] not in {None, *walls}:
            yield Violation("finding-wall", f"{name}: no wall {finding['place']['wall']}")
        yield from _judged(plan["rules"][finding["rule"]], finding, name)


def _judged(rule: Record, finding: Record, name: str) -> Iterator[Violation]:
    measured, margin, verdict = finding["measured"], finding["margin"], finding["verdict"]
    if (measured is None) != (margin is None) or (measured is None) != (finding["limit"] is None):
        yield Violation("finding-null", f"{name}: measured, limit and margin are not null together")
    elif measured is None:
        if verdict not in ("confirm", "note") or not finding["subject"]:
            yield Violation("finding-null", f"{name}: not measured, yet {verdict} or without a reason")
    else:
        yield from _margin(rule, finding, name)


def _margin(rule: Record, finding: Record, name: str) -> Iterator[Violation]:
    bound, measured, margin = finding["limit"], finding["measured"], finding["margin"]
    if bound != rule["limit"]:
        yield Violation("finding-limit", f"{name}: limit {bound} is not the rule's {rule['limit']}")
    expected = bound - measured if rule["sense"] == "at_most" else measured - bound
    if abs(expected - margin) > NOISE:
        yield Violation("finding-margin", f"{name}: margin {margin}, computed {expected}")
    verdict = finding["verdict"]
    if (verdict == "pass" and margin < 0) or (verdict in ("fail", "warn") and margin >= 0):
        yield Violation("finding-verdict", f"{name}: {verdict} with margin {margin}")


def check_verdicts(plan: Record) -> Iterator[Violation]:
    for key, phases in (("as_found", ("found",)), ("as_planned", ("planned", "solid"))):
        verdicts = [f["verdict"] for f in plan["findings"] if f["phase"] in phases]
        worst = max(verdicts, key=RANK.index, default="pass")
        if plan["verdicts"][key] != worst:
            yield Violation("verdict-head", f"{key} is {plan['verdicts'][key]}, its findings say {worst}")


def failed_walls(plan: Record) -> set[str]:
    failed = {f["place"]["wall"] for f in plan["findings"] if f["verdict"] == "fail"}
    return {wall["id"] for wall in plan["walls"]} if None in failed else failed


def check_files(plan: Record) -> Iterator[Violation]:
    """Part files of failed walls, and no others, are not for cutting."""
    failed = failed_walls(plan)
    walls = {b["id"]: b["wall"] for b in plan["boards"]}
    paths = [f["path"] for f in plan["files"]]
    if len(set(paths)) != len(paths):
        yield Violation("file-path", "a path is listed twice")
    for record in plan["files"]:
        if record["kind"] == "part-dxf" and record["subject"] not in walls:
            yield Violation("file-subject", f"{record['path']} is a part of no board")
        elif record["subject"] in walls and record["not_for_cutting"] != (walls[record["subject"]] in failed):
            yield Violation("file-cutting", f"{record['path']}: not_for_cutting is {record['not_for_cutting']}")
        for bar in record["bars"]:
            if abs(math.dist(bar["p"], bar["q"]) - bar["length"]) > 1e-3:
                yield Violation("file-bar", f"a bar of {record['path']} is not {bar['length']} long")
