"""How high soffits leave the room at a shower head."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.codes import no_spray, not_asked
from generator.checks.measuring import or_note, outline_place, unmeasured, wall_path
from generator.model.findings import Measure
from generator.model.geometry import tidy
from generator.model.plan import Plan, PlannedWall
from generator.model.room import Room


def headroom(room: Room, plan: Plan) -> Iterator[Measure]:
    """A soffit leaves the height that the code asks for over a square at the shower head; where, a person confirms."""
    reason = not_asked(room, "headroom") or no_spray(room)
    if reason:
        yield unmeasured(reason, "note", "", "place.code")
        return
    floor = (room.floor_build_up or 0.0) if room.datum == "bare floor" else 0.0
    undersides = (wall for wall in plan.walls if wall.face == "underside")
    yield from or_note((_height(room, plan, wall, floor) for wall in undersides), "no soffit in this room")


def _height(room: Room, plan: Plan, wall: PlannedWall, floor: float) -> Measure:
    board = max((b.thickness for b in plan.boards), default=0.0)
    finish = board + (room.finish.tile or 0.0) + (room.finish.bed or 0.0)
    height = tidy(wall.frame.origin[2] - finish - floor)
    subject = f"{wall.feature_id}: its finished underside above the finished floor; the code asks at the shower head"
    place = outline_place(wall.id, wall.outline)
    return Measure(subject, height, place, wall_path(room, wall.id), on_break="confirm")
