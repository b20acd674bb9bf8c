"""A soffit by hand at the back wall of the worked room, its framing so high; lengths in inches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.features import Feature
from generator.model.plan import Plan
from generator.model.room import Room
from tests.checks.niche_changes import face_of
from tests.worked_room import mm, rect_in

Pair = tuple[Room, Plan]


def soffit(height: float) -> Callable[[Room, Plan], Pair]:
    """Its underside alone, 20 long and 15 deep, without boards: they are 1/2 thick in this room."""

    def changed(room: Room, plan: Plan) -> Pair:
        back, ring = plan.wall("back"), rect_in(0, 0, 20, 15)
        frame = back.frame.turned((0.0, mm(height), 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
        underside = face_of(plan, "box", "underside", frame, ring)
        wall = replace(
            next(w for w in room.walls if w.id == "back"),
            path="soffits.0",
            id=underside.id,
            outline=ring,
            duty="non_bearing",
            beside=("free", "free"),
            supports=(),
            to_ceiling=False,
            frame=frame,
            face="underside",
            feature="box",
            extent=ring,
        )
        feature = Feature("soffits.0", "box", "soffit", "back", (underside.id,), ())
        room = replace(room, walls=(*room.walls, wall), features=(feature,))
        return room, replace(plan, walls=(*plan.walls, underside))

    return changed
