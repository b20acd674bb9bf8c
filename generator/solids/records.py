"""The named bodies of a room. Shapes belong to the modelling kernel and live only in this package."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from generator.model.plan import PlannedWall

BodyKind = Literal["board", "stud", "plate", "blocking", "nailer", "ledger", "base", "pipe", "valve"]


@dataclass(frozen=True, slots=True)
class Body:
    """One body in the room's frame, mm. `id` is its id in the plan ("base" for the base); `wall` "": none.

    `same_as`: of a support that is another one's piece of lumber, as a second wall sees it, the id of that one.
    """

    id: str
    kind: BodyKind
    wall: str
    shape: Any
    same_as: str = ""


@dataclass(frozen=True, slots=True)
class Bodies:
    """All bodies of a room, in the order of the plan: boards, supports, base, fittings."""

    room: str
    """Name of the room."""
    walls: tuple[PlannedWall, ...]
    parts: tuple[Body, ...]
    decks: tuple[Body, ...]
    """The base without its flange (one body or none): what boards must keep above."""
    flanges: tuple[Body, ...]
    """The flange of each side of the base, by itself: what boards must clear."""

    def part(self, part_id: str) -> Body:
        """The body of that id; KeyError when there is none."""
        return {b.id: b for b in self.parts}[part_id]

    def wall(self, wall_id: str) -> PlannedWall:
        """The wall of that id; KeyError when there is none."""
        return {w.id: w for w in self.walls}[wall_id]

    def of_kind(self, *kinds: BodyKind) -> tuple[Body, ...]:
        """The bodies of these kinds, in order."""
        return tuple(b for b in self.parts if b.kind in kinds)
