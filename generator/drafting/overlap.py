"""What would be unreadable on a page: writing over writing, writing under lines or fills, ink beyond the paper."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from generator.drafting.dimension import strokes
from generator.drafting.ink import Arc, Circle, Dimension, Ink, Line, Outline, Running, Text
from generator.drafting.page import Page, text_box
from generator.model.geometry import Point, box

SLACK = 0.1
"""mm: boxes that meet by less than this still read well."""
_ROUND = 24


@dataclass(frozen=True, slots=True)
class _Placed:
    """A drawn piece: its order of drawing, its points, their box."""

    order: int
    item: Ink
    points: tuple[Point, ...]
    box: tuple[float, float, float, float]


def overlaps(page: Page) -> tuple[str, ...]:
    """Descriptions of everything on the page that gets in the way of its writing; empty when it reads well."""
    pieces = [_placed(i, item) for i, item in enumerate(flat(page.ink))]
    texts = [piece for piece in pieces if isinstance(piece.item, Text)]
    others = [piece for piece in pieces if not isinstance(piece.item, Text)]
    return (
        *(_beyond(page, piece) for piece in pieces if _is_beyond(page, piece)),
        *(f"{_say(a)} over {_say(b)}" for a, b in combinations(texts, 2) if _boxes_meet(a, b) and _polygons_meet(a, b)),
        *(f"{_say(t)} crossed by {_say(o)}" for t in texts for o in _in_the_way(t, others)),
    )


def flat(ink: Sequence[Ink]) -> Iterator[Ink]:
    """The ink with its dimensions taken apart into lines and text, in the order of drawing."""
    for item in ink:
        if isinstance(item, Dimension | Running):
            yield from strokes(item)
        else:
            yield item


def _placed(order: int, item: Ink) -> _Placed:
    points = points_of(item)
    return _Placed(order, item, points, box(points))


def points_of(item: Ink) -> tuple[Point, ...]:
    """Its corners or, of something round, points along it; of a dimension none: `flat` it first."""
    match item:
        case Text():
            return text_box(item)
        case Line():
            return (item.start, item.end)
        case Outline():
            return (*item.ring, item.ring[0]) if item.closed else item.ring
        case Arc():
            return _round(item.centre, item.radius, item.start, (item.end - item.start) % 360)
        case Circle():
            return _round(item.centre, item.radius, 0.0, 360.0)
    return ()


def _round(centre: Point, radius: float, start: float, sweep: float) -> tuple[Point, ...]:
    turns = [math.radians(start + sweep * i / _ROUND) for i in range(_ROUND + 1)]
    return tuple((centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns)


def _say(piece: _Placed) -> str:
    left, bottom, right, top = piece.box
    name = repr(piece.item.text) if isinstance(piece.item, Text) else f"{type(piece.item).__name__} {piece.item.layer}"
    return f"{name} at ({(left + right) / 2:.1f}, {(bottom + top) / 2:.1f})"


def _is_beyond(page: Page, piece: _Placed) -> bool:
    left, bottom, right, top = piece.box
    return left < -SLACK or bottom < -SLACK or right > page.width + SLACK or top > page.height + SLACK


def _beyond(page: Page, piece: _Placed) -> str:
    return f"{_say(piece)} beyond the {page.width:g} x {page.height:g} page"


def _boxes_meet(a: _Placed, b: _Placed) -> bool:
    return (
        a.box[0] < b.box[2] - SLACK
        and b.box[0] < a.box[2] - SLACK
        and a.box[1] < b.box[3] - SLACK
        and b.box[1] < a.box[3] - SLACK
    )


def _polygons_meet(a: _Placed, b: _Placed) -> bool:
    """Separating axes of two rectangles."""
    return all(_spans_meet(a.points, b.points, axis) for piece in (a, b) for axis in _normals(piece.points))


def _normals(points: Sequence[Point]) -> tuple[Point, Point]:
    return (_unit(points[0], points[1]), _unit(points[1], points[2]))


def _unit(p: Point, q: Point) -> Point:
    length = math.dist(p, q) or 1.0
    return ((q[0] - p[0]) / length, (q[1] - p[1]) / length)


def _spans_meet(a: Sequence[Point], b: Sequence[Point], axis: Point) -> bool:
    spans = [[p[0] * axis[0] + p[1] * axis[1] for p in points] for points in (a, b)]
    return max(spans[0]) > min(spans[1]) + SLACK and max(spans[1]) > min(spans[0]) + SLACK


def _in_the_way(text: _Placed, others: Sequence[_Placed]) -> list[_Placed]:
    """Lines and fills on the text, less what a fill or the text's own mask has covered before it was written."""
    near = [other for other in others if _boxes_meet(text, other)]
    fills = [o.order for o in near if o.order < text.order and _fills(o) and _holds(o, text)]
    masked = isinstance(text.item, Text) and text.item.mask
    covered = text.order if masked else max(fills, default=-1)
    return [o for o in near if o.order > covered and _crosses(text, o)]


def _fills(other: _Placed) -> bool:
    return isinstance(other.item, Outline | Circle) and other.item.fill is not None


def _holds(other: _Placed, text: _Placed) -> bool:
    return all(_inside(corner, other.points) for corner in text.points)


def _crosses(text: _Placed, other: _Placed) -> bool:
    if _fills(other) and other.order > text.order and _inside(text.points[0], other.points):
        return True
    if isinstance(other.item, Outline) and not other.item.edge:
        return False
    return any(_segment_meets(text.points, p, q) for p, q in pairwise(other.points))


def _segment_meets(rectangle: Sequence[Point], p: Point, q: Point) -> bool:
    """Clip the segment against the rectangle's own axes."""
    low, high = 0.0, 1.0
    for axis in _normals(rectangle):
        span = [c[0] * axis[0] + c[1] * axis[1] for c in rectangle]
        start, end = (c[0] * axis[0] + c[1] * axis[1] for c in (p, q))
        least, most = min(span) + SLACK, max(span) - SLACK
        if abs(end - start) < 1e-9:
            if not least < start < most:
                return False
            continue
        ts = sorted(((least - start) / (end - start), (most - start) / (end - start)))
        low, high = max(low, ts[0]), min(high, ts[1])
    return low < high


def _inside(point: Point, ring: Sequence[Point]) -> bool:
    """Even-odd rule."""
    x, y = point
    crossed = [
        (p[1] > y) != (q[1] > y) and x < p[0] + (y - p[1]) * (q[0] - p[0]) / (q[1] - p[1])
        for p, q in pairwise((*ring, ring[0]))
        if p[1] != q[1]
    ]
    return sum(crossed) % 2 == 1
