"""The frame and title block of a drawing sheet, with the caution that every sheet carries.

The fields are those that ISO 7200 makes mandatory (owner, number, date, sheet, title, approval, creator, kind of
document) and the revision; the job is the title, the drawing its supplement. A field that nobody entered stays
blank, to be filled in by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, chain

from generator.drafting.ink import Ink, Line, Outline, Text
from generator.drafting.inview import Field
from generator.drafting.page import shortened, wrap
from generator.drafting.projection import Angle, projection_symbol
from generator.model.geometry import rectangle
from generator.model.room import JobInfo

MARGIN = 10.0
"""mm from the paper's edge to the frame (ISO 5457: 10; its filing margin of 20 is left to the hole punch)."""
STRIP = 18.0
"""mm: height of the title block along the bottom."""
CAUTION = "Aid only: local codes, makers' instructions and licensed trades decide."
COUNTS = {"Job": 25, "Number": 16, "Date": 10, "Drawn by": 20, "Approved by": 20, "Revision": 2}
"""Characters that ISO 7200:2004 recommends for what a person enters (field table on a CAD help page that quotes EN
ISO 7200): title 25, identification number 16, date of issue 10, creator 20, approval person 20, revision 2."""
_PAD = 1.2
_PLAIN = 2.5
_STAMP = 5.0
_SYMBOL = 16.0
"""mm: width of the cell of the symbol of projection."""


@dataclass(frozen=True, slots=True)
class SheetInfo:
    """What the title block says of one sheet. `stamp`: text beginning NOT FOR CUTTING, or empty."""

    number: str
    of: int
    title: str
    kind: str
    scale: str
    room: str
    width: float
    height: float
    stamp: str = ""
    lengths: str = ""
    """A sentence on what lengths are said in, beside the caution; or empty."""
    projection: Angle | None = None
    """Angle of projection, told by its symbol; None: no symbol."""


def drawing_area(sheet: SheetInfo) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) in mm that is left for the drawing, inside frame, title block and stamp."""
    top = sheet.height - MARGIN - 2.0 - (_stamp_height(sheet) if sheet.stamp else 0.0)
    return (MARGIN + 3.0, MARGIN + STRIP + 6.0, sheet.width - MARGIN - 3.0, top)


def sheet_frame(job: JobInfo, sheet: SheetInfo) -> tuple[Ink, ...]:
    """Frame, title block, caution line and, on a failed wall's sheet, the stamp."""
    return (*empty_block(job, sheet), *(_value(field) for field in fields(job, sheet) if field.value), *warnings(sheet))


def warnings(sheet: SheetInfo) -> tuple[Ink, ...]:
    """The caution line and the stamp."""
    words = f"{CAUTION} {sheet.lengths}".rstrip()
    return (Text((MARGIN + 2.0, MARGIN + STRIP + 1.8), words, _PLAIN), *_stamp(sheet))


def empty_block(job: JobInfo, sheet: SheetInfo) -> tuple[Ink, ...]:
    """Frame and title block, its values left out."""
    frame = rectangle(MARGIN, MARGIN, sheet.width - MARGIN, sheet.height - MARGIN)
    return (Outline(frame, "frame"), *chain(*(_cell(cell) for cell in _cells(job, sheet))), *_projection(sheet))


def _projection(sheet: SheetInfo) -> tuple[Ink, ...]:
    """The symbol in a cell of its own, at the end of the lower row."""
    if sheet.projection is None:
        return ()
    left, right, top = sheet.width - MARGIN - _SYMBOL, sheet.width - MARGIN, MARGIN + STRIP / 2
    cell = (Line((left, top), (right, top), "visible"), Line((left, MARGIN), (left, top), "visible"))
    return (*cell, *projection_symbol(sheet.projection, (left + right) / 2, MARGIN + STRIP / 4))


def fields(job: JobInfo, sheet: SheetInfo) -> tuple[Field, ...]:
    """The values of the title block, each in its cell; those that nobody entered are empty."""
    return tuple(
        Field(c.name, c.value, (c.left + _PAD, c.bottom + _PAD), c.width - 2 * _PAD, _PLAIN) for c in _cells(job, sheet)
    )


