"""Findings that somebody must see, with the numbers that flags on the drawings and the list of findings share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.drafting.ink import Ink, Outline
from generator.drawings.confirm import measure_text
from generator.drawings.elevation import Elevation
from generator.drawings.flow import Block, Column, table
from generator.drawings.marks import Label, flags
from generator.model.findings import RANK, Finding, Phase, judged
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.room import Wall

SHOWN_OFF = 5.0
"""mm from a view's right edge to the edge of its flags."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """A finding and its number in the set."""

    number: int
    finding: Finding


def numbered(job: Job) -> tuple[Numbered, ...]:
    """All findings but the plain passes: the worst first, then by place in the plan's own order.

    Rules that found nothing to judge come last, so that those somebody reads are numbered without a gap.
    """
    shown = [f for f in job.findings if f.verdict != "pass"]
    walls = {w.id: i for i, w in enumerate(job.plan.walls)}
    ordered = sorted(shown, key=lambda f: (not judged(f), -RANK[f.verdict], walls.get(f.place.wall, -1)))
    return tuple(Numbered(i + 1, finding) for i, finding in enumerate(ordered))


def on_wall(job: Job, wall: Wall, phases: Iterable[Phase]) -> tuple[Numbered, ...]:
    """The numbered findings of these phases that somebody must act on and whose place is on the wall."""
    wanted, acted = tuple(phases), RANK["confirm"]
    own = (n for n in numbered(job) if n.finding.place.wall == wall.id and n.finding.phase in wanted)
    return tuple(n for n in own if RANK[n.finding.verdict] >= acted)


def broken_ink(shown: tuple[Numbered, ...]) -> tuple[Ink, ...]:
    """The places of what breaks a limit, heavy, in the wall frame."""
    return tuple(ink for n in shown if n.finding.verdict in ("fail", "warn") for ink in _place_ink(n.finding))


def finding_flags(seen: Elevation, shown: tuple[Numbered, ...]) -> tuple[Ink, ...]:
    """Flags to the right of the view with leaders to their findings."""
    placed = tuple(_label(seen, n) for n in shown if n.finding.place.geometry)
    _, low, right, high = seen.hull
    return flags(placed, right + SHOWN_OFF + 3.0, low, high, "finding")


def _label(seen: Elevation, shown: Numbered) -> Label:
    """At the middle of the place; a place that is tall lets its leader start at any height of it."""
    left, bottom, right, top = box(seen.view.point(p) for p in shown.finding.place.geometry)
    middle, inset = ((left + right) / 2, (bottom + top) / 2), min(2.0, (top - bottom) / 2)
    return Label(middle, str(shown.number), span=(bottom + inset, top - inset))


def _place_ink(finding: Finding) -> tuple[Ink, ...]:
    points = finding.place.geometry
    return (Outline(points, "finding", closed=len(points) > 2),) if len(set(points)) > 1 else ()


def finding_table(job: Job, shown: tuple[Numbered, ...], width: float, title: str) -> tuple[Block, ...]:
    """Number, verdict and rule, what was found, cure. No table when there is nothing to show."""
    columns = (Column("No.", 9), Column("Verdict, rule", 31), Column("Found, limit, cure", 60))
    rows = tuple((str(n.number), f"{n.finding.verdict}: {n.finding.rule}", told(job, n.finding)) for n in shown)
    return table(columns, rows, width, title) if rows else ()


def told(job: Job, finding: Finding) -> str:
    """Subject, measured value against its limit, and the cure, in a sentence or two."""
    cure = f"Cure: {finding.cure.text.rstrip('.')}" if finding.cure is not None else ""
    parts = (finding.subject.rstrip("."), _against(job, finding), cure)
    return ". ".join(part for part in parts if part) + "."


def _against(job: Job, finding: Finding) -> str:
    """The value beside its limit; a count of which there should be none says no more than the subject does."""
    if finding.measured is None or finding.limit is None:
        return ""
    rule, units = job.room.rules.get(finding.rule), job.room.choices.paper_units
    unit, at_most = (rule.unit if rule else "mm"), rule is not None and rule.sense == "at_most"
    if unit == "count" and not finding.limit:
        return ""
    if finding.limit == 0 and not at_most and finding.measured < 0:
        return f"Short by {measure_text(-finding.measured, unit, units)}"
    value, limit = (measure_text(v, unit, units) for v in (finding.measured, finding.limit))
    if unit in ("mm2", "mm3") and at_most and finding.limit < 1:
        return f"{value}, none wanted"  # such a limit is arithmetic noise, and in mm beside inches
    return f"{value}, {'at most' if at_most else 'at least'} {limit} wanted"
