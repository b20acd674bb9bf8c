"""The order in which boards go up: walls that others butt against first, each from the bottom, from the left."""

from __future__ import annotations

from generator.model.geometry import box
from generator.model.plan import Board, PlannedCorner, PlannedWall


def plan_sequence(
    walls: tuple[PlannedWall, ...], corners: tuple[PlannedCorner, ...], boards: tuple[Board, ...]
) -> tuple[str, ...]:
    """Board ids in order."""
    rank = {wall_id: index for index, wall_id in enumerate(wall_order(walls, corners))}
    ordered = sorted(boards, key=lambda b: (rank[b.wall], box(b.outline)[3], box(b.outline)[0], b.id))
    return tuple(board.id for board in ordered)


def wall_order(walls: tuple[PlannedWall, ...], corners: tuple[PlannedCorner, ...]) -> tuple[str, ...]:
    """Wall ids such that at every corner the wall boarded first comes first; the left one among equals.

    Corners of a chain of walls cannot run in a circle, so one wall is always free to go next.
    """
    waiting = [wall.id for wall in walls]
    order: list[str] = []
    while waiting:
        behind = {(c.right_wall if c.first == c.left_wall else c.left_wall) for c in corners if c.first in waiting}
        ready = next(wall_id for wall_id in waiting if wall_id not in behind)
        order.append(ready)
        waiting.remove(ready)
    return tuple(order)
