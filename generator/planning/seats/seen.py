"""One piece, two faces: the rails as the seat sees them from above, a rim joist as the front or the end sees it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from generator.model.features import Segment
from generator.model.frames import Frame, Vector
from generator.model.geometry import NOISE, TOUCH, Point, box, canonical, tidy
from generator.model.plan import PlannedWall, Support
from generator.planning.seats.pieces import STANDS


def seat_views(faces: dict[str, PlannedWall], pieces: Iterable[Support]) -> Iterator[Support]:
    """What the faces of a bench or deck see of lumber that another of them has."""
    own, seat = tuple(pieces), faces["seat"]
    stands = {faces[kind].id: faces[kind] for kind in STANDS if kind in faces}
    for rail in (s for s in own if s.wall in stands and s.kind == "plate" and box(s.outline)[1] > NOISE):
        yield _from_above(seat, stands[rail.wall], rail)
    for joist in (s for s in own if s.wall == seat.id):
        for stand in stands.values():
            yield from _from_beside(stand, seat, joist)


def _from_above(seat: PlannedWall, stand: PlannedWall, rail: Support) -> Support:
    """Its upper side, plumb up in the plane of the seat: level along the joists' ends, or a ledger along a slant."""
    (u0, v0), (u1, v1) = sorted(p for p in rail.outline if p[1] > _middle(rail, p[0]))
    deep = rail.depth
    back = (u0 + rail.bevels[0] * deep, v0), (u1 - rail.bevels[1] * deep, v1)
    front = tuple(_plumb(seat.frame, stand.frame.at(u, v)) for u, v in ((u0, v0), (u1, v1)))
    rear = tuple(_plumb(seat.frame, stand.frame.at(u, v, -deep)) for u, v in back)
    level = abs(front[0][1] - front[1][1]) <= TOUCH
    return replace(
        rail,
        wall=seat.id,
        kind="plate" if level else "ledger",
        outline=canonical((*front, rear[1], rear[0])),
        axis=_level(front, rear) if level else _aslant(front, rear),
        bevels=(0.0, 0.0),
        same_as=rail.id,
    )


def _middle(rail: Support, u: float) -> float:
    (u0, v0), (u1, v1) = rail.axis
    return v0 + (u - u0) / (u1 - u0) * (v1 - v0)


def _level(front: Sequence[Point], rear: Sequence[Point]) -> Segment:
    middle = tidy((front[0][1] + rear[0][1]) / 2)
    left, right = sorted(u for u, _ in front)
    return (left, middle), (right, middle)


def _plumb(seat: Frame, point: Vector) -> Point:
    """(u, v) in the plane of the seat straight over or under a room point."""
    _, _, w = seat.of(point)
    up = -w / seat.w_axis[2]
    u, v, _ = seat.of((point[0], point[1], point[2] + up))
    return tidy(u), tidy(v)


def _aslant(front: Sequence[Point], rear: Sequence[Point]) -> Segment:
    """Parallel to the front, half way to the rear, as long as the front."""
    (a, b), off = front, [(r - f) / 2 for f, r in zip(_mean(front), _mean(rear), strict=True)]
    ux, uy = b[0] - a[0], b[1] - a[1]
    share = (off[0] * ux + off[1] * uy) / (ux * ux + uy * uy)
    off = [off[0] - share * ux, off[1] - share * uy]
    ends = [(tidy(p[0] + off[0]), tidy(p[1] + off[1])) for p in (a, b)]
    first, last = sorted(ends, key=lambda end: (end[1], end[0]))
    return first, last


def _mean(points: Sequence[Point]) -> Point:
    return sum(u for u, _ in points) / len(points), sum(v for _, v in points) / len(points)


def _from_beside(stand: PlannedWall, seat: PlannedWall, joist: Support) -> Iterator[Support]:
    """The side of a joist that lies in the plane of a front or an end: its rim, which may slope."""
    left, low, right, high = box(joist.outline)
    corners = (low, 0.0), (high, 0.0), (high, -joist.depth), (low, -joist.depth)
    for u in (left, right):
        ring = [stand.frame.of(seat.frame.at(u, v, w)) for v, w in corners]
        if joist.kind == "stud" and all(abs(w) <= TOUCH for _, _, w in ring):
            a, b, c, d = ((tidy(x), tidy(y)) for x, y, _ in ring)
            first, last = sorted((tidy(x), tidy(y)) for x, y in (_mean((a, d)), _mean((b, c))))
            yield replace(
                joist,
                wall=stand.id,
                kind="plate",
                outline=canonical((a, b, c, d)),
                axis=(first, last),
                depth=tidy(right - left),
                same_as=joist.id,
            )
