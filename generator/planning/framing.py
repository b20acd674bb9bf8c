"""Framing as planned: what was found, and what must be added for corners, ends, legs and spacing.

Order matters: a stud that a corner or an end needs anyway may close a bay as well, so those come first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import ceil

from generator.model.ends import foot, height_at, top_line
from generator.model.geometry import NOISE, TOUCH, box
from generator.model.plan import PlannedWall, Support
from generator.model.room import Room, Side, Wall
from generator.planning.bays import Bay, centre, face_between, find_bays, heights, is_upright, off_axis
from generator.planning.benches import between_plates, built_supports, seen_tops, with_cap_plate
from generator.planning.blocking.mounts import back_lines
from generator.planning.borrowing import borrowed
from generator.planning.doubling import doubles, outermost
from generator.planning.mouths import clear_of_mouths, frame_mouths, lines_a_mouth, strip_fronts
from generator.planning.room_corners import board_thickness
from generator.planning.soffits import between_rails, packing, soffit_edges, soffit_supports
from generator.planning.supports import Cause, added_stud, found_supports, named, nearest_place, steps_near
from generator.units import label

Supports = tuple[Support, ...]


def plan_supports(room: Room, walls: tuple[PlannedWall, ...]) -> Supports:
    """Found and added supports of every wall (those that only seams need come later), with ids.

    Walls and faces that borrow their neighbours' framing come last, when that stands.
    """
    ids = [wall.id for wall in room.walls]
    pairs = tuple(zip(room.walls, walls, strict=True))
    own = [s for wall, planned in pairs if not wall.borrows for s in _wall_supports(room, wall, planned, ())]
    stands = named(own, ids)
    for wall, planned in (pair for pair in pairs if pair[0].borrows):
        lent = tuple(borrowed(planned, walls, stands))
        own += [s for s in _wall_supports(room, wall, planned, lent) if s.same_as is None]
    return with_borrowed(room, walls, own)


def with_borrowed(room: Room, walls: tuple[PlannedWall, ...], own: Iterable[Support]) -> Supports:
    """Ids given anew, and the sides that each borrowing wall sees of the others' pieces."""
    ids = [wall.id for wall in room.walls]
    pieces = named((s for s in own if s.same_as is None), ids)
    borrowers = [planned for wall, planned in zip(room.walls, walls, strict=True) if wall.borrows]
    sides = [side for planned in borrowers for side in borrowed(planned, walls, pieces)]
    sides += strip_fronts(room, walls, pieces)
    sides += seen_tops(room, walls, pieces)
    return tuple(sorted((*pieces, *_sides_named(sides, pieces)), key=lambda s: s.id))


def _sides_named(sides: Iterable[Support], pieces: Supports) -> Iterator[Support]:
    """Numbered behind the wall's own pieces, so that these keep their ids."""
    numbers = Counter(piece.wall for piece in pieces)
    for side in sorted(sides, key=lambda s: (s.wall, box(s.outline), s.same_as or "")):
        numbers[side.wall] += 1
        yield replace(side, id=f"S-{side.wall}-{numbers[side.wall]:02d}")


def _wall_supports(room: Room, wall: Wall, planned: PlannedWall, lent: Supports) -> Supports:
    if wall.masonry:  # its strips stand where the seams will be: planned apart
        return ()
    for build in (built_supports, soffit_supports):
        if (built := build(room, wall, planned, lent)) is not None:
            return built
    supports = frame_mouths(room, wall, planned, (*found_supports(wall), *lent))
    if lines_a_mouth(room, wall):
        return supports
    for step in (_back_ends, _double_ends, _back_legs, _back_soffits, back_lines, _close_bays):
        supports = step(room, wall, planned, supports)
    return with_cap_plate(room, wall, supports)


