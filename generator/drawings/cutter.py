"""What a round cutter makes of a part: how far a pocket runs over, which inner corners it can be given, its own way.

Rings in mm, in any frame that shows the front or the back in true size. `radius` is the cutter's. A cutter cannot
turn a corner that the waste has sharper than itself: there it leaves a fillet, or, with a relief, goes on along
the corner's middle until it touches the corner, and bites into both sides of the part (a "dog bone").
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.model.geometry import REAL_AREA, TOUCH, Point, Ring, area, canonical

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

_FACETS = 32
"""Straight pieces in a quarter turn of a relief: 0.004 mm off the round at a 1 in cutter."""


@dataclass(frozen=True, slots=True)
class Relief:
    """An inner corner of the waste: `turn` is where the cutter's middle turns without a relief, `end` with one."""

    turn: Point
    end: Point
    radius: float

    @property
    def bite(self) -> Polygon:
        """All that the cutter takes on its way from `turn` to `end`, and a touch more, so that it fits in."""
        from shapely import LineString

        return LineString((self.turn, self.end)).buffer(self.radius + TOUCH, quad_segs=_FACETS)

    @property
    def slit(self) -> Polygon:
        """The way from `turn` to `end` and back as a slit as narrow as a touch: no piece of the way lies on another."""
        from shapely import LineString

        (x, y), (p, q) = self.turn, self.end
        far = TOUCH / math.dist(self.turn, self.end)
        return LineString(((x - (p - x) * far, y - (q - y) * far), self.end)).buffer(TOUCH / 2, cap_style="flat")

    def is_hidden(self, part: BaseGeometry, cover: BaseGeometry) -> bool:
        """True where all that it bites out of the part lies under the sealing, so that no edge that shows is cut."""
        return bool(self.bite.intersection(part).difference(cover).area < REAL_AREA)


def run_over(pocket: Ring, outline: Ring, reach: float) -> Ring:
    """The pocket with its open sides, those on the board's outline, moved outwards by `reach`.

    The ends of an open side go straight on, so nothing is added beside it.
    """
    ring = _split(pocket, outline)
    sides = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    moved = [_moved(side, reach if _on(_middle(side), outline) else 0.0) for side in sides]
    points = (p for i, side in enumerate(moved) for p in _join(moved[i - 1], side))
    return canonical(points)


def _split(ring: Ring, by: Ring) -> Ring:
    """The ring with the corners of another that lie on it as further points."""
    found: list[Point] = []
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        inner = [c for c in by if _off(c, p, q) < TOUCH and min(math.dist(c, p), math.dist(c, q)) >= TOUCH]
        found += [p, *sorted(inner, key=lambda c: math.dist(c, p))]
    return tuple(found)


def _off(c: Point, p: Point, q: Point) -> float:
    """Distance of a point from a stretch."""
    from shapely import LineString
    from shapely import Point as ShapelyPoint

    return float(LineString((p, q)).distance(ShapelyPoint(c)))


def _on(c: Point, ring: Ring) -> bool:
    return any(_off(c, p, q) < TOUCH for p, q in zip(ring, (*ring[1:], ring[0]), strict=True))


def _middle(side: tuple[Point, Point]) -> Point:
    return ((side[0][0] + side[1][0]) / 2, (side[0][1] + side[1][1]) / 2)


def _moved(side: tuple[Point, Point], by: float) -> tuple[Point, Point]:
    """A side of a counter-clockwise ring, moved outwards."""
    (px, py), (qx, qy) = side
    far = by / math.dist(*side)
    dx, dy = (qy - py) * far, (px - qx) * far
    return (px + dx, py + dy), (qx + dx, qy + dy)


def _join(before: tuple[Point, Point], after: tuple[Point, Point]) -> tuple[Point, ...]:
    """Where two moved sides meet; a step where they run the same way."""
    (ax, ay), (bx, by) = before
    (cx, cy), (dx, dy) = after
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9 * math.hypot(ux, uy) * math.hypot(vx, vy):
        return (before[1], after[0])
    t = ((cx - ax) * vy - (cy - ay) * vx) / cross
    return ((ax + t * ux, ay + t * uy),)


def inner_corners(ring: Ring, radius: float, hole: bool) -> tuple[Relief, ...]:
    """The corners that a cutter leaves round, outside an outline or inside a hole, and what would relieve them.

    Corners so blunt that the cutter comes within a touch of them are none; nor are those that it cannot reach,
    because another part of the ring is too near.
    """
    from shapely import LinearRing
    from shapely import Point as ShapelyPoint

    border = LinearRing(ring)
    found = (_relief(ring[i - 1], p, ring[(i + 1) % len(ring)], radius, hole) for i, p in enumerate(ring))
    reached = (r for r in found if r and border.distance(ShapelyPoint(r.turn)) > radius - TOUCH)
    return tuple(reached)


def _relief(before: Point, at: Point, after: Point, radius: float, hole: bool) -> Relief | None:
    turns_left = area((before, at, after)) > 0
    if turns_left != hole:
        return None
    a, b = _way(at, before), _way(at, after)
    half = math.acos(max(-1.0, min(1.0, a[0] * b[0] + a[1] * b[1]))) / 2
    reach = radius / math.sin(half)
    if reach - radius < TOUCH:
        return None
    middle = _way((0.0, 0.0), (a[0] + b[0], a[1] + b[1]))
    turn, end = ((at[0] + middle[0] * far, at[1] + middle[1] * far) for far in (reach, radius))
    return Relief(turn, end, radius)


def _way(p: Point, q: Point) -> Point:
    """Unit vector from p to q."""
    far = math.dist(p, q)
    return (q[0] - p[0]) / far, (q[1] - p[1]) / far


def relieved(ring: Ring, reliefs: Sequence[Relief], hole: bool) -> Ring:
    """The edge of the part once the reliefs are cut."""
    from shapely import Polygon, unary_union

    shape, bites = Polygon(ring), unary_union([relief.bite for relief in reliefs])
    return _ring(shape.union(bites) if hole else shape.difference(bites))


def cutter_way(ring: Ring, radius: float, reliefs: Sequence[Relief], hole: bool) -> Ring:
    """The way of the cutter's middle round an outline, or inside a hole; empty where a hole is too small for it."""
    from shapely import Polygon, unary_union

    way = Polygon(ring).buffer(-radius if hole else radius, join_style="mitre", mitre_limit=10.0)
    slits = unary_union([relief.slit for relief in reliefs])
    return _ring(way.union(slits) if hole else way.difference(slits))


def _ring(shape: BaseGeometry) -> Ring:
    """The outer ring of one polygon; nothing of anything else."""
    from shapely import Polygon

    if not isinstance(shape, Polygon) or shape.is_empty:
        return ()
    return canonical((x, y) for x, y, *_ in shape.exterior.coords[:-1])
