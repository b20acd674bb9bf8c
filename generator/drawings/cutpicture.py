"""The picture on a cut sheet: boards in their places, numbered cuts, offcuts, and every word where it is free."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drafting.dimension import said_once, spread
from generator.drafting.ink import Circle, Ink, Line, Outline, Running, Stop, Text, View
from generator.drafting.inview import InView
from generator.drafting.page import text_width
from generator.drafting.spot import Block, fit_block
from generator.drawings.marks import leaders, widest
from generator.drawings.nesting import Step, board_cuts_on_sheet, offcuts, steps
from generator.drawings.parts import board_size
from generator.model.geometry import Point, Ring, box, canonical, rectangle
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.purchase import CutNode, Placement, Sheet
from generator.planning.shapes import polygon
from generator.units import PaperUnits, label, label_size

BADGE = 2.8
SLIVER = 8.0
"""mm on paper: an offcut narrower than this is not named on the drawing."""
HEIGHT = 2.5
LINE = 6.0
"""mm from the sheet to a dimension line."""
OUT = LINE + 6.5
"""mm from the sheet to the foot of a dimension's text, and a little air beyond it."""
LEAST = 26.0
"""mm that dimensions have at least."""
TOPS = {0: "top is up", 90: "top is to the left", 180: "top is down", 270: "top is to the right"}


@dataclass(frozen=True, slots=True)
class Picture:
    """The sheet with its marks, and how far it reaches to the right on paper."""

    view: InView
    right: float


def picture(job: Job, sheet: Sheet, view: View) -> Picture:
    """A sheet to scale. Boards too narrow for their words have them beside the sheet, at the end of a line."""
    cuts, units = steps(sheet), job.room.choices.paper_units
    badges = _badges(cuts, sheet.kerf, view)
    keep_out = [rectangle(*_square(at)) for at in badges]
    words = {p.board_id: _board_words(job, p, view, keep_out) for p in sheet.placements}
    beside, right = _beside([_outside(job, p, view) for p in sheet.placements if not words[p.board_id]], sheet, view)
    off = [*keep_out, *leaders(beside)]
    named = [text for node in offcuts(sheet) for text in _offcut_words(node, view, units, off)]
    marks = (
        *_dimensions(job, sheet, view),
        *beside,
        *(text for texts in words.values() for text in texts),
        *named,
        *_badge_ink(cuts, badges),
    )
    return Picture(InView(view, _shapes(job, sheet), marks, patched=False), right)


def _shapes(job: Job, sheet: Sheet) -> tuple[Ink, ...]:
    """Sheet, offcuts, boards and saw lines, in the sheet's frame."""
    left_over = (rectangle(n.x, n.y, n.x + n.width, n.y + n.height) for n in offcuts(sheet))
    boards = (_board_on_waste(job.plan.board(p.board_id), p) for p in sheet.placements)
    return (
        *(Outline(ring, "light", fill=0.93) for ring in left_over),
        *(item for board in boards for item in board),
        *(step.line(sheet.kerf) for step in steps(sheet)),
        Outline(rectangle(0.0, 0.0, sheet.width, sheet.height), "sheet"),
    )


def _board_on_waste(board: Board, placement: Placement) -> tuple[Ink, ...]:
    """The board white on its grey box, so that what is cut away from it shows."""
    cuts = board_cuts_on_sheet(board, placement)
    shape = next(item for item in cuts if isinstance(item, Outline) and item.layer == "cut")
    grey = Outline(rectangle(*box(shape.ring)), "light", fill=0.93, edge=False)
    return (grey, replace(shape, fill=1.0), *(item for item in cuts if item is not shape))


def _dimensions(job: Job, sheet: Sheet, view: View) -> tuple[Running, Running]:
    """Every cut from the sheet's left and lower edges: across it, and up it."""
    units = job.room.choices.paper_units
    x0, y0 = view.point((0.0, 0.0))
    xs = sorted({step.at for step in steps(sheet) if step.axis == "x"} | {sheet.width})
    ys = sorted({step.at for step in steps(sheet) if step.axis == "y"} | {sheet.height})
    across = [Stop(view.x(x), label(x, units), y0 - 1.0) for x in xs]
    up = [Stop(view.y(y), label(y, units), x0 - 1.0) for y in ys]
    return (Running("x", y0 - LINE, x0, said_once(across)), Running("y", x0 - LINE, y0, said_once(up)))


def margins(job: Job, sheet: Sheet) -> Point:
    """mm of paper left of the sheet and below it for these dimensions."""
    texts = ((stop.text for stop in run.stops) for run in _dimensions(job, sheet, View(1.0, (0.0, 0.0))))
    below, beside = (max(LEAST, OUT + widest(tuple(words))) for words in texts)
    return beside, below


