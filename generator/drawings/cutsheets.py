"""Cut sheets: each nested sheet to scale with its cuts numbered in order, and the list of those cuts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from generator.drafting.ink import Ink, View, move
from generator.drafting.inview import InView
from generator.drafting.page import Page, paragraph, wrap
from generator.drafting.table import Column, table
from generator.drafting.titleblock import SheetInfo, drawing_area, sheet_frame
from generator.drawings.cutpicture import Picture, margins, picture
from generator.drawings.flow import heading
from generator.drawings.nesting import Step, sheet_stamp, steps, walk
from generator.drawings.parts import board_size
from generator.drawings.said import lengths_in
from generator.drawings.scales import Scale, fitting_scale
from generator.drawings.template_targets import is_notched
from generator.model.geometry import TOUCH
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.purchase import CutNode, Sheet
from generator.units import PaperUnits, label, label_size

KIND = "Cut sheet"
LIST = (
    Column("Cut", 11.0, "right"),
    Column("Saw", 33.0),
    Column("Measure", 50.0),
    Column("Makes", 61.0),
)
LIST_WIDTH = sum(column.width for column in LIST)
BESIDE = 14.0
"""mm of paper between the sheet and the list of its cuts."""
STRIP = 25.4
"""mm: what is narrower than an inch is called a strip and not an offcut: nobody stores it."""


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One page without frame and title block, drawn inside the drawing area of the room's sheet paper, lying.

    `views`: the nested sheet, where the page shows it; `ink`: its list and words.
    """

    sheet: str
    title: str
    scale: str
    ink: tuple[Ink, ...]
    stamp: str
    views: tuple[InView, ...] = ()


def cut_sheet_inks(job: Job) -> tuple[CutSheet, ...]:
    """The pages of all sheets, for whoever numbers the set."""
    return tuple(page for sheet in job.plan.sheets for page in _cut_sheet(job, sheet))


def cut_sheets(job: Job) -> tuple[Page, ...]:
    """The pages of all sheets as a set of their own, framed and numbered."""
    pages = cut_sheet_inks(job)
    return tuple(_framed(job, page, i + 1, len(pages)) for i, page in enumerate(pages))


def _framed(job: Job, page: CutSheet, number: int, of: int) -> Page:
    info = _info(job, page.title, page.scale, page.stamp, f"C-{number:02d}", of)
    seen = (ink for view in page.views for ink in view.on_paper)
    ink = (*sheet_frame(job.room.job, info), *seen, *page.ink)
    return Page(info.number, page.title, info.width, info.height, page.scale, ink)


def _info(job: Job, title: str, scale: str, stamp: str, number: str = "", of: int = 0) -> SheetInfo:
    paper = job.room.choices.sheet_paper
    high, wide = sorted((paper.width, paper.height))
    said = lengths_in(job.room.choices.paper_units)
    return SheetInfo(number, of, title, KIND, scale, job.room.name, wide, high, stamp, said)


def _cut_sheet(job: Job, sheet: Sheet) -> tuple[CutSheet, ...]:
    """The drawing with its list beside it; on paper too small for both the list has further pages to itself."""
    units, stamp = job.room.choices.paper_units, sheet_stamp(job, sheet)
    title = f"Cut sheet {sheet.id}: {label_size((sheet.width, sheet.height), units)}"
    area = drawing_area(_info(job, title, "", stamp))
    (scale, shown), (large, alone) = _drawn(job, sheet, area, LIST_WIDTH + BESIDE), _drawn(job, sheet, area, 0.0)
    if scale.factor < large.factor / 2 or shown.right + BESIDE + LIST_WIDTH > area[2]:
        first = CutSheet(sheet.id, title, large.text, (), stamp, (alone.view,))
        return (
            first,
            *_listed(job, sheet, area, CutSheet(sheet.id, f"{title}, continued", "none", (), stamp), area[0]),
        )
    first = CutSheet(sheet.id, title, scale.text, (), stamp, (shown.view,))
    return _listed(job, sheet, area, first, shown.right + BESIDE)


