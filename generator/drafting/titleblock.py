"""The frame and title block of a drawing sheet, with the caution that every sheet carries.

The fields are those that ISO 7200 makes mandatory (owner, number, date, sheet, title, approval, creator, kind of
document) and the revision; a field that nobody entered stays blank, to be filled in by hand.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.drafting.ink import Ink, Line, Outline, Text
from generator.drafting.page import shortened, wrap
from generator.model.geometry import rectangle
from generator.model.room import JobInfo

MARGIN = 10.0
"""mm from the paper's edge to the frame (ISO 5457: 10; its filing margin of 20 is left to the hole punch)."""
STRIP = 18.0
"""mm: height of the title block along the bottom."""
CAUTION = "Aid only: local codes, makers' instructions and licensed trades decide."
_PAD = 1.2
_PLAIN = 2.5
_STAMP = 4.0


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


def drawing_area(sheet: SheetInfo) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) in mm that is left for the drawing, inside frame, title block and stamp."""
    top = sheet.height - MARGIN - 2.0 - (_stamp_height(sheet) if sheet.stamp else 0.0)
    return (MARGIN + 3.0, MARGIN + STRIP + 6.0, sheet.width - MARGIN - 3.0, top)


def sheet_frame(job: JobInfo, sheet: SheetInfo) -> tuple[Ink, ...]:
    """Frame, title block, caution line and, on a failed wall's sheet, the stamp."""
    frame = rectangle(MARGIN, MARGIN, sheet.width - MARGIN, sheet.height - MARGIN)
    caution = Text((MARGIN + 2.0, MARGIN + STRIP + 1.8), CAUTION, _PLAIN)
    return (Outline(frame, "frame"), caution, *_strip(job, sheet), *_stamp(sheet))


def _strip(job: JobInfo, sheet: SheetInfo) -> tuple[Ink, ...]:
    upper = (
        ("Job", job.title, 3.0),
        ("Owner", job.owner, 3.0),
        ("Drawing", sheet.title, 4.0),
        ("Room", sheet.room, 3.0),
    )
    lower = (
        ("Number", job.number, 2.0),
        ("Date", job.date, 2.0),
        ("Drawn by", job.drawn_by, 2.0),
        ("Approved by", job.approved_by, 2.0),
        ("Revision", job.revision, 1.0),
        ("Kind", sheet.kind, 2.2),
        ("Scale", sheet.scale, 1.4),
        ("Sheet", f"{sheet.number} ({sheet.of} in all)", 2.2),
    )
    half = MARGIN + STRIP / 2
    return (*_row(upper, sheet.width, half), *_row(lower, sheet.width, MARGIN))


def _row(cells: tuple[tuple[str, str, float], ...], width: float, bottom: float) -> tuple[Ink, ...]:
    unit = (width - 2 * MARGIN) / sum(share for _, _, share in cells)
    top = bottom + STRIP / 2
    parts: list[Ink] = [Line((MARGIN, top), (width - MARGIN, top), "visible")]
    left = MARGIN
    for name, value, share in cells:
        if left > MARGIN:
            parts.append(Line((left, bottom), (left, top), "visible"))
        parts.append(Text((left + _PAD, top - 1.0), name, _PLAIN, level="top", layer="light"))
        parts.extend(_value(value, left, bottom, share * unit - 2 * _PAD))
        left += share * unit
    return tuple(parts)


def _value(value: str, left: float, bottom: float, room: float) -> tuple[Text, ...]:
    """The value, cut to its cell."""
    if not value:
        return ()
    return (Text((left + _PAD, bottom + _PAD), shortened(value, _PLAIN, room, bold=True), _PLAIN, bold=True),)


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
