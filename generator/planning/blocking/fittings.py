"""Blocks behind fittings: what the valve is strapped to, and the elbows of the spout and the shower arm screwed to."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import NOISE
from generator.model.profiles import StudProfile
from generator.model.room import Fitting, Room, Wall
from generator.planning.blocking.rows import Row, Supports, bays_of, depth_of, flat, named

BACKED = ("valve", "spout", "arm")
"""Kinds of fittings that are fastened to blocking."""


def fitting_rows(room: Room, wall: Wall, supports: Supports) -> Iterator[Row]:
    """One for each fitting that wants a block, at its depth; none where the studs are too shallow for one."""
    for fitting in (f for f in room.fittings if f.wall == wall.id and f.kind in BACKED):
        row = _row(room, wall, fitting)
        if all(_is_deep_enough(row, sides) for _, sides in bays_of(supports, row)):
            yield row


def _is_deep_enough(row: Row, sides: Supports) -> bool:
    return row.set_back + row.lumber.depth <= min(side.depth for side in sides) + NOISE


def _row(room: Room, wall: Wall, fitting: Fitting) -> Row:
    (u, v), lumber = fitting.centre, _lumber(room, wall)
    half = min(fitting.diameter, lumber.face) / 2
    return Row(
        wall=wall.id,
        across=(u - half, u + half),
        need=(v - half, v + half),
        centre=v,
        lumber=lumber,
        reason=f"behind the {named(fitting.kind, fitting.name)}",
        cause="mount",
        room_path=fitting.path,
        set_back=depth_of(room, fitting),
    )


def _lumber(room: Room, wall: Wall) -> StudProfile:
    """As the wall's own studs; where these are steel, the wood that is chosen for blocks."""
    stud = room.choices.added_stud[wall.id]
    block = room.choices.added_block
    return flat(block if block and stud.material == "steel" else stud)
