"""Which targets share a template, and how far they lie from the edges of their board."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import combinations, pairwise
from typing import Literal

from generator.drawings.template_targets import Target, bounds
from generator.model.features import Segment
from generator.model.geometry import TOUCH, Point, Ring

Side = Literal["left", "right", "bottom", "top"]
Group = tuple[Target, ...]
NEAR = 100.0
"""mm, a hand's width: what is nearer than this shares a template even where it has to be taped together."""
_ASIDE = 1.0
"""mm from a corner to the rays that look for the edges round it."""


def clusters(targets: Sequence[Target], pages: Callable[[Group], int], endless: bool) -> tuple[Group, ...]:
    """Targets joined, the closest first: where one page holds them all, or where they are near each other and
    cost no more pages together than apart. On `endless` paper, which holds anything, near ones only. Lowest first.
    """
    groups: list[Group] = [(target,) for target in sorted(targets, key=_order)]
    while pairs := [pair for pair in combinations(groups, 2) if _belong(*pair, pages, endless)]:
        first, second = min(pairs, key=lambda pair: (_size(_joined(*pair)), _order(pair[0][0]), _order(pair[1][0])))
        groups = sorted([g for g in groups if g not in (first, second)] + [_joined(first, second)], key=_group_order)
    return tuple(groups)


def _belong(a: Group, b: Group, pages: Callable[[Group], int], endless: bool) -> bool:
    near = _gap(a, b) <= NEAR
    if endless:
        return near and pages(_joined(a, b)) == 1
    together = pages(_joined(a, b))
    return together == 1 or (near and together <= pages(a) + pages(b))


def _gap(a: Group, b: Group) -> float:
    """The larger of the clear distances of two boxes across and upwards; negative where they overlap."""
    p, q = bounds(a), bounds(b)
    return max(max(p[0] - q[2], q[0] - p[2]), max(p[1] - q[3], q[1] - p[3]))


def _joined(a: Group, b: Group) -> Group:
    return tuple(sorted((*a, *b), key=_order))


def _order(target: Target) -> tuple[float, float, str]:
    return (target.at[1], target.at[0], target.id)


def _group_order(group: Group) -> tuple[float, float, str]:
    return _order(group[0])


def _size(group: Group) -> float:
    left, bottom, right, top = bounds(group)
    return round(right - left + top - bottom, 6)


def edge_at(outline: Ring, point: Point, side: Side) -> float:
    """Where the board's edge is, straight left or right of the point (u), or straight below or above it (v).

    From a corner of the outline: the farthest of the edges that are seen just beside it. Raises ValueError when the
    point does not belong to the outline, which no target of a board does.
    """
    k, way = (0 if side in ("left", "right") else 1), (1.0 if side in ("right", "top") else -1.0)
    starts = (point, *((point[0] + x, point[1] + y) for x in (-_ASIDE, _ASIDE) for y in (-_ASIDE, _ASIDE)))
    seen = [_first(outline, start, k, way) for start in starts if _inside(outline, start)]
    if not seen:
        raise ValueError(f"{point} is not inside its board")
    if _inside(outline, point) and all(math.dist(point, corner) > TOUCH for corner in outline):
        seen = seen[:1]
    return max((_crossing(p, q, point, k) for p, q in seen), key=lambda at: (at - point[k]) * way)


def _first(outline: Ring, start: Point, k: int, way: float) -> Segment:
    """The side of the outline that a ray from inside meets first."""
    hits = [(p, q) for p, q in pairwise((*outline, outline[0])) if _spans(p, q, start, k)]
    beyond = [hit for hit in hits if (_crossing(hit[0], hit[1], start, k) - start[k]) * way >= 0]
    return min(beyond, key=lambda hit: abs(_crossing(hit[0], hit[1], start, k) - start[k]))


def _inside(outline: Ring, point: Point) -> bool:
    """By the number of sides that a ray to the right crosses."""
    sides = [(p, q) for p, q in pairwise((*outline, outline[0])) if _spans(p, q, point, 0)]
    return sum(_crossing(p, q, point, 0) > point[0] for p, q in sides) % 2 == 1


def _spans(p: Point, q: Point, point: Point, k: int) -> bool:
    """Half-open, so that a ray through a corner meets one of its two sides."""
    return (p[1 - k] > point[1 - k]) != (q[1 - k] > point[1 - k])


def _crossing(p: Point, q: Point, point: Point, k: int) -> float:
    share = (point[1 - k] - p[1 - k]) / (q[1 - k] - p[1 - k])
    return p[k] + (q[k] - p[k]) * share