def _back_ends(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    sides: tuple[Side, Side] = ("left", "right")
    for index, side in enumerate(sides):
        edge = end_span(wall, planned, side)
        if wall.beside[index] == "wallboard":
            supports = _back_wallboard(room, wall, supports, edge[0])
        else:
            supports = _back_edge(room, wall, supports, edge, side)
    return supports


def _double_ends(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    """Where the boards round a corner leave no place for washers on the stud in it, one more takes the screws."""
    sides: tuple[Side, Side] = ("left", "right")
    for side in sides:
        for place, stud in doubles(room, wall, planned, side, supports).items():
            reason = f"takes the screws that the stud {label(centre(stud), room.units)} from the left has no place for"
            supports = _with_stud(room, wall, supports, place, reason, "cure")
    return supports


def end_span(wall: Wall, planned: PlannedWall, side: Side) -> tuple[float, float]:
    """The least and the greatest u of the line where the boards of a wall end: one where it is plumb."""
    us = [u for u, _ in outermost(wall, planned, side)]
    return min(us), max(us)


def edge_bearing(supports: Supports, us: tuple[float, float], side: Side, low: float, high: float) -> float:
    """Bearing (mm) of an upright board edge between two u, from low to high, on the best single upright support.

    `side` is the side of the board that the edge is: a left edge has its board to the right.
    """
    best = 0.0
    for support in supports:
        if not is_upright(support) or heights(support)[0] > low + TOUCH or heights(support)[1] < high - TOUCH:
            continue
        left, right = face_between(support, low, high)
        if left <= us[0] + TOUCH and us[1] - TOUCH <= right:
            best = max(best, right - us[1] if side == "left" else us[0] - left)
    return best


def _added_face(room: Room, wall: Wall) -> float:
    """Width of the face of a stud added to this wall, in mm."""
    return room.choices.added_stud[wall.id].face


def _back_edge(room: Room, wall: Wall, supports: Supports, us: tuple[float, float], side: Side) -> Supports:
    """A corner or free edge needs bearing alone: a stud whose face starts at the edge, or as near as it can."""
    at_corner = wall.beside[0 if side == "left" else 1] == "corner"
    low, high = _edge_heights(wall, room, us)
    if edge_bearing(supports, us, side, low, high) >= room.limit("bearing-edge") - NOISE:
        return supports
    half, least = _added_face(room, wall) / 2, room.limit("bearing-edge")
    window = (us[1] + least - half, us[0] + half) if side == "left" else (us[1] - half, us[0] - least + half)
    corner = foot(wall.outline, side)
    flush = corner + half if side == "left" else corner - half
    wanted = flush if at_corner else window[1 if side == "left" else 0]
    place = nearest_place(room, wall, supports, wanted, *window)
    reason = f"backing for the {'corner' if at_corner else 'free'} edge at {label(us[0], room.units)} from the left"
    return _with_stud(room, wall, supports, place, reason, "cure" if at_corner else "seam")


def _edge_heights(wall: Wall, room: Room, us: tuple[float, ...]) -> tuple[float, float]:
    """The heights over which an upright edge of the boards at these u wants a support: all but the plates."""
    high = min(wall.top, *(height_at(top_line(wall.outline), u) for u in us))
    low = room.limit("leg-gap")
    plates = [box(s.outline) for s in wall.supports if s.kind == "plate"]
    bottom = max((p[3] for p in plates if p[3] < wall.top / 2), default=low)
    top = min((p[1] for p in plates if p[1] > wall.top / 2), default=high - room.limit("fit"))
    return max(low, bottom), min(top, high - (room.limit("fit") if wall.to_ceiling else 0.0))


def _back_wallboard(room: Room, wall: Wall, supports: Supports, u: float) -> Supports:
    """Board and wallboard share the face of one stud: its centre within the tolerance of the edge."""
    slack = room.limit("seam-on-axis")
    low, high = _edge_heights(wall, room, (u,))
    for support in supports:
        covers = heights(support)[0] <= low + TOUCH and heights(support)[1] >= high - TOUCH
        if is_upright(support) and covers and off_axis(support, u, low, high) <= slack + NOISE:
            return supports
    place = nearest_place(room, wall, supports, u, u - slack, u + slack)
    reason = f"shared by board and wallboard at {label(u, room.units)} from the left"
    return _with_stud(room, wall, supports, place, reason, "seam")


def _back_legs(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    """Both upright edges of a leg need a stud; the outer one is an end of the boards and has its own."""
    for u, side, low, high in leg_edges(room, wall, planned):
        if edge_bearing(supports, (u, u), side, low, high) >= room.limit("bearing-edge") - NOISE:
            continue
        half, least = _added_face(room, wall) / 2, room.limit("bearing-edge")
        window = (u + least - half, u + half) if side == "left" else (u - half, u - least + half)
        place = nearest_place(room, wall, supports, window[1 if side == "left" else 0], *window)
        reason = f"backing for the leg's inner edge at {label(u, room.units)} from the left"
        supports = _with_stud(room, wall, supports, place, reason, "seam")
    return supports


def leg_edges(room: Room, wall: Wall, planned: PlannedWall) -> list[tuple[float, Side, float, float]]:
    """(u, side of the board, from, to) of every inner edge of a leg beside the base."""
    edges: list[tuple[float, Side, float, float]] = []
    gap = room.limit("leg-gap")
    low = _edge_heights(wall, room, wall.reach)[0]
    for base in room.base.sides:
        if base.wall != wall.id or not any(a.name == "base" for a in planned.allowances):
            continue
        top = min(v for a in planned.allowances if a.name == "base" for _, v in a.ring if v > 0.0)
        if base.start > wall.reach[0] + gap + NOISE:
            edges.append((base.start - gap, "right", low, top))
        if base.end + gap < wall.reach[1] - NOISE:
            edges.append((base.end + gap, "left", low, top))
    return edges


def _back_soffits(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    """Beside a soffit the boards end at an upright edge, over the height of the soffit: there their screws have to
    stand clear of its boards' faces."""
    washer = max(screw.washer_diameter for kind, screw in room.choices.screws.items() if kind != "masonry")
    least = max(room.limit("bearing-edge"), board_thickness(room) - room.limit("fit") + washer / 2)
    for u, side, low in soffit_edges(wall, planned):
        high = _edge_heights(wall, room, (u,))[1]
        if edge_bearing(supports, (u, u), side, low, high) >= least - NOISE:
            continue
        half = _added_face(room, wall) / 2
        window = (u + least - half, u + half) if side == "left" else (u - half, u - least + half)
        place = nearest_place(room, wall, supports, window[1 if side == "left" else 0], *window)
        reason = f"backing for the edge beside the soffit at {label(u, room.units)} from the left"
        if place is None:
            supports = (*supports, *packing(room, wall, supports, (u, side), (low, high)))
        supports = _with_stud(room, wall, supports, place, reason, "seam")
    return supports


def _close_bays(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    """Add studs until every bay behind the boards is at most the spacing; give up where none can stand."""
    hopeless: set[Bay] = set()
    while True:
        wide = [b for b in wide_bays(room, planned, supports) if b not in hopeless]
        if not wide:
            return supports
        bay = wide[0]
        place = _bay_place(room, wall, supports, bay)
        if place is None:
            hopeless.add(bay)
            continue
        reason = f"closes the bay, {label(bay.left, room.units)} to {label(bay.right, room.units)} from the left"
        supports = _with_stud(room, wall, supports, place, reason, "cure")


def wide_bays(room: Room, planned: PlannedWall, supports: Supports) -> list[Bay]:
    """The bays of a wall that are wider than the profile's spacing."""
    own = [s for s in supports if s.wall == planned.id]
    bays = find_bays(planned.wet_region, own, room.limit("bearing-edge"))
    return [bay for bay in bays if bay.width > room.limit("support-spacing") + NOISE]


def _bay_place(room: Room, wall: Wall, supports: Supports, bay: Bay) -> float | None:
    """Near an equal division of the bay, no farther from its left end than the spacing; else farther left."""
    spacing = room.limit("support-spacing")
    parts = ceil(bay.width / spacing - NOISE)
    share = bay.width / parts
    low, high = bay.right - (parts - 1) * spacing, bay.left + spacing
    place = nearest_place(room, wall, supports, _on_step(room, bay.left + share, low, high), low, high)
    if place is not None:
        return place
    return nearest_place(room, wall, supports, bay.left + share, bay.left + NOISE, bay.left + spacing)


def _on_step(room: Room, u: float, low: float, high: float) -> float:
    """The place on the paper's step nearest to u, where one lies between low and high; else u."""
    return next(steps_near(room, u, low, high), u)


def _with_stud(room: Room, wall: Wall, supports: Supports, place: float | None, reason: str, cause: Cause) -> Supports:
    if place is None:
        return supports
    stud = between_plates(added_stud(room, wall, place, reason, cause), supports)
    return (*supports, *clear_of_mouths(room, wall, stud, supports))


def with_seam_studs(
    room: Room, walls: tuple[PlannedWall, ...], supports: Supports, seams: dict[str, tuple[float, ...]]
) -> Supports:
    """The supports with a stud added at each given u (by wall) that only a seam needs; ids given anew."""
    added = [
        piece
        for wall in room.walls
        for u in seams.get(wall.id, ())
        for piece in clear_of_mouths(room, wall, _seam_stud(room, wall, u, supports), supports)
    ]
    return with_borrowed(room, walls, (*supports, *added))


def _seam_stud(room: Room, wall: Wall, u: float, supports: Supports) -> Support:
    stud = added_stud(room, wall, u, f"carries the seam at {label(u, room.units)}", "seam")
    return between_plates(between_rails(room, stud, supports), supports)
