"""Views of small faces side by side: rows from the upper left, at the largest scale at which they fit."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from generator.drawings.elevation import BETWEEN
from generator.drawings.flow import Box
from generator.drawings.scales import Scale, standard_scales
from generator.model.geometry import Point
from generator.units import Units

Sizes = Callable[[float], Sequence[tuple[float, float]]]
"""Width and height on paper of each view with its furniture, at a scale's factor."""


def arranged(sizes: Sizes, space: Box, units: Units) -> tuple[Scale, tuple[Point, ...]]:
    """The largest standard scale at which all views fit in rows, and the upper left corner of each."""
    scales = standard_scales(units)
    for scale in scales:
        places = _rows(sizes(scale.factor), space)
        if places is not None:
            return scale, places
    return scales[-1], tuple((space[0], space[3]) for _ in sizes(scales[-1].factor))


def _rows(sizes: Sequence[tuple[float, float]], space: Box) -> tuple[Point, ...] | None:
    left, bottom, right, top = space
    places: list[Point] = []
    x, y, tall = left, top, 0.0
    for width, height in sizes:
        if x > left and x + width > right:
            x, y, tall = left, y - tall - BETWEEN, 0.0
        if x + width > right or y - height < bottom:
            return None
        places.append((x, y))
        x, tall = x + width + BETWEEN, max(tall, height)
    return tuple(places)
