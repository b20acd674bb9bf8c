"""Framing of what is built in the room: of benches and decks, the plate of a cap, the lumber of a curb.

None of it is there yet; all of it is listed to be added, in the frames of its faces.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import atan, degrees, hypot

from generator.model.ends import top_line
from generator.model.features import FeatureKind
from generator.model.geometry import NOISE, TOUCH, Point, Ring, box, canonical, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.planning.bays import heights_at, is_upright
from generator.planning.seats.seen import seat_views
from generator.planning.seats.stand import stand
from generator.planning.seats.top import seat_top
from generator.planning.supports import found_support

BUILT: tuple[FeatureKind, ...] = ("bench", "deck", "half_wall", "curb")
"""Features whose framing is made here, whole."""
BONDED = ("inside", "cap")
"""Faces of a curb that no screw goes through."""


def kind_of(room: Room, wall_id: str) -> FeatureKind | None:
    """The kind of feature that a wall is a face of; None for a wall of the room."""
    return next((feature.kind for feature in room.features if wall_id in feature.faces), None)


def is_bonded(room: Room, wall_id: str) -> bool:
    """True for the top and the inside face of a curb: their boards are bonded, and nothing is driven through them."""
    wall = next(wall for wall in room.walls if wall.id == wall_id)
    return kind_of(room, wall_id) == "curb" and wall.face in BONDED


def built_supports(room: Room, wall: Wall, _: PlannedWall, lent: Iterable[Support]) -> tuple[Support, ...] | None:
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
    return (*lent, *(seat_top(room, wall) if wall.face == "seat" else stand(room, wall, lent)))


def with_cap_plate(room: Room, wall: Wall, supports: tuple[Support, ...]) -> tuple[Support, ...]:
    """The supports of a wall; of a half wall without a top plate to bevel: cut below one that is let in under its cap.

    The plate follows the top, which may fall along the wall; the studs are cut to its slope. Common practice, no
    source.
    """
    capped = any(one.kind == "half_wall" and one.wall == wall.id for one in room.features)
    if not capped or any(s.kind == "plate" and abs(box(s.outline)[3] - wall.top) <= TOUCH for s in wall.supports):
        return supports
    plate = found_support(wall, wall.rake) if wall.rake else _cap_plate(room, wall)
    return (*(_cut_for(s, plate) if is_upright(s) else s for s in supports), plate)


def between_plates(stud: Support, supports: Iterable[Support]) -> Support:
    """A stud that is added where plates are: it stands on those below its middle and ends under those above it."""
    middle = (stud.axis[0][1] + stud.axis[1][1]) / 2
    for plate in (s for s in supports if s.wall == stud.wall and s.kind == "plate"):
        left, low, right, _ = box(stud.outline)
        if not box(plate.outline)[0] - TOUCH <= left <= right <= box(plate.outline)[2] + TOUCH:
            continue
        if heights_at(plate, stud.axis[0][0])[0] > middle:
            stud = below_plate(stud, plate)
        elif (foot := box(plate.outline)[3]) > low:
            ends = sorted(stud.axis, key=lambda end: end[1])
            ring = canonical((u, max(v, foot)) for u, v in stud.outline)
            stud = replace(stud, outline=ring, axis=((ends[0][0], foot), ends[1]))
    return stud


def _cut_for(stud: Support, plate: Support) -> Support:
    cut = below_plate(stud, plate)
    new = cut is not stud and plate.origin == "added"
    return replace(cut, reason=f"{stud.reason}; cut below the new top plate") if new else cut


def _cap_plate(room: Room, wall: Wall) -> Support:
    stud = room.choices.added_stud[wall.id]
    line = top_line(wall.outline)
    (u0, v0), (u1, v1) = line[0], line[-1]
    rake = abs(v1 - v0) / (u1 - u0)
    thick = stud.face * hypot(1.0, rake)
    ring = canonical(((u0, v0 - thick), (u1, v1 - thick), (u1, v1), (u0, v0)))
    axis = (u0, tidy(v0 - thick / 2)), (u1, tidy(v1 - thick / 2))
    ends = f", both ends cut plumb, {degrees(atan(rake)):.1f} degrees off square" if rake > NOISE else ""
    return _support(wall, "plate", ring, axis, stud, stud.depth, f"top plate, bevelled for the cap{ends}")


def below_plate(stud: Support, plate: Support) -> Support:
    """A stud cut to the lower side of a plate, which may slope."""
    left, low, right, high = box(stud.outline)
    ends = sorted(stud.axis, key=lambda end: end[1])
    over = [tidy(_span(plate.outline, at)[0]) for at in (left, ends[1][0], right)]
    if high <= min(over):
        return stud
    ring = canonical(((left, low), (right, low), (right, over[2]), (left, over[0])))
    return replace(stud, outline=ring, axis=(ends[0], (ends[1][0], over[1])))


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
        if feature.kind in ("bench", "deck"):
            yield from seat_views(faces, own)


def _whole(face: PlannedWall, piece: Support) -> Support:
    """A piece that fills a face."""
    left, low, right, high = box(face.outline)
    middle = tidy((left + right) / 2)
    axis = ((middle, low), (middle, high))
    return replace(piece, wall=face.id, outline=face.outline, axis=axis, same_as=piece.id)


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


def _span(outline: Ring, u: float) -> tuple[float, float]:
    at = [
        p[1] + (u - p[0]) / (q[0] - p[0]) * (q[1] - p[1])
        for p, q in zip(outline, (*outline[1:], outline[0]), strict=True)
        if p[0] != q[0] and min(p[0], q[0]) - NOISE <= u <= max(p[0], q[0]) + NOISE
    ]
    return min(at), max(at)
