"""What a seat lies on: ledgers along the walls, joists between, a header beside a tub; ends cut to their angles.

All of it lies in the plane of the seat, which slopes: pieces lean with it, and stay so far off a wall that their
lower sides just touch its boards. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, dist

from generator.model.features import Segment
from generator.model.geometry import NOISE, REAL_AREA, Point, area, box, tidy
from generator.model.plan import Support
from generator.model.room import Room, Wall
from generator.planning.seats.pieces import LEDGER, Rim, feature_of, piece, rims, span
from generator.reading.facing import above, below


def seat_top(room: Room, seat: Wall) -> Iterator[Support]:
    """Strips along the sides of the seat that no rail carries, then the joists between them."""
    stud, field = room.choices.added_stud[seat.id], _within(room, seat)
    for rim in _strips(room, seat):
        edge = _slack(room, seat, rim) + stud.face
        ring, field = below(field, rim.inwards, edge), above(field, rim.inwards, edge)
        if len(ring) > 2 and area(ring) > REAL_AREA:
            yield _strip(room, seat, rim, ring)
    for u in joist_places(room, seat):
        ring = above(below(field, (1.0, 0.0, 0.0), u + stud.face / 2), (1.0, 0.0, 0.0), u - stud.face / 2)
        if len(ring) > 2 and box(ring)[3] - box(ring)[1] > stud.face:
            _, low, _, high = box(ring)
            yield piece(room, seat, "stud", ring, ((u, low), (u, high)), "joist")


def joist_places(room: Room, seat: Wall) -> tuple[float, ...]:
    """Middles of the joists between the strips, so that no bay is wider than the span."""
    left, _, right, _ = box(seat.extent)
    half = room.choices.added_stud[seat.id].face / 2
    for rim in (rim for rim in rims(room, seat) if rim.upright):
        if rim.inwards[0] > 0.0:
            left = rim.p[0] + half
        else:
            right = rim.p[0] - half
    parts = ceil((right - left) / span(room) - NOISE)
    return tuple(tidy(left + (right - left) * i / parts) for i in range(1, parts))


def _within(room: Room, seat: Wall) -> Sequence[Point]:
    """The seat's framing less what rails take and what keeps off the walls."""
    assert seat.frame is not None
    stud, ring = room.choices.added_stud[seat.id], tuple(seat.outline)
    for rim in rims(room, seat):
        rail = stud.face / seat.frame.w_axis[2] if _has_rail(room, seat, rim) else _slack(room, seat, rim)
        ring = above(ring, rim.inwards, rail)
    return ring


def _has_rail(room: Room, seat: Wall, rim: Rim) -> bool:
    return rim.open and not rim.upright and feature_of(room, seat).kind == "bench"


def _strips(room: Room, seat: Wall) -> tuple[Rim, ...]:
    """Sides with a piece of their own; those that run with the joists go through."""
    own = [rim for rim in rims(room, seat) if not _has_rail(room, seat, rim)]
    return (*(rim for rim in own if rim.upright), *(rim for rim in own if not rim.upright))


def _slack(room: Room, seat: Wall, rim: Rim) -> float:
    """How far a piece's lower side leans out over a side, up the slope; 0 where it leans away."""
    assert seat.frame is not None
    lean = float((1.0 - seat.frame.w_axis[2] ** 2) ** 0.5)
    return max(0.0, -rim.inwards[1]) * lean * room.choices.added_stud[seat.id].depth


def _strip(room: Room, seat: Wall, rim: Rim, ring: Sequence[Point]) -> Support:
    left, low, right, high = box(ring)
    what = "joist" if rim.open else "header" if _beside_tub(room, seat, rim) else LEDGER
    if rim.upright:
        middle = (left + right) / 2
        return piece(room, seat, "stud", ring, ((middle, low), (middle, high)), what)
    if rim.level:
        middle = (low + high) / 2
        return piece(room, seat, "plate", ring, ((left, middle), (right, middle)), what)
    return piece(room, seat, "ledger", ring, along(rim, ring), what)


def _beside_tub(room: Room, seat: Wall, rim: Rim) -> bool:
    """True of the low edge of a deck, which the tub stands beside and no wall."""
    return feature_of(room, seat).kind == "deck" and rim.level and rim.inwards[1] > 0.0


def along(rim: Rim, ring: Sequence[Point]) -> Segment:
    """The middle of a piece along a side, from long point to long point."""
    length = dist(rim.p, rim.q)
    du, dv = (rim.q[0] - rim.p[0]) / length, (rim.q[1] - rim.p[1]) / length
    ts = [(u - rim.p[0]) * du + (v - rim.p[1]) * dv for u, v in ring]
    a, b, c = rim.inwards
    off = [a * u + b * v + c for u, v in ring]
    middle = (min(off) + max(off)) / 2
    ends = [(rim.p[0] + t * du + middle * a, rim.p[1] + t * dv + middle * b) for t in (min(ts), max(ts))]
    first, last = sorted(ends, key=lambda end: (end[1], end[0]))
    return first, last
