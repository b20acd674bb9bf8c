"""Curbs: what may not be driven through them."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.measuring import or_note, outline_place, wall_path
from generator.model.findings import Measure
from generator.model.plan import Plan, PlannedWall
from generator.model.room import Room
from generator.planning.benches import is_bonded


def curb_screws(room: Room, plan: Plan) -> Iterator[Measure]:
    """No screw goes through the top or the inside face of a curb."""
    faces = (wall for wall in plan.walls if is_bonded(room, wall.id))
    return or_note((_screws(room, plan, face) for face in faces), "no curb in this room")


def _screws(room: Room, plan: Plan, face: PlannedWall) -> Measure:
    driven = [f for f in plan.fasteners if f.wall == face.id]
    subject = f"{face.id}: screws through it" if driven else f"{face.id}: bonded, no screw through it"
    return Measure(subject, float(len(driven)), outline_place(face.id, face.outline), wall_path(room, face.id))
