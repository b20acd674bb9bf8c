"""Under the front and the free ends of a seat: a sole plate, knee studs, and a rail where no joist is the rim.

Framing as a carpenter builds a knee wall; common practice, no source. Where a face meets boards, or the next face,
askew, the last stud is turned flat and all ends are cut to the angle.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil, hypot

from generator.errors import CannotPlanError
from generator.model.ends import top_line
from generator.model.geometry import NOISE, TOUCH, box, rectangle, tidy
from generator.model.plan import Support
from generator.model.room import Room, Wall
from generator.planning.seats.pieces import end_bevels, face_of, feature_of, piece, span
from generator.planning.seats.top import joist_places

Span = tuple[float, float]


def has_rail(room: Room, wall: Wall) -> bool:
    """True where a rail of its own carries the seat's edge; elsewhere a joist, which the face sees, is the rim."""
    return feature_of(room, wall).kind == "bench" and not wall.borrows


def stand(room: Room, wall: Wall, lent: Iterable[Support]) -> Iterator[Support]:
    """The pieces of a front or an end. `lent`: sides of the front's lumber, on which an end begins."""
    left, _, right, _ = box(wall.outline)
    stud, bevels = room.choices.added_stud[wall.id], end_bevels(room, wall)
    taken = [box(s.outline) for s in lent]
    start = max((b[2] for b in taken if b[0] <= left + TOUCH), default=left)
    end = min((b[0] for b in taken if b[2] >= right - TOUCH), default=right)
    if max(bevels) * stud.face > stud.depth - NOISE or end - start <= stud.depth * sum(bevels) + NOISE:
        raise CannotPlanError(_no_room(wall), wall.path)
    sole = rectangle(start, 0.0, end, stud.face)
    middle = stud.face / 2
    yield piece(room, wall, "plate", sole, ((start, middle), (end, middle)), "sole plate", bevels=bevels)
    if has_rail(room, wall):
        yield _rail(room, wall, bevels)
    ends = tuple(_ends(room, wall, (start, end), bevels))
    for face in ends:
        yield _stud(room, wall, face[0], flat=face[1], bevels=face[2])
    beside = [(b[0], b[2]) for b in taken if b[3] - b[1] > stud.depth]
    # A stud lent is seen from its side, wide: what stands on it stands on its outer edge.
    marks = [*(sum(face[0]) / 2 for face in ends), *((left if a <= left + TOUCH else right) for a, _ in beside)]
    for u in _between(room, wall, [*(face[0] for face in ends), *beside], marks, bevels):
        yield _stud(room, wall, (u - stud.face / 2, u + stud.face / 2))


def _no_room(wall: Wall) -> str:
    return (
        f"the {wall.face} of {wall.feature} is too short, or meets what is beside it at too acute an angle, for lumber "
        "that is cut to it; make the seat larger, or its legs more alike"
    )


def _rail(room: Room, wall: Wall, bevels: Span) -> Support:
    """On edge, its upper side in the plane of the seat."""
    (u0, v0), (u1, v1) = _top(wall)
    deep = _under(room, wall)
    ring = (u0, v0 - deep), (u1, v1 - deep), (u1, v1), (u0, v0)
    axis = (u0, v0 - deep / 2), (u1, v1 - deep / 2)
    what = "front rail" if wall.face == "front" else "end rail"
    return piece(room, wall, "plate", ring, axis, what, flat=True, bevels=bevels)


def _top(wall: Wall) -> tuple[tuple[float, float], tuple[float, float]]:
    line = top_line(wall.outline)
    return line[0], line[-1]


def _under(room: Room, wall: Wall) -> float:
    """From the seat's plane plumb down to the lower side of rail or joist, which lies square to its slope."""
    (u0, v0), (u1, v1) = _top(wall)
    return room.choices.added_stud[wall.id].depth * hypot(1.0, (v1 - v0) / (u1 - u0))


def _ends(room: Room, wall: Wall, between: Span, bevels: Span) -> Iterator[tuple[Span, bool, Span]]:
    """Faces of the studs at both ends, where no neighbour lends one: (face, turned flat, bevels)."""
    stud = room.choices.added_stud[wall.id]
    left, _, right, _ = box(wall.outline)
    wide = [stud.depth if bevel > 0.0 else stud.face for bevel in bevels]
    own = (between[0] <= left + TOUCH, between[1] >= right - TOUCH)
    width = between[1] - between[0]
    if all(own) and width <= max(wide) + NOISE:
        yield between, True, bevels
        return
    if all(own) and sum(wide) > width:
        wide = [min(wide), width - min(wide)] if wide[0] < wide[1] else [width - min(wide), min(wide)]
    if own[0]:
        yield (left, left + wide[0]), bevels[0] > 0.0, (bevels[0], 0.0)
    if own[1]:
        yield (right - wide[1], right), bevels[1] > 0.0, (0.0, bevels[1])


def _stud(room: Room, wall: Wall, face: Span, *, flat: bool = False, bevels: Span = (0.0, 0.0)) -> Support:
    """A knee stud between the sole plate and the lower side of what lies on it, to which it is cut."""
    low, (left, right) = room.choices.added_stud[wall.id].face, face
    middle = (left + right) / 2
    tops = [_top_at(wall, u) - _under(room, wall) for u in (left, middle, right)]
    ring = (left, low), (right, low), (right, tops[2]), (left, tops[0])
    reason = "knee stud, turned flat," if flat else "knee stud"
    return piece(room, wall, "stud", ring, ((middle, low), (middle, tops[1])), reason, flat=flat, bevels=bevels)


def _top_at(wall: Wall, u: float) -> float:
    (u0, v0), (u1, v1) = _top(wall)
    return v0 + (u - u0) / (u1 - u0) * (v1 - v0)


def _between(room: Room, wall: Wall, faces: Sequence[Span], ends: Sequence[float], bevels: Span) -> Iterator[float]:
    """Middles of the studs between those of the ends: under the joists, and where these leave too wide a bay."""
    stud = room.choices.added_stud[wall.id]
    left, _, right, _ = box(wall.outline)
    clear = [(left, left + stud.depth * bevels[0]), (right - stud.depth * bevels[1], right), *faces]
    seat = face_of(room, feature_of(room, wall), "seat")
    under = joist_places(room, seat) if seat is not None and wall.face == "front" and has_rail(room, wall) else ()
    half = stud.face / 2
    held = [u for u in under if left < u < right]
    free = [u for u in held if not any(a - half < u + NOISE and u < b + half + NOISE for a, b in clear)]
    yield from free
    for a, b in pairwise(sorted((*ends, *free))):
        parts = ceil((b - a) / span(room) - NOISE)
        yield from (tidy(a + (b - a) * i / parts) for i in range(1, parts))
