"""Edges: each stretch of a board's outline, what it meets, and what it bears on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf

from generator.model.ends import Side, foot, lean, top_line
from generator.model.ends import is_upright as stands
from generator.model.features import Fold, Segment
from generator.model.geometry import TOUCH, Point, Ring, box, tidy
from generator.model.plan import (
    Board,
    Edge,
    EdgeRole,
    PlannedWall,
    Support,
)
from generator.model.room import Room, Wall
from generator.planning.bays import face_at, heights_at, is_upright
from generator.planning.folds import fold_lines, runs_along

FRAMED = ("niche", "window", "soffit")
"""Features that are framed into walls before these are boarded."""
BEARS = ("seam", "corner", "free", "wallboard", "apron")


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of one side of a board with one neighbour and role."""

    p: Point
    q: Point
    role: EdgeRole
    neighbour: str | None


def plan_edges(
    room: Room,
    walls: tuple[PlannedWall, ...],
    folds: tuple[Fold, ...],
    boards: tuple[Board, ...],
    supports: tuple[Support, ...],
) -> tuple[Edge, ...]:
    """All edges of all boards, with the supports that carry them."""
    edges: list[Edge] = []
    framed = frozenset(face for one in room.features if one.kind in FRAMED for face in one.faces)
    for wall, planned in zip(room.walls, walls, strict=True):
        own = [board for board in boards if board.wall == wall.id]
        carriers = [support for support in supports if support.wall == wall.id and not support.set_back]
        place = _Place(wall, planned, tuple(_met(planned, folds, framed)), _neighbour_tops(room, wall))
        for board in own:
            stretches = list(_stretches(place, board, own))
            edges += _named(planned, board, stretches, carriers)
    return tuple(sorted(edges, key=lambda edge: edge.id))


@dataclass(frozen=True, slots=True)
class _Place:
    """A wall as measured and as planned, and the lines on it where other faces meet it."""

    wall: Wall
    planned: PlannedWall
    folds: tuple[Segment, ...]
    tops: tuple[float, float]
    """How high the neighbours at its left and right corner stand; above a half wall an edge meets nothing."""


def _met(planned: PlannedWall, folds: Sequence[Fold], framed: frozenset[str]) -> Iterator[Segment]:
    """The folds that edges of a wall lie along: of a face all, of a wall those round its mouths and its soffits.

    A bench or a curb stands before the wall's boards, which run on behind it. `framed`: ids of the faces whose
    feature was there before the walls' boards.
    """
    for fold in folds:
        if planned.face != "wall" or any(face in framed for face in fold.faces):
            yield from fold_lines((fold,), planned.id)


def _named(
    planned: PlannedWall, board: Board, stretches: Sequence[Stretch], carriers: Sequence[Support]
) -> Iterator[Edge]:
    digits = max(2, len(str(len(stretches))))
    for index, stretch in enumerate(stretches, 1):
        bearing, ids = _bearing(_on_framing(planned, stretch), carriers)
        edge_id = f"E-{board.id}-{index:0{digits}d}"
        yield Edge(edge_id, board.id, stretch.p, stretch.q, stretch.role, stretch.neighbour, ids, bearing)


def _on_framing(planned: PlannedWall, stretch: Stretch) -> Stretch:
    """An edge that laps a neighbour's stands one board past the framing: it bears from the framing's end on."""
    left, low, right, high = box(planned.outline)
    p, q = ((min(max(u, left), right), min(max(v, low), high)) for u, v in (stretch.p, stretch.q))
    return replace(stretch, p=p, q=q)


def _stretches(place: _Place, board: Board, others: Sequence[Board]) -> Iterator[Stretch]:
    ring = board.outline
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        shared = [(a, b, other.id) for other in others if other is not board for a, b in _common(p, q, other.outline)]
        cuts = sorted({0.0, 1.0, *(t for a, b, _ in shared for t in (a, b)), *_at_tops(place, p, q)})
        parts = []
        for a, b in pairwise(cuts):
            neighbour = next((i for low, high, i in shared if low <= a and b <= high), None)
            start, end = _along(p, q, a), _along(p, q, b)
            role: EdgeRole = "seam" if neighbour else _outer_role(place, board, start, end)
            parts.append(Stretch(start, end, role, neighbour))
        yield from _joined(parts)


def _along(p: Point, q: Point, t: float) -> Point:
    """The point at t of the way; the ends exactly."""
    if t in (0.0, 1.0):
        return q if t else p
    return tidy(p[0] + t * (q[0] - p[0])), tidy(p[1] + t * (q[1] - p[1]))


def _joined(parts: Sequence[Stretch]) -> Iterator[Stretch]:
    """Neighbouring stretches alike in role and neighbour become one."""
    current: Stretch | None = None
    for part in parts:
        if current and (current.role, current.neighbour) == (part.role, part.neighbour):
            current = replace(current, q=part.q)
        else:
            if current:
                yield current
            current = part
    if current:
        yield current


def _common(p: Point, q: Point, ring: Ring) -> Iterator[tuple[float, float]]:
    """Stretches (as shares of p to q) along which sides of the ring run back against the side p to q."""
    du, dv = q[0] - p[0], q[1] - p[1]
    length = (du * du + dv * dv) ** 0.5
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        off = [abs((s[0] - p[0]) * dv - (s[1] - p[1]) * du) / length for s in (a, b)]
        at = [((s[0] - p[0]) * du + (s[1] - p[1]) * dv) / length for s in (b, a)]
        low, high = max(0.0, at[0]), min(length, at[1])
        if max(off) <= TOUCH and high - low > TOUCH:
            yield _snapped(low / length, length), _snapped(high / length, length)


