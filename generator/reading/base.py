"""The base of the room file, in the frames of the walls that it stands against."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.ends import foot
from generator.model.geometry import TOUCH, Point
from generator.model.profiles import Catalogue
from generator.model.room import Base, BaseSide, Corner, Wall
from generator.reading.footprint import Chain, Run, Stand, stand_of
from generator.reading.room_shapes import BaseShape

NO_BASE = Base("base", "none", "none", 0.0, 0.0, None, None, (), None, None)
NO_DECK = ((0.0, 0.0),)
"""The floor, where there is no deck along a wall."""


def base_of(
    shape: BaseShape, walls: tuple[Wall, ...], corners: Sequence[Corner], catalogue: Catalogue, fit: float
) -> Base:
    """The base; the shape has been judged. A deck out by no more than `fit` (mm) along a wall is level there."""
    if shape.kind == "none" or shape.length is None or shape.width is None:
        return NO_BASE
    flange = catalogue.flanges.get(shape.profile) if shape.kind != "tray" else None
    tray = catalogue.trays.get(shape.profile) if shape.kind == "tray" else None
    chain = Chain(
        tuple(wall.id for wall in walls),
        tuple(foot(wall.outline, "right") for wall in walls),
        tuple(corner.angle_deg for corner in corners),
    )
    stand = stand_of(shape, chain)
    return Base(
        path="base",
        kind=shape.kind,
        treatment="tray" if flange is None else "lapped" if flange.kind == "thin" else "butted",
        length=shape.length.mm,
        width=shape.width.mm,
        flange=flange,
        tray=tray,
        sides=tuple(_side(shape, chain.names, stand, run, fit) for run in stand.runs),
        threshold=shape.threshold.mm if shape.threshold else None,
        drain=shape.drain.mm if shape.drain else None,
        along=shape.along,
        footprint=stand.footprint,
    )


def deck_ends(shape: BaseShape, wall: str) -> tuple[float, float] | None:
    """Heights of the deck at the left and the right end of its side on a wall, as measured; None where not known."""
    if wall in shape.decks:
        left, right = shape.decks[wall]
        return left.mm, right.mm
    return (shape.deck.mm, shape.deck.mm) if shape.deck is not None else None


def deck_line(shape: BaseShape, wall: str, run: Run, fit: float) -> tuple[Point, ...]:
    """The deck along a wall as (u, v) points; where it is as good as level, level at its higher end."""
    left, right = deck_ends(shape, wall) or (0.0, 0.0)
    if abs(left - right) <= fit + TOUCH:
        left = right = max(left, right)
    return (run.start, left), (run.end, right)


def is_flanged(shape: BaseShape, wall: str, corner: Sequence[str]) -> bool:
    """Whether it has a flange at a wall that it stands against; `corner`: the two walls of a neo-angle base."""
    if shape.kind == "tray":
        return False
    return wall in shape.flanged if shape.flanged is not None else not corner or wall in corner


def corner_walls(stand: Stand, names: Sequence[str]) -> tuple[str, ...]:
    """The two walls of a neo-angle base's corner; none for any other base."""
    if not stand.neo:
        return ()
    first = stand.index - 1 if stand.neo == "left" else stand.index
    return names[first], names[first + 1]


def _side(shape: BaseShape, names: tuple[str, ...], stand: Stand, run: Run, fit: float) -> BaseSide:
    wall = names[run.index]
    flanged = is_flanged(shape, wall, corner_walls(stand, names))
    gap = max(run.gap, shape.gaps[wall].mm if wall in shape.gaps else 0.0)  # they agree within the fit; notch for both
    return BaseSide("base", wall, run.start, run.end, deck_line(shape, wall, run, fit), flanged, gap, run.flare)
