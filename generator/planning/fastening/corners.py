"""Uprights in corners with no place for a washer before the boards round the corner, and those that take their screws.

There the edge of the board bears on the upright in the corner, and its row stands on one that touches that side by
side, as a carpenter doubles a stud. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.model.geometry import TOUCH, box, rectangle
from generator.model.plan import Board, Support
from generator.planning.bays import Span, face_between, fills, heights, is_upright
from generator.planning.faces import Ends


def takes_no_washer(support: Support, ends: Ends, stretch: Span, radius: float) -> bool:
    """True where no washer of that radius fits on an upright's face clear of the boards round the wall's corners.

    A row is plumb: it wants one u that is clear, and on the face, at every height of the stretch (v from, v to).
    """
    left, right = ends.between(*stretch)
    low, high = face_between(support, *stretch)
    return min(high, right - radius) < max(low, left + radius) - TOUCH


def beside(support: Support, others: Iterable[Support]) -> Iterator[Support]:
    """The uprights of its wall that touch an upright side by side and reach as high and as low, within its width."""
    (left, right), (low, high), width = fills(support), heights(support), fills(support)[1] - fills(support)[0]
    for other in others:
        a, b = fills(other)
        touches = other.wall == support.wall and min(abs(a - right), abs(b - left)) <= TOUCH
        reaches = heights(other)[0] <= low + width and heights(other)[1] >= high - width
        if touches and reaches and is_upright(other) and other.kind != "ledger" and not other.set_back:
            yield other


def stretch_before(support: Support, boards: Iterable[Board]) -> Span:
    """v from, v to of what the boards of its wall cover of the plumb band that an upright stands in.

    One row runs all the way up: an upright with a place beside some boards alone gives its row away beside all.
    """
    from generator.planning.shapes import polygon

    (left, right), (low, high) = fills(support), heights(support)
    ends: list[float] = []
    for board in (b for b in boards if b.wall == support.wall):
        _, bottom, _, top = box(board.outline)
        covered = polygon(board.outline).intersection(polygon(rectangle(left, bottom, right, top)))
        if covered.area > TOUCH:
            ends += [covered.bounds[1], covered.bounds[3]]
    return (min(ends), max(ends)) if ends else (low, high)
