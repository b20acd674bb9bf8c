"""The bottom edges of a wall's boards, as they are sealed: along the base, or down at the floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from generator.model.geometry import TOUCH, Point, tidy
from generator.model.plan import Edge, PlannedBase, PlannedSide
from generator.planning.sealing.surface import Surface, is_level, reaches


@dataclass(frozen=True, slots=True)
class Run:
    """A straight stretch of visible bottom edge, left to right, with the edges that make it.

    `side`: the side of the base it stands over; None at the floor. `past`: how far the boards' edge goes on
    beyond the base before a leg goes down, at the left and at the right: that belongs to the apron joint.
    """

    wall: str
    p: Point
    q: Point
    edges: tuple[str, ...]
    side: PlannedSide | None
    past: tuple[float, float]

    @property
    def length(self) -> float:
        return float(((self.q[0] - self.p[0]) ** 2 + (self.q[1] - self.p[1]) ** 2) ** 0.5)

    @property
    def middle(self) -> Point:
        return (self.p[0] + self.q[0]) / 2, (self.p[1] + self.q[1]) / 2


def deck_at(side: PlannedSide, u: float) -> float:
    """v of the deck at u, straight between its points and level beyond them."""
    deck = side.deck
    for (u0, v0), (u1, v1) in pairwise(deck):
        if u <= u1 or (u1, v1) == deck[-1]:
            share = min(max((u - u0) / (u1 - u0), 0.0), 1.0) if u1 > u0 else 0.0
            return v0 + share * (v1 - v0)
    return deck[0][1]


def bottom_runs(surface: Surface, base: PlannedBase) -> tuple[Run, ...]:
    """The wall's runs from left to right; edges hidden behind a neighbour's boards are left out.

    A nipped corner is run past: its level edge belongs to the run below it.
    """
    sides = [side for side in base.sides if side.wall == surface.wall]
    nips = _nips(surface)
    level = [e for e in surface.edges if e.role == "bottom" and is_level(e)]
    tops = {e.id for e in level for nip in nips if nip.upper in (e.p, e.q)}
    runs: list[Run] = []
    for edge in sorted((e for e in level if e.id not in tops), key=lambda e: (e.p, e.id)):
        own = tuple(nip for nip in nips if nip.lower in (edge.p, edge.q))
        for run in _edge_runs(surface, sides, edge, own):
            joined = _joined(runs[-1], run) if runs else None
            runs[-1:] = [joined] if joined else [*runs[-1:], run]
    return tuple(runs)


@dataclass(frozen=True, slots=True)
class _Nip:
    """The upright side of a nipped corner, and the level edges that meet its upper end."""

    lower: Point
    upper: Point
    tops: tuple[str, ...]


def _nips(surface: Surface) -> tuple[_Nip, ...]:
    bottom = [e for e in surface.edges if e.role == "bottom"]
    found = []
    for side in (e for e in bottom if not is_level(e)):
        lower, upper = sorted((side.p, side.q), key=lambda point: point[1])
        tops = (e.id for e in bottom if is_level(e) and upper in (e.p, e.q))
        found.append(_Nip(lower, upper, tuple(sorted(tops))))
    return tuple(found)


def _edge_runs(surface: Surface, sides: Sequence[PlannedSide], edge: Edge, nips: Sequence[_Nip]) -> Iterator[Run]:
    low, high = _visible(surface, edge, [nip.lower for nip in nips])
    if high - low <= TOUCH:
        return
    ids = (edge.id, *(top for nip in nips for top in nip.tops))
    cuts = sorted({low, high, *(u for s in sides for u in (s.start, s.end) if low + TOUCH < u < high - TOUCH)})
    parts = [
        Run(surface.wall, _at(edge, a), _at(edge, b), ids, _side_under(edge, sides, a, b), (0.0, 0.0))
        for a, b in pairwise(cuts)
    ]
    over = [i for i, part in enumerate(parts) if part.side is not None]
    if not over:
        yield Run(surface.wall, _at(edge, low), _at(edge, high), ids, None, (0.0, 0.0))
        return
    for i in over:
        left = parts[i - 1].length if i and i - 1 not in over else 0.0
        right = parts[i + 1].length if i + 1 < len(parts) and i + 1 not in over else 0.0
        yield replace(parts[i], past=(left, right))


def _visible(surface: Surface, edge: Edge, nipped: Sequence[Point]) -> tuple[float, float]:
    """u from, u to: run on to the line where the faces meet at a corner, cut off there behind it."""
    low, high = edge.p[0], edge.q[0]
    left, right = surface.left_at(edge.p[1]), surface.right_at(edge.q[1])
    if surface.meets_left and (edge.p in nipped or reaches(surface, edge.p, "left")):
        low = left
    if surface.meets_right and (edge.q in nipped or reaches(surface, edge.q, "right")):
        high = right
    return max(low, left), min(high, right)


def _at(edge: Edge, u: float) -> Point:
    """The point of the edge's line at u."""
    (u0, v0), (u1, v1) = edge.p, edge.q
    return tidy(u), tidy(v0 + (u - u0) / (u1 - u0) * (v1 - v0))


def _side_under(edge: Edge, sides: Sequence[PlannedSide], low: float, high: float) -> PlannedSide | None:
    u = (low + high) / 2
    over = [s for s in sides if s.start < u < s.end and _at(edge, u)[1] > deck_at(s, u) - TOUCH]
    return over[0] if over else None


def _joined(before: Run, after: Run) -> Run | None:
    """Both as one, where they follow each other in one line over the same side, or past its end before a leg."""
    (u0, v0), (u1, v1) = before.p, before.q
    gap = after.p[0] - after.past[0] - (u1 + before.past[1])
    off = v0 + (v1 - v0) * (after.p[0] - u0) / (u1 - u0) - after.p[1]
    if abs(gap) > TOUCH or abs(off) > TOUCH:
        return None
    edges = (*before.edges, *after.edges)
    if before.side == after.side and not (before.past[1] or after.past[0]):
        return replace(before, q=after.q, edges=edges, past=(before.past[0], after.past[1]))
    if after.side is None:
        return replace(before, edges=edges, past=(before.past[0], before.past[1] + after.length))
    if before.side is None:
        return replace(after, edges=edges, past=(after.past[0] + before.length, after.past[1]))
    return None