def too_long(job: JobInfo) -> tuple[str, ...]:
    """A sentence for each entered value that has more characters than the standard counts for its field."""
    return tuple(
        f'Title block: "{name}" has {len(value)} characters, ISO 7200 counts on {COUNTS[name]}; the cell may cut it.'
        for name, value in (*_named(job), *_signed(job))
        if name in COUNTS and len(value) > COUNTS[name]
    )


@dataclass(frozen=True, slots=True)
class _Cell:
    name: str
    value: str
    left: float
    bottom: float
    width: float


def _named(job: JobInfo) -> tuple[tuple[str, str], ...]:
    return (("Job", job.title), ("Owner", job.owner))


def _signed(job: JobInfo) -> tuple[tuple[str, str], ...]:
    return (
        ("Number", job.number),
        ("Date", job.date),
        ("Drawn by", job.drawn_by),
        ("Approved by", job.approved_by),
        ("Revision", job.revision),
    )


def _cells(job: JobInfo, sheet: SheetInfo) -> tuple[_Cell, ...]:
    upper = (
        *((name, value, 3.0) for name, value in _named(job)),
        ("Drawing", sheet.title, 4.0),
        ("Room", sheet.room, 3.0),
    )
    lower = (
        *((name, value, 1.0 if name == "Revision" else 2.0) for name, value in _signed(job)),
        ("Kind", sheet.kind, 2.2),
        ("Scale", sheet.scale, 1.4),
        ("Sheet", f"{sheet.number} ({sheet.of} in all)", 2.2),
    )
    right = sheet.width - (_SYMBOL if sheet.projection else 0.0)
    return (*_row(upper, sheet.width, MARGIN + STRIP / 2), *_row(lower, right, MARGIN))


def _row(cells: tuple[tuple[str, str, float], ...], width: float, bottom: float) -> tuple[_Cell, ...]:
    """Shares of the width from the left margin to the right one."""
    shares = [share for _, _, share in cells]
    unit = (width - 2 * MARGIN) / sum(shares)
    lefts = [MARGIN + unit * before for before in accumulate(shares, initial=0.0)]
    return tuple(
        _Cell(name, value, left, bottom, share * unit) for (name, value, share), left in zip(cells, lefts, strict=False)
    )


def _cell(cell: _Cell) -> tuple[Ink, ...]:
    """Its upper edge, its left one inside the frame, its name."""
    top, right = cell.bottom + STRIP / 2, cell.left + cell.width
    above = Line((cell.left, top), (right, top), "visible")
    name = Text((cell.left + _PAD, top - 1.0), cell.name, _PLAIN, level="top", layer="light")
    if cell.left == MARGIN:
        return (above, name)
    return (above, Line((cell.left, cell.bottom), (cell.left, top), "visible"), name)


def _value(field: Field) -> Text:
    """Cut to its cell."""
    return Text(field.at, shortened(field.value, field.height, field.width, bold=True), field.height, bold=True)


def _stamp_lines(sheet: SheetInfo) -> tuple[str, ...]:
    return wrap(sheet.stamp, _STAMP, sheet.width - 2 * MARGIN - 12.0, bold=True)


def _stamp_height(sheet: SheetInfo) -> float:
    return 1.6 * _STAMP * len(_stamp_lines(sheet)) + 4.0


def _stamp(sheet: SheetInfo) -> tuple[Ink, ...]:
    if not sheet.stamp:
        return ()
    middle, top = sheet.width / 2, sheet.height - MARGIN - 2.0
    lines = tuple(
        Text((middle, top - 2.0 - 1.6 * _STAMP * i), line, _STAMP, "centre", "top", bold=True, layer="finding")
        for i, line in enumerate(_stamp_lines(sheet))
    )
    left, right = MARGIN + 2.0, sheet.width - MARGIN - 2.0
    return (Outline(rectangle(left, top - _stamp_height(sheet) + 2.0, right, top), "finding"), *lines)
