"""The two ends and the top of a wall's outline: an end is a straight line that may lean, the top may slope or step.

Outlines are canonical rings: the left foot, the right foot, the right end's top, the ceiling, the left end's top.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, radians, sin
from typing import Literal

from generator.model.geometry import Point, Ring

Side = Literal["left", "right"]

STEEPEST = 0.1
"""Run over rise: what leans more than this is a slope and no end of a wall. It names things, and limits no trade."""


def foot(outline: Ring, side: Side) -> float:
    """u of an end of the wall at its foot: the line that two neighbours share."""
    return outline[0 if side == "left" else 1][0]


def lean(outline: Ring, side: Side) -> float:
    """mm of u per mm of height that an end leans (to the right where positive); 0 where it is plumb."""
    (u0, v0), (u1, v1) = (outline[0], outline[-1]) if side == "left" else (outline[1], outline[2])
    return (u1 - u0) / (v1 - v0)


def end_at(outline: Ring, side: Side, v: float) -> float:
    """u of an end of the wall at a height."""
    return foot(outline, side) + lean(outline, side) * v


def corner_offset(own: float, neighbour: float, angle_deg: float) -> float:
    """Distance from the framing corner, along a wall, of a line in front of it (mm).

    `own` and `neighbour` are the distances of the line from the stud faces of the wall and of its
    neighbour; the angle is measured inside the room. At an outside corner the result is negative.
    """
    angle = radians(angle_deg)
    if abs(sin(angle)) < 1e-9:
        return 0.0
    return (neighbour + own * cos(angle)) / sin(angle)


def top_line(outline: Ring) -> tuple[Point, ...]:
    """The ceiling, left to right."""
    return tuple(reversed(outline[2:]))


def upper_side(ring: Ring) -> tuple[Point, Point]:
    """Left and right end of the upper side of a ring that has no steps."""
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    upper = [point for p, q in sides if q[0] < p[0] and not is_upright(p, q) for point in (p, q)]
    return min(upper), max(upper)


def height_at(line: Sequence[Point], u: float) -> float:
    """v of a line at u, held level beyond its ends; the higher one where it steps."""
    if u < line[0][0] or u > line[-1][0]:
        return line[0 if u < line[0][0] else -1][1]
    found = [v for at, v in line if at == u]
    for (u0, v0), (u1, v1) in pairwise(line):
        if u0 < u < u1:
            found.append(v0 + (u - u0) / (u1 - u0) * (v1 - v0))
    return max(found)


def highest(line: Sequence[Point], left: float, right: float) -> float:
    """The greatest v of a line between two u."""
    ends = [height_at(line, left), height_at(line, right)]
    return max(*ends, *(v for u, v in line if left < u < right))


def is_upright(p: Point, q: Point) -> bool:
    """True where a line stands, or leans no more than an end of a wall does."""
    return abs(q[0] - p[0]) <= STEEPEST * abs(q[1] - p[1])
