"""Heights of the screws of one row, in plain numbers (mm along the row)."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, sqrt

from generator.model.geometry import NOISE, TOUCH
from generator.model.plan import Opening

Interval = tuple[float, float]


def even(start: float, end: float, spacing: float) -> tuple[float, ...]:
    """First at the start, last at the end, pitch = span / ceil(span / spacing); one in a span of nothing."""
    span = end - start
    steps = ceil(span / spacing - NOISE)
    return (start,) if steps < 1 else tuple(start + span * i / steps for i in range(steps + 1))


def blocked(openings: Sequence[Opening], u: float, radius: float) -> tuple[Interval, ...]:
    """Heights at which a washer of that radius, centred on the upright line at u, would touch an opening."""
    hits = [_round(o, u, radius) if o.diameter > 0 else _ring(o, u, radius) for o in openings]
    merged: list[Interval] = []
    for low, high in sorted(hit for hit in hits if hit is not None):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return tuple(merged)


def _round(opening: Opening, u: float, radius: float) -> Interval | None:
    reach = opening.diameter / 2 + radius + TOUCH
    aside = abs(u - opening.centre[0])
    if aside >= reach:
        return None
    half = sqrt(reach * reach - aside * aside)
    return opening.centre[1] - half, opening.centre[1] + half


def _ring(opening: Opening, u: float, radius: float) -> Interval | None:
    """As `_round`; a ring that is not convex blocks the whole height between its ends."""
    from shapely.geometry import LineString, Polygon

    grown = Polygon(opening.ring).buffer(radius + TOUCH, quad_segs=64)
    _, bottom, _, top = grown.bounds
    cut = grown.intersection(LineString(((u, bottom - 1), (u, top + 1))))
    return None if cut.is_empty or cut.length < TOUCH else (cut.bounds[1], cut.bounds[3])


def heights(start: float, end: float, spacing: float, washer: float, blocks: Sequence[Interval]) -> tuple[float, ...]:
    """Heights of the screws between start and end, clear of the blocked intervals.

    A screw in a blocked interval moves to its nearer side (the lower one of two as near) within the row.
    Where that stretches a gap beyond the spacing, screws are added: beside the opening, and between. A moved
    screw whose washer would lie on its neighbour's is left out if the spacing holds without it.
    """
    planned = even(start, end, spacing)
    fixed = [v for v in planned if not _inside(v, blocks)]
    moved = sorted({side for v in planned if _inside(v, blocks) for side in _aside(v, blocks, start, end)})
    points = sorted({*fixed, *moved})
    for v in moved:
        if _needless(v, points, spacing, washer):
            points.remove(v)
    return tuple(sorted({*points, *_fill(points, spacing, blocks)}))


def _inside(v: float, blocks: Sequence[Interval]) -> bool:
    return any(low < v < high for low, high in blocks)


def _aside(v: float, blocks: Sequence[Interval], start: float, end: float) -> list[float]:
    """The nearer side of the interval that v lies in, if the row reaches it; nothing when it reaches neither."""
    low, high = next((low, high) for low, high in blocks if low < v < high)
    sides = [side for side in (low, high) if start - NOISE <= side <= end + NOISE]
    return sorted(sides, key=lambda side: abs(side - v))[:1]


def _needless(v: float, points: Sequence[float], spacing: float, washer: float) -> bool:
    """True where v stands within a washer of a neighbour and the spacing holds without it."""
    i = points.index(v)
    below, above = points[i - 1 : i], points[i + 1 : i + 2]
    if not below or not above:
        return False
    crowded = min(v - below[0], above[0] - v) < washer
    return crowded and above[0] - below[0] <= spacing + NOISE


def _fill(points: Sequence[float], spacing: float, blocks: Sequence[Interval]) -> list[float]:
    """Screws to add so that no gap is wider than the spacing, except across an opening."""
    return [v for low, high in pairwise(points) for v in _between(low, high, spacing, blocks)]


def _between(low: float, high: float, spacing: float, blocks: Sequence[Interval]) -> list[float]:
    """Screws to add between two neighbours."""
    if high - low <= spacing + NOISE:
        return []
    block = next(((a, b) for a, b in blocks if a >= low - NOISE and b <= high + NOISE), None)
    if block is None:
        return list(even(low, high, spacing)[1:-1])
    sides = [side for side in block if low + NOISE < side < high - NOISE]
    middle = (low + high) / 2
    for side in sorted(sides, key=lambda side: abs(side - middle)):
        if max(side - low, high - side) <= spacing + NOISE:
            return [side]
    rest = [b for b in blocks if b != block]
    return [*sides, *_between(low, block[0], spacing, rest), *_between(block[1], high, spacing, rest)]
