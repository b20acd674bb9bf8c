"""The base of the room file, in the frames of the walls that it stands against."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.ends import foot
from generator.model.geometry import TOUCH, tidy
from generator.model.profiles import Catalogue
from generator.model.room import Base, BaseSide, Wall
from generator.reading.room_shapes import BaseShape

CORNER_GAP = 25.4
"""mm: a base that ends this near to a corner is set into it, and stands against the neighbour too. Common practice,
no source: a base is sold up to 1/2 in shorter than its recess, and shimmed. It decides what the room file means and
is no limit of the trade."""
NO_BASE = Base("base", "none", "none", 0.0, 0.0, None, None, (), None, None)


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a base stands: index of the wall along it, u from and to there, and which neighbours it touches."""

    index: int
    start: float
    end: float
    left: bool
    right: bool


def stand_of(shape: BaseShape, names: tuple[str, ...], width: float) -> Stand:
    """Where it stands along its wall, which is `width` wide and has a neighbour wherever there is a next wall."""
    index = names.index(shape.along)
    length = shape.length.mm if shape.length else 0.0
    neighbours = (index > 0, index < len(names) - 1)
    if shape.start is not None:
        start = shape.start.mm
    else:
        start = tidy(width - length) if neighbours[1] and not neighbours[0] else 0.0
    left = neighbours[0] and start <= CORNER_GAP + TOUCH
    right = neighbours[1] and width - (start + length) <= CORNER_GAP + TOUCH
    return Stand(index, start, tidy(start + length), left, right)


def base_of(shape: BaseShape, walls: tuple[Wall, ...], catalogue: Catalogue) -> Base:
    """The base; the shape has been judged."""
    if shape.kind == "none" or shape.length is None or shape.width is None:
        return NO_BASE
    flange = catalogue.flanges.get(shape.profile) if shape.kind != "tray" else None
    tray = catalogue.trays.get(shape.profile) if shape.kind == "tray" else None
    return Base(
        path="base",
        kind=shape.kind,
        treatment="tray" if flange is None else "lapped" if flange.kind == "thin" else "butted",
        length=shape.length.mm,
        width=shape.width.mm,
        flange=flange,
        tray=tray,
        sides=_sides(shape, walls),
        threshold=shape.threshold.mm if shape.threshold else None,
        drain=shape.drain.mm if shape.drain else None,
    )


def _sides(shape: BaseShape, walls: tuple[Wall, ...]) -> tuple[BaseSide, ...]:
    """Its sides from left to right: the left neighbour, the wall along it, the right neighbour."""
    stand = stand_of(shape, tuple(wall.id for wall in walls), width_of(walls, shape.along))
    out = shape.width.mm if shape.width else 0.0
    sides = []
    if stand.left:
        left = walls[stand.index - 1]
        width = width_of(walls, left.id)
        sides.append(_side(shape, left.id, max(0.0, tidy(width - out)), width))
    sides.append(_side(shape, shape.along, stand.start, stand.end))
    if stand.right:
        right = walls[stand.index + 1]
        sides.append(_side(shape, right.id, 0.0, min(out, width_of(walls, right.id))))
    return tuple(sides)


def width_of(walls: tuple[Wall, ...], name: str) -> float:
    """Width of the wall of this name, from its outline."""
    return next(foot(wall.outline, "right") for wall in walls if wall.id == name)


def _side(shape: BaseShape, wall: str, start: float, end: float) -> BaseSide:
    deck = shape.deck.mm if shape.deck else 0.0
    flanged = shape.kind != "tray" and (shape.flanged is None or wall in shape.flanged)
    return BaseSide("base", wall, start, end, ((start, deck), (end, deck)), flanged)
