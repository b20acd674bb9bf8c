"""Points and rings in plain numbers (mm), with the one canonical form that every output uses."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Ring = tuple[Point, ...]
"""Counter-clockwise, starting at the lowest point (the leftmost of them), not closed, simple."""

NOISE = 1e-6
"""mm: float noise; ink and plan.json are written on it."""
TOUCH = 0.01
"""mm: these two touch."""
REAL_AREA = 0.1
"""mm2: this overlap is real."""


def tidy(value: float) -> float:
    """The value on the noise grid, without a negative zero."""
    return round(value, 6) + 0.0


def area(ring: Sequence[Point]) -> float:
    """Signed area: positive when counter-clockwise."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs) / 2


def _is_corner(before: Point, at: Point, after: Point) -> bool:
    """False where the three lie on one line within the noise (distance of `at` from the chord)."""
    cross = (at[0] - before[0]) * (after[1] - before[1]) - (at[1] - before[1]) * (after[0] - before[0])
    chord = math.dist(before, after)
    return abs(cross) > 2e-6 * max(chord, 1e-3)


def canonical(points: Iterable[Point]) -> Ring:
    """The canonical ring of a simple polygon: tidied, no repeats, no points in the middle of a side."""
    ring = [(tidy(x), tidy(y)) for x, y in points]
    ring = [p for i, p in enumerate(ring) if p != ring[i - 1]]
    ring = _corners(ring)
    if area(ring) < 0:
        ring.reverse()
    start = min(range(len(ring)), key=lambda i: (ring[i][1], ring[i][0]))
    return (*ring[start:], *ring[:start])


def _corners(ring: Sequence[Point]) -> list[Point]:
    """One by one, each beside the last that stays: of two points that all but touch one is a corner still."""
    kept: list[Point] = []
    for i, point in enumerate(ring):
        after = ring[i + 1] if i + 1 < len(ring) else kept[0] if kept else ring[0]
        if _is_corner(kept[-1] if kept else ring[-1], point, after):
            kept.append(point)
    return kept


def rectangle(left: float, bottom: float, right: float, top: float) -> Ring:
    """Ring of an upright rectangle."""
    return canonical(((left, bottom), (right, bottom), (right, top), (left, top)))


def box(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) of the points."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
