"""Where the board faces of two neighbouring walls meet, as a u on each of the walls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot, inf

from generator.model.ends import corner_offset, foot, lean
from generator.model.geometry import Ring, tidy
from generator.model.plan import Board, PlannedCorner, PlannedWall
from generator.model.room import Corner


@dataclass(frozen=True, slots=True)
class Ends:
    """u of the lines where the board faces of a wall meet its left and its right neighbour's; None: no corner.

    `left`, `right` are on the floor; `leans` says how far each line runs in u for each mm upwards.
    """

    left: float | None
    right: float | None
    leans: tuple[float, float] = (0.0, 0.0)

    def left_at(self, v: float) -> float | None:
        """u of the left line at a height."""
        return None if self.left is None else tidy(self.left + self.leans[0] * v)

    def right_at(self, v: float) -> float | None:
        """u of the right line at a height."""
        return None if self.right is None else tidy(self.right + self.leans[1] * v)

    def between(self, low: float, high: float) -> tuple[float, float]:
        """From, to in u of what the neighbours' board faces leave at every height between two; endless without one."""
        lefts = [u for v in (low, high) if (u := self.left_at(v)) is not None]
        rights = [u for v in (low, high) if (u := self.right_at(v)) is not None]
        return max(lefts, default=-inf), min(rights, default=inf)


def thicknesses(boards: Sequence[Board]) -> dict[str, float]:
    """The thickness of the boards of each boarded wall."""
    return {board.wall: board.thickness for board in reversed(boards)}


def face_lines(
    walls: Sequence[PlannedWall], corners: Sequence[PlannedCorner | Corner], boards: Sequence[Board]
) -> Mapping[str, Ends]:
    """For each wall, the lines where its board faces meet its boarded neighbours'."""
    thick = thicknesses(boards)
    joined = [c for c in corners if c.left_wall in thick and c.right_wall in thick]
    lefts = {c.right_wall: corner_offset(thick[c.right_wall], thick[c.left_wall], c.angle_deg) for c in joined}
    rights = {c.left_wall: corner_offset(thick[c.left_wall], thick[c.right_wall], c.angle_deg) for c in joined}
    return {wall.id: end_lines(wall.outline, lefts.get(wall.id), rights.get(wall.id)) for wall in walls}


def end_lines(outline: Ring, from_left: float | None, from_right: float | None) -> Ends:
    """Lines at these distances from the ends of a wall. They are square to its ends: along it they grow with the lean.

    A face of a feature has no such ends: its outline may be any ring.
    """
    if from_left is None and from_right is None:
        return Ends(None, None)
    leans = lean(outline, "left"), lean(outline, "right")
    left, right = foot(outline, "left"), foot(outline, "right")
    return Ends(
        None if from_left is None else tidy(left + from_left * hypot(1.0, leans[0])),
        None if from_right is None else tidy(right - from_right * hypot(1.0, leans[1])),
        leans,
    )
