"""Corners of the room as measured: the angle out of a diagonal, what contradicts it, and what counts as square."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, radians, sqrt

from generator.model.geometry import NOISE
from generator.model.room import Units
from generator.reading.issues import Issue, join
from generator.reading.room_shapes import CornerShape, WallShape
from generator.reading.walls import reach_of
from generator.units import label, paper_step


def judge_measured_corners(corners: Sequence[CornerShape | None], units: Units) -> Iterator[Issue]:
    """A diagonal without its marks, or one that no corner has, or not the one of the angle that is given."""
    for i, corner in enumerate(corners):
        if corner is not None and (corner.diagonal is not None or corner.marks is not None):
            yield from _judge_diagonal(join("corners", i), corner, units)


def _judge_diagonal(path: str, corner: CornerShape, units: Units) -> Iterator[Issue]:
    if corner.marks is None or corner.diagonal is None:
        missing, there = ("marks", "diagonal") if corner.marks is None else ("diagonal", "marks")
        yield Issue(join(path, there), f"`{missing}` is missing: {CornerShape.model_fields[missing].description}")
        return
    here = join(path, "diagonal")
    one, other, across = (length.mm for length in (*corner.marks, corner.diagonal))
    if not abs(one - other) < across < one + other:
        least, most = (_said(mm, units) for mm in (abs(one - other), one + other))
        yield Issue(here, f"between these marks every diagonal lies between {least} and {most}; measure again")
    elif corner.angle > 180.0:
        yield Issue(here, "no tape goes straight across an outside corner; measure the inside of its angle and give it")
    else:
        true = sqrt(one**2 + other**2 - 2.0 * one * other * cos(radians(corner.angle)))
        if abs(true - across) > paper_step(units) + NOISE:
            off, made = _said(abs(true - across), units), _said(true, units)
            yield Issue(
                here, f"it is {off} off what an angle of {corner.angle:g} makes it ({made}); measure both again"
            )


def _said(mm: float, units: Units) -> str:
    return label(mm, units) + (" mm" if units == "mm" else "")


def squared(corner: CornerShape, walls: Sequence[WallShape | None], square: float) -> CornerShape:
    """The corner, at exactly 90 degrees where it is out of square by at most `square` mm over its boards' reach."""
    out = abs(cos(radians(corner.angle))) * _reach(corner.between, walls)
    if corner.angle > 180.0 or out > square + NOISE:
        return corner
    return corner.model_copy(update={"angle": 90.0})


def _reach(between: tuple[str, ...], walls: Sequence[WallShape | None]) -> float:
    """How far from the corner the boards go, on the wall on which they go farther; 0 where neither wall is known."""
    far = [0.0]
    for i, wall in enumerate(walls):
        if wall is not None and wall.name in between:
            start, end = reach_of(wall, (i > 0, i < len(walls) - 1))
            far.append(end if wall.name == between[-1] else wall.width.mm - start)
    return max(far)
