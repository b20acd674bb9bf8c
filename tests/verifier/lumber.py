"""Lumber: every added piece is cut once, from a stick that is long enough, and bought once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import dist

from tests.verifier.plain import Record, Violation, by_id

SEEN = 0.001


def _length(support: Record) -> float:
    """Of the straight piece that it is cut from: between lines square to its axis through its outermost corners."""
    p, q = support["axis"]
    turn = complex(q[0] - p[0], q[1] - p[1]) / dist(p, q)
    along = [(complex(u, v) / turn).real for u, v in support["outline"]]
    return max(along) - min(along)


def check_lumber(plan: Record) -> Iterator[Violation]:
    supports = by_id(plan, "supports")
    cut = Counter(c["support_id"] for stick in plan["lumber"] for c in stick["cuts"])
    added = {s["id"] for s in plan["supports"] if s["origin"] == "added" and s["same_as"] is None}
    for name in sorted(added | set(cut)):
        if cut[name] != (name in added):
            yield Violation("lumber-once", f"{name} is cut {cut[name]} times")
    for stick in plan["lumber"]:
        used = sum(c["length"] for c in stick["cuts"]) + stick["kerf"] * (len(stick["cuts"]) - 1)
        if used > stick["length"] + SEEN:
            yield Violation("lumber-length", f"{stick['id']} is {stick['length']} long, {used} is cut from it")
        for c in stick["cuts"]:
            if c["support_id"] in supports and abs(_length(supports[c["support_id"]]) - c["length"]) > SEEN:
                yield Violation("lumber-cut", f"{c['support_id']} is not {c['length']} long")
    bought = sum(row["quantity"] for row in plan["takeoff"] if row["kind"] == "lumber")
    if bought != len(plan["lumber"]):
        yield Violation("lumber-bought", f"{bought} sticks are bought, {len(plan['lumber'])} are cut")
    total, proof = sum(stick["length"] for stick in plan["lumber"]), plan["lumber_proof"]
    if proof is not None and (abs(proof["value"] - total) > SEEN or proof["bound"] > total + SEEN):
        yield Violation("lumber-proof", f"{total} is bought; the proof speaks of {proof['value']}, {proof['bound']}")
