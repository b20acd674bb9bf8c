"""Heights of the screws of one row, in plain numbers (mm along the row)."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, cos, pi, sqrt

from generator.model.geometry import NOISE, TOUCH
from generator.model.plan import Opening

Interval = tuple[float, float]
SEGMENTS = 64
"""Chords in a quarter of a rounded corner."""


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
    reach = opening.diameter / 2 + radius + NOISE
    aside = abs(u - opening.centre[0])
    if aside >= reach:
        return None
    half = sqrt(reach * reach - aside * aside)
    return opening.centre[1] - half, opening.centre[1] + half


def _ring(opening: Opening, u: float, radius: float) -> Interval | None:
    """As `_round`; a ring that is not convex blocks the whole height between its ends.

    shapely rounds corners with chords: the radius is enlarged so that the chords lie outside the arc.
    """
    from shapely.geometry import LineString, Polygon

    outside = (radius + NOISE) / cos(pi / (4 * SEGMENTS))
    grown = Polygon(opening.ring).buffer(outside, quad_segs=SEGMENTS)
    _, bottom, _, top = grown.bounds
    cut = grown.intersection(LineString(((u, bottom - 1), (u, top + 1))))
    return None if cut.is_empty or cut.length < TOUCH else (cut.bounds[1], cut.bounds[3])


def heights(start: float, end: float, spacing: float, blocks: Sequence[Interval]) -> tuple[float, ...]:
    """Heights of the screws between start and end, clear of the blocked intervals.

    A screw in a blocked interval moves to its nearer side (both sides are as near: the lower one) within the
    row. Only the gap across the opening grows by that, so the spacing still holds outside openings.
    """
    planned = even(start, end, spacing)
    return tuple(sorted({side for v in planned for side in _clear_of(v, blocks, start, end)}))


def _clear_of(v: float, blocks: Sequence[Interval], start: float, end: float) -> list[float]:
    """Where a screw planned at v stands; nowhere when the row reaches neither side of what blocks it."""
    block = next((block for block in blocks if block[0] < v < block[1]), None)
    if block is None:
        return [v]
    sides = [side for side in block if start - NOISE <= side <= end + NOISE]
    return sorted(sides, key=lambda side: abs(side - v))[:1]
