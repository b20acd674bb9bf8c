"""Lumber cut list: every stick to buy as a bar with its cuts, and where each piece goes."""

from __future__ import annotations

from itertools import repeat
from math import atan, degrees

from generator.drafting.ink import Ink, Line, Outline, Text
from generator.drafting.page import text_width
from generator.drawings.elevation import pages_of
from generator.drawings.flow import TEXT, Block, Column, flow, gap, heading, prose, table
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.model.geometry import rectangle
from generator.model.job import Job
from generator.model.plan import Support
from generator.model.purchase import LumberStick
from generator.planning.lumber.plan import rest_of
from generator.units import PaperUnits, label

TITLE = "Lumber cut list"
BAR = 6.0
"""mm: height of a stick's bar on paper."""
NAMES = 46.0
"""mm left of the bars for the sticks' numbers and profiles."""


def lumber_leaves(job: Job) -> tuple[Leaf, ...]:
    """The list; no sheet where nothing is added."""
    if not job.plan.lumber:
        return ()
    left, _, right, _ = area(job)
    width = right - left
    blocks = (heading(TITLE, width, 5.0), prose(_how(job), width), *_bars(job, width), gap(4.0), *_pieces(job, width))
    first, *rest = flow(blocks, repeat(area(job)))
    return (*pages_of(TITLE, TITLE, (first,), 1), *pages_of(TITLE, f"{TITLE}{CONTINUED}", tuple(rest), 1))


def _how(job: Job) -> str:
    units, proof = job.room.choices.paper_units, job.plan.lumber_proof
    kerf = label(job.plan.lumber[0].kerf, units)
    proven = "" if proof is None else _proven(proof.value, proof.bound, proof.proven, units)
    return (
        f"Cut from the left; the saw takes {kerf} between two pieces. Measure each bay before cutting: blocks go in "
        f"tight. {proven}"
    )


def _proven(value: float, bound: float, proven: bool, units: PaperUnits) -> str:
    bought = f"Bought in all: {label(value, units)}"
    return f"{bought}, proven least." if proven else f"{bought}; nothing below {label(bound, units)} is possible."


def _bars(job: Job, width: float) -> tuple[Block, ...]:
    """One bar for each stick, all at one scale."""
    longest = max(stick.length for stick in job.plan.lumber)
    scale = (width - NAMES - 32.0) / longest
    return tuple(_bar(job, stick, scale) for stick in job.plan.lumber)


def _bar(job: Job, stick: LumberStick, scale: float) -> Block:
    units, low = job.room.choices.paper_units, -BAR - 1.0
    middle = low + BAR / 2
    ink: list[Ink] = [
        Text((0.0, middle), f"{stick.id}  {stick.profile_id}", TEXT, level="middle", bold=True),
        Outline(rectangle(NAMES, low, NAMES + stick.length * scale, low + BAR), "outline"),
        Text((NAMES + stick.length * scale + 2.0, middle), label(stick.length, units), TEXT, level="middle"),
    ]
    at = NAMES
    for cut in stick.cuts:
        end = at + cut.length * scale
        ink.append(Line((end, low), (end, low + BAR), "outline"))
        words = label(cut.length, units)
        if text_width(words, TEXT) + 1.0 <= end - at:
            ink.append(Text(((at + end) / 2, middle), words, TEXT, "centre", "middle"))
        at = end + stick.kerf * scale
    return Block(BAR + 3.0, tuple(ink))


def _pieces(job: Job, width: float) -> tuple[Block, ...]:
    units = job.room.choices.paper_units
    supports = {support.id: support for support in job.plan.supports}
    rows: list[tuple[str, ...]] = []
    for stick in job.plan.lumber:
        for i, cut in enumerate(stick.cuts):
            bought = f"{stick.id}, {stick.profile_id}, {label(stick.length, units)}" if i == 0 else ""
            support = supports[cut.support_id]
            rows.append((bought, label(cut.length, units), cut.support_id, _how_laid(support), support.reason))
        rest = rest_of(stick)
        if rest > 0:
            rows.append(("", label(rest, units), "rest", "", ""))
    columns = (Column("Stick", 56), Column("Cut", 20), Column("Piece", 34), Column("Laid", 60), Column("For", 80))
    return table(columns, rows, width, "Pieces")


def _how_laid(support: Support) -> str:
    if support.kind != "blocking":
        return support.kind + _cut_ends(support)
    return "blocking, flat, set back" if support.set_back else "blocking, flat, flush with the studs"


def _cut_ends(support: Support) -> str:
    """Through its thickness, from square: seen from its face, which is its longer side."""
    left, right = (f"{degrees(atan(bevel)):.0f}" for bevel in support.bevels)
    if not any(support.bevels):
        return ""
    return (
        f", sides cut {left} deg left, {right} deg right"
        if support.kind == "stud"
        else f", ends cut {left} / {right} deg"
    )
