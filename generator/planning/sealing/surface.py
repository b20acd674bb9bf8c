"""The visible board faces of one wall: where they end, and how far a band may go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.ends import is_upright
from generator.model.geometry import TOUCH, Point, box, tidy
from generator.model.plan import Board, Edge, PlannedCorner, PlannedWall
from generator.model.room import Side
from generator.planning.faces import Ends, face_lines


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
    """True where the left end is a corner with boards on both walls."""
    meets_right: bool
    leans: tuple[float, float] = (0.0, 0.0)

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
    walls: Sequence[PlannedWall], corners: Sequence[PlannedCorner], boards: Sequence[Board], edges: Sequence[Edge]
) -> tuple[Surface, ...]:
    """One for each wall that has boards, left to right."""
    lines = face_lines(walls, corners, boards)
    found = []
    for wall in walls:
        own = tuple(board for board in boards if board.wall == wall.id)
        if own:
            ids = {board.id for board in own}
            ends = lines[wall.id]
            found.append(_surface(wall.id, own, tuple(e for e in edges if e.board in ids), ends))
    return tuple(found)


def _surface(wall: str, boards: tuple[Board, ...], edges: tuple[Edge, ...], ends: Ends) -> Surface:
    left, bottom, right, top = box([point for board in boards for point in board.outline])
    meets_left = ends.left is not None and _has(edges, "corner", "left")
    meets_right = ends.right is not None and _has(edges, "corner", "right")
    left = ends.left if ends.left is not None and meets_left else left
    right = ends.right if ends.right is not None and meets_right else right
    return Surface(
        wall=wall,
        boards=boards,
        edges=edges,
        left=left,
        right=right,
        least=float("-inf") if _has(edges, "wallboard", "left") else left,
        most=float("inf") if _has(edges, "wallboard", "right") else right,
        bottom=bottom,
        top=top,
        meets_left=meets_left,
        meets_right=meets_right,
        leans=(ends.leans[0] if meets_left else 0.0, ends.leans[1] if meets_right else 0.0),
    )


def _has(edges: Sequence[Edge], role: str, side: Side) -> bool:
    return any(e.role == role and not is_level(e) and side_of(e) == side for e in edges)


def reaches(surface: Surface, point: Point, side: Side) -> bool:
    """True where a point lies at the outermost board edge of that side, or beyond it (under a neighbour's board)."""
    slope = surface.leans[0 if side == "left" else 1]
    own = point[0] - slope * point[1]
    us = [u - slope * v for board in surface.boards for u, v in board.outline]
    if side == "left":
        return own <= min(us) + TOUCH or own <= surface.left
    return own >= max(us) - TOUCH or own >= surface.right
