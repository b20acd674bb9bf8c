"""Lists for a spreadsheet: take-off, cut list, screws. Comma-separated, UTF-8, one heading line, CRLF (RFC 4180)."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from io import StringIO
from math import ceil

from generator.model.geometry import box, tidy
from generator.model.job import Job
from generator.model.plan import Board, Fastener, Sheet, TakeoffRow
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
