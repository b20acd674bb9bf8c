"""Framing of what is built in the room: knee studs and joists of benches, the plate of a cap, the lumber of a curb.

None of it is there yet; all of it is listed to be added, in the frames of its faces.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import ceil, hypot

from generator.model.ends import top_line
from generator.model.features import FeatureKind
from generator.model.geometry import NOISE, TOUCH, Point, Ring, box, canonical, rectangle, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.planning.bays import face, is_upright

BUILT: tuple[FeatureKind, ...] = ("bench", "deck", "half_wall", "curb")
"""Features whose framing is made here, whole."""
BONDED = ("inside", "cap")
"""Faces of a curb that no screw goes through."""
CAP_PLATE = "top plate, bevelled for the cap"
_WORDS = {"front": "knee stud", "left": "knee stud", "right": "knee stud", "seat": "joist"}


def kind_of(room: Room, wall_id: str) -> FeatureKind | None:
    """The kind of feature that a wall is a face of; None for a wall of the room."""
    return next((feature.kind for feature in room.features if wall_id in feature.faces), None)


def is_bonded(room: Room, wall_id: str) -> bool:
    """True for the top and the inside face of a curb: their boards are bonded, and nothing is driven through them."""
    wall = next(wall for wall in room.walls if wall.id == wall_id)
    return kind_of(room, wall_id) == "curb" and wall.face in BONDED


def built_supports(room: Room, wall: Wall, planned: PlannedWall, lent: Iterable[Support]) -> tuple[Support, ...] | None:
    """All supports of a face of a bench, deck, cap or curb that are pieces of its own, with those that its neighbours
    lend; None for other walls."""
    kind = kind_of(room, wall.id)
    if kind not in BUILT:
        return None
    if kind == "half_wall":
        return ()
    if kind == "curb" and wall.face == "outside":
        return (_along(room, wall, "lumber of the curb, stacked flat"),)
    lent = tuple(lent)
    if kind == "curb":
        return lent
    pieces = (_upright(room, wall, planned, u) for u in _places(room, wall, planned, lent))
    return (*lent, *(piece for piece in pieces if piece is not None))


def with_cap_plate(room: Room, wall: Wall, supports: tuple[Support, ...]) -> tuple[Support, ...]:
    """The supports of a wall; of a half wall without a top plate to bevel: cut below one that is let in under its cap.

    The plate follows the top, which may fall along the wall; the studs are cut to its slope. Common practice, no
    source.
    """
    capped = any(one.kind == "half_wall" and one.wall == wall.id for one in room.features)
    if not capped or any(s.kind == "plate" and abs(box(s.outline)[3] - wall.top) <= TOUCH for s in wall.supports):
        return supports
    plate = _cap_plate(room, wall)
    return (*(below_plate(s, plate) if is_upright(s) else s for s in supports), plate)


def under_cap_plate(stud: Support, supports: Iterable[Support]) -> Support:
    """A stud that is added after the plate under a cap was: it ends below that."""
    plates = (s for s in supports if s.wall == stud.wall and s.kind == "plate" and s.reason == CAP_PLATE)
    return next((below_plate(stud, plate) for plate in plates), stud)


def _cap_plate(room: Room, wall: Wall) -> Support:
    stud = room.choices.added_stud[wall.id]
    line = top_line(wall.outline)
    (u0, v0), (u1, v1) = line[0], line[-1]
    thick = stud.face * hypot(1.0, (v1 - v0) / (u1 - u0))
    ring = canonical(((u0, v0 - thick), (u1, v1 - thick), (u1, v1), (u0, v0)))
    axis = (u0, tidy(v0 - thick / 2)), (u1, tidy(v1 - thick / 2))
    return _support(wall, "plate", ring, axis, stud, stud.depth, CAP_PLATE)


def below_plate(stud: Support, plate: Support) -> Support:
    """A stud cut to the lower side of a plate, which may slope."""
    left, low, right, high = box(stud.outline)
    ends = sorted(stud.axis, key=lambda end: end[1])
    over = [tidy(_span(plate.outline, at)[0]) for at in (left, ends[1][0], right)]
    if high <= min(over):
        return stud
    ring = canonical(((left, low), (right, low), (right, over[2]), (left, over[0])))
    reason = f"{stud.reason}; cut below the new top plate"
    return replace(stud, outline=ring, axis=(ends[0], (ends[1][0], over[1])), reason=reason)


def _along(room: Room, wall: Wall, reason: str) -> Support:
    """One piece as wide as the face."""
    left, low, right, high = box(wall.outline)
    middle = tidy((left + right) / 2)
    stud = room.choices.added_stud[wall.id]
    return _support(wall, "plate", wall.outline, ((middle, low), (middle, high)), stud, stud.depth, reason)


def seen_tops(room: Room, walls: Iterable[PlannedWall], pieces: Iterable[Support]) -> Iterator[Support]:
    """Upper sides of pieces that a sloped top is fastened to: a half wall's plate, knee studs, the lumber of a curb."""
    planned, own = {wall.id: wall for wall in walls}, tuple(pieces)
    for feature in (feature for feature in room.features if feature.kind in BUILT):
        faces = {planned[face].face: planned[face] for face in feature.faces}
        if feature.kind == "half_wall":
            top = max((box(s.outline)[3] for s in own if s.wall == feature.wall), default=0.0)
            plates = (s for s in own if s.wall == feature.wall and s.kind == "plate" and box(s.outline)[3] >= top)
            yield from (_whole(faces["cap"], plate) for plate in plates)
        if feature.kind == "curb":
            stacks = [s for s in own if s.wall == faces["outside"].id]
            yield from (_whole(faces[kind], stack) for kind in BONDED for stack in stacks)
        if feature.kind == "bench":
            stands = (faces[kind] for kind in ("front", "left", "right") if kind in faces)
            # Knee studs askew to the joists, under the ends of a seat with five sides, carry no edge that is judged.
            ends = {side.id: side for side in stands if _along_or_across(side, faces["seat"])}
            fit = room.limit("fit")
            yield from (_top(faces["seat"], ends[s.wall], s, fit) for s in own if s.wall in ends)


