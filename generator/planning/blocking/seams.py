"""Backing behind level seams, for boards whose profile asks for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from generator.model.geometry import TOUCH, Ring
from generator.model.plan import Board
from generator.model.room import Room, Wall
from generator.planning.bays import Span
from generator.planning.blocking.rows import Row, flat
from generator.units import label


def seam_rows(room: Room, wall: Wall, boards: Iterable[Board]) -> Iterator[Row]:
    """A row behind each level seam of a wall, between the ends of the seam."""
    own = [board for board in boards if board.wall == wall.id and _wants_backing(room, board)]
    lumber = flat(room.choices.added_stud[wall.id])
    for v, across in sorted(_level_seams(own)):
        reason = f"backing for the level seam at {label(v, room.units)}"
        yield Row(wall.id, across, (v, v), v, lumber, reason, "seam", wall.path)


def _wants_backing(room: Room, board: Board) -> bool:
    return any(s.id == board.stock_id and s.board.horizontal_backing for s in room.choices.stocks)


def _level_seams(boards: Sequence[Board]) -> Iterator[tuple[float, Span]]:
    """Where a lower side of one board runs along an upper side of another."""
    for above in boards:
        for v, (a, b) in _level_sides(above.outline, 1.0):
            for below in boards:
                for other, (c, d) in _level_sides(below.outline, -1.0):
                    if abs(v - other) <= TOUCH and min(b, d) - max(a, c) > TOUCH:
                        yield v, (max(a, c), min(b, d))


def _level_sides(ring: Ring, way: float) -> Iterator[tuple[float, Span]]:
    """Lower sides (they run right on a counter-clockwise ring) for way 1, upper ones for -1."""
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        if abs(p[1] - q[1]) <= TOUCH and way * (q[0] - p[0]) > TOUCH:
            yield p[1], (min(p[0], q[0]), max(p[0], q[0]))
