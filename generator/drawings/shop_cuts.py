"""What a router cuts of one board in one clamping: its edges or the cutter's way along them, and its pockets.

Pockets run over open sides of the board by the cutter's radius, so that no round corner is left there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.drafting.ink import Circle, Ink, Outline
from generator.drawings.cutter import cutter_way, inner_corners, relieved, run_over
from generator.drawings.parts import Face
from generator.model.choices import Choices, Shop
from generator.model.geometry import TOUCH, Ring, tidy
from generator.model.plan import Board, Opening, Plan

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True, slots=True)
class ShopCuts:
    """Ink in the frame of the board's wall, front up; what stays round, and what the cutter is too wide for."""

    ink: tuple[Ink, ...]
    inner_corners: int = 0
    """Where reliefs are wanted: how many corners the cutter leaves round without one, and how many get one."""
    reliefs: int = 0
    too_small: tuple[str, ...] = ()
    """Ids of openings that are not wider than the cutter: they are drawn as they are, for a drill."""


@dataclass(frozen=True, slots=True)
class _Cut:
    ink: Outline | Circle
    inner: int = 0
    reliefs: int = 0
    fits: bool = True


def shop_cuts(plan: Plan, choices: Choices, board: Board, up: Face, through: bool) -> ShopCuts:
    """The cuts of a board where its face `up` is worked; openings and outline only where it is cut `through`."""
    pockets = tuple(_pockets(board, choices, up))
    if not through:
        return ShopCuts(pockets)
    sealing = _sealing(plan, board)
    outline = _ring_cut(board.outline, choices.shop, board, sealing, hole=False)
    openings = [_opening_cut(opening, choices.shop, board, sealing) for opening in board.openings]
    cuts = (outline, *openings)
    return ShopCuts(
        (*(cut.ink for cut in cuts), *pockets),
        sum(cut.inner for cut in cuts),
        sum(cut.reliefs for cut in cuts),
        tuple(o.id for o, cut in zip(board.openings, openings, strict=True) if not cut.fits),
    )


def _pockets(board: Board, choices: Choices, up: Face) -> Iterator[Outline]:
    """Pockets of a face. They run over by no more than the kerf: beyond it lies the next board."""
    reach = min(choices.shop.cutter / 2, choices.kerf)
    for rabbet in board.rabbets:
        if rabbet.face == up:
            yield Outline(run_over(rabbet.ring, board.outline, reach), "pocket", depth=rabbet.depth)


def _sealing(plan: Plan, board: Board) -> BaseGeometry:
    """What is sealed of the board's wall: nothing that is cut there shows."""
    from shapely import Polygon, unary_union

    return unary_union([Polygon(r.ring) for band in plan.bands for r in band.rings if r.wall == board.wall])


def _opening_cut(opening: Opening, shop: Shop, board: Board, sealing: BaseGeometry) -> _Cut:
    if opening.ring:
        return _ring_cut(opening.ring, shop, board, sealing, hole=True)
    radius = opening.diameter / 2
    way = radius - (shop.cutter / 2 if shop.offset == "outside" else 0.0)
    fits = way > TOUCH
    return _Cut(Circle(opening.centre, tidy(way if fits else radius), "opening"), fits=fits)


def _ring_cut(ring: Ring, shop: Shop, board: Board, sealing: BaseGeometry, *, hole: bool) -> _Cut:
    """An outline or a hole, as the shop wants it: edge or way of the cutter, with or without reliefs."""
    radius = shop.cutter / 2
    inner = inner_corners(ring, radius, hole) if shop.relief else ()
    reliefs = [relief for relief in inner if relief.is_hidden(_face(board), sealing)]
    if shop.offset == "outside":
        drawn = cutter_way(ring, radius, reliefs, hole)
    else:
        drawn = relieved(ring, reliefs, hole) if reliefs else ring
    ink = Outline(drawn or ring, "opening" if hole else "cut")
    return _Cut(ink, len(inner), len(reliefs), bool(drawn))


def _face(board: Board) -> BaseGeometry:
    """The board's face: its outline less its openings."""
    from shapely import Point, Polygon

    shape: BaseGeometry = Polygon(board.outline)
    for opening in board.openings:
        hole = Polygon(opening.ring) if opening.ring else Point(opening.centre).buffer(opening.diameter / 2)
        shape = shape.difference(hole)
    return shape
