"""Lists for a spreadsheet: take-off, cuts, files, screws. Comma-separated, UTF-8, a heading line, CRLF (RFC 4180)."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from io import StringIO
from math import ceil

from generator.drafting.layers import deep_layer
from generator.drawings.handed import Handed, sided
from generator.drawings.nesting import sheet_stamp
from generator.drawings.parts import board_size, part_name
from generator.drawings.sheet_files import Clamping, clampings, cuts_of
from generator.model.geometry import box, tidy
from generator.model.job import Job
from generator.model.plan import Board, Fastener
from generator.model.purchase import Sheet, TakeoffRow
from generator.planning.takeoff import shortfall
from generator.planning.takeoff.words import amount_text
from generator.units import Units, label, to_units

Cell = str | float | int


def _bytes(heading: Sequence[str], lines: Iterable[Sequence[Cell]]) -> bytes:
    text = StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heading)
    writer.writerows([_cell(cell) for cell in line] for line in lines)
    return text.getvalue().encode("utf-8")


def _cell(cell: Cell) -> str:
    """Numbers without a trailing `.0`, on the noise grid."""
    return cell if isinstance(cell, str) else f"{tidy(cell):.6f}".rstrip("0").rstrip(".")


TAKEOFF_HEADING = (
    "line",
    "kind",
    "item",
    "profile",
    "term",
    "quantity",
    "unit",
    "amount",
    "package_size",
    "packages",
    "in_van",
    "to_buy",
    "left_over",
    "refs",
)


def takeoff_csv(job: Job) -> bytes:
    """The take-off: a line `row` for each row, with its packages, and under it a line `term` for each term.

    The quantities of the terms add up to the row's. Quantities are in mm, ml or pieces; `amount` says the
    same in the job's units; `to_buy` and `left_over` are packages, those that are bought whole.
    """
    units = job.room.choices.drawing_units
    return _bytes(TAKEOFF_HEADING, (line for row in job.plan.takeoff for line in _takeoff_lines(row, units)))


def _takeoff_lines(row: TakeoffRow, units: Units) -> Iterator[tuple[Cell, ...]]:
    amount = amount_text(row.quantity, row.unit, units)
    buy = ceil(max(0.0, shortfall(row)))
    packages = (row.package_size, row.packages, row.in_van, buy, row.in_van + buy - row.packages)
    yield "row", row.kind, row.item, row.profile_id, "", row.quantity, row.unit, amount, *packages, ""
    for term in row.terms:
        amount = amount_text(term.value, row.unit, units)
        head = ("term", row.kind, row.item, row.profile_id, term.label)
        yield *head, term.value, row.unit, amount, "", "", "", "", "", " ".join(term.refs)


CUT_LIST_HEADING = (
    "mark",
    "wall",
    "sheet",
    "stock",
    "width",
    "height",
    "thickness",
    "width_text",
    "height_text",
    "corners",
    "openings",
    "notches",
    "factory_edges",
    "weight_kg",
    "sheet_x",
    "sheet_y",
    "turn",
    "units",
)


def cut_list_csv(job: Job) -> bytes:
    """One line for each board, by mark: size of its box, what is cut into it, its place on its sheet.

    Lengths are in the job's drawing units; `corners` counts the corners of the outline (4: a rectangle).
    """
    sheets = {sheet.id: sheet for sheet in job.plan.sheets}
    units = job.room.choices.drawing_units
    return _bytes(CUT_LIST_HEADING, (_cut_line(b, sheets[b.sheet_id], units) for b in job.plan.boards))


def _cut_line(board: Board, sheet: Sheet, units: Units) -> tuple[Cell, ...]:
    left, bottom, right, top = box(board.outline)
    size = (right - left, top - bottom)
    place = next(p for p in sheet.placements if p.board_id == board.id)
    return (
        *(board.id, board.wall, sheet.id, board.stock_id),
        *(to_units(n, units) for n in (*size, board.thickness)),
        *(label(n, units) for n in size),
        *(len(board.outline), len(board.openings), len(board.rabbets), len(board.factory_edges)),
        *(board.weight_kg, to_units(place.x, units), to_units(place.y, units), place.turn, units),
    )


PARTS_HEADING = (
    "file",
    "mark",
    "quantity",
    "hand",
    "mirror_image_of",
    "face_up",
    "wall",
    "stock",
    "thickness",
    "width",
    "height",
    "openings",
    "pockets",
    "sheet",
    "units",
    "not_for_cutting",
)


def parts_csv(job: Job) -> bytes:
    """One line for each part file: how many, its hand, its size in drawing units, pockets as face and depth.

    Every mark is one board, so the quantity is 1. Part files show the front.
    """
    hands = sided(job.room, job.plan)
    return _bytes(PARTS_HEADING, (_part_line(job, board, hands.get(board.id)) for board in job.plan.boards))


def _part_line(job: Job, board: Board, hand: Handed | None) -> tuple[Cell, ...]:
    units = job.room.choices.drawing_units
    pockets = sorted({(r.face, r.depth) for r in board.rabbets})
    return (
        *(f"{part_name(board, hand)}.dxf", board.id, 1, hand.hand if hand else "", hand.mirror if hand else ""),
        *("front", board.wall, board.stock_id),
        *(to_units(n, units) for n in (board.thickness, *board_size(board))),
        len(board.openings),
        "; ".join(f"{face} {_cell(to_units(depth, units))}" for face, depth in pockets),
        *(board.sheet_id, units, "yes" if board.wall in job.failed else "no"),
    )


SHEETS_HEADING = (
    "file",
    "sheet",
    "face_up",
    "mirrored",
    "cut_through",
    "board",
    "quantity",
    "pocket_layer",
    "pocket_depth",
    "inner_corners",
    "reliefs",
    "drill",
    "cutter",
    "offset",
    "units",
    "not_for_cutting",
)


def sheets_csv(job: Job) -> bytes:
    """One line for each board in each nested sheet file, and one more for each further depth of its pockets.

    Depth and cutter in drawing units. `inner_corners` counts, where reliefs are wanted, those that the cutter would
    leave round, `reliefs` those that are cut out; `drill` names openings that the cutter is too wide for.
    """
    return _bytes(
        SHEETS_HEADING, (line for s in job.plan.sheets for c in clampings(job, s) for line in _sheet_lines(job, c))
    )


def _sheet_lines(job: Job, clamping: Clamping) -> Iterator[tuple[Cell, ...]]:
    choices, sheet, back = job.room.choices, clamping.sheet, clamping.up == "back"
    units, stop = choices.drawing_units, "yes" if sheet_stamp(job, sheet) else "no"
    head = (f"{clamping.name}.dxf", sheet.id, clamping.up, *("yes" if so else "no" for so in (back, clamping.through)))
    tail = (to_units(choices.shop.cutter, units), choices.shop.offset, units, stop)
    for mark, cuts in sorted(cuts_of(job, clamping).items()):
        depths = sorted({r.depth for r in job.plan.board(mark).rabbets if r.face == clamping.up})
        for depth in depths or (None,):
            layer = "" if depth is None else deep_layer("pocket", depth, choices.layer_standard)
            deep = "" if depth is None else to_units(depth, units)
            corners = (cuts.inner_corners, cuts.reliefs, " ".join(cuts.too_small))
            yield *head, mark, 1, layer, deep, *corners, *tail


FASTENERS_HEADING = (
    "screw",
    "wall",
    "board",
    "support",
    "across",
    "up",
    "length",
    "washer",
    "across_text",
    "up_text",
    "units",
)


def fasteners_csv(job: Job) -> bytes:
    """One line for each screw: across from the wall's left framing corner and up from the datum, in drawing units."""
    units = job.room.choices.drawing_units
    return _bytes(FASTENERS_HEADING, (_screw_line(f, units) for f in job.plan.fasteners))


def _screw_line(screw: Fastener, units: Units) -> tuple[Cell, ...]:
    u, v = screw.point
    numbers = (to_units(n, units) for n in (u, v, screw.length, screw.washer_diameter))
    return (
        screw.id,
        screw.wall,
        " ".join(screw.board_ids),
        screw.support_id,
        *numbers,
        label(u, units),
        label(v, units),
        units,
    )
