"""Faces of what is framed in the room (bench, half wall, curb): each ends where the planes of the others cut it.

Such a body is convex: it lies behind the planes of its own sides and in front of what it stands against. Sides are
boarded in their order, and a later one laps the edges of those before it, out to the line where the finished faces
meet; the earlier ones end where the later one's back comes, at whatever depth of the board that is first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist

from generator.model.features import FaceKind, FeatureKind, Fold
from generator.model.frames import Frame, Vector
from generator.model.geometry import NOISE, REAL_AREA, TOUCH, Point, Ring, area, box, canonical, tidy
from generator.model.plan import Allowance
from generator.model.planes import fold_between
from generator.model.room import Wall

Line = tuple[float, float, float]
"""w in another frame of the points of a plane: (a, b, c) of a u + b v + c."""
BEVEL = "bevel"
"""Name of the plane where the boards of a side end under a top that is bedded on a bevel."""
_FAR = 1e5
"""mm: no room is larger."""
_START: tuple[Point, ...] = ((-_FAR, -_FAR), (_FAR, -_FAR), (_FAR, _FAR), (-_FAR, _FAR))


@dataclass(frozen=True, slots=True)
class Side:
    """A side of the body. `stands`: a wall of the chain, of which no face is made here; without an id it is wallboard
    of the boards' thickness."""

    id: str
    kind: FaceKind
    frame: Frame
    borrows: bool = False
    stands: bool = False


@dataclass(frozen=True, slots=True)
class Against:
    """What the body stands against: a plane, w out of it towards the body.

    Boards stay `keep` (mm) off the plane. `wall`: id of the boarded wall that it is, with boards of `thickness`; ""
    where no band joins the two. `only`: ids of the sides that it is for; all when empty.
    """

    name: str
    frame: Frame
    keep: float
    wall: str = ""
    thickness: float = 0.0
    only: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Body:
    """Sides in boarding order; `board`: thickness of the boards (mm). Ends keep the `fit` under a top that slopes over
    them, so that studs cut level carry their upright edges to the end."""

    path: str
    feature: str
    kind: FeatureKind
    board: float
    sides: tuple[Side, ...]
    against: tuple[Against, ...]
    fit: float = 0.0


def faces_of(body: Body) -> tuple[Wall, ...]:
    """The sides that are not walls already, as faces; in boarding order."""
    return tuple(_face(body, side) for side in body.sides if not side.stands)


def _face(body: Body, side: Side) -> Wall:
    extent = extent_of(body, side)
    left, _, right, top = box(extent)
    return Wall(
        path=body.path,
        id=side.id,
        outline=outline_of(body, side),
        reach=(left, right),
        top=top,
        to_ceiling=False,
        ceiling="framing",
        duty="non_bearing",
        beside=("free", "free"),
        supports=(),
        frame=side.frame,
        face=side.kind,
        feature=body.feature,
        extent=extent,
        allowances=tuple(_allowances(body, side, extent)),
        borrows=side.borrows,
    )


def outline_of(body: Body, side: Side) -> Ring:
    """The framing of a side, in its own frame: it stands before the boards of the walls, which run on behind it.

    A soffit is framed to the walls' own framing: their boards end round it.
    """
    ring = _START
    for other in body.sides:
        if other is not side:
            ring = below(ring, across(side.frame, 0.0, other.frame), 0.0)
    for one in _met(body, side):
        ring = above(ring, across(side.frame, 0.0, one.frame), 0.0 if body.kind == "soffit" else one.thickness)
    return canonical(ring)


def extent_of(body: Body, side: Side) -> Ring:
    """What the boards of a side fill before they keep off what the body stands against."""
    ring: Sequence[Point] = _START
    own = body.sides.index(side)
    for index, other in enumerate(body.sides):
        if index < own:
            ring = lapping(ring, side.frame, other.frame, body.board)
        elif index > own:
            sloped = side.kind in ("left", "right") or body.kind == "deck"
            clear = body.fit if sloped and other.kind in ("seat", "cap") else 0.0
            ring = lapped_by(ring, side.frame, other.frame, body.board, clear)
    for one in _met(body, side):
        ring = above(ring, across(side.frame, 0.0, one.frame), 0.0)
    return canonical(ring)


