"""Lines on the paper as strokes, joined end to end and in a fixed order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.geometry import Point, tidy
from generator.model.job import Stroke

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def strokes(lines: BaseGeometry, part: str, *, hidden: bool, outer: bool, least: float) -> tuple[Stroke, ...]:
    """The lines as polylines, each once, sorted by their points; shorter than `least` mm is left out."""
    from shapely import get_parts, line_merge

    merged = [m for m in get_parts(line_merge(lines)) if m.length > least]
    chains = sorted(_directed(tuple((tidy(x), tidy(y)) for x, y in m.coords)) for m in merged)
    return tuple(Stroke(part, chain, hidden, outer) for chain in chains)


def _directed(chain: tuple[Point, ...]) -> tuple[Point, ...]:
    """The chain in the one of its two directions that sorts first."""
    return min(chain, chain[::-1])
