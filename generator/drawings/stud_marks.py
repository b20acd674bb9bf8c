"""Marks on the framing elevation: bored holes, notches, and the shield plates that go over them."""

from __future__ import annotations

from generator.drafting.ink import Ink, Line, Outline
from generator.drawings.elevation import Elevation
from generator.drawings.flow import Block, Column, table
from generator.drawings.marks import Named
from generator.model.geometry import Ring, box, rectangle
from generator.model.job import Job
from generator.model.plan import Support
from generator.model.room import Wall
from generator.model.stud_work import ShieldPlate
from generator.units import label

LEAST = 25.0
"""mm: height of a plate's mark, at least, so that it is seen at the scale of the sheet."""


def plates_of(job: Job, wall: Wall) -> tuple[ShieldPlate, ...]:
    """The wall's shield plates, by id."""
    return tuple(p for p in job.plan.plates if p.wall == wall.id)


def damage_ink(seen: Elevation) -> tuple[Ink, ...]:
    """Holes (seen from the side) and as hidden outlines, plates heavy with one diagonal; in the wall frame."""
    supports = {s.room_path: s for s in seen.job.plan.supports if s.wall == seen.wall.id and s.origin == "found"}
    holes = (_ring(supports[h.support], h.v, h.diameter) for h in seen.wall.holes)
    ink: list[Ink] = [Outline(ring, "hidden") for ring in holes]
    for notch in seen.wall.notches:
        middle, height = (notch.low + notch.high) / 2, notch.high - notch.low
        ink.append(Outline(_ring(supports[notch.support], middle, height), "hidden"))
    for plate in plates_of(seen.job, seen.wall):
        left, low, right, high = box(_plate_ring(seen.job, plate))
        ink += [Outline(_plate_ring(seen.job, plate), "added", fill=0.55), Line((left, low), (right, high), "visible")]
    return tuple(ink)


def _ring(support: Support, v: float, height: float) -> Ring:
    left, _, right, _ = box(support.outline)
    return rectangle(left, v - height / 2, right, v + height / 2)


def _plate_ring(job: Job, plate: ShieldPlate) -> Ring:
    return _ring(job.plan.support(plate.support_id), plate.v, max(LEAST, 2 * plate.height))


def plate_names(seen: Elevation) -> list[Named]:
    """The id of each plate, to the right of its stud."""
    names = []
    for plate in plates_of(seen.job, seen.wall):
        left, _, right, _ = box(_plate_ring(seen.job, plate))
        at = seen.view.point(((left + right) / 2, plate.v))
        names.append(
            Named(at, (right - left) / 2 * seen.scale.factor, f"SP {plate.id.removeprefix(f'SP-{plate.wall}-')}")
        )
    return names


def plate_table(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    """Number, stud, height and what runs behind; no table where no plate is wanted."""
    units = job.room.choices.paper_units
    columns = (Column("No.", 10), Column("Stud", 30), Column("Middle, up", 24), Column("Protects", 36))
    rows = [
        (
            p.id.removeprefix(f"SP-{p.wall}-"),
            p.support_id,
            label(p.v, units),
            f"{p.carries}, {label(p.height, units)} hole",
        )
        for p in plates_of(job, wall)
    ]
    return table(columns, rows, width, f"Shield plates SP-{wall.id}- (dark, with a diagonal)") if rows else ()