def _square(at: Point) -> tuple[float, float, float, float]:
    return (at[0] - BADGE, at[1] - BADGE, at[0] + BADGE, at[1] + BADGE)


def _badges(cuts: Sequence[Step], kerf: float, view: View) -> list[Point]:
    """Where each cut's number stands on its line: the middle first, clear of those before it or as far as can be."""
    found: list[Point] = []
    for step in cuts:
        line = step.line(kerf)
        spots = [_on(line, share, view) for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)]
        free = [s for s in spots if all(abs(s[0] - f[0]) + abs(s[1] - f[1]) > 3 * BADGE for f in found)]
        found.append(free[0] if free else max(spots, key=lambda s: min(math.dist(s, f) for f in found)))
    return found


def _on(line: Line, share: float, view: View) -> Point:
    (x, y), (p, q) = line.start, line.end
    return view.point((x + (p - x) * share, y + (q - y) * share))


def _badge_ink(cuts: Sequence[Step], badges: Sequence[Point]) -> tuple[Ink, ...]:
    ink: list[Ink] = []
    for step, at in zip(cuts, badges, strict=True):
        ink += [Circle(at, BADGE, "visible", fill=1.0), Text(at, str(step.number), 2.5, "centre", "middle", bold=True)]
    return tuple(ink)


def _board_words(job: Job, placement: Placement, view: View, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """The board's mark, its size and which way is up: all of it, or less where the board is narrow, or nothing."""
    cuts = view.place(board_cuts_on_sheet(job.plan.board(placement.board_id), placement))
    outline = canonical(_outline(cuts))
    holes = [*keep_out, *(_box_of(item) for item in cuts if item.layer == "opening")]
    taken = [*holes, *(_box_of(item) for item in cuts if item.layer == "pocket")]
    name, size, top = _says(job, placement)
    for lines, heights in (((name, size, top), (5.0, 3.5, HEIGHT)), ((f"{name}, {size}, {top}",), (HEIGHT,))):
        for keep in (taken, holes):
            if found := fit_block(Block(lines, mask=True), outline, keep, heights, clear=0.8):
                return found
    return ()


def _outline(cuts: Sequence[Ink]) -> Ring:
    """Of the board that the cuts are of."""
    return next(item.ring for item in cuts if isinstance(item, Outline) and item.layer == "cut")


def _says(job: Job, placement: Placement) -> tuple[str, str, str]:
    (w, h), units = board_size(job.plan.board(placement.board_id)), job.room.choices.paper_units
    return (placement.board_id, label_size((w, h), units), TOPS[placement.turn])


def _outside(job: Job, placement: Placement, view: View) -> tuple[Point, str]:
    """A place well inside a narrow board on paper, off its notch, and all of its words in one line."""
    at = polygon(_outline(board_cuts_on_sheet(job.plan.board(placement.board_id), placement))).representative_point()
    return view.point((at.x, at.y)), ", ".join(_says(job, placement))


def _beside(narrow: Sequence[tuple[Point, str]], sheet: Sheet, view: View) -> tuple[tuple[Ink, ...], float]:
    """Words to the right of the sheet with lines to their boards, and how far they reach."""
    right = view.x(sheet.width)
    ordered = sorted(narrow, key=lambda item: (item[0][1], item[0][0]))
    ink: list[Ink] = []
    for (at, words), y in zip(ordered, spread([item[0][1] for item in ordered], 1.6 * HEIGHT), strict=True):
        ink += [Line(at, (right + 5.0, y), "dimension"), Circle(at, 0.5, "dimension", fill=0.0)]
        ink.append(Text((right + 6.0, y), words, HEIGHT, level="middle"))
    return tuple(ink), max((right + 6.0 + text_width(words, HEIGHT) for _, words in narrow), default=right)


def _box_of(item: Ink) -> Ring:
    if isinstance(item, Circle):
        (x, y), r = item.centre, item.radius
        return rectangle(x - r, y - r, x + r, y + r)
    return rectangle(*box(item.ring)) if isinstance(item, Outline) else ()


def _offcut_words(node: CutNode, view: View, units: PaperUnits, keep_out: Sequence[Ring]) -> tuple[Ink, ...]:
    left, bottom = view.point((node.x, node.y))
    right, top = view.point((node.x + node.width, node.y + node.height))
    if min(right - left, top - bottom) < SLIVER:
        return ()
    block = Block(("offcut", label_size((node.width, node.height), units)), mask=True)
    return fit_block(block, rectangle(left, bottom, right, top), keep_out, (2.5,), clear=0.8)