def _along_or_across(side: PlannedWall, seat: PlannedWall) -> bool:
    cosine = abs(sum(a * b for a, b in zip(side.u_axis, seat.u_axis, strict=True)))
    return min(cosine, abs(1.0 - cosine)) < NOISE


def _whole(face: PlannedWall, piece: Support) -> Support:
    """A piece that fills a face."""
    left, low, right, high = box(face.outline)
    middle = tidy((left + right) / 2)
    axis = ((middle, low), (middle, high))
    return replace(piece, wall=face.id, outline=face.outline, axis=axis, same_as=piece.id)


def _top(seat: PlannedWall, side: PlannedWall, stud: Support, fit: float) -> Support:
    """The upper end of a knee stud, cut to the slope, as the seat sees it; joists begin behind it."""
    left, _, right, high = box(stud.outline)
    corners = [seat.frame.of(side.frame.at(u, high, w)) for u in (left, right) for w in (-stud.depth, 0.0)]
    low_u, low, high_u, up = box([(u, v) for u, v, _ in corners])
    if side.face == "front":
        low, up = 0.0, stud.depth / seat.w_axis[2]
    else:
        up = box(seat.outline)[3]
        low = up - (right - left) - fit - _lean(seat) * stud.depth
    ring = rectangle(low_u, low, high_u, up)
    _, low, _, up = box(ring)
    middle = tidy((low_u + high_u) / 2)
    return replace(stud, wall=seat.id, outline=ring, axis=((middle, low), (middle, up)), same_as=stud.id)


def _lean(face: PlannedWall) -> float:
    """How far a piece square to a sloped face runs out of plumb, mm for each mm of its depth."""
    return float((1.0 - face.w_axis[2] ** 2) ** 0.5)


