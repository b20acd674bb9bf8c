"""The lists as one workbook: take-off, cut list, screws, lumber, bands, findings; the same bytes every time."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from math import ceil
from typing import Any

from generator.drawings.handed import handed
from generator.drawings.numbered import numbered
from generator.model.findings import Finding
from generator.model.geometry import box, tidy
from generator.model.job import Job
from generator.model.purchase import TakeoffRow
from generator.planning.lumber.plan import rest_of
from generator.planning.takeoff import shortfall
from generator.planning.takeoff.words import amount_text
from generator.units import to_units

CREATED = datetime(2000, 1, 1)
WIDEST = 60
"""Letters that a column shows at most."""
Cell = str | float | int


@dataclass(frozen=True, slots=True)
class Sum:
    """A cell that adds up `count` cells of its column right below it; `value` is what it comes to."""

    count: int
    value: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of the workbook: headings with their units, rows, and which rows fold away under the one above."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Cell | Sum, ...], ...]
    folded: frozenset[int] = frozenset()


def lists_xlsx(job: Job) -> bytes:
    """The workbook of a job. Lengths in the job's drawing units, quantities of the take-off in their own unit."""
    from xlsxwriter import Workbook

    file = io.BytesIO()
    plain = dict.fromkeys(("strings_to_numbers", "strings_to_formulas", "strings_to_urls"), False)
    workbook = Workbook(file, {"in_memory": True, **plain})
    workbook.set_properties({"title": f"Lists of {job.room.name}", "created": CREATED})
    head = workbook.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    bold = workbook.add_format({"bold": True})
    for sheet in sheets(job):
        _write(workbook.add_worksheet(sheet.name), sheet, head, bold)
    workbook.close()
    return file.getvalue()


def sheets(job: Job) -> tuple[Sheet, ...]:
    """The sheets in their order."""
    return (_takeoff(job), _cut_list(job), _screws(job), _lumber(job), _bands(job), _findings(job))


def _write(page: Any, sheet: Sheet, head: Any, bold: Any) -> None:
    page.freeze_panes(1, 0)
    page.outline_settings(symbols_below=False)
    page.autofilter(0, 0, len(sheet.rows), len(sheet.headings) - 1)
    page.write_row(0, 0, sheet.headings, head)
    for i, row in enumerate(sheet.rows, 1):
        for j, cell in enumerate(row):
            _write_cell(page, i, j, cell, bold)
        if i - 1 in sheet.folded:
            page.set_row(i, None, None, {"level": 1})
    for j, heading in enumerate(sheet.headings):
        longest = max((len(_text(row[j])) for row in sheet.rows), default=0)
        page.set_column(j, j, min(WIDEST, max(longest, len(heading))) + 2)


def _write_cell(page: Any, i: int, j: int, cell: Cell | Sum, bold: Any) -> None:
    if isinstance(cell, Sum):
        column = chr(ord("A") + j)
        page.write_formula(i, j, f"=SUM({column}{i + 2}:{column}{i + 1 + cell.count})", bold, cell.value)
    elif isinstance(cell, str):
        page.write_string(i, j, cell)
    else:
        page.write_number(i, j, tidy(cell))


def _text(cell: Cell | Sum) -> str:
    return cell if isinstance(cell, str) else f"{cell.value if isinstance(cell, Sum) else cell:g}"


def _takeoff(job: Job) -> Sheet:
    """A row for each item, its quantity the sum of the terms that fold away under it."""
    headings = ("Kind", "Item", "Term", "Quantity", "Unit", "Amount")
    packages = ("Package size", "Packages", "In van, packages", "To buy, packages", "Left over, packages")
    rows: list[tuple[Cell | Sum, ...]] = []
    folded: set[int] = set()
    for item in job.plan.takeoff:
        rows.append(_item(job, item))
        folded |= set(range(len(rows), len(rows) + len(item.terms)))
        rows += [_term(job, item, term.label, term.value) for term in item.terms]
    return Sheet("Take-off", (*headings, *packages), tuple(rows), frozenset(folded))


def _item(job: Job, row: TakeoffRow) -> tuple[Cell | Sum, ...]:
    buy = ceil(max(0.0, shortfall(row)))
    quantity = Sum(len(row.terms), tidy(row.quantity)) if row.terms else row.quantity
    amount = amount_text(row.quantity, row.unit, job.room.choices.drawing_units)
    packages = (row.package_size, row.packages, row.in_van, buy, row.in_van + buy - row.packages)
    return row.kind, row.item, "", quantity, row.unit, amount, *packages