def _listed(
    job: Job, sheet: Sheet, area: tuple[float, float, float, float], page: CutSheet, left: float
) -> tuple[CutSheet, ...]:
    """The page with the list of cuts from `left` on, and as many pages more as the list needs."""
    top, head, intro = area[3], heading(page.title, LIST_WIDTH, 5.0), _intro(job, sheet, page.scale)
    below = top - head.height - 3.0
    start = (left, below - len(intro) * 1.7 * 2.5)
    ink: tuple[Ink, ...] = (*move(head.ink, left, top), *paragraph(intro, (left, below), 2.5))
    rows = tuple(_row(step, job.room.choices.paper_units) for step in steps(sheet)) + _last_rows(job, sheet)
    pages = []
    while rows:
        listed = table(LIST, rows, start, area[1], 2.5)
        pages.append(replace(page, ink=(*ink, *listed.ink)))
        page, ink, rows, start = replace(page, views=()), (), listed.left_over, (area[0], top)
    return tuple(pages)


def _drawn(job: Job, sheet: Sheet, area: tuple[float, float, float, float], taken: float) -> tuple[Scale, Picture]:
    """The sheet at the largest standard scale that leaves `taken` mm beside it; smaller if words there need that."""
    left, bottom, right, top = area
    beside, below = margins(job, sheet)
    at = (left + beside, bottom + below)
    space = (right - taken - at[0], top - 2.0 - at[1])
    units = job.room.choices.paper_units
    scale = fitting_scale((sheet.width, sheet.height), space, units)
    shown = picture(job, sheet, View(scale.factor, at))
    more = shown.right - (at[0] + sheet.width * scale.factor)
    if more > 0:
        scale = fitting_scale((sheet.width, sheet.height), (space[0] - more, space[1]), units)
        shown = picture(job, sheet, View(scale.factor, at))
    return scale, shown


def _intro(job: Job, sheet: Sheet, scale: str) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    names = {stock.id: stock.board.name for stock in job.room.choices.stocks}
    lines = (
        *(() if scale == "none" else (f"Scale {scale}",)),
        f"{names.get(sheet.stock_id, sheet.stock_id)}, front face up.",
        f"Cut in the order of the numbers. The saw takes {label(sheet.kerf, units)} beyond each measure "
        "(right of it, or above it). Measure every piece from its left or lower edge.",
    )
    return tuple(part for line in lines for part in wrap(line, 2.5, LIST_WIDTH))


def _row(step: Step, units: PaperUnits) -> tuple[str, ...]:
    way = "upright" if step.axis == "x" else "level"
    edge = "left" if step.axis == "x" else "lower"
    made = "; ".join(_piece(child, units) for child in step.piece.children)
    return (str(step.number), way, f"{label(step.measure, units)} from its {edge} edge", made)


def _piece(node: CutNode, units: PaperUnits) -> str:
    if node.board_id:
        return node.board_id
    kind = "piece" if node.axis else "offcut" if min(node.width, node.height) >= STRIP else "strip"
    return f"{kind} {label_size((node.width, node.height), units)}"


def _trim(job: Job, sheet: Sheet, board: Board) -> str:
    """What is left to take off a board whose rest is no wider than the saw; empty where there is none."""
    leaf = next(node for node in walk(sheet.cut_tree) if node.board_id == board.id)
    width, height = board_size(board)
    sides = sorted((width, height)), sorted((leaf.width, leaf.height))
    if max(b - a for a, b in zip(*sides, strict=True)) <= TOUCH:
        return ""
    units = job.room.choices.paper_units
    return f"trim to {label_size((width, height), units)}"


def _last_rows(job: Job, sheet: Sheet) -> tuple[tuple[str, ...], ...]:
    """What remains to be done on each board once it is a rectangle."""
    rows = []
    for placement in sheet.placements:
        board = job.plan.board(placement.board_id)
        work = [text for text, needed in (
            (_trim(job, sheet, board), bool(_trim(job, sheet, board))),
            ("notches and nips of the outline", is_notched(board)),
            ("slanting sides", _slants(board)),
            (f"{len(board.openings)} opening{'s' if len(board.openings) != 1 else ''}", bool(board.openings)),
            ("rabbet in the back", bool(board.rabbets)),
        ) if needed]  # fmt: skip
        if work:
            rows.append(("", board.id, "then, from its shop drawing", ", ".join(work)))
    return tuple(rows) or (("", "", "", "nothing more to cut"),)


def _slants(board: Board) -> bool:
    """True where a side is neither level nor upright, as below a rake: the saw's rectangle is not yet the board."""
    ends = zip(board.outline, (*board.outline[1:], board.outline[0]), strict=True)
    return any(min(abs(q[0] - p[0]), abs(q[1] - p[1])) > TOUCH for p, q in ends)
