"""Preformed corner pieces: one over each point where three boarded faces meet, which no band can be folded into."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist

from generator.model.features import Fold
from generator.model.frames import Vector
from generator.model.geometry import TOUCH
from generator.model.plan import Plan
from generator.model.purchase import TakeoffRow
from generator.model.room import Room
from generator.planning.faces import thicknesses
from generator.planning.takeoff.rows import in_van, make_row, term


@dataclass(frozen=True, slots=True)
class CornerPoint:
    """A point of the room with the folds that end there."""

    at: Vector
    folds: tuple[Fold, ...]

    @property
    def faces(self) -> frozenset[str]:
        return frozenset(face for fold in self.folds for face in fold.faces)

    @property
    def outside(self) -> bool:
        """True where any two of the faces turn away from each other."""
        return any(fold.angle_deg > 180.0 for fold in self.folds)


def corner_points(plan: Plan) -> tuple[CornerPoint, ...]:
    """The points where three boarded faces meet, in the order of their folds."""
    points: list[CornerPoint] = []
    for fold in plan.folds:
        for at in _ends(plan, fold):
            known = next((i for i, point in enumerate(points) if dist(point.at, at) <= TOUCH), None)
            if known is None:
                points.append(CornerPoint(at, (fold,)))
            else:
                points[known] = CornerPoint(points[known].at, (*points[known].folds, fold))
    return tuple(point for point in points if len(point.faces) >= 3)


def _ends(plan: Plan, fold: Fold) -> Iterator[Vector]:
    """Both ends of a fold in the room; none where one of its faces carries no boards."""
    thick = thicknesses(plan.boards)
    if all(face in thick for face in fold.faces):
        face = fold.faces[0]
        frame = plan.wall(face).frame
        yield from (frame.at(u, v, thick[face]) for u, v in fold.lines[0])


def corner_piece_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """Inside pieces, then outside ones, a term for each point; their use is common practice, without a source."""
    band = room.choices.band
    for index, outside in enumerate((False, True)):
        points = [point for point in corner_points(plan) if point.outside == outside]
        terms = [term(f"where {_named(point)} meet", 1.0, (fold.id for fold in point.folds)) for point in points]
        item = f"preformed {'outside' if outside else 'inside'} corner piece of the band's maker"
        if terms:
            there = in_van(room, "corner-piece", index == 0)
            yield make_row("corner-piece", band.id, item, "pieces", terms, 1.0, there)


def _named(point: CornerPoint) -> str:
    return ", ".join(sorted(point.faces))
