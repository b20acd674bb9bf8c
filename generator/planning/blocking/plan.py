"""All blocking of a room, when its studs and its boards are known: studs decide where a piece can hang."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.model.plan import Board, PlannedWall, Support
from generator.model.room import Room, Wall
from generator.planning.blocking.fittings import fitting_rows
from generator.planning.blocking.mounts import mount_rows
from generator.planning.blocking.rows import Row, fill
from generator.planning.blocking.seams import seam_rows
from generator.planning.framing import with_borrowed
from generator.planning.seats.fixing import ledger_rows

Supports = tuple[Support, ...]


def with_blocking(
    room: Room, walls: tuple[PlannedWall, ...], supports: Supports, boards: tuple[Board, ...]
) -> Supports:
    """The supports with level blocking for mounts, ledgers of seats, fittings and seams; ids given anew.

    Blocking only carries: it closes bays at its own height and opens none.
    """
    pieces = tuple(s for s in supports if s.same_as is None)
    seats = tuple(ledger_rows(room, walls, pieces))
    added = [piece for wall in room.chain if not wall.masonry for piece in _of_wall(room, wall, pieces, boards, seats)]
    return with_borrowed(room, walls, (*pieces, *added)) if added else supports


def _of_wall(room: Room, wall: Wall, supports: Supports, boards: Iterable[Board], seats: Iterable[Row]) -> Supports:
    """Mounts and ledgers first, as they say where they must be; a seam or a fitting finds their blocks in place."""
    added: Supports = ()
    own = (row for row in seats if row.wall == wall.id)
    for row in (*mount_rows(room, wall), *own, *_rows(room, wall, supports, boards)):
        added += tuple(fill(room, wall, row, (*supports, *added)))
    return added


def _rows(room: Room, wall: Wall, supports: Supports, boards: Iterable[Board]) -> Iterator[Row]:
    yield from seam_rows(room, wall, boards)
    yield from fitting_rows(room, wall, supports)
