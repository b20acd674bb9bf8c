"""Which openings share a template, and how far their centres lie from the edges of their board."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations, pairwise
from typing import Literal

from generator.drawings.parts import opening_box
from generator.model.geometry import Point, Ring, box
from generator.model.plan import Opening

Side = Literal["left", "right", "bottom", "top"]
Bounds = tuple[float, float, float, float]
Group = tuple[Opening, ...]
NEAR = 100.0
"""mm, a hand's width: openings nearer than this share a template even where it has to be taped together."""


def spot(opening: Opening) -> Point:
    """The point that is marked: a round hole's centre, else the middle of the opening's box."""
    if not opening.ring:
        return opening.centre
    left, bottom, right, top = box(opening.ring)
    return ((left + right) / 2, (bottom + top) / 2)


def bounds(openings: Sequence[Opening]) -> Bounds:
    """The common box of openings, in the wall frame."""
    return box(point for opening in openings for point in opening_box(opening))


def clusters(openings: Sequence[Opening], pages: Callable[[Group], int]) -> tuple[Group, ...]:
    """Openings joined, the closest first: where one page holds them all, or where they are near each other and
    cost no more pages together than apart. Lowest cluster first.
    """
    groups: list[Group] = [(opening,) for opening in sorted(openings, key=_order)]
    while pairs := [pair for pair in combinations(groups, 2) if _belong(*pair, pages)]:
        first, second = min(pairs, key=lambda pair: (_size(_joined(*pair)), _order(pair[0][0]), _order(pair[1][0])))
        groups = sorted([g for g in groups if g not in (first, second)] + [_joined(first, second)], key=_group_order)
    return tuple(groups)


def _belong(a: Group, b: Group, pages: Callable[[Group], int]) -> bool:
    together = pages(_joined(a, b))
    return together == 1 or (_gap(a, b) <= NEAR and together <= pages(a) + pages(b))


def _gap(a: Group, b: Group) -> float:
    """The larger of the clear distances of two boxes across and upwards; negative where they overlap."""
    p, q = bounds(a), bounds(b)
    return max(max(p[0] - q[2], q[0] - p[2]), max(p[1] - q[3], q[1] - p[3]))


def _joined(a: Group, b: Group) -> Group:
    return tuple(sorted((*a, *b), key=_order))


def _order(opening: Opening) -> tuple[float, float, str]:
    u, v = spot(opening)
    return (v, u, opening.id)


def _group_order(group: Group) -> tuple[float, float, str]:
    return _order(group[0])


def _size(group: Group) -> float:
    left, bottom, right, top = bounds(group)
    return round(right - left + top - bottom, 6)


def edge_at(outline: Ring, point: Point, side: Side) -> float:
    """Where the board's edge is, straight left or right of the point (u), or straight below or above it (v).

    Raises ValueError when the point lies outside the outline, which no opening of a board does.
    """
    k = 0 if side in ("left", "right") else 1
    way = 1.0 if side in ("right", "top") else -1.0
    hits = [_crossing(p, q, point, k) for p, q in pairwise((*outline, outline[0])) if _spans(p, q, point, k)]
    beyond = [hit for hit in hits if (hit - point[k]) * way >= 0]
    if not beyond:
        raise ValueError(f"{point} is not inside its board")
    return min(beyond, key=lambda hit: abs(hit - point[k]))


def _spans(p: Point, q: Point, point: Point, k: int) -> bool:
    """Half-open, so that a ray through a corner meets one of its two sides."""
    return (p[1 - k] > point[1 - k]) != (q[1 - k] > point[1 - k])


def _crossing(p: Point, q: Point, point: Point, k: int) -> float:
    share = (point[1 - k] - p[1 - k]) / (q[1 - k] - p[1 - k])
    return p[k] + (q[k] - p[k]) * share
