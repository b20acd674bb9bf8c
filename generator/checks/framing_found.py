"""The framing as it stands today: what is broken here is cured by carpentry before any board goes up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from generator.checks.measuring import (
    at,
    bearing,
    edge_wall,
    edges_of,
    framing_on,
    inwards,
    is_upright_edge,
    line_place,
    on_framing,
    on_wall,
    or_note,
    outline_place,
    room_wall,
    say,
    tightest,
    unmeasured,
    wall_path,
)
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import TOUCH, Ring, box, canonical, rectangle, tidy
from generator.model.plan import (
    Edge,
    Plan,
    PlannedFitting,
    PlannedWall,
    Support,
)
from generator.model.room import Room, Wall
from generator.planning.bays import Bay, centre, face, fills_between, find_bays, heights, is_upright
from generator.planning.benches import kind_of
from generator.planning.cures import add_cure, move_cure


def spacing_found(room: Room, plan: Plan) -> Iterator[Measure]:
    """Studs behind the boards stand no farther apart, centre to centre and from the boards' edge, than the limit."""
    bays = ((wall, bay) for wall in plan.walls for bay in _found_bays(room, plan, wall))
    measures = (_bay_measure(room, plan, wall.id, bay) for wall, bay in bays)
    return or_note(tightest(room.rules["support-spacing"], measures), "no wall has boards")


def _found_bays(room: Room, plan: Plan, wall: PlannedWall) -> tuple[Bay, ...]:
    if kind_of(room, wall.id) is not None:  # nothing of it is there yet
        return ()
    found = _standing(plan, wall.id)
    there = (*_uncut(found), *_strips(plan, wall)) if wall.mouths else found
    return find_bays(wall.wet_region, there, room.limit("bearing-edge"))


def _standing(plan: Plan, wall_id: str) -> list[Support]:
    """What is there today. A plate let in under a cap takes the place of the stud ends that are cut for it."""
    plates = (s for s in on_wall(plan.supports, wall_id, "added") if s.kind == "plate")
    return [*on_wall(plan.supports, wall_id, "found"), *plates]


def _strips(plan: Plan, wall: PlannedWall) -> Iterator[Support]:
    """Bevelled strips under sills, seen from the front: they come with the niche or window, and are no lack of now."""
    sills = {support.id for support in plan.supports if plan.wall(support.wall).face == "sill"}
    return (s for s in plan.supports if s.wall == wall.id and s.same_as in sills)


def _uncut(found: Iterable[Support]) -> Iterator[Support]:
    """Supports as they stand today: the pieces of one that is to be cut for a niche are still one."""
    by_path: dict[str, list[Support]] = {}
    for support in found:
        by_path.setdefault(support.room_path, []).append(support)
    return (_whole(pieces) if len(pieces) > 1 else pieces[0] for pieces in by_path.values())


def _whole(pieces: list[Support]) -> Support:
    ends = sorted((end for piece in pieces for end in piece.axis), key=lambda p: (p[1], p[0]))
    corners = sorted((p for piece in pieces for p in piece.outline), key=lambda p: (p[1], p[0]))
    ring = canonical((corners[0], corners[1], corners[-1], corners[-2]))
    return replace(pieces[0], outline=ring, axis=(ends[0], ends[-1]))


def _bay_measure(room: Room, plan: Plan, wall_id: str, bay: Bay) -> Measure:
    subject = f"{wall_id}: bay from {at(room, wall_id, bay.left)} to {at(room, wall_id, bay.right)}"
    if room_wall(room, wall_id).mouths:  # one bay above a niche or window and one below it are two things to mend
        subject += f", {say(bay.low, room.units)} to {say(bay.high, room.units)} up"
    place = outline_place(wall_id, ((bay.left, bay.low), (bay.right, bay.high)))
    added = [s for s in _cures(plan, wall_id) if is_upright(s) and bay.left < centre(s) < bay.right]
    added = [s for s in added if heights(s)[0] < bay.high - TOUCH and heights(s)[1] > bay.low + TOUCH]
    cure = add_cure(room, room_wall(room, wall_id), added)
    return Measure(subject, tidy(bay.width), place, f"{wall_path(room, wall_id)}.supports", cure)


def _cures(plan: Plan, wall_id: str) -> list[Support]:
    """Supports that planning adds because the framing as found breaks a rule."""
    return [s for s in on_wall(plan.supports, wall_id, "added") if s.cause == "cure"]


def corner_backing(room: Room, plan: Plan) -> Iterator[Measure]:
    """Both walls of an inside corner have something there to fasten a board's edge to."""
    ends = ((wall, side) for wall in room.walls for side in (0, 1) if wall.beside[side] == "corner")
    measures = (_backing(room, plan, wall, side) for wall, side in ends)
    return or_note((m for m in measures if m), "no corner in this room")


def _backing(room: Room, plan: Plan, wall: Wall, side: int) -> Measure | None:
    """The least bearing of the boards' edges at one end of a wall, on what was found there."""
    found = _standing(plan, wall.id)
    upright = (e for e in edges_of(plan, "corner") if is_upright_edge(e) and edge_wall(plan, e) == wall.id)
    edges = [e for e in upright if not _beside_built(wall, e)]
    here = [e for e in edges if inwards(e) == (1.0 if side == 0 else -1.0)]
    if not here:
        return None
    edge = min(here, key=lambda e: bearing(on_framing(plan, e), found)[0])
    subject = f"{wall.id}: backing at the {'left' if side == 0 else 'right'} corner"
    place, cure = line_place(wall.id, edge.p, edge.q), _backing_cure(room, plan, wall, edge)
    return Measure(subject, bearing(on_framing(plan, edge), found)[0], place, f"{wall.path}.supports", cure)


