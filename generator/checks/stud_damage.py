"""Bored and notched studs: how much of the wood is gone, where, and whether a pipe in it is safe from screws.

The published rules speak of wood studs; steel ones are listed as not judged. A wall of unknown duty is judged as
bearing, and the subject says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.checks.codes import not_asked
from generator.checks.measuring import at, or_note, say, unmeasured
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import NOISE, box, tidy
from generator.model.plan import Plan
from generator.model.room import Duty, FoundSupport, Room, Wall
from generator.model.stud_work import Hole, Notch, Shim
from generator.planning.plates import UNPROTECTED, damage_of, face_distance

Damage = Hole | Notch
DUTY: dict[Duty, str] = {
    "bearing": "in a bearing wall",
    "non_bearing": "in a wall that bears no load",
    "unknown": "in a wall of unknown duty, judged as bearing",
}
MEND = "sister the stud or fit a listed reinforcement, as the building official or an engineer says"


def _judged(room: Room, rule: str, measures: Iterable[Measure], none: str) -> Iterator[Measure]:
    """The measures where the code asks for them, with a note for every damaged steel stud."""
    if reason := not_asked(room, rule):
        return iter((unmeasured(reason, "note", "", "place.code"),))
    return or_note((*measures, *_steel(room)), none)


def _steel(room: Room) -> Iterator[Measure]:
    for wall in room.walls:
        damaged = {d.support for d in damage_of(wall)}
        for stud in wall.supports:
            if stud.path in damaged and stud.profile.material == "steel":
                text = f"{_stud_words(room, wall, stud)}: steel, not judged here; the maker says what may be cut"
                yield unmeasured(text, "note", wall.id, stud.path)


def _stud(wall: Wall, path: str) -> FoundSupport:
    return next(s for s in wall.supports if s.path == path)


def _stud_words(room: Room, wall: Wall, stud: FoundSupport) -> str:
    return f"{wall.id}: {stud.kind} at {at(room, wall.id, stud.axis[0][0])}"


def _in_wood(room: Room) -> Iterator[tuple[Wall, FoundSupport, Damage]]:
    for wall in room.walls:
        for damage in damage_of(wall):
            stud = _stud(wall, damage.support)
            if stud.profile.material == "wood":
                yield wall, stud, damage


def _place(wall: Wall, stud: FoundSupport, low: float, high: float) -> Place:
    left, _, right, _ = box(stud.outline)
    return Place(wall.id, ((left, low), (right, low), (right, high), (left, high)))


def heights_of(damage: Damage) -> tuple[float, float]:
    """v from, v to of a hole or notch."""
    if isinstance(damage, Notch):
        return damage.low, damage.high
    return damage.v - damage.diameter / 2, damage.v + damage.diameter / 2


def _measure(
    room: Room, wall: Wall, stud: FoundSupport, damage: Damage, what: str, value: float, cure: str = MEND
) -> Measure:
    low, high = heights_of(damage)
    subject = f"{_stud_words(room, wall, stud)}, {what} at {say((low + high) / 2, room.units)} up, {DUTY[wall.duty]}"
    advice = Cure(cure, "advice", wall.id, damage.path, stud.axis[0][0])
    return Measure(subject, tidy(value), _place(wall, stud, low, high), damage.path, advice)


def notch_bearing(room: Room, plan: Plan) -> Iterator[Measure]:
    """A notch leaves enough of a stud that bears load, or may bear it."""
    return _judged(room, "notch-bearing", _notches(room, plan, True), "no notch in such a stud")


def notch_nonbearing(room: Room, plan: Plan) -> Iterator[Measure]:
    """A notch leaves enough of a stud that bears no load."""
    return _judged(room, "notch-nonbearing", _notches(room, plan, False), "no notch in such a stud")


def _bears(wall: Wall) -> bool:
    return wall.duty != "non_bearing"


def _notches(room: Room, plan: Plan, bears: bool) -> Iterator[Measure]:
    for wall, stud, damage in _in_wood(room):
        if isinstance(damage, Notch) and _bears(wall) == bears:
            share = damage.depth / stud.profile.depth
            yield _measure(room, wall, stud, damage, f"notch {say(damage.depth, room.units)} deep", share)
    for wall, stud, shim in _planed(room, plan):
        if _bears(wall) == bears:
            what = f"planed by {say(shim.thickness, room.units)}, a notch"
            notch = Notch(stud.path, stud.path, shim.low, shim.high, shim.thickness, "front", "nothing")
            yield _measure(room, wall, stud, notch, what, shim.thickness / stud.profile.depth)


def _planed(room: Room, plan: Plan) -> Iterator[tuple[Wall, FoundSupport, Shim]]:
    """Every stretch that the plan planes, with its stud as found."""
    for shim in plan.shims:
        if shim.work == "plane":
            wall = next(w for w in room.walls if w.id == shim.wall)
            yield wall, _stud(wall, plan.support(shim.support_id).room_path), shim


def bore_bearing(room: Room, _: Plan) -> Iterator[Measure]:
    """A hole leaves enough of a single stud that bears load, or may bear it."""
    measures = (_bored(room, *one) for one in _holes(room) if _bears(one[0]) and not _is_large(room, *one[1:]))
    return _judged(room, "bore-bearing", measures, "no hole in such a stud")


def bore_doubled(room: Room, _: Plan) -> Iterator[Measure]:
    """A hole too large for one bearing stud leaves enough of a doubled one."""
    measures = (_bored(room, *one) for one in _holes(room) if _bears(one[0]) and _is_large(room, *one[1:]))
    return _judged(room, "bore-doubled", measures, "no larger hole in a doubled stud")


def bore_nonbearing(room: Room, _: Plan) -> Iterator[Measure]:
    """A hole leaves enough of a stud that bears no load."""
    measures = (_bored(room, *one) for one in _holes(room) if not _bears(one[0]))
    return _judged(room, "bore-nonbearing", measures, "no hole in such a stud")


def _holes(room: Room) -> Iterator[tuple[Wall, FoundSupport, Hole]]:
    for wall, stud, damage in _in_wood(room):
        if isinstance(damage, Hole):
            yield wall, stud, damage


def _is_large(room: Room, stud: FoundSupport, hole: Hole) -> bool:
    """True for a hole that only a doubled bearing stud may have, in a doubled stud."""
    return hole.doubled and hole.diameter / stud.profile.depth > room.limit("bore-bearing") + NOISE


def _bored(room: Room, wall: Wall, stud: FoundSupport, hole: Hole) -> Measure:
    kind = "doubled, hole" if hole.doubled else "hole"
    what = f"{kind} {say(hole.diameter, room.units)} wide"
    return _measure(room, wall, stud, hole, what, hole.diameter / stud.profile.depth)


def bore_run(room: Room, _: Plan) -> Iterator[Measure]:
    """Not too many neighbouring doubled studs have a hole too large for one stud."""
    measures = (m for wall in room.walls if _bears(wall) for m in _runs(room, wall))
    return _judged(room, "bore-run", measures, "no larger hole in a doubled stud")


def _runs(room: Room, wall: Wall) -> Iterator[Measure]:
    """One measure for each run of neighbours, by their first stud."""
    large = {hole.support: hole for w, s, hole in _holes(room) if w is wall and _is_large(room, s, hole)}
    studs = sorted((s for s in wall.supports if s.kind == "stud"), key=lambda s: s.axis[0][0])
    run: list[FoundSupport] = []
    for stud in (*studs, None):
        if stud is not None and stud.path in large:
            run.append(stud)
        elif run:
            hole, count = large[run[0].path], len(run)
            what = f"first of {count} neighbouring doubled studs with a larger hole"
            yield _measure(room, wall, run[0], hole, what, float(count))
            run = []


def bore_edge(room: Room, _: Plan) -> Iterator[Measure]:
    """The edge of a hole keeps away from both faces of its stud."""
    measures = (_edge(room, *one) for one in _holes(room))
    return _judged(room, "bore-edge", measures, "no hole in a wood stud")


def _edge(room: Room, wall: Wall, stud: FoundSupport, hole: Hole) -> Measure:
    front, back = hole.from_face, stud.profile.depth - hole.from_face
    side = "at the boards" if front <= back else "at the back"
    nearest = min(front, back) - hole.diameter / 2
    return _measure(room, wall, stud, hole, f"wood between hole and the face {side}", nearest)


def bore_notch(room: Room, plan: Plan) -> Iterator[Measure]:
    """No hole lies beside a notch or a planed stretch of the same stud."""
    measures = (m for one in _holes(room) if (m := _beside(room, plan, *one)))
    return _judged(room, "bore-notch", measures, "no stud with both a hole and a notch")


def _beside(room: Room, plan: Plan, wall: Wall, stud: FoundSupport, hole: Hole) -> Measure | None:
    cuts = [(n.low, n.high, "notch") for n in wall.notches if n.support == stud.path]
    cuts += [(s.low, s.high, "planed stretch") for _, own, s in _planed(room, plan) if own is stud]
    low, high = heights_of(hole)
    apart = sorted((max(cut[0] - high, low - cut[1]), cut[2]) for cut in cuts)
    return _measure(room, wall, stud, hole, f"hole and its {apart[0][1]}", apart[0][0]) if apart else None


def shield_plate(room: Room, plan: Plan) -> Iterator[Measure]:
    """A pipe or cable through a stud is far enough from the face at the boards, or gets a steel plate."""
    measures = (_shield(room, plan, *one) for one in _in_wood(room))
    return _judged(room, "shield-plate", measures, "no hole or notch in a wood stud")


def _shield(room: Room, plan: Plan, wall: Wall, stud: FoundSupport, damage: Damage) -> Measure:
    if damage.carries not in UNPROTECTED:
        carried = "steel pipe" if damage.carries == "steel_pipe" else "nothing in it"
        text = f"{_stud_words(room, wall, stud)}: {carried}, no plate wanted"
        return unmeasured(text, "note", wall.id, damage.path)
    distance, what = face_distance(wall, damage), "hole" if isinstance(damage, Hole) else "notch"
    plate = next((p.id for p in plan.plates if p.room_path == damage.path), "")
    cure = f"steel shield plate {plate}".strip() + f" on the stud's face over the {damage.carries}"
    measure = _measure(room, wall, stud, damage, f"{damage.carries} in a {what}, from the face", distance, cure)
    return Measure(measure.subject, measure.value, measure.place, measure.room_path, measure.cure, "warn")
