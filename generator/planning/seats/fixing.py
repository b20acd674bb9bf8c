"""What ledgers are screwed to: through the boards, to the framing of the wall behind them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.model.features import Segment
from generator.model.geometry import NOISE, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.room import Room
from generator.planning.bays import Span, fills_between, heights
from generator.planning.blocking.rows import Row, flat
from generator.planning.folds import runs_along
from generator.planning.seats.pieces import KINDS, LEDGER

HELD = 2
"""Studs that a ledger is screwed to without blocking behind it: one alone lets it turn. Common practice, no source."""
SOLID = 38.1
"""mm: height of what must be solid behind a ledger, the middle of a piece laid flat; half of it takes a screw."""


@dataclass(frozen=True, slots=True)
class Fixing:
    """A ledger against a wall of the room: u from, to and its middle height there, in the wall's frame."""

    ledger: Support
    wall: str
    across: Span
    middle: float


def fixings(room: Room, walls: Iterable[PlannedWall], supports: Iterable[Support]) -> Iterator[Fixing]:
    """All ledgers of benches and decks, with the walls that they lie against; none on masonry, which holds anywhere."""
    frames, masonry = {wall.id: wall for wall in walls}, {wall.id for wall in room.walls if wall.masonry}
    seats = {face for one in room.features if one.kind in KINDS for face in one.faces}
    for ledger in (s for s in supports if s.wall in seats and s.same_as is None and s.reason.startswith(LEDGER)):
        for fold in room.folds:
            if ledger.wall in fold.faces and fold.angle_deg < 180.0:
                own = fold.faces.index(ledger.wall)
                other = fold.faces[1 - own]
                if frames[other].face == "wall" and other not in masonry and _beside(ledger, fold.lines[own]):
                    yield _fixing(frames[ledger.wall], frames[other], ledger)


def _beside(ledger: Support, line: Segment) -> bool:
    """True of the wall that a ledger runs along: the line is the nearer, the more it runs the same way."""
    return runs_along(ledger.axis, line, 2 * ledger.depth)


def _fixing(seat: PlannedWall, wall: PlannedWall, ledger: Support) -> Fixing:
    ends = [wall.frame.of(seat.frame.at(u, v, -ledger.depth / 2)) for u, v in ledger.axis]
    us = sorted(u for u, _, _ in ends)
    return Fixing(ledger, wall.id, (tidy(us[0]), tidy(us[1])), tidy(sum(v for _, v, _ in ends) / 2))


def behind(fixing: Fixing, supports: Iterable[Support]) -> tuple[Support, ...]:
    """Pieces of the wall's framing that a ledger crosses with its middle, by as much as a screw wants."""
    return tuple(s for s in supports if s.wall == fixing.wall and not s.set_back and _crossed(s, fixing))


def _crossed(support: Support, fixing: Fixing) -> bool:
    (low, high), level = heights(support), fixing.middle
    left, right = fills_between(support, level, level)
    common = min(right, fixing.across[1]) - max(left, fixing.across[0])
    return low < level < high and common >= SOLID / 2 - NOISE


def ledger_rows(room: Room, walls: Iterable[PlannedWall], supports: Sequence[Support]) -> Iterator[Row]:
    """A row of blocking behind each ledger that crosses too few studs to be screwed to."""
    for fixing in fixings(room, walls, supports):
        if len(behind(fixing, supports)) < HELD:
            lumber = flat(room.choices.added_block or room.choices.added_stud[fixing.wall])
            need = (fixing.middle - SOLID / 2, fixing.middle + SOLID / 2)
            reason = f"carries a {fixing.ledger.reason}"
            yield Row(fixing.wall, fixing.across, need, fixing.middle, lumber, reason, "mount", fixing.ledger.room_path)
