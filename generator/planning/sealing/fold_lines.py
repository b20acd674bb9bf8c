"""Folds as one of their two faces sees them: a line, the side of it that shows, and what lies beyond it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import dist

from generator.model.features import Fold, Segment
from generator.model.frames import Frame
from generator.model.geometry import REAL_AREA, Point, Ring, area, canonical
from generator.model.plan import PlannedWall
from generator.planning.shapes import polygon, rings, union


@dataclass(frozen=True, slots=True)
class FoldLine:
    """In the wall frame; `into` is the unit direction from the line over the part of the face that shows."""

    fold: Fold
    wall: str
    p: Point
    q: Point
    into: Point

    @property
    def outside(self) -> bool:
        """True where the faces turn away from each other."""
        return self.fold.angle_deg > 180.0

    @property
    def middle(self) -> Point:
        return (self.p[0] + self.q[0]) / 2, (self.p[1] + self.q[1]) / 2

    def depth_of(self, point: Point) -> float:
        """How far a point lies from the line on the side that shows; negative beyond it."""
        return (point[0] - self.p[0]) * self.into[0] + (point[1] - self.p[1]) * self.into[1]

    def strip(self, depth: float) -> Ring:
        """The strip along the line on the side that shows; beyond it where the depth is negative."""
        du, dv = self.into[0] * depth, self.into[1] * depth
        return canonical((self.p, self.q, (self.q[0] + du, self.q[1] + dv), (self.p[0] + du, self.p[1] + dv)))


def lines_on(wall: PlannedWall, walls: Iterable[PlannedWall], folds: Iterable[Fold]) -> tuple[FoldLine, ...]:
    """The folds of a wall, in their order."""
    frames = {other.id: other.frame for other in walls}
    return tuple(
        FoldLine(fold, wall.id, *fold.lines[i], _into(fold, fold.lines[i], wall.frame, frames[fold.faces[1 - i]]))
        for fold in folds
        for i in (0, 1)
        if fold.faces[i] == wall.id
    )


def _into(fold: Fold, line: Segment, own: Frame, other: Frame) -> Point:
    """Square to the line: in front of the other face at an inside fold, behind its plane at an outside one."""
    length = dist(*line)
    du, dv = (line[0][1] - line[1][1]) / length, (line[1][0] - line[0][0]) / length
    ahead = sum((du * u + dv * v) * w for u, v, w in zip(own.u_axis, own.v_axis, other.w_axis, strict=True))
    sign = 1.0 if (ahead > 0.0) == (fold.angle_deg < 180.0) else -1.0
    return sign * du, sign * dv


def shown(ring: Ring, middle: Point, lines: Sequence[FoldLine], depth: float) -> Ring:
    """A band's outline less what would lie beyond the folds round it, up to `depth` beyond them.

    Only folds that have the middle of the band before them bound it: round the mouth of a niche bands pass each other.
    """
    beyond = [line.strip(-depth) for line in lines if line.depth_of(middle) > 0.0]
    shape = polygon(ring).difference(union(polygon(strip) for strip in beyond))
    if shape.area > area(ring) - REAL_AREA:
        return ring
    return max(rings(shape), key=area)
