"""From the plan to named solids: boards, supports, the base with its flange, pipes and valve bodies."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.model.geometry import box
from generator.model.plan import (
    Board,
    Opening,
    Plan,
    PlannedWall,
    Rabbet,
    Support,
)
from generator.model.room import Room
from generator.model.stud_work import Furring
from generator.solids.base import base_bodies
from generator.solids.fittings import fitting_bodies
from generator.solids.kernel import at, circle, one_solid, sweep, wall_wire, wire
from generator.solids.records import Bodies, Body

OVERCUT = 1.0
"""mm by which a rabbet's cutter stands out of the face it is cut from, so that no two faces coincide there."""


def make_bodies(room: Room, plan: Plan) -> Bodies:
    """Every body of the planned room, in mm, placed in the room."""
    decks, flanges, base = base_bodies(room, plan)
    parts = (
        *(Body(b.id, "board", b.wall, _board(plan.wall(b.wall), b)) for b in plan.boards),
        *(Body(s.id, s.kind, s.wall, _support(plan.wall(s.wall), s), s.same_as or "") for s in plan.supports),
        *(Body(f.id, "nailer", f.wall, _strip(plan.wall(f.wall), f)) for f in plan.furring),
        *base,
        *fitting_bodies(plan),
    )
    return Bodies(plan.room, plan.walls, parts, decks, flanges)


def _support(wall: PlannedWall, support: Support) -> Any:
    """Its outline, from its back to the plane of the stud faces, which lies behind any furring; or set back from it."""
    back = -wall.furring - support.set_back - support.depth
    whole = sweep(wall_wire(wall, support.outline, back), (), wall.w_axis, support.depth)
    return one_solid(whole.cut(*_wedges(wall, support))) if any(support.bevels) else whole


def _wedges(wall: PlannedWall, support: Support) -> Iterator[Any]:
    """What is sawn off at the bevelled ends: from nothing at the face, wider and wider towards the back."""
    left, low, right, high = box(support.outline)
    deep = support.depth + OVERCUT
    for end, way, bevel in ((left, 1.0, support.bevels[0]), (right, -1.0, support.bevels[1])):
        if bevel > 0.0:
            section = (
                (end, 0.0),
                (end + way * bevel * deep, -deep),
                (end - way * OVERCUT, -deep),
                (end - way * OVERCUT, 0.0),
            )
            wedge = wire(at(wall, u, low - OVERCUT, w) for u, w in section)
            yield sweep(wedge, (), wall.v_axis, high - low + 2 * OVERCUT)


def _strip(wall: PlannedWall, strip: Furring) -> Any:
    """From the face of its support to w = 0."""
    return sweep(wall_wire(wall, strip.ring, -strip.thickness), (), wall.w_axis, strip.thickness)


def _board(wall: PlannedWall, board: Board) -> Any:
    """Its outline from w = 0 to its thickness, openings through it, rabbets cut from their faces."""
    holes = [_opening(wall, opening) for opening in board.openings]
    solid = sweep(wall_wire(wall, board.outline, 0.0), holes, wall.w_axis, board.thickness)
    if not board.rabbets:
        return solid
    return one_solid(solid.cut(*(_cutter(wall, board, rabbet) for rabbet in board.rabbets)))


def _opening(wall: PlannedWall, opening: Opening) -> Any:
    if opening.ring:
        return wall_wire(wall, opening.ring, 0.0)
    return circle(wall, opening.centre, opening.diameter, 0.0)


def _cutter(wall: PlannedWall, board: Board, rabbet: Rabbet) -> Any:
    start = -OVERCUT if rabbet.face == "back" else board.thickness - rabbet.depth
    return sweep(wall_wire(wall, rabbet.ring, start), (), wall.w_axis, rabbet.depth + OVERCUT)
