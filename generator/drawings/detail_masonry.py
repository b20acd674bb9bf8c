"""Bare masonry in a detail: the wall goes on between the rows of plugs that the plan knows, boards lie in mortar."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from generator.drawings.callouts import Note
from generator.drawings.detail_ink import Patch, Seen, direction
from generator.drawings.detail_said import rings_of
from generator.model.geometry import Point, Ring
from generator.model.room import Wall
from generator.units import label

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

FAR = 2e3
"""mm: more than any window shows."""


def masonry_patches(shown: Seen) -> tuple[Patch, ...]:
    """The masonry and the beds of mortar in the window."""
    return tuple(patch for wall in _walls(shown) for patch in _patches(shown, wall))


def masonry_notes(shown: Seen) -> tuple[Note, ...]:
    """How thick the mortar behind the boards is."""
    units = shown.job.room.choices.paper_units
    return tuple(
        Note((spot.x, spot.y), f"bed of mortar over the board's whole back, {label(wall.furring, units)} thick")
        for wall in _walls(shown)
        for spot in [_bed(shown, wall).representative_point()]
        if wall.furring
    )


def _walls(shown: Seen) -> list[Wall]:
    ids = {b.wall for b in shown.boards()}
    return [w for w in shown.job.room.walls if w.id in ids and w.masonry is not None]


def _patches(shown: Seen, wall: Wall) -> Iterator[Patch]:
    from shapely import Polygon
    from shapely import box as rectangle

    assert wall.masonry is not None
    bed = _bed(shown, wall)
    slab = Polygon(_slab(shown, wall, -wall.furring - wall.masonry.depth, -wall.furring))
    body = slab.intersection(rectangle(*shown.cut.window)).difference(shown.solid(but=masonry_parts(shown)))
    yield from (Patch(ring, "masonry") for ring in rings_of(body))
    yield from (Patch(ring, "mortar") for ring in rings_of(bed))


def masonry_parts(shown: Seen) -> frozenset[str]:
    """Ids of the supports that stand for rows of plugs."""
    return frozenset(s.id for s in shown.job.plan.supports if s.material == "masonry")


def _bed(shown: Seen, wall: Wall) -> BaseGeometry:
    """Between the backs of the wall's boards and the masonry."""
    from shapely import Polygon, unary_union
    from shapely import box as rectangle

    slab = Polygon(_slab(shown, wall, -wall.furring, 0.0)).intersection(rectangle(*shown.cut.window))
    back = unary_union([_behind(shown, b.id, wall) for b in shown.boards() if b.wall == wall.id])
    return slab.intersection(back)


def _behind(shown: Seen, board: str, wall: Wall) -> BaseGeometry:
    from shapely.affinity import translate

    x, y = direction(shown.cut.frame, shown.job.plan.wall(wall.id))
    shape = shown.shape(board)
    return translate(shape, -x * wall.furring, -y * wall.furring).union(shape).convex_hull


def _slab(shown: Seen, wall: Wall, low: float, high: float) -> Ring:
    """From w to w of the wall, without end to either side."""
    planned = shown.job.plan.wall(wall.id)
    out = direction(shown.cut.frame, planned)
    at = shown.cut.frame.of(planned.origin)
    along = at[0] * out[0] + at[1] * out[1]

    def spot(w: float, aside: float) -> Point:
        return (out[0] * (along + w) - out[1] * aside, out[1] * (along + w) + out[0] * aside)

    return (spot(low, -FAR), spot(high, -FAR), spot(high, FAR), spot(low, FAR))
