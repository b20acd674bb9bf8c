"""The outline of a wall from what was measured on it: widths, heights, plumb, diagonals; and what contradicts what.

An end of a wall is a straight line. A is the lean of the left end and B that of the right one, in mm of u per mm of
height; the width then grows by B - A per mm upwards. Nothing is averaged: two measurements that disagree by more than
the fit allowance, which is all that a board can give way, are an issue.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot, sqrt

from generator.model.ends import STEEPEST, height_at
from generator.model.geometry import TOUCH, Point, Ring, canonical
from generator.model.room import Units
from generator.reading.issues import Issue, join
from generator.reading.room_shapes import WallShape
from generator.units import label

Equation = tuple[float, float, float]
"""(k, l, m): k A + l B = m."""
Leans = tuple[float, float]
_SAME = 0.5
"""Two equations nearer to each other than this speak of one and the same end; the second only proves the first."""


@dataclass(frozen=True, slots=True)
class _Wall:
    """Plain numbers (mm). `left`, `right`: heights of the ends; `grows`: mm of width per mm upwards, if measured;
    `mark`: height of the diagonals' lower ends."""

    width: float
    ceiling: tuple[Point, ...]
    left: float
    right: float
    grows: float | None
    mark: float


def outline_of(shape: WallShape, square: float) -> Ring:
    """The outline of a wall that has been judged. What is out by at most `square` mm is plumb, or level, exactly."""
    wall = _numbers(shape)
    a, b = _leans(shape, wall)
    a, b = (0.0 if abs(lean) * high <= square + TOUCH else lean for lean, high in ((a, wall.left), (b, wall.right)))
    tops = [v for _, v in wall.ceiling]
    if max(tops) - min(tops) <= square + TOUCH:
        wall = replace(wall, ceiling=((0.0, min(tops)),))
    left, right = _meets(wall, 0.0, a), _meets(wall, wall.width, b)
    between = [p for p in wall.ceiling if left[0] < p[0] < right[0]]
    return canonical(((0.0, 0.0), (wall.width, 0.0), right, *reversed(between), left))


def ceiling_of(shape: WallShape) -> tuple[Point, ...]:
    """The ceiling as measured, left to right; it is level beyond the first and the last point."""
    return tuple((one.at.mm, one.height.mm) for one in shape.heights) or ((0.0, shape.height.mm),)


def _numbers(shape: WallShape) -> _Wall:
    width = shape.width.mm
    ceiling = ceiling_of(shape)
    last = shape.widths[-1] if len(shape.widths) > 1 else None
    grows = (last.width.mm - width) / last.at.mm if last is not None and last.at.mm > 0 else None
    mark = shape.diagonals.at.mm if shape.diagonals.at is not None else 0.0
    return _Wall(width, ceiling, height_at(ceiling, 0.0), height_at(ceiling, width), grows, mark)


def _meets(wall: _Wall, foot: float, lean: float) -> Point:
    """Where an end of the wall meets its ceiling; each round brings it nearer by lean times slope, far below 1."""
    v = height_at(wall.ceiling, foot)
    for _ in range(60):
        v = height_at(wall.ceiling, foot + lean * v)
    return foot + lean * v, v


