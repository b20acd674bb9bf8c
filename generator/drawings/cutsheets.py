"""Cut sheets: each nested sheet to scale with its cuts numbered in order, and the list of those cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drafting.dimension import Stop, running
from generator.drafting.ink import Circle, Ink, Line, Outline, Text, View
from generator.drafting.page import Page, paragraph, wrap
from generator.drafting.spot import Block, fit_block, place_block
from generator.drafting.table import Column, table
from generator.drafting.titleblock import SheetInfo, drawing_area, sheet_frame
from generator.drawings.nesting import Step, board_cuts_on_sheet, offcuts, sheet_stamp, steps
from generator.drawings.parts import board_size
from generator.drawings.scales import fitting_scale
from generator.model.geometry import Point, Ring, box, canonical, rectangle
from generator.model.job import Job
from generator.model.plan import Board, CutNode, Placement, Sheet
from generator.units import Units, label

KIND = "Cut sheet"
LIST = (
    Column("Cut", 11.0, "right"),
    Column("Saw", 24.0),
    Column("Measure", 50.0),
    Column("Makes", 70.0),
)
LIST_WIDTH = sum(column.width for column in LIST)
DIMENSIONS = 26.0
"""mm of paper left of and below the sheet for its running dimensions."""
BADGE = 2.8
BESIDE = 14.0
"""mm of paper between the sheet and the list of its cuts."""
STRIP = 25.4
"""mm: what is narrower than an inch is called a strip and not an offcut: nobody stores it."""
SLIVER = 8.0
"""mm on paper: an offcut narrower than this is not named on the drawing."""


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One page without frame and title block, drawn inside the drawing area of the room's sheet paper, lying."""

    sheet: str
    title: str
    scale: str
    ink: tuple[Ink, ...]
    stamp: str


def cut_sheet_inks(job: Job) -> tuple[CutSheet, ...]:
    """The pages of all sheets, for whoever numbers the set."""
    return tuple(page for sheet in job.plan.sheets for page in _cut_sheet(job, sheet))


def cut_sheets(job: Job) -> tuple[Page, ...]:
    """The pages of all sheets as a set of their own, framed and numbered."""
    pages = cut_sheet_inks(job)
    return tuple(_framed(job, page, i + 1, len(pages)) for i, page in enumerate(pages))


def _framed(job: Job, page: CutSheet, number: int, of: int) -> Page:
    info = _info(job, page.title, page.scale, page.stamp, f"C-{number:02d}", of)
    ink = (*sheet_frame(job.room.job, info), *page.ink)
    return Page(info.number, page.title, info.width, info.height, page.scale, ink)


def _info(job: Job, title: str, scale: str, stamp: str, number: str = "", of: int = 0) -> SheetInfo:
    paper = job.room.choices.sheet_paper
    high, wide = sorted((paper.width, paper.height))
    return SheetInfo(number, of, title, KIND, scale, job.room.name, wide, high, stamp)


def _cut_sheet(job: Job, sheet: Sheet) -> tuple[CutSheet, ...]:
    """The drawing with its list; further pages where the list is longer than the paper."""
    units, stamp = job.room.choices.drawing_units, sheet_stamp(job, sheet)
    title = f"Cut sheet {sheet.id}: {label(sheet.width, units)} x {label(sheet.height, units)}"
    left, bottom, right, top = drawing_area(_info(job, title, "", stamp))
    space = (right - left - LIST_WIDTH - DIMENSIONS - 10.0, top - bottom - DIMENSIONS - 2.0)
    scale = fitting_scale((sheet.width, sheet.height), space, units)
    view = View(scale.factor, (left + DIMENSIONS, bottom + DIMENSIONS))
    beside = min(view.x(sheet.width) + BESIDE, right - LIST_WIDTH)
    intro = _intro(job, sheet)
    words = paragraph(intro, (beside, top - 3.0), 2.5)
    start = (beside, top - 3.0 - len(intro) * 1.7 * 2.5)
    pages, rows = [], tuple(_row(step, units) for step in steps(sheet)) + _last_rows(job, sheet)
    ink: tuple[Ink, ...] = (*_picture(job, sheet, view), *words)
    while rows:
        listed = table(LIST, rows, start, bottom, 2.5)
        pages.append(CutSheet(sheet.id, title, scale.text, (*ink, *listed.ink), stamp))
        ink, rows, start = (), listed.left_over, (left, top)
    return tuple(pages)


def _intro(job: Job, sheet: Sheet) -> tuple[str, ...]:
    units = job.room.choices.drawing_units
    names = {stock.id: stock.board.name for stock in job.room.choices.stocks}
    lines = (
        f"{names.get(sheet.stock_id, sheet.stock_id)}, front face up.",
        f"Cut in the order of the numbers. The saw takes {label(sheet.kerf, units)} beyond each measure "
        "(right of it, or above it). Measure every piece from its left or lower edge.",
    )
    return tuple(part for line in lines for part in wrap(line, 2.5, LIST_WIDTH))


def _row(step: Step, units: Units) -> tuple[str, ...]:
    way = "upright" if step.axis == "x" else "level"
    edge = "left" if step.axis == "x" else "lower"
    first, second = step.piece.children
    made = f"{_piece(first, units)}; {_piece(second, units)}"
    return (str(step.number), way, f"{label(step.measure, units)} from its {edge} edge", made)


def _piece(node: CutNode, units: Units) -> str:
    if node.board_id:
        return node.board_id
    kind = "piece" if node.axis else "offcut" if min(node.width, node.height) >= STRIP else "strip"
    return f"{kind} {label(node.width, units)} x {label(node.height, units)}"


