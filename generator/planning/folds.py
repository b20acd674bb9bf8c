"""Folds as the planner uses them: which lines lie on a wall, and what they leave of a face to see."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import dist, inf

from generator.model.ends import is_upright
from generator.model.features import Fold, Segment
from generator.model.geometry import Point, Ring, box
from generator.model.plan import PlannedWall
from generator.model.room import Room


def plan_folds(room: Room) -> tuple[Fold, ...]:
    """The folds, sorted by id."""
    return tuple(sorted(room.folds, key=lambda fold: fold.id))


def fold_lines(folds: Iterable[Fold], wall: str) -> Iterator[Segment]:
    """Where the board faces of others meet those of a wall, on that wall."""
    return (line for fold in folds for face, line in zip(fold.faces, fold.lines, strict=True) if face == wall)


def runs_along(edge: Segment, line: Segment, apart: float) -> bool:
    """True where an edge lies beside a line, its middle nearer than `apart` (mm), in the same direction."""
    length = dist(*line)
    du, dv = (line[1][0] - line[0][0]) / length, (line[1][1] - line[0][1]) / length
    along = [(u - line[0][0]) * du + (v - line[0][1]) * dv for u, v in edge]
    off = [abs((u - line[0][0]) * dv - (v - line[0][1]) * du) for u, v in edge]
    within = -apart <= sum(along) / 2 <= length + apart
    return within and max(off) <= apart and abs(off[0] - off[1]) <= abs(along[0] - along[1]) / 4


@dataclass(frozen=True, slots=True)
class Seen:
    """The box of a face that its inside folds leave to see, in (u, v); without end where nothing stands before it."""

    left: float = -inf
    bottom: float = -inf
    right: float = inf
    top: float = inf


def seen(wall: PlannedWall, folds: Iterable[Fold]) -> Seen:
    """Of a face of a feature, what the boards round it leave to see; everything of a wall of the room."""
    if wall.face == "wall":
        return Seen()
    lines = [line for fold in folds if fold.angle_deg < 180.0 for line in fold_lines((fold,), wall.id)]
    middle = _middle(wall.extent)
    upright = [(p[0], q[0]) for p, q in lines if is_upright(p, q)]
    lefts = [max(pair) for pair in upright if sum(pair) < 2 * middle[0]]
    rights = [min(pair) for pair in upright if sum(pair) >= 2 * middle[0]]
    level = [(p[1], q[1]) for p, q in lines if is_upright((p[1], p[0]), (q[1], q[0]))]
    bottoms = [max(pair) for pair in level if sum(pair) < 2 * middle[1]]
    tops = [min(pair) for pair in level if sum(pair) >= 2 * middle[1]]
    return Seen(max(lefts, default=-inf), max(bottoms, default=-inf), min(rights, default=inf), min(tops, default=inf))


def _middle(ring: Ring) -> Point:
    left, low, right, high = box(ring)
    return (left + right) / 2, (low + high) / 2