def _upright(room: Room, wall: Wall, planned: PlannedWall, u: float) -> Support | None:
    """A knee stud or a joist; None where the tip of a corner seat leaves a joist no room behind the knee stud."""
    stud = room.choices.added_stud[wall.id]
    left, right = u - stud.face / 2, u + stud.face / 2
    reason = f"{_WORDS[wall.face]} of {wall.feature}"
    if wall.face == "seat":
        low, high = _heights(wall.outline, left, right)
        slack = _lean(planned) * stud.depth
        if kind_of(room, wall.id) == "deck":  # its upper end leans towards the wall
            high -= slack
        if kind_of(room, wall.id) == "bench":  # from the back of the knee studs to the wall, or to a knee stud there
            low, high = low + stud.depth / planned.w_axis[2], high - slack - _back_stud(room, wall, left, right)
            if high - low < stud.face:
                return None
        ring = rectangle(left, low, right, high)
    else:
        low, high = 0.0, min(_span(wall.outline, at)[1] for at in (left, right))
        ring = rectangle(left, low, right, high)
    return _support(wall, "stud", ring, ((tidy(u), tidy(low)), (tidy(u), tidy(high))), stud, stud.depth, reason)


def _back_stud(room: Room, seat: Wall, left: float, right: float) -> float:
    """What the knee stud at the wall takes under an end of the seat that stands free; 0 elsewhere."""
    faces = {wall.face for wall in room.walls if wall.feature == seat.feature}
    edges = box(seat.outline)
    free = ("left" in faces and left <= edges[0] + TOUCH) or ("right" in faces and right >= edges[2] - TOUCH)
    return room.choices.added_stud[seat.id].face + room.limit("fit") if free else 0.0


def _support(
    wall: Wall, kind: str, ring: Ring, axis: tuple[Point, Point], stud: StudProfile, depth: float, reason: str
) -> Support:
    return Support(
        id="",
        wall=wall.id,
        kind="plate" if kind == "plate" else "stud",
        origin="added",
        outline=ring,
        axis=axis,
        depth=depth,
        material=stud.material,
        reason=reason,
        cause="cure",
        profile_id=stud.id,
        room_path=wall.path,
    )


def _heights(outline: Ring, left: float, right: float) -> tuple[float, float]:
    """v from and to of a piece between two u, as long as its longer side; its end is cut to the slope on site."""
    spans = [_span(outline, u) for u in (left, right)]
    return tidy(min(low for low, _ in spans)), tidy(max(high for _, high in spans))


def _span(outline: Ring, u: float) -> tuple[float, float]:
    at = [
        p[1] + (u - p[0]) / (q[0] - p[0]) * (q[1] - p[1])
        for p, q in zip(outline, (*outline[1:], outline[0]), strict=True)
        if p[0] != q[0] and min(p[0], q[0]) - NOISE <= u <= max(p[0], q[0]) + NOISE
    ]
    return min(at), max(at)


def _places(room: Room, wall: Wall, planned: PlannedWall, lent: tuple[Support, ...]) -> Iterator[float]:
    """Middles of the uprights: at both ends, unless a neighbour's stands there, and between at the spacing."""
    half, least = room.choices.added_stud[wall.id].face / 2, room.limit("bearing-edge")
    left, _, right, _ = box(wall.outline)
    edges = box([p for region in planned.wet_region for p in region.ring])
    ends = (max(left, edges[0]), min(right, edges[2]))
    # Flush with the framing where that leaves the board its bearing; else where the board begins.
    if wall.face in ("left", "right"):
        least = 2 * half
    first = left + half if left + 2 * half - ends[0] >= least - NOISE else ends[0] + half
    last = right - half if ends[1] - right + 2 * half >= least - NOISE else ends[1] - half
    taken = [face(s) for s in lent if is_upright(s)]
    for u, edge in ((first, ends[0]), (last, ends[1])):
        if not any(a - NOISE <= edge <= b + NOISE for a, b in taken):
            yield tidy(u)
    yield from _between(first, last, taken, room.limit("support-spacing"))


def _between(first: float, last: float, taken: list[tuple[float, float]], spacing: float) -> Iterator[float]:
    parts = ceil((last - first) / spacing - NOISE)
    for index in range(1, parts):
        u = first + (last - first) * index / parts
        if not any(a <= u <= b for a, b in taken):
            yield tidy(u)
