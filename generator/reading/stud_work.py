"""Readings, holes and notches of a wall's studs, each with the stud that it names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.model.geometry import TOUCH
from generator.model.room import FoundSupport, Wall
from generator.model.stud_work import FaceReading, Hole, Notch
from generator.reading.issues import join
from generator.reading.room_shapes import WallShape
from generator.reading.walls import from_left
from generator.units import Length


def with_stud_work(wall: Wall, shape: WallShape) -> Wall:
    """The wall with what was found on its studs; what names no stud is left out (it is reported)."""
    off = shape.flange_off
    return replace(
        wall,
        readings=tuple(sorted(_readings(wall, shape), key=lambda r: (r.u, r.v))),
        flange_off=(off[0].mm, off[1].mm) if off else None,
        holes=tuple(sorted(_holes(wall, shape), key=lambda h: (h.support, h.v))),
        notches=tuple(sorted(_notches(wall, shape), key=lambda n: (n.support, n.low))),
    )


def named_stud(supports: Sequence[FoundSupport], shape: WallShape, centre: Length) -> FoundSupport | None:
    """The stud or nailer whose middle was entered at this place; None where there is none."""
    u = from_left(centre, shape.supports.start, shape.width.mm)
    uprights = (s for s in supports if s.kind in ("stud", "nailer"))
    return next((s for s in uprights if abs(s.axis[0][0] - u) <= TOUCH), None)


def _readings(wall: Wall, shape: WallShape) -> Iterator[FaceReading]:
    for i, line in enumerate(shape.string_line):
        stud = named_stud(wall.supports, shape, line.stud)
        for j, (at, off) in enumerate(zip(line.at, line.off, strict=False)):
            if stud is not None:
                path = join(wall.path, "string_line", i, "off", j)
                yield FaceReading(path, stud.path, stud.axis[0][0], at.mm, off.mm)


def _holes(wall: Wall, shape: WallShape) -> Iterator[Hole]:
    for i, hole in enumerate(shape.supports.holes):
        stud = named_stud(wall.supports, shape, hole.stud)
        if stud is not None:
            middle = hole.from_face.mm if hole.from_face else stud.profile.depth / 2
            path = join(wall.path, "supports.holes", i)
            doubled = hole.doubled or stud.plies > 1
            yield Hole(path, stud.path, hole.at.mm, hole.diameter.mm, middle, doubled, hole.carries)


def _notches(wall: Wall, shape: WallShape) -> Iterator[Notch]:
    for i, notch in enumerate(shape.supports.notches):
        stud = named_stud(wall.supports, shape, notch.stud)
        if stud is not None:
            low, high = notch.at.mm - notch.height.mm / 2, notch.at.mm + notch.height.mm / 2
            path = join(wall.path, "supports.notches", i)
            yield Notch(path, stud.path, low, high, notch.depth.mm, notch.face, notch.carries)
