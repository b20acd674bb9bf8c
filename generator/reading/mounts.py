"""Mounts of the room file as records. What a file leaves out is invented here: take it from the maker's sheet."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.ends import height_at
from generator.model.geometry import Point, rectangle, tidy
from generator.model.mounts import Mount
from generator.reading.fittings import slug
from generator.reading.mount_shapes import MountShape
from generator.reading.walls import from_left
from generator.units import INCH, Length

BAR = 1.25 * INCH
"""mm: least section of a grab bar (ADA 609.2)."""
GAP = 1.5 * INCH
"""mm: space between bar and wall (ADA 609.3)."""
PLATE = 3.0 * INCH
"""mm: plate of a bar or seat; assumed, as in the envelope of the reference table."""
DROP = 5.0 * INCH
"""mm: from a seat's top to its lower fixings; invented for demonstration."""


def mount_at(path: str, shape: MountShape, width: float, deck: Sequence[Point]) -> Mount:
    """The mount; its wall is `width` wide, the deck along it a line in (u, v). The shape has been judged."""
    left, low, right, high = _box(shape, width, height_at(deck, from_left(shape.across, shape.start, width)))
    plate = _or(shape.plate, PLATE)
    return Mount(
        path=path,
        id=slug(shape.name),
        name=shape.name,
        wall=shape.wall,
        kind=shape.kind,
        direction="level" if is_level(shape) else "upright",
        ring=rectangle(left, low, right, high),
        fixings=_fixings(shape, (left, low, right, high), plate),
        plate=plate,
        diameter=_or(shape.diameter, BAR) if shape.kind == "grab_bar" else 0.0,
        gap=_or(shape.gap, GAP) if shape.kind == "grab_bar" else 0.0,
        out=_or(shape.out, 0.0),
    )


def is_level(shape: MountShape) -> bool:
    """True where its length runs along the wall."""
    return shape.kind == "seat" or (shape.kind == "grab_bar" and shape.direction == "level")


def _or(length: Length | None, default: float) -> float:
    return default if length is None else length.mm


def _box(shape: MountShape, width: float, deck: float) -> tuple[float, float, float, float]:
    up = shape.up.mm + (deck if shape.above == "deck" else 0.0)
    near, length = shape.across.mm, shape.length.mm
    if is_level(shape):
        thick = _or(shape.diameter, BAR) if shape.kind == "grab_bar" else _or(shape.drop, DROP) + PLATE / 2
        left = near if shape.start == "left" else width - near - length
        return tidy(left), tidy(up - thick), tidy(left + length), tidy(up)
    half = (_or(shape.diameter, BAR) if shape.kind == "grab_bar" else _or(shape.plate, PLATE)) / 2
    middle = near if shape.start == "left" else width - near
    return tidy(middle - half), tidy(up), tidy(middle + half), tidy(up + length)


def _fixings(shape: MountShape, ring: tuple[float, float, float, float], plate: float) -> tuple[Point, ...]:
    """A bar has a plate at each end, a seat four; glass and doors are fastened along their line."""
    left, low, right, high = ring
    if shape.kind == "seat":
        rows = (tidy(low + plate / 2), tidy(high - plate / 2))
        return tuple((tidy(u), v) for v in rows for u in (left + plate / 2, right - plate / 2))
    middle_u, middle_v = tidy((left + right) / 2), tidy((low + high) / 2)
    if is_level(shape):
        return (tidy(left + plate / 2), middle_v), (tidy(right - plate / 2), middle_v)
    return (middle_u, tidy(low + plate / 2)), (middle_u, tidy(high - plate / 2))
