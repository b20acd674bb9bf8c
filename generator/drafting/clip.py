"""Ink cut off at the border of a window, for drawings that go over several pages."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from generator.drafting.ink import Circle, Ink, Line, Outline, Text
from generator.drafting.page import text_box
from generator.model.geometry import Point, Ring, box, tidy

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_SIDES = 720
"""Sides of the polygon that stands for a cut circle: within 0.003 mm of one of 300 mm radius."""


def clip(ink: tuple[Ink, ...], window: Ring) -> tuple[Ink, ...]:
    """Lines, outlines and circles as far as they lie in the window (an upright rectangle); whole texts or none.

    A circle wholly inside stays a circle. Fills are not clipped and not expected; dimensions neither.
    """
    return tuple(piece for item in ink for piece in _clipped(item, window))


def _clipped(item: Ink, window: Ring) -> tuple[Ink, ...]:
    points = _points(item)
    if _covers(window, points):
        return (item,)
    if isinstance(item, Text):
        return ()
    from shapely import LineString, Polygon

    return tuple(_pieces(Polygon(window).intersection(LineString(points)), item))


def _points(item: Ink) -> tuple[Point, ...]:
    match item:
        case Line():
            return (item.start, item.end)
        case Outline():
            return (*item.ring, item.ring[0]) if item.closed else item.ring
        case Circle():
            turns = [2 * math.pi * i / _SIDES for i in range(_SIDES + 1)]
            (x, y), r = item.centre, item.radius
            return tuple((x + r * math.cos(t), y + r * math.sin(t)) for t in turns)
        case Text():
            return text_box(item)
    raise TypeError(f"no way to clip a {type(item).__name__}")


def _covers(window: Ring, points: tuple[Point, ...]) -> bool:
    left, bottom, right, top = box(window)
    inner = box(points)
    return left <= inner[0] and bottom <= inner[1] and inner[2] <= right and inner[3] <= top


def _pieces(shape: BaseGeometry, item: Ink) -> list[Outline]:
    parts = getattr(shape, "geoms", (shape,))
    lines = [part for part in parts if part.geom_type == "LineString" and not part.is_empty]
    return [Outline(tuple((tidy(x), tidy(y)) for x, y in line.coords), item.layer, closed=False) for line in lines]
