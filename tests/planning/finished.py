"""Hand-made plans carried through fastening, sealing and take-off; and small walls to fasten."""

from __future__ import annotations

import json
from dataclasses import replace

from generator.model.choices import Choices
from generator.model.geometry import Ring, box
from generator.model.job import Job
from generator.model.plan import (
    Board,
    Opening,
    Plan,
    PlannedBase,
    PlannedWall,
    Region,
    Support,
)
from generator.model.room import Room
from generator.planning.fastening import plan_fasteners
from generator.planning.sealing import plan_bands
from generator.planning.takeoff import plan_takeoff
from generator.writers.json import plan_json
from tests.verifier.plain import Record
from tests.worked_plan import worked_plan
from tests.worked_room import STUD, mm, rect_in, worked_room


def finished(room: Room, plan: Plan) -> Plan:
    """The plan with its screws, bands and take-off planned anew."""
    screws = plan_fasteners(room, plan.walls, plan.folds, plan.base, plan.supports, plan.boards)
    bands = plan_bands(
        room, plan.walls, plan.corners, plan.folds, plan.base, plan.boards, plan.edges, screws, plan.fittings
    )  # fmt: skip
    plan = replace(plan, fasteners=screws, bands=bands)
    return replace(plan, takeoff=plan_takeoff(room, plan))


def finished_worked(room: Room | None = None) -> Plan:
    """The worked room's hand-made layout, finished."""
    room = room or worked_room()
    return finished(room, worked_plan(room))


def as_json(room: Room, plan: Plan) -> Record:
    """The plan as somebody else's program reads it."""
    record: Record = json.loads(plan_json(Job(room, plan, (), frozenset(), {}, {}), (), {}))
    return record


def choosing(room: Room, choices: Choices) -> Room:
    return replace(room, choices=choices)


def limited(room: Room, **limits: float) -> Room:
    """The room with other limits, in mm; `screw_spacing=200` sets screw-spacing."""
    rules = dict(room.rules)
    for name, value in limits.items():
        rule = name.replace("_", "-")
        rules[rule] = replace(rules[rule], limit=value)
    return replace(room, rules=rules)


def wall_in(width: float, height: float, name: str = "back") -> PlannedWall:
    """A wall by itself, in inches."""
    ring = rect_in(0, 0, width, height)
    return PlannedWall(
        name, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0), "finished floor", 0.0, ring, ring,
        (), (Region(ring, ()),),
    )  # fmt: skip


def board_in(
    mark: str, points: list[tuple[float, float]], wall: str = "back", openings: tuple[Opening, ...] = ()
) -> Board:
    """A half-inch board by the corners of its outline, counter-clockwise from the lowest-left, in inches."""
    ring: Ring = tuple((mm(u), mm(v)) for u, v in points)
    return Board(mark, wall, "stock", mm(0.5), ring, openings, (), "SH-01", (), 1.0)


def sheet_board(left: float, bottom: float, right: float, top: float, mark: str = "B-1", wall: str = "back") -> Board:
    return board_in(mark, [(left, bottom), (right, bottom), (right, top), (left, top)], wall)


def stud_in(centre: float, low: float, high: float, key: str = "S-1", wall: str = "back") -> Support:
    ring = rect_in(centre - 0.75, low, centre + 0.75, high)
    axis = ((mm(centre), mm(low)), (mm(centre), mm(high)))
    return Support(key, wall, "stud", "found", ring, axis, mm(3.5), "wood", "as found", "found", STUD.id, "")


def plate_in(left: float, right: float, low: float, high: float, key: str, wall: str = "back") -> Support:
    middle = mm((low + high) / 2)
    axis = ((mm(left), middle), (mm(right), middle))
    ring = rect_in(left, low, right, high)
    return Support(key, wall, "plate", "found", ring, axis, mm(3.5), "wood", "as found", "found", STUD.id, "")


NO_BASE = PlannedBase("none", (), ())


def lone(room: Room) -> Room:
    """The room without corners: its walls have no neighbours."""
    return replace(room, corners=())


def heights_in(plan_or_points: list[tuple[float, float]]) -> list[float]:
    """Heights of points, in inches, upwards."""
    return sorted(round(v / 25.4, 6) for _, v in plan_or_points)


def size_in(ring: Ring) -> tuple[float, float, float, float]:
    """Box of a ring in inches, to 1e-6."""
    left, bottom, right, top = (round(n / 25.4, 6) for n in box(ring))
    return left, bottom, right, top
