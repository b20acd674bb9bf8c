"""Niches and windows: deep enough and no deeper, nothing in their way, no stud cut unasked; and ledges that drain."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from generator.checks.measuring import at, measured_fitting, or_note, say, tightest, unmeasured
from generator.checks.stud_damage import heights_of
from generator.model.features import Feature, Mouth
from generator.model.findings import Cure, Measure, Place, Verdict
from generator.model.geometry import NOISE, TOUCH, box, tidy
from generator.model.plan import Plan, PlannedFitting
from generator.model.room import Duty, FoundSupport, Room, Wall
from generator.planning.plates import damage_of

Box = tuple[float, float, float, float]
DRAINED_AWAY = ("niche", "window", "bench", "deck", "half_wall")
"""Features whose ledges fall away from the wall or face that they belong to; a curb falls to its inside."""

CUT: dict[Duty, tuple[str, Verdict]] = {
    "bearing": ("in a bearing wall: an engineer, or the code in force, sizes the header", "fail"),
    "unknown": ("in a wall of unknown duty: find out what it bears before a stud is cut", "confirm"),
    "non_bearing": ("in a wall that bears no load", "note"),
}


def drain_fall(room: Room, plan: Plan) -> Iterator[Measure]:
    """Sills, seats, tops and curbs fall towards the drain by enough."""
    measures = (_fall(plan, feature, face) for feature in room.features for face in feature.drains)
    return or_note(tightest(room.rules["drain-fall"], measures), "no sill, seat, top or curb in this room")


def _fall(plan: Plan, feature: Feature, face: str) -> Measure:
    """Drop over run, from the direction in which the face looks; negative where it falls the wrong way."""
    wall = plan.wall(face)
    x, y, z = wall.w_axis
    away = plan.wall(feature.wall).w_axis
    way = -1.0 if feature.kind in DRAINED_AWAY and x * away[0] + y * away[1] < -NOISE else 1.0
    return Measure(f"{face}: fall", tidy(way * hypot(x, y) / z), Place(face, wall.outline), feature.path)


def _niches(room: Room) -> Iterator[tuple[Wall, Mouth]]:
    return ((wall, mouth) for wall in room.walls for mouth in wall.mouths if mouth.kind == "niche")


def niche_depth(room: Room, plan: Plan) -> Iterator[Measure]:
    """Behind a niche's rear board its cleats and screws end where the studs do, or before."""
    measures = (m for wall, mouth in _niches(room) for m in _depths(room, plan, wall, mouth))
    return or_note(measures, "no niche in this room")


def _depths(room: Room, plan: Plan, wall: Wall, mouth: Mouth) -> Iterator[Measure]:
    studs = [s.depth for s in plan.supports if s.wall == wall.id and s.kind == "stud"]
    rear = next(f.id for f in room.walls if f.feature == mouth.feature and f.face == "rear")
    cleats = [s.depth for s in plan.supports if s.wall == rear and s.same_as is None]
    if not studs or not cleats:
        text = f"{mouth.feature}: no studs or no cleats to measure against; confirm how its rear board is held"
        yield unmeasured(text, "confirm", wall.id, mouth.path)
        return
    left = min(studs) + wall.furring - mouth.depth - max(cleats)
    words = "it is too deep; make it shallower, fur the wall out, or take deeper studs"
    yield _deep(wall, mouth, "rear of its cleats to the rear of the studs", left, words, "fail")
    thickness = {b.id: b.thickness for b in plan.boards}
    reaches = [f.length - max(thickness[b] for b in f.board_ids) for f in plan.fasteners if f.wall == rear]
    if reaches:
        most = min(studs) + wall.furring - mouth.depth
        words = f"use screws that reach at most {say(most, room.units)} past its rear board"
        yield _deep(wall, mouth, "points of its screws to the rear of the studs", most - max(reaches), words, "warn")


def _deep(wall: Wall, mouth: Mouth, what: str, value: float, words: str, on_break: Verdict) -> Measure:
    cure = Cure(words, "advice", wall.id, mouth.path, mouth.ring[0][0])
    subject = f"{mouth.feature}: from the {what}"
    return Measure(subject, tidy(value), Place(wall.id, mouth.ring), mouth.path, cure, on_break)


