"""What comes through the wall: pipe stubs and valve bodies."""

from __future__ import annotations

from typing import Any

from generator.model.geometry import Point, box, rectangle
from generator.model.plan import Plan, PlannedFitting, PlannedWall
from generator.solids.kernel import circle, sweep, wall_wire
from generator.solids.records import Body

STUB_BACK = 75.0
STUB_FRONT = 60.0
"""mm that a pipe stub is drawn behind and in front of the stud faces: for show, nothing is measured on its ends. It
ends on the block that is set back behind it."""


def fitting_bodies(plan: Plan) -> tuple[Body, ...]:
    """Pipe stubs and valve bodies; a cut-out without a body has none."""
    pipes = [f for f in plan.fittings if f.outside_diameter is not None]
    valves = [f for f in plan.fittings if f.body is not None]
    bodies = [Body(f.id, "pipe", f.wall, _pipe(plan.wall(f.wall), f, _stub_back(plan, f))) for f in pipes]
    bodies += [Body(_valve_id(f), "valve", f.wall, _valve(plan.wall(f.wall), f)) for f in valves]
    return tuple(sorted(bodies, key=lambda b: b.id))


def _valve_id(fitting: PlannedFitting) -> str:
    """A pipe's valve needs a name of its own beside the pipe's."""
    return fitting.id if fitting.outside_diameter is None else f"{fitting.id}-body"


def _stub_back(plan: Plan, fitting: PlannedFitting) -> float:
    behind = (s for s in plan.supports if s.wall == fitting.wall and s.set_back)
    return min((s.set_back for s in behind if _lies_within(fitting.centre, box(s.outline))), default=STUB_BACK)


def _lies_within(point: Point, around: tuple[float, float, float, float]) -> bool:
    return around[0] <= point[0] <= around[2] and around[1] <= point[1] <= around[3]


def _pipe(wall: PlannedWall, fitting: PlannedFitting, back: float) -> Any:
    round_end = circle(wall, fitting.centre, fitting.outside_diameter or 0.0, -back)
    return sweep(round_end, (), wall.w_axis, back + STUB_FRONT)


def _valve(wall: PlannedWall, fitting: PlannedFitting) -> Any:
    """A block behind the plane of the stud faces, centred on the fitting."""
    width, height, depth = fitting.body or (0.0, 0.0, 0.0)
    (u, v) = fitting.centre
    ring = rectangle(u - width / 2, v - height / 2, u + width / 2, v + height / 2)
    return sweep(wall_wire(wall, ring, -depth), (), wall.w_axis, depth)