def _term(job: Job, row: TakeoffRow, name: str, value: float) -> tuple[Cell | Sum, ...]:
    amount = amount_text(value, row.unit, job.room.choices.drawing_units)
    return row.kind, row.item, name, value, row.unit, amount, "", "", "", "", ""


def _cut_list(job: Job) -> Sheet:
    units, hands = job.room.choices.drawing_units, handed(job.plan)
    sizes = tuple(f"{name}, {units}" for name in ("Width", "Height", "Thickness"))
    headings = ("Mark", "Wall", "Sheet", "Stock", *sizes, "Openings", "Rabbets", "Factory edges", "Hand", "Weight, kg")
    rows: list[tuple[Cell, ...]] = []
    for b in job.plan.boards:
        left, bottom, right, top = box(b.outline)
        lengths = (to_units(n, units) for n in (right - left, top - bottom, b.thickness))
        counts = (len(b.openings), len(b.rabbets), len(b.factory_edges))
        hand = hands[b.id].hand if b.id in hands else ""
        rows.append((b.id, b.wall, b.sheet_id, b.stock_id, *lengths, *counts, hand, b.weight_kg))
    return Sheet("Cut list", headings, tuple(rows))


def _screws(job: Job) -> Sheet:
    units = job.room.choices.drawing_units
    lengths = tuple(f"{name}, {units}" for name in ("Across", "Up", "Length", "Washer"))
    rows: list[tuple[Cell, ...]] = []
    for f in job.plan.fasteners:
        numbers = (to_units(n, units) for n in (*f.point, f.length, f.washer_diameter))
        rows.append((f.id, f.wall, " ".join(f.board_ids), f.support_id, *numbers))
    return Sheet("Screws", ("Screw", "Wall", "Boards", "Support", *lengths), tuple(rows))


def _lumber(job: Job) -> Sheet:
    """A row for each piece as cut, and one for what is left of each stick."""
    units, reasons = job.room.choices.drawing_units, {s.id: s.reason for s in job.plan.supports}
    rows: list[tuple[Cell, ...]] = []
    for stick in job.plan.lumber:
        head = (stick.id, stick.profile_id, to_units(stick.length, units))
        rows += [(*head, c.support_id, to_units(c.length, units), reasons[c.support_id]) for c in stick.cuts]
        if rest_of(stick) > 0:
            rows.append((*head, "rest", to_units(rest_of(stick), units), ""))
    headings = ("Stick", "Profile", f"Stick length, {units}", "Piece", f"Cut length, {units}", "For")
    return Sheet("Lumber", headings, tuple(rows))


def _bands(job: Job) -> Sheet:
    units = job.room.choices.drawing_units
    rows = tuple(
        (
            *(b.id, b.kind, " ".join(dict.fromkeys(r.wall for r in b.rings))),
            *(to_units(b.length, units), " ".join(b.covers), " ".join(b.lap_ids)),
        )
        for b in job.plan.bands
    )
    return Sheet("Bands", ("Band", "Kind", "Walls", f"Length as cut, {units}", "Covers", "Laps"), rows)


def _findings(job: Job) -> Sheet:
    """Numbered as in the drawing set, the passes after them without a number."""
    passes = (f for f in job.findings if f.verdict == "pass")
    rows = (
        *((n.number, *_finding(job, n.finding)) for n in numbered(job)),
        *(("", *_finding(job, f)) for f in passes),
    )
    numbers = ("Measured", "Limit", "Margin", "Unit")
    headings = ("Number", "Verdict", "Phase", "Rule", "Wall", "Subject", *numbers, "Cure", "Line of room file")
    return Sheet("Findings", headings, tuple(rows))


def _finding(job: Job, finding: Finding) -> Iterator[Cell]:
    rule, units = job.room.rules.get(finding.rule), job.room.choices.drawing_units
    unit = rule.unit if rule else "mm"
    yield from (finding.verdict, finding.phase, finding.rule, finding.place.wall, finding.subject)
    for value in (finding.measured, finding.limit, finding.margin):
        yield "" if value is None else to_units(value, units) if unit == "mm" else value
    yield from (units if unit == "mm" else unit, finding.cure.text if finding.cure else "", finding.line or "")