def niche_clear(room: Room, plan: Plan) -> Iterator[Measure]:
    """No pipe, cable, duct, insulation or valve is in the bay where a niche is to be."""
    measures = (m for wall, mouth in _niches(room) for m in _obstacles(room, plan, wall, mouth))
    return or_note(
        tightest(room.rules["niche-clear"], measures),
        "no niche in this room, or nothing known to be in the bays of its wall",
    )


def _obstacles(room: Room, plan: Plan, wall: Wall, mouth: Mouth) -> Iterator[Measure]:
    if wall.outside:
        yield _way(wall, mouth, "insulation of the outside wall", -mouth.depth, wall.path)
    for one in wall.in_bays:
        yield _way(wall, mouth, one.kind, _apart(box(mouth.ring), box(one.ring)), one.path)
    for fitting in (f for f in plan.fittings if f.wall == wall.id):
        path = measured_fitting(room, fitting.id).path
        yield _way(wall, mouth, fitting.id, _apart(box(mouth.ring), _behind(fitting)), path)
    beside = {stud.path: stud for stud in _beside(wall, mouth)}
    for damage in damage_of(wall):
        if damage.support in beside and damage.carries != "nothing":
            low, high = heights_of(damage)
            _, bottom, _, top = box(mouth.ring)
            where = at(room, wall.id, beside[damage.support].axis[0][0])
            what = f"{damage.carries.replace('_', ' ')} through the stud at {where}"
            yield _way(wall, mouth, what, max(low - top, bottom - high), damage.path)


def _way(wall: Wall, mouth: Mouth, what: str, value: float, path: str) -> Measure:
    words = "move the niche, or have what is there moved by the trade that put it there"
    cure = Cure(words, "advice", wall.id, path, mouth.ring[0][0])
    return Measure(f"{mouth.feature} and the {what}", tidy(value), Place(wall.id, mouth.ring), path, cure)


def _apart(a: Box, b: Box) -> float:
    """mm between two boxes; negative: the least move that parts them."""
    across, up = max(a[0] - b[2], b[0] - a[2]), max(a[1] - b[3], b[1] - a[3])
    return hypot(across, up) if across > 0.0 and up > 0.0 else max(across, up)


def _behind(fitting: PlannedFitting) -> Box:
    """What a fitting takes up behind the boards; a cut-out of unknown body its opening."""
    u, v = fitting.centre
    across = fitting.outside_diameter or fitting.cutout_diameter or 0.0
    width, height, _ = fitting.body or (across, across, 0.0)
    return u - width / 2, v - height / 2, u + width / 2, v + height / 2


def _beside(wall: Wall, mouth: Mouth) -> Iterator[FoundSupport]:
    """The nearest stud on each side of a mouth, and those that it meets: what goes through them is in its bay."""
    left, bottom, right, top = box(mouth.ring)
    faces = [(s, box(s.outline)) for s in wall.supports if s.kind == "stud"]
    faces = [(s, f) for s, f in faces if min(f[3], top) - max(f[1], bottom) > TOUCH]
    nearest = (
        max((f[2] for _, f in faces if f[2] <= left + TOUCH), default=left),
        min((f[0] for _, f in faces if f[0] >= right - TOUCH), default=right),
    )
    return (s for s, f in faces if f[2] >= nearest[0] - TOUCH and f[0] <= nearest[1] + TOUCH)


def cut_stud(room: Room, plan: Plan) -> Iterator[Measure]:
    """No stud is cut for a niche or a window; in a bearing wall that is an engineer's matter."""
    measures = (_cut(plan, wall, mouth) for wall in room.walls for mouth in wall.mouths)
    return or_note(tightest(room.rules["cut-stud"], measures), "no niche and no window in this room")


def _cut(plan: Plan, wall: Wall, mouth: Mouth) -> Measure:
    left, bottom, right, top = box(mouth.ring)
    planned = {s.room_path for s in plan.supports if s.origin == "found"}
    studs = (s for s in wall.supports if s.kind == "stud" and s.path in planned)
    crossing = [s for s in studs if _apart(box(s.outline), (left, bottom, right, top)) < -TOUCH]
    words, on_break = CUT[wall.duty]
    subject = f"{mouth.feature}: studs cut" + (f" {words}" if crossing else "")
    cure = Cure("move it into a bay, or head it off as the code requires", "advice", wall.id, mouth.path, left)
    return Measure(subject, float(len(crossing)), Place(wall.id, mouth.ring), mouth.path, cure, on_break)
