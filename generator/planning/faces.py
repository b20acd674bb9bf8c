"""Where the board faces of two neighbouring walls meet, as a u on each of the walls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from generator.model.ends import corner_offset, foot, lean
from generator.model.geometry import tidy
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
    return {wall.id: _ends(wall, lefts.get(wall.id), rights.get(wall.id)) for wall in walls}


def _ends(wall: PlannedWall, from_left: float | None, from_right: float | None) -> Ends:
    """An offset is square to the end of the wall, so along the wall it grows where the end leans.

    A face of a feature has no such ends: its outline may be any ring.
    """
    if from_left is None and from_right is None:
        return Ends(None, None)
    leans = lean(wall.outline, "left"), lean(wall.outline, "right")
    left, right = foot(wall.outline, "left"), foot(wall.outline, "right")
    return Ends(
        None if from_left is None else tidy(left + from_left * hypot(1.0, leans[0])),
        None if from_right is None else tidy(right - from_right * hypot(1.0, leans[1])),
        leans,
    )