def lapping(ring: Sequence[Point], own: Frame, first: Frame, board: float) -> Sequence[Point]:
    """What is left of the boards of a side that laps another's edge: cut square to their own face, no part of their
    depth stands out beyond the finished face of the other; where they slope, one of their arrises stands back."""
    for depth in (0.0, board):
        ring = below(ring, across(own, depth, first), board)
    return ring


def lapped_by(ring: Sequence[Point], own: Frame, later: Frame, board: float, clear: float) -> Sequence[Point]:
    """What is left of the boards of a side whose edge another laps: no part of their depth passes its back."""
    for depth in (0.0, board):
        ring = below(ring, across(own, depth, later), -clear)
    return ring


def _met(body: Body, side: Side) -> tuple[Against, ...]:
    return tuple(one for one in body.against if not one.only or side.id in one.only)


def _allowances(body: Body, side: Side, extent: Ring) -> Iterator[Allowance]:
    for one in _met(body, side):
        lines = [across(side.frame, depth, one.frame) for depth in (0.0, body.board)]
        strip = below(extent, min(lines, key=lambda line: line[2]), one.keep)
        if len(strip) > 2 and area(strip) > REAL_AREA:
            yield Allowance(one.name, canonical(strip))


def folds_of(body: Body) -> tuple[Fold, ...]:
    """Where the finished faces of the sides meet each other, and the boards of the walls they stand against."""
    return tuple(fold for index in range(len(body.sides)) for fold in _folds_at(body, index))


def _folds_at(body: Body, index: int) -> Iterator[Fold]:
    side = body.sides[index]
    finished = _finished(body, side)
    for first in body.sides[:index]:
        if first.id and not (first.stands and side.stands):
            yield from _fold(body, side, finished, first.id, first.frame, body.board, outside=True)
    for one in _met(body, side):
        if one.wall and not side.stands:
            yield from _fold(body, side, finished, one.wall, one.frame, one.thickness, outside=False)


def _finished(body: Body, side: Side) -> Sequence[Point]:
    """The finished face of a side: over a bevel it goes on with the edge of the top, which is flush with it."""
    ring: Sequence[Point] = _START
    for other in body.sides:
        if other is not side:
            ring = below(ring, across(side.frame, body.board, other.frame), body.board)
    for one in (one for one in _met(body, side) if one.name != BEVEL):
        ring = above(ring, across(side.frame, body.board, one.frame), one.thickness)
    return ring


def _fold(
    body: Body, side: Side, finished: Sequence[Point], first: str, other: Frame, board: float, *, outside: bool
) -> Iterator[Fold]:
    a, b, c = across(side.frame, body.board, other)
    on = [p for p in finished if abs(a * p[0] + b * p[1] + c - board) <= NOISE]
    ends = (min(on), max(on)) if on else ()
    if not ends or dist(*ends) <= TOUCH:
        return
    p, q = sorted(ends, key=lambda p: (tidy(p[1]), tidy(p[0])))
    room = side.frame.at(*p, body.board), side.frame.at(*q, body.board)
    yield fold_between(body.path, (first, other), (side.id, side.frame), room, outside)


def across(own: Frame, depth: float, other: Frame) -> Line:
    """w in another frame of the points (u, v, depth) of a frame."""
    return _dot(own.u_axis, other.w_axis), _dot(own.v_axis, other.w_axis), other.of(own.at(0.0, 0.0, depth))[2]


def below(ring: Sequence[Point], line: Line, most: float) -> tuple[Point, ...]:
    """The part of a convex ring where a u + b v + c is at most this."""
    a, b, c = line
    over = [a * u + b * v + c - most for u, v in ring]
    kept: list[Point] = []
    for i, (p, at) in enumerate(zip(ring, over, strict=True)):
        before, prior = over[i - 1], ring[i - 1]
        if (before > NOISE) != (at > NOISE) and abs(before - at) > NOISE:
            share = before / (before - at)
            kept.append((prior[0] + share * (p[0] - prior[0]), prior[1] + share * (p[1] - prior[1])))
        if at <= NOISE:
            kept.append(p)
    return tuple(kept)


def above(ring: Sequence[Point], line: Line, least: float) -> tuple[Point, ...]:
    """The part of a convex ring where a u + b v + c is at least this."""
    return below(ring, (-line[0], -line[1], -line[2]), -least)


def _dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))