def _beside_built(wall: Wall, edge: Edge) -> bool:
    """True of an edge along a niche, a window or a soffit, whose framing is planned with it."""
    rings = (*(mouth.ring for mouth in wall.mouths), *(taken.ring for taken in wall.allowances))
    return any(
        left - TOUCH <= u <= right + TOUCH and low - TOUCH <= v <= high + TOUCH
        for left, low, right, high in map(box, rings)
        for u, v in [((edge.p[0] + edge.q[0]) / 2, (edge.p[1] + edge.q[1]) / 2)]
    )


def _backing_cure(room: Room, plan: Plan, wall: Wall, edge: Edge) -> Cure | None:
    added = [s for s in _cures(plan, wall.id) if face(s)[0] <= edge.p[0] <= face(s)[1]]
    return add_cure(room, wall, added[:1])


def collision_body_found(room: Room, plan: Plan) -> Iterator[Measure]:
    """No stud stands in the way of a valve's body or its supplies."""
    return _collisions(room, plan, "collision-body", "found")


def collision_pipe_found(room: Room, plan: Plan) -> Iterator[Measure]:
    """No stud stands in the way of a pipe with its clearance."""
    return _collisions(room, plan, "collision-pipe", "found")


def collision_body_planned(room: Room, plan: Plan) -> Iterator[Measure]:
    """No added support stands in the way of a valve's body or its supplies."""
    return _collisions(room, plan, "collision-body", "added")


def collision_pipe_planned(room: Room, plan: Plan) -> Iterator[Measure]:
    """No added support stands in the way of a pipe with its clearance."""
    return _collisions(room, plan, "collision-pipe", "added")


def _collisions(room: Room, plan: Plan, rule: str, origin: str) -> Iterator[Measure]:
    is_pipe = rule == "collision-pipe"
    fittings = [f for f in plan.fittings if (f.outside_diameter is not None) == is_pipe]
    none = (
        "no pipe comes" if is_pipe else "no valve stands"
    ) + f" near {'a' if origin == 'found' else 'an added'} support"
    return or_note((m for f in fittings for m in _against(room, plan, f, origin)), none)


def _against(room: Room, plan: Plan, fitting: PlannedFitting, origin: str) -> Iterator[Measure]:
    """The fitting against each support that it meets; against the nearest when it meets none."""
    path = next(f.path for f in room.fittings if f.id == fitting.id)
    if fitting.outside_diameter is None and fitting.body is None:
        text = f"{fitting.id}: size of its body behind the board is not known; confirm that it clears the studs"
        yield unmeasured(text, "confirm", fitting.wall, path)
        return
    apart = sorted(
        ((fitting_distance(room, fitting, s), s) for s in framing_on(plan.supports, fitting.wall, origin)),
        key=lambda pair: (pair[0], pair[1].id),
    )
    for distance, support in apart[:1] + [pair for pair in apart[1:] if pair[0] < 0]:
        cure = _move(room, plan, support) if distance < 0 and origin == "found" else None
        subject = f"{fitting.id} and the {support.kind} at {at(room, fitting.wall, sum(face(support)) / 2)}"
        yield Measure(subject, distance, Place(fitting.wall, _beside(room, fitting, support)), path, cure)


def _beside(room: Room, fitting: PlannedFitting, support: Support) -> Ring:
    """The part of a support's face at the heights of a fitting; the whole face where it does not reach there."""
    half = fitting.body[1] / 2 if fitting.body else 0.0
    if fitting.outside_diameter is not None:
        half = (fitting.outside_diameter + room.limit("pipe-clearance")) / 2
    left, low, right, high = box(support.outline)
    low, high = max(low, fitting.centre[1] - half), min(high, fitting.centre[1] + half)
    return rectangle(left, low, right, high) if high > low else support.outline


def _move(room: Room, plan: Plan, support: Support) -> Cure:
    return move_cure(room, plan.wall(support.wall), on_wall(plan.supports, support.wall, "found"), support)


def fitting_distance(room: Room, fitting: PlannedFitting, support: Support) -> float:
    """mm from the body, or from the pipe with its clearance, to the support's face; negative when they overlap."""
    u, v = fitting.centre
    if fitting.outside_diameter is not None:
        radius = (fitting.outside_diameter + room.limit("pipe-clearance")) / 2
        return tidy(box_distance(support, (u, v, u, v)) - radius)
    width, height, _ = fitting.body or (0.0, 0.0, 0.0)
    return tidy(box_distance(support, (u - width / 2, v - height / 2, u + width / 2, v + height / 2)))


def box_distance(support: Support, other: tuple[float, float, float, float]) -> float:
    """mm between a support's face and an upright box; negative: the least move that would part them."""
    low, high = heights(support)
    left, right = fills_between(support, other[1], other[3])
    across, up = max(left - other[2], other[0] - right), max(low - other[3], other[1] - high)
    return (across**2 + up**2) ** 0.5 if across > 0 and up > 0 else max(across, up)
