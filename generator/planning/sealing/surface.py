"""The visible board faces of one wall: where they end, and how far a band may go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.model.ends import is_upright
from generator.model.features import Fold
from generator.model.geometry import TOUCH, Point, box, tidy
from generator.model.plan import (
    Board,
    Edge,
    PlannedCorner,
    PlannedWall,
)
from generator.model.room import Side
from generator.planning.faces import Ends, face_lines
from generator.planning.folds import runs_along
from generator.planning.sealing.fold_lines import FoldLine, lines_on


@dataclass(frozen=True, slots=True)
class Surface:
    """In the wall frame. `left`, `right`: where the faces meet a neighbour's, else the outermost board edges; on the
    floor, where an end leans (`leans`: its run in u for each mm upwards).

    `least`, `most`: how far bands may reach in u: the same, but without end where wallboard goes on.
    """

    wall: str
    boards: tuple[Board, ...]
    edges: tuple[Edge, ...]
    left: float
    right: float
    least: float
    most: float
    bottom: float
    top: float
    meets_left: bool
    """True where the left end is a corner with boards on both walls, or a fold."""
    meets_right: bool
    leans: tuple[float, float] = (0.0, 0.0)
    lines: tuple[FoldLine, ...] = ()
    """The folds on this wall."""

    @property
    def beside(self) -> float:
        """A board's edge lies no farther than this from the fold that it runs along: one board and its fit."""
        return 2 * self.boards[0].thickness

    @property
    def ends(self) -> tuple[Edge, ...]:
        """The edges in the corners with the walls on the left and on the right, not those along folds."""
        return tuple(e for e in self.edges if e.role == "corner" and not is_level(e) and not self._on_fold(e))

    def _on_fold(self, edge: Edge) -> bool:
        return any(runs_along((edge.p, edge.q), (line.p, line.q), self.beside) for line in self.lines)

    def left_at(self, v: float) -> float:
        """u of the left end at a height."""
        return tidy(self.left + self.leans[0] * v) if self.leans[0] else self.left

    def right_at(self, v: float) -> float:
        """u of the right end at a height."""
        return tidy(self.right + self.leans[1] * v) if self.leans[1] else self.right


def is_level(edge: Edge) -> bool:
    """True where the edge runs across the wall, level or not: all but uprights and ends that lean."""
    return not is_upright(edge.p, edge.q)


def side_of(edge: Edge) -> Side:
    """The side of its board that an upright edge is on: edges run counter-clockwise, so right edges run up."""
    return "right" if edge.q[1] > edge.p[1] else "left"


def find_surfaces(
    walls: Sequence[PlannedWall],
    corners: Sequence[PlannedCorner],
    folds: Sequence[Fold],
    boards: Sequence[Board],
    edges: Sequence[Edge],
) -> tuple[Surface, ...]:
    """One for each wall that has boards, in the order of the walls."""
    lines = face_lines(walls, corners, boards)
    found = []
    for wall in walls:
        own = tuple(board for board in boards if board.wall == wall.id)
        if own:
            ids = {board.id for board in own}
            of_own = tuple(e for e in edges if e.board in ids)
            found.append(_surface(wall.id, own, of_own, lines[wall.id], lines_on(wall, walls, folds)))
    return tuple(found)


def _surface(
    wall: str, boards: tuple[Board, ...], edges: tuple[Edge, ...], ends: Ends, lines: tuple[FoldLine, ...]
) -> Surface:
    left, bottom, right, top = box([point for board in boards for point in board.outline])
    surface = Surface(wall, boards, edges, left, right, left, right, bottom, top, False, False, lines=lines)
    return _open_ended(_to_rims(_to_corners(surface, ends)))


def _to_corners(surface: Surface, ends: Ends) -> Surface:
    """The surface up to the lines where its faces meet those of the walls on the left and on the right."""
    sides = {side_of(e) for e in surface.ends}
    if ends.left is not None and "left" in sides:
        surface = replace(surface, left=ends.left, meets_left=True, leans=(ends.leans[0], 0.0))
    if ends.right is not None and "right" in sides:
        surface = replace(surface, right=ends.right, meets_right=True, leans=(surface.leans[0], ends.leans[1]))
    return surface


def _to_rims(surface: Surface) -> Surface:
    """The surface up to the folds that run along the outermost board edges."""
    for line in surface.lines:
        near, (us, vs) = surface.beside, zip(line.p, line.q, strict=True)
        if line.into[0] > 0.9 and abs(us[0] - surface.left) <= near:
            surface = replace(surface, left=min(us), meets_left=True)
        elif line.into[0] < -0.9 and abs(us[0] - surface.right) <= near:
            surface = replace(surface, right=max(us), meets_right=True)
        elif line.into[1] > 0.9 and abs(vs[0] - surface.bottom) <= near:
            surface = replace(surface, bottom=min(vs))
        elif line.into[1] < -0.9 and abs(vs[0] - surface.top) <= near:
            surface = replace(surface, top=max(vs))
    return surface


def _open_ended(surface: Surface) -> Surface:
    """Bands may go on without end where wallboard does."""
    sides = {side_of(e) for e in surface.edges if e.role == "wallboard" and not is_level(e)}
    least = float("-inf") if "left" in sides else surface.left
    return replace(surface, least=least, most=float("inf") if "right" in sides else surface.right)


def reaches(surface: Surface, point: Point, side: Side) -> bool:
    """True where a point lies at the outermost board edge of that side, or beyond it (under a neighbour's board)."""
    slope = surface.leans[0 if side == "left" else 1]
    own = point[0] - slope * point[1]
    us = [u - slope * v for board in surface.boards for u, v in board.outline]
    if side == "left":
        return own <= min(us) + TOUCH or own <= surface.left
    return own >= max(us) - TOUCH or own >= surface.right