def _last_rows(job: Job, sheet: Sheet) -> tuple[tuple[str, ...], ...]:
    """What remains to be done on each board once it is a rectangle."""
    rows = []
    for placement in sheet.placements:
        board = job.plan.board(placement.board_id)
        work = [text for text, needed in (
            ("steps and nips of the outline", len(board.outline) > 4),
            (f"{len(board.openings)} opening{'s' if len(board.openings) != 1 else ''}", bool(board.openings)),
            ("pocket in the back", bool(board.rabbets)),
        ) if needed]  # fmt: skip
        if work:
            rows.append(("", board.id, "then, from its shop drawing", ", ".join(work)))
    return tuple(rows) or (("", "", "", "nothing more to cut"),)


def _picture(job: Job, sheet: Sheet, view: View) -> tuple[Ink, ...]:
    cuts = steps(sheet)
    badges = _badges(cuts, sheet.kerf, view)
    keep_out = [rectangle(*_square(at)) for at in badges]
    ink: list[Ink] = [
        Outline(rectangle(0.0, 0.0, sheet.width, sheet.height), "sheet"),
        *(Outline(rectangle(n.x, n.y, n.x + n.width, n.y + n.height), "light", fill=0.93) for n in offcuts(sheet)),
    ]
    for placement in sheet.placements:
        ink += _board_on_waste(job.plan.board(placement.board_id), placement)
    ink += [step.line(sheet.kerf) for step in cuts]
    drawn: list[Ink] = [*view.place(tuple(ink)), *_dimensions(job, sheet, view)]
    for placement in sheet.placements:
        drawn += _board_words(job, placement, view, keep_out)
    for node in offcuts(sheet):
        drawn += _offcut_words(node, view, job.room.choices.drawing_units, keep_out)
    return (*drawn, *_badge_ink(cuts, badges))


def _board_on_waste(board: Board, placement: Placement) -> tuple[Ink, ...]:
    """The board white on its grey box, so that what is cut away from it shows."""
    cuts = board_cuts_on_sheet(board, placement)
    shape = next(item for item in cuts if isinstance(item, Outline) and item.layer == "cut")
    grey = Outline(rectangle(*box(shape.ring)), "light", fill=0.93, edge=False)
    return (grey, replace(shape, fill=1.0), *(item for item in cuts if item is not shape))


def _dimensions(job: Job, sheet: Sheet, view: View) -> tuple[Ink, ...]:
    """Every cut from the sheet's left and lower edges."""
    units = job.room.choices.drawing_units
    x0, y0 = view.point((0.0, 0.0))
    xs = sorted({step.at for step in steps(sheet) if step.axis == "x"} | {sheet.width})
    ys = sorted({step.at for step in steps(sheet) if step.axis == "y"} | {sheet.height})
    across = [Stop(view.x(x), label(x, units), y0 - 1.0) for x in xs]
    up = [Stop(view.y(y), label(y, units), x0 - 1.0) for y in ys]
    return (*running("x", y0 - 6.0, x0, across), *running("y", x0 - 6.0, y0, up))


def _square(at: Point) -> tuple[float, float, float, float]:
    return (at[0] - BADGE, at[1] - BADGE, at[0] + BADGE, at[1] + BADGE)


def _badges(cuts: Sequence[Step], kerf: float, view: View) -> list[Point]:
    """Where each cut's number stands: on its line, the middle first, clear of the numbers before it."""
    found: list[Point] = []
    for step in cuts:
        line = step.line(kerf)
        spots = [_on(line, share, view) for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)]
        free = [s for s in spots if all(abs(s[0] - f[0]) + abs(s[1] - f[1]) > 3 * BADGE for f in found)]
        found.append((free or spots)[0])
    return found


def _on(line: Line, share: float, view: View) -> Point:
    (x, y), (p, q) = line.start, line.end
    return view.point((x + (p - x) * share, y + (q - y) * share))


def _badge_ink(cuts: Sequence[Step], badges: Sequence[Point]) -> tuple[Ink, ...]:
    ink: list[Ink] = []
    for step, at in zip(cuts, badges, strict=True):
        ink += [Circle(at, BADGE, "visible", fill=1.0), Text(at, str(step.number), 2.5, "centre", "middle", bold=True)]
    return tuple(ink)


def _board_words(job: Job, placement: Placement, view: View, keep_out: Sequence[Ring]) -> tuple[Ink, ...]:
    """The board's mark, its size and which way is up, clear of its cuts."""
    board, units = job.plan.board(placement.board_id), job.room.choices.drawing_units
    ink = view.place(board_cuts_on_sheet(board, placement))
    outline = next(item.ring for item in ink if isinstance(item, Outline) and item.layer == "cut")
    taken = [*keep_out, *(_box_of(item) for item in ink if item.layer in ("opening", "pocket"))]
    w, h = board_size(board)
    top = {0: "top is up", 90: "top is to the left", 180: "top is down", 270: "top is to the right"}[placement.turn]
    lines = (board.id, f"{label(w, units)} x {label(h, units)}", top)
    return place_block(Block(lines), canonical(outline), taken, (4.0, 3.0, 2.5), 1.0)


def _box_of(item: Ink) -> Ring:
    if isinstance(item, Circle):
        (x, y), r = item.centre, item.radius
        return rectangle(x - r, y - r, x + r, y + r)
    return rectangle(*box(item.ring)) if isinstance(item, Outline) else ()


def _offcut_words(node: CutNode, view: View, units: Units, keep_out: Sequence[Ring]) -> tuple[Ink, ...]:
    left, bottom = view.point((node.x, node.y))
    right, top = view.point((node.x + node.width, node.y + node.height))
    if min(right - left, top - bottom) < SLIVER:
        return ()
    block = Block(("offcut", f"{label(node.width, units)} x {label(node.height, units)}"))
    return fit_block(block, rectangle(left, bottom, right, top), keep_out, (2.5,), clear=0.8)
