"""Whether stud faces lie in a plane as the tile wants, as found and with the shims of the plan.

Only walls that were measured off a string line are judged; the planned faces are worked out here from the readings
and the schedule, not taken from the planner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import dist

from generator.checks.measuring import at, or_note, outline_place, room_wall, say
from generator.model.findings import Cure, Measure, Place, Verdict
from generator.model.geometry import box, tidy
from generator.model.plan import Plan
from generator.model.room import Room, Wall
from generator.model.stud_work import FinishedPlane, Shim
from generator.planning.flatness.faces import Face, Flatness, close_pairs, faces_of, wanted_flatness
from generator.planning.flatness.plan import flange_ties
from generator.planning.flatness.solve import flattest_plane

NOT_MEASURED = "no stud faces were measured off a string line"
GRAIN = 5
"""Decimals of a measured share: the plane is kept to 0.000001 mm in the plan."""
Off = Callable[[float, float], float]


def flatness_found(room: Room, plan: Plan) -> Iterator[Measure]:
    """Stud faces as found lie in a plane as the tile wants."""
    wanted = wanted_flatness(room)
    measures = []
    for wall in room.walls:
        faces = faces_of(room, wall)
        if faces:
            off = flattest_plane(faces, wanted)[0].off
            measures.append(_flat(room, wall, faces, off, "as found", _cure(room, plan, wall), "warn"))
    return or_note(measures, NOT_MEASURED)


def flatness_planned(room: Room, plan: Plan) -> Iterator[Measure]:
    """Stud faces with the plan's shims and planing lie in a plane as the tile wants."""
    planes = {plane.wall: plane for plane in plan.planes}
    measures = (
        _flat(room, wall, _finished(room, plan, wall), planes[wall.id].off, "shimmed and planed", None, "fail")
        for wall in room.walls
        if wall.id in planes
    )
    return or_note(measures, NOT_MEASURED)


def _finished(room: Room, plan: Plan, wall: Wall) -> list[Face]:
    """The faces with what the plan's schedule does to each."""
    paths = {s.id: s.room_path for s in plan.supports}
    moves = {(paths[s.support_id], s.v): forward(s) for s in plan.shims if s.wall == wall.id}
    return [replace(f, off=f.off - moves.get((f.support, f.v), 0.0)) for f in faces_of(room, wall)]


def forward(shim: Shim) -> float:
    """How far the schedule brings a face into the room, mm; negative where it is planed."""
    return shim.thickness if shim.work == "shim" else -shim.thickness


def _flat(
    room: Room, wall: Wall, faces: Sequence[Face], off: Off, state: str, cure: Cure | None, on_break: Verdict
) -> Measure:
    wanted = wanted_flatness(room)
    behind = [face.off - off(face.u, face.v) for face in faces]
    far, near = max(behind) - min(0.0, *behind), _near(faces, behind, wanted)
    share = round(max(far / wanted.far, near / wanted.near), GRAIN)
    subject = (
        f"{wall.id} {state}: faces up to {say(far, room.units)} behind the plane ({say(wanted.far, room.units)} "
        f"allowed), {say(near, room.units)} apart within {say(wanted.reach, room.units)} "
        f"({say(wanted.near, room.units)} allowed); {_tile(room)}"
    )
    worst = faces[max(range(len(faces)), key=behind.__getitem__)]
    place = Place(wall.id, ((worst.u, worst.v),))
    return Measure(subject, share, place, f"{wall.path}.string_line", cure, on_break)


def _near(faces: Sequence[Face], behind: Sequence[float], wanted: Flatness) -> float:
    """The greatest difference of two faces, brought to the reach where they lie farther apart."""
    apart = (
        abs(behind[i] - behind[j]) / max(1.0, dist((faces[i].u, faces[i].v), (faces[j].u, faces[j].v)) / wanted.reach)
        for i, j, _ in close_pairs(faces, wanted)
    )
    return max(apart, default=0.0)


def _tile(room: Room) -> str:
    longest = room.finish.longest
    if longest is None:
        return "longest edge of the tile not known, judged as large"
    return f"tile edge {say(longest, room.units)}"


def _cure(room: Room, plan: Plan, wall: Wall) -> Cure:
    own = [s for s in plan.shims if s.wall == wall.id]
    shims, planed = [s for s in own if s.work == "shim"], [s for s in own if s.work == "plane"]
    parts = [f"{len(shims)} shims of at most {say(max(s.thickness for s in shims), room.units)}"] if shims else []
    parts += [f"{len(planed)} stretches planed"] if planed else []
    text = f"shim schedule: {' and '.join(parts) or 'none will do'}"
    return Cure(text, "advice", wall.id, f"{wall.path}.string_line", 0.0)


def flatness_corner(room: Room, plan: Plan) -> Iterator[Measure]:
    """At a corner the first wall's shims leave something of its neighbour's fit allowance."""
    measures = [m for corner in room.corners if (m := _corner(room, plan, corner.first, corner.left_wall))]
    return or_note(measures, "no measured wall is boarded first in a corner")


def _corner(room: Room, plan: Plan, first: str, left_wall: str) -> Measure | None:
    wall = room_wall(room, first)
    own = [f for f in plan.faces if f.wall == first]
    if not own:
        return None
    stud = (max if first == left_wall else min)(own, key=lambda f: f.u)
    forwards = [forward(s) for s in plan.shims if s.support_id == stud.support_id]
    left = tidy(room.limit("fit") - max(0.0, *forwards, 0.0))
    subject = f"{first}: what the shims on the stud at {at(room, first, stud.u)} leave of the neighbour's fit"
    ends = plan.support(stud.support_id).axis
    cure = Cure("measure the neighbour's width again when the shims are on", "advice", first, wall.path, stud.u)
    return Measure(subject, left, Place(first, ends), f"{wall.path}.string_line", cure)


def flatness_flange(room: Room, plan: Plan) -> Iterator[Measure]:
    """The finished plane passes behind the flange's back by its gap where that was measured."""
    planes = {plane.wall: plane for plane in plan.planes}
    walls = [wall for wall in room.walls if wall.id in planes]
    measures = (m for wall in walls for m in _at_flange(room, wall, planes[wall.id]))
    return or_note(measures, "no flange was measured off a string line")


def _at_flange(room: Room, wall: Wall, plane: FinishedPlane) -> Iterator[Measure]:
    for tie in flange_ties(room, wall):
        apart = tidy(abs(plane.off(tie.u, tie.v) - tie.off))
        subject = f"{wall.id}: finished plane and the flange's back at {at(room, wall.id, tie.u)}"
        cure = Cure("fur the studs, or set the base again", "advice", wall.id, f"{wall.path}.flange_off", tie.u)
        yield Measure(subject, apart, Place(wall.id, ((tie.u, tie.v),)), f"{wall.path}.flange_off", cure)


def planing(room: Room, plan: Plan) -> Iterator[Measure]:
    """No stud is planed by more than the limit, and none of steel at all."""
    measures = []
    for shim in plan.shims:
        if shim.work == "plane":
            support = plan.support(shim.support_id)
            left, _, right, _ = box(support.outline)
            place = outline_place(shim.wall, ((left, shim.low), (right, shim.high)))
            steel = room.limit("planing") if support.material == "steel" else 0.0
            subject = f"{shim.id}: planing of {shim.support_id}" + (", which is steel" if steel else "")
            measures.append(Measure(subject, tidy(steel + shim.thickness), place, support.room_path))
    return or_note(measures, "no stud is planed")