def _leans(shape: WallShape, wall: _Wall) -> Leans:
    """A and B from the first two measurements that settle them; an end that none speaks of is plumb."""
    found = _equations(shape, wall)
    first = next((one for one in found if one[0] or one[1]), None)
    if first is None:
        return 0.0, 0.0
    second = next((other for other in found if abs(_cross(first, other)) > _SAME), None)
    if second is None:
        second = max(((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), key=lambda plumb: abs(_cross(first, plumb)))
    scale = _cross(first, second)
    a = (first[2] * second[1] - second[2] * first[1]) / scale
    return a, (first[0] * second[2] - second[0] * first[2]) / scale


def _cross(one: Equation, other: Equation) -> float:
    """0 where two equations say something of one and the same lean."""
    return one[0] * other[1] - other[0] * one[1]


def _equations(shape: WallShape, wall: _Wall) -> list[Equation]:
    """What was measured of the ends, the surest first: plumb, widths, diagonals. Each for a lean over one mm."""
    plumb, diagonals, found = shape.plumb, shape.diagonals, list[Equation]()
    if plumb.left is not None:
        found.append((1.0, 0.0, plumb.left.mm / wall.left))
    if plumb.right is not None:
        found.append((0.0, 1.0, -plumb.right.mm / wall.right))
    if wall.grows is not None:
        found.append((-1.0, 1.0, wall.grows))
    share = (wall.mark / wall.left, wall.mark / wall.right)
    for diagonal, high, ends in (
        (diagonals.falling, wall.left, (-1.0, share[0])),
        (diagonals.rising, wall.right, (-share[1], 1.0)),
    ):
        if diagonal is not None and diagonal.mm > high - wall.mark:
            level = sqrt(diagonal.mm**2 - (high - wall.mark) ** 2)
            found.append((*ends, (level - wall.width) / high))
    return found


def judge_measured(path: str, shape: WallShape, fit: float, units: Units) -> Iterator[Issue]:
    """What contradicts what, or cannot be planned; every message gives the misfit."""
    order = list(_judge_lists(path, shape, units))
    yield from order
    if order:
        return
    wall = _numbers(shape)
    leans = _leans(shape, wall)
    yield from _judge_widths(path, shape, wall, leans, fit, units)
    yield from _judge_diagonals(path, shape, wall, leans, fit, units)
    if max(abs(lean) for lean in leans) > STEEPEST:
        yield Issue(
            join(path, "plumb"), "an end of the wall leans more than 1 in 10; measure its widths and plumb again"
        )
    capped = shape.partition is not None and shape.partition.cap  # its top plate lies along the rake
    if shape.supports.plates and shape.supports.plates.top and not capped and len({v for _, v in wall.ceiling}) > 1:
        here = join(path, "supports.plates")
        yield Issue(here, "a top plate under a ceiling that slopes or steps cannot be planned; write `top: false`")


def _judge_lists(path: str, shape: WallShape, units: Units) -> Iterator[Issue]:
    """Lists run upwards from the floor, and from the left end rightwards."""
    if shape.widths and shape.widths[0].at.mm > 0:
        yield Issue(
            join(path, "widths.0"), "the first width is at 0, the floor; above a set tub write what is measured"
        )
    for i, (one, other) in enumerate(pairwise(shape.widths), 1):
        if other.at.mm <= one.at.mm:
            yield Issue(join(path, "widths", i), "widths are listed upwards, each at a height of its own")
    for i, (low, high) in enumerate(pairwise(shape.heights), 1):
        if high.at.mm < low.at.mm:
            yield Issue(join(path, "heights", i), "heights are listed from the left end; two at one place are a step")
    if shape.widths and abs(shape.widths[0].width.mm - shape.width.mm) > TOUCH:
        yield Issue(
            join(path, "width"),
            f"it differs from the width at the floor by {_off(shape.width.mm - shape.widths[0].width.mm, units)}",
        )
    tops = [one.height.mm for one in shape.heights]
    if shape.diagonals.at is not None and shape.diagonals.at.mm > min(tops, default=shape.height.mm) / 2:
        yield Issue(join(path, "diagonals.at"), "the lower marks of the diagonals lie in the lower half of the wall")
    if tops and abs(max(tops) - shape.height.mm) > TOUCH:
        yield Issue(
            join(path, "height"),
            f"it differs from the greatest of the heights by {_off(shape.height.mm - max(tops), units)}",
        )


def _judge_widths(path: str, shape: WallShape, wall: _Wall, leans: Leans, fit: float, units: Units) -> Iterator[Issue]:
    if wall.grows is None:
        return
    for i, one in enumerate(shape.widths):
        bow = one.width.mm - wall.width - wall.grows * one.at.mm
        if abs(bow) > fit + TOUCH:
            text = (
                f"an end of the wall is bowed by {_off(bow, units)} here; shim or plane it straight and measure again"
            )
            yield Issue(join(path, "widths", i), text)
    last = shape.widths[-1]
    a, b = leans
    if len(_equations(shape, wall)) == 1:
        change = wall.grows * last.at.mm
        if abs(change) > fit + TOUCH:
            cure = "give the `plumb` of an end or a diagonal, to say which end leans"
            text = f"the widths differ by {_off(change, units)}; {cure}"
            yield Issue(join(path, "widths"), text)
    elif abs(off := (b - a - wall.grows) * last.at.mm) > fit + TOUCH:
        text = f"widths and plumb disagree by {_off(off, units)} at this height; measure them again"
        yield Issue(join(path, "widths", len(shape.widths) - 1), text)


def _judge_diagonals(
    path: str, shape: WallShape, wall: _Wall, leans: Leans, fit: float, units: Units
) -> Iterator[Issue]:
    a, b = leans
    rising = hypot(wall.width + b * wall.right - a * wall.mark, wall.right - wall.mark)
    falling = hypot(wall.width + b * wall.mark - a * wall.left, wall.left - wall.mark)
    for key, measured, found in (
        ("rising", shape.diagonals.rising, rising),
        ("falling", shape.diagonals.falling, falling),
    ):
        if measured is not None and abs(measured.mm - found) > fit + TOUCH:
            off, made = _off(measured.mm - found, units), _off(found, units)
            text = f"this diagonal is {off} off what the other measurements make it ({made}); measure them again"
            yield Issue(join(path, "diagonals", key), text)


def judge_open_ends(
    path: str, corners: tuple[bool, bool], outline: Ring, reach: tuple[float, float], units: Units
) -> Iterator[Issue]:
    """Boards end plumb at an open end, so they stop where an end that leans in has its innermost point."""
    past = (max(0.0, outline[-1][0]) - reach[0], reach[1] - min(outline[1][0], outline[2][0]))
    for corner, over in zip(corners, past, strict=True):
        if not corner and over > TOUCH:
            text = f"boards end plumb at an open end, this one leans by {_off(over, units)}; stop the reach short of it"
            yield Issue(join(path, "boards.reach"), text)


def _off(mm: float, units: Units) -> str:
    return label(abs(mm), units) + (" mm" if units == "mm" else "")
