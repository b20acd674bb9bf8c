"""Framing of what is built in the room: knee studs and joists of benches, the plate of a cap, the lumber of a curb.

None of it is there yet; all of it is listed to be added, in the frames of its faces.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil

from generator.model.features import FeatureKind
from generator.model.geometry import NOISE, Point, Ring, box, rectangle, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.planning.bays import face, is_upright

BUILT: tuple[FeatureKind, ...] = ("bench", "deck", "half_wall", "curb")
"""Features whose framing is made here, whole."""
BONDED = ("inside", "cap")
"""Faces of a curb that no screw goes through."""
_WORDS = {"front": "knee stud", "left": "knee stud", "right": "knee stud", "seat": "joist"}


def kind_of(room: Room, wall_id: str) -> FeatureKind | None:
    """The kind of feature that a wall is a face of; None for a wall of the room."""
    return next((feature.kind for feature in room.features if wall_id in feature.faces), None)


def is_bonded(room: Room, wall_id: str) -> bool:
    """True for the top and the inside face of a curb: their boards are bonded, and nothing is driven through them."""
    wall = next(wall for wall in room.walls if wall.id == wall_id)
    return kind_of(room, wall_id) == "curb" and wall.face in BONDED


def built_supports(room: Room, wall: Wall, planned: PlannedWall, lent: Iterable[Support]) -> tuple[Support, ...]:
    """All supports of a face of a bench, deck, cap or curb, with those that its neighbours lend; none for others."""
    kind = kind_of(room, wall.id)
    if kind not in BUILT:
        return ()
    if kind in ("half_wall", "curb"):
        return (_along(room, wall, kind),)
    lent = tuple(lent)
    return (*lent, *(_upright(room, wall, u) for u in _places(room, wall, planned, lent)))


def _along(room: Room, wall: Wall, kind: FeatureKind) -> Support:
    """One piece as wide as the face: the bevelled top plate of a half wall, or the stack of a curb."""
    left, low, right, high = box(wall.outline)
    middle = tidy((left + right) / 2)
    stud = room.choices.added_stud[wall.id]
    reason = "top plate, bevelled to the fall of the cap" if kind == "half_wall" else "lumber of the curb, on its flat"
    return _support(wall, "plate", wall.outline, ((middle, low), (middle, high)), stud, stud.face, reason)


def _upright(room: Room, wall: Wall, u: float) -> Support:
    stud = room.choices.added_stud[wall.id]
    low, high = _heights(wall.outline, u - stud.face / 2, u + stud.face / 2)
    ring = rectangle(u - stud.face / 2, low, u + stud.face / 2, high)
    reason = f"{_WORDS[wall.face]} of {wall.feature}"
    return _support(wall, "stud", ring, ((tidy(u), low), (tidy(u), high)), stud, stud.depth, reason)


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
