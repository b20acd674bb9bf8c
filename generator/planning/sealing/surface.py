"""The visible board faces of one wall: where they end, and how far a band may go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.geometry import TOUCH, box
from generator.model.plan import Board, Edge, PlannedCorner, PlannedWall
from generator.model.room import Side
from generator.planning.faces import face_lines


@dataclass(frozen=True, slots=True)
class Surface:
    """In the wall frame. `left`, `right`: where the faces meet a neighbour's, else the outermost board edges.

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


def is_level(edge: Edge) -> bool:
    """True where the edge runs more than it rises."""
    return abs(edge.q[0] - edge.p[0]) > abs(edge.q[1] - edge.p[1])


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
            found.append(_surface(wall.id, own, tuple(e for e in edges if e.board in ids), ends.left, ends.right))
    return tuple(found)


def _surface(
    wall: str, boards: tuple[Board, ...], edges: tuple[Edge, ...], face_left: float | None, face_right: float | None
) -> Surface:
    left, bottom, right, top = box([point for board in boards for point in board.outline])
    meets_left = face_left is not None and _has(edges, "corner", "left")
    meets_right = face_right is not None and _has(edges, "corner", "right")
    left = face_left if face_left is not None and meets_left else left
    right = face_right if face_right is not None and meets_right else right
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
    )


def _has(edges: Sequence[Edge], role: str, side: Side) -> bool:
    return any(e.role == role and not is_level(e) and side_of(e) == side for e in edges)


def reaches(surface: Surface, u: float, side: Side) -> bool:
    """True where u lies at the outermost board edge of that side, or beyond it (under a neighbour's board)."""
    us = [point[0] for board in surface.boards for point in board.outline]
    return u <= min(us) + TOUCH or u <= surface.left if side == "left" else u >= max(us) - TOUCH or u >= surface.right