def _snapped(share: float, length: float) -> float:
    """0 or 1 where the point touches an end."""
    if share * length <= TOUCH:
        return 0.0
    return 1.0 if (1 - share) * length <= TOUCH else share


def _outer_role(place: _Place, board: Board, p: Point, q: Point) -> EdgeRole:
    """What an edge without a neighbouring board meets."""
    wall, planned = place.wall, place.planned
    if any(runs_along((p, q), line, 2 * board.thickness) for line in place.folds):
        return "corner"
    if not stands(p, q):
        return "bottom" if q[0] > p[0] else "top"
    side = 1 if q[1] > p[1] else 0
    names = _touching(planned, p, q)
    if (p[1] + q[1]) / 2 > place.tops[side] and _is_outermost(planned, p, "right" if side else "left"):
        return "free"
    if planned.face != "wall":  # its frame may lie on its side: then the foot of a curb is an upright edge
        return "apron" if names & {"base", "leg-gap"} else "free"
    if "nip" in names:
        return "bottom"
    if abs(p[0] - wall.reach[side]) <= TOUCH and wall.beside[side] != "corner":
        return "wallboard" if wall.beside[side] == "wallboard" else "free"
    if wall.beside[side] == "corner" and not names and _is_outermost(planned, p, "right" if side else "left"):
        return "corner"
    if names & {"fit", "neighbour"}:
        return "corner" if _is_outermost(planned, p, "right" if side else "left") else "top"
    return "apron" if names & {"base", "leg-gap"} else "free"


def _neighbour_tops(room: Room, wall: Wall) -> tuple[float, float]:
    """Height of the framing beyond the left and the right corner of a wall; without end where there is no corner."""
    tops = [inf, inf]
    for corner in room.corners:
        for own, other, index in ((corner.right_wall, corner.left_wall, 0), (corner.left_wall, corner.right_wall, 1)):
            if own == wall.id:
                line = top_line(next(w.outline for w in room.chain if w.id == other))
                tops[index] = line[-1 if index == 0 else 0][1]
    return tops[0], tops[1]


def _at_tops(place: _Place, p: Point, q: Point) -> Iterator[float]:
    """Where along an upright side, as shares of it, a lower neighbour ends."""
    if stands(p, q) and p[1] != q[1]:
        share = (place.tops[1 if q[1] > p[1] else 0] - p[1]) / (q[1] - p[1])
        if 0.0 < share < 1.0:
            yield _snapped(share, abs(q[1] - p[1]))


def _is_outermost(planned: PlannedWall, point: Point, side: Side) -> bool:
    """True on the line along an end of the wall where its boards end; False at a step of the ceiling."""
    origin, slope = foot(planned.outline, side), lean(planned.outline, side)
    off = [u - origin - slope * v for region in planned.wet_region for u, v in region.ring]
    own = point[0] - origin - slope * point[1]
    return own <= min(off) + TOUCH if side == "left" else own >= max(off) - TOUCH


def _touching(planned: PlannedWall, p: Point, q: Point) -> set[str]:
    """Names of the allowances that the middle of a stretch lies on."""
    from shapely import Point as ShapelyPoint

    from generator.planning.shapes import polygon

    middle = ShapelyPoint((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    return {a.name for a in planned.allowances if polygon(a.ring).distance(middle) <= TOUCH}


def _bearing(stretch: Stretch, carriers: Sequence[Support]) -> tuple[float | None, tuple[str, ...]]:
    """Least bearing over the length of an upright edge, and the supports that carry it; None where none is due."""
    if stretch.role not in BEARS or not stands(stretch.p, stretch.q):
        return None, ()
    low, high = sorted((stretch.p[1], stretch.q[1]))
    ends = {s.id: heights_at(s, (stretch.p[0] + stretch.q[0]) / 2) for s in carriers}
    reaching = [s for s in carriers if any(_width_on(s, stretch, (v, v)) > 0.0 for v in (low, high))]
    cutting = reaching if stretch.p[0] == stretch.q[0] else carriers
    levels = sorted({low, high, *(v for s in cutting for v in ends[s.id] if low + TOUCH < v < high - TOUCH)})
    least, used = float("inf"), set()
    for a, b in pairwise(levels):
        tall = [s for s in reaching if ends[s.id][0] <= a + TOUCH and b - TOUCH <= ends[s.id][1]]
        at = [s for s in tall if _width_on(s, stretch, (a, b)) > 0.0]
        level = [s for s in at if not is_upright(s)]
        best = max(at, key=lambda s: (_width_on(s, stretch, (a, b)), s.id), default=None)
        if level:
            used |= {s.id for s in level}
        elif best is None and stretch.p[0] == stretch.q[0]:
            return 0.0, tuple(sorted(used))
        elif best is None:  # an edge that leans leaves a face part of the way up, and names it all the same
            least = 0.0
        else:
            used.add(best.id)
            least = min(least, _width_on(best, stretch, (a, b)))
    if least == float("inf"):
        least = min(_width_on(s, stretch, (low, high)) for s in reaching if s.id in used)
    return tidy(least), tuple(sorted(used))


def _width_on(support: Support, stretch: Stretch, between: tuple[float, float]) -> float:
    """Width of the face on the board's side of the edge, the least between two heights; 0 where it is beside it."""
    on_right = stretch.q[1] > stretch.p[1]
    (u0, v0), (u1, v1) = stretch.p, stretch.q
    us = [u0 if u0 == u1 else u0 + (v - v0) / (v1 - v0) * (u1 - u0) for v in between]
    faces = [face_at(support, v) for v in between]
    if not all(left - TOUCH <= u <= right + TOUCH for u, (left, right) in zip(us, faces, strict=True)):
        return 0.0
    widths = (u - left if on_right else right - u for u, (left, right) in zip(us, faces, strict=True))
    return max(0.0, min(widths))
