"""Findings as text: a table of at most 80 columns that needs no colour."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from textwrap import wrap

from generator.checks.explain import quantity
from generator.model.findings import RANK, Finding, Phase, Verdict
from generator.model.room import Room

WIDTH = 80
PHASES: dict[Phase, str] = {
    "found": "As found: the framing as it stands",
    "planned": "As planned: with what the plan adds",
    "solid": "Solids: measured on the bodies",
}
COLUMNS = (7, 22, 14, 12, 14, 6)
"""Verdict, rule, measured, limit, margin, places: 80 with the spaces between."""
TIE = "\u00a0"
"""Keeps two words on one line; a plain space on paper."""
HEADER = ("verdict", "rule", "measured", "limit", "margin", "places")


def findings_table(findings: Sequence[Finding], room: Room) -> str:
    """All findings as text, worst first within each phase; every line has at most 80 columns.

    What fails or is open stands by itself: verdict, rule, measured, limit and margin, below them where it is and its
    cure. What holds is one line for each rule, with the tightest margin of all its places. Lengths are in the room's
    units.
    """
    lines: list[str] = []
    for phase, title in PHASES.items():
        own = [f for f in findings if f.phase == phase]
        if own:
            lines += [title, _row(HEADER), "-" * WIDTH, *_phase_lines(own, room), ""]
    return "\n".join([*lines, _summary(findings)]) + "\n"


def _phase_lines(findings: Sequence[Finding], room: Room) -> list[str]:
    open_ones = sorted((f for f in findings if f.verdict != "pass"), key=lambda f: -RANK[f.verdict])
    passes = [f for f in findings if f.verdict == "pass"]
    lines = [line for f in open_ones for line in _open_lines(f, room)]
    return lines + [_pass_line([f for f in passes if f.rule == r], room) for r in dict.fromkeys(f.rule for f in passes)]


def _row(cells: Sequence[str]) -> str:
    padded = (c.ljust(w) if i < 2 else c.rjust(w) for i, (c, w) in enumerate(zip(cells, COLUMNS, strict=False)))
    return " ".join(padded).rstrip()


def _numbers(finding: Finding, room: Room) -> list[str]:
    unit = room.rules[finding.rule].unit
    numbers = (finding.measured, finding.limit, finding.margin)
    return ["-" if n is None else quantity(n, unit, room.units) for n in numbers]


def _open_lines(finding: Finding, room: Room) -> list[str]:
    head = [finding.verdict.upper(), finding.rule]
    subject = finding.subject + (f" (line{TIE}{finding.line})" if finding.line else "")
    if finding.measured is None:
        return _wrapped(subject, f"{_row(head).ljust(sum(COLUMNS[:2]) + 1)} ")
    cure = _wrapped(finding.cure.text, f"{'':7} cure: ") if finding.cure else []
    return [_row((*head, *_numbers(finding, room))), *_wrapped(subject, " " * 8), *cure]


def _wrapped(text: str, head: str) -> list[str]:
    lines = wrap(text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head))
    return [line.replace(TIE, " ") for line in lines]


def _pass_line(findings: Sequence[Finding], room: Room) -> str:
    least = min(findings, key=lambda f: f.margin or 0.0)
    return _row(("pass", least.rule, *_numbers(least, room), str(len(findings))))


def _summary(findings: Sequence[Finding]) -> str:
    counts: Counter[Verdict] = Counter(f.verdict for f in findings)
    verdicts: list[Verdict] = sorted(RANK, key=lambda v: -RANK[v])
    return ", ".join(f"{counts[v]} {v}" for v in verdicts)
