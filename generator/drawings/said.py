"""Lengths as paper says them: as entered where somebody measured them, else rounded once from their datum."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from generator.model.geometry import TOUCH
from generator.model.job import Job
from generator.model.plan import Support
from generator.model.room import FoundSupport, Room, Wall
from generator.units import LengthError, PaperUnits, Units, either, label, label_named, parse_length

ENTERED = "*"
"""Behind a length that is said as it was entered."""
Datum = Literal["left", "right"]


def said(job: Job, mm: float, paths: tuple[str, ...] = ()) -> str:
    """The length as entered at one of the paths, if that is what was entered there; else computed and rounded."""
    for path in paths:
        text = job.room.entered.get(path, "")
        value = entered_mm(job.room, text)
        if value is not None and abs(value - mm) <= TOUCH:
            return _with_unit(text, job.room) + ENTERED + _in_brackets(mm, text, job.room)
    return label(mm, job.room.choices.paper_units)


def _with_unit(text: str, room: Room) -> str:
    return text + ('"' if _is_bare(text) and room.units == "in" else "")


def _is_bare(text: str) -> bool:
    """True of a number without a unit."""
    return all(c.isdigit() or c in " /.-" for c in text)


def _in_brackets(mm: float, text: str, room: Room) -> str:
    """Behind an entered length the same in the unit that it was not written in, where paper says both."""
    written = room.units if _is_bare(text) else "mm" if text.endswith("m") else "in"
    units = room.choices.paper_units
    return "".join(f" [{label(mm, one)}]" for one in units.each if units.other and one != written)


def fixings(wall: Wall) -> str:
    """What holds its boards."""
    return "plugs" if wall.masonry else "screws"


def lengths_in(units: Units | PaperUnits) -> str:
    """What every sheet says of its lengths: `Lengths in inches [millimetres].`"""
    return f"Lengths in {either(units, 'inches', 'millimetres')}."


def wall_name(wall: Wall) -> str:
    """Its id and what it is; the id alone where that says it."""
    return wall.id if wall.id.endswith("wall") else f"{wall.id} wall"


def lumber_name(support: Support) -> str:
    """What people call a piece: joist, ledger, header where the plan names it so, else its kind."""
    name, of, _ = support.reason.rpartition(" of ")
    named = support.origin == "added" and of and len(name.split()) <= 2 and "," not in name
    return name if named else support.kind


POUND = 0.45359237
"""kg in one pound, exact by definition (international yard and pound agreement, 1959)."""


def weight_text(kg: float, units: Units | PaperUnits) -> str:
    """A weight in kg, or in pounds where lengths are in inches; what would read as nothing is said to be little."""
    return either(units, _tenths(kg / POUND) + " lb", _tenths(kg) + " kg")


def _tenths(weight: float) -> str:
    return f"{weight:.1f}" if weight >= 0.05 else "< 0.1"


def support_paths(support: FoundSupport) -> tuple[str, ...]:
    """Where the room file may hold the place of a support."""
    return (support.path, f"{support.path}.centre")


def measured_from(room: Room, wall: Wall) -> Datum:
    """The corner of the wall that most of its supports were measured from; the left one when none tells."""
    left, right = wall.bare_ends
    votes = [_side(room, s, left, right) for s in wall.supports]
    return "right" if votes.count("right") > votes.count("left") else "left"


def furring_words(job: Job, wall: Wall) -> str:
    """What a sheet says of furring on a wall and beside it; "" where there is none."""
    words = []
    if wall.furring and not wall.masonry:
        strips = label(wall.furring, job.room.choices.paper_units)
        beside = ", and so is the wallboard beside them" if "wallboard" in wall.beside else ""
        words.append(f"All supports are furred by {strips} as far as boards go{beside}.")
    if wall.masonry:
        units = job.room.choices.paper_units
        bed = label_named(wall.furring, units)
        words.append(
            f"Bare wall: boards are bedded over their whole back in {bed} of mortar and held by plugs. The strips "
            "drawn are where rows of plugs stand; the wall goes on between them."
        )
    if any(wall.trims):
        words.append("Widths run from the bare wall: mark them before the one round the corner is furred or bedded.")
    return " ".join(words)


def leaning_words(job: Job, wall: Wall) -> Iterator[str]:
    """How far each end of the wall is out of plumb at its top."""
    for side, foot, top in (("left", wall.outline[0], wall.outline[-1]), ("right", wall.outline[1], wall.outline[2])):
        off = top[0] - foot[0]
        if abs(off) > TOUCH:
            by = said(job, abs(off), (f"{wall.path}.plumb.{side}",))
            yield f"At its top the {side} end stands {by} further {'right' if off > 0 else 'left'} than at its foot."


def _side(room: Room, support: FoundSupport, left: float, right: float) -> str:
    u = support.axis[0][0]
    for path in support_paths(support):
        value = entered_mm(room, room.entered.get(path, ""))
        if value is not None and abs(value - (u - left)) <= TOUCH:
            return "left"
        if value is not None and abs(value - (right - u)) <= TOUCH:
            return "right"
    return ""


def entered_mm(room: Room, text: str) -> float | None:
    """What a text of the room file means, in mm; None when it is no length."""
    try:
        return parse_length(text, room.units).mm
    except LengthError:
        return None
