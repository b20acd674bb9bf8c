"""Screws along ledgers and rails that run aslant to a seat's joists: a row along each, from end to end of the piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist, sqrt
from typing import TYPE_CHECKING

from generator.model.geometry import NOISE, Point
from generator.model.plan import Board, Support
from generator.model.room import Room
from generator.planning.fastening.rows import Interval, heights
from generator.planning.fastening.screws import screw_for
from generator.planning.shapes import polygon, union

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def ledger_row(room: Room, board: Board, ledger: Support, taken: Sequence[Point]) -> Iterator[Point]:
    """Points (u, v) of the screws of a board into a ledger, clear of the board's other screws.

    The row runs along the middle of the ledger, or as far in from the board's edge as a screw keeps. Its screws keep
    the same distance from the ledger's ends and the board's. Contract: an addition, rows along ledgers.
    """
    from shapely import LineString

    edge = room.limit("screw-edge-distance")
    line = LineString(row_line(board, ledger, edge))
    inside = line.intersection(polygon(board.outline).buffer(-edge)).intersection(_clear_of_ends(ledger, edge))
    if inside.is_empty or inside.geom_type != "LineString":
        return
    (u0, v0), (u1, v1) = inside.coords[0], inside.coords[-1]
    length, washer = dist((u0, v0), (u1, v1)), screw_for(room, ledger).washer_diameter
    start, end = (0.0, length) if length >= washer else (length / 2, length / 2)
    for t in heights(start, end, room.limit("screw-spacing"), _blocks(((u0, v0), (u1, v1)), taken, washer)):
        yield u0 + t / length * (u1 - u0), v0 + t / length * (v1 - v0)


def row_line(board: Board, ledger: Support, edge: float) -> tuple[Point, Point]:
    """The ledger's axis, moved in from the board's edge beside it where that is nearer than `edge` (mm)."""
    from shapely import Point as Spot

    (u0, v0), (u1, v1) = ledger.axis
    outline = polygon(board.outline)
    middle = (u0 + u1) / 2, (v0 + v1) / 2
    nearest = outline.boundary.interpolate(outline.boundary.project(Spot(middle)))
    away = dist(middle, (nearest.x, nearest.y))
    by = max(0.0, edge + NOISE - away) / away
    du, dv = (middle[0] - nearest.x) * by, (middle[1] - nearest.y) * by
    return (u0 + du, v0 + dv), (u1 + du, v1 + dv)


def _clear_of_ends(ledger: Support, edge: float) -> BaseGeometry:
    """The ledger less so much at its ends; along its sides the row itself keeps away."""
    from shapely import LineString

    return polygon(ledger.outline).difference(union(LineString(side).buffer(edge) for side in _short_sides(ledger)))


def _short_sides(ledger: Support) -> Iterator[tuple[Point, Point]]:
    """The sides of its outline that do not run along it."""
    (a, b), ring = ledger.axis, ledger.outline
    way = (b[0] - a[0]) / dist(a, b), (b[1] - a[1]) / dist(a, b)
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        across = abs((q[0] - p[0]) * way[1] - (q[1] - p[1]) * way[0])
        if across > 1e-3 * dist(p, q):
            yield p, q


def _blocks(line: tuple[Point, Point], taken: Sequence[Point], washer: float) -> tuple[Interval, ...]:
    """Stretches along the line where a washer would lie on that of another screw."""
    (u0, v0), (u1, v1) = line
    length = dist((u0, v0), (u1, v1))
    found = []
    for u, v in taken:
        along = ((u - u0) * (u1 - u0) + (v - v0) * (v1 - v0)) / length
        aside = abs((u - u0) * (v1 - v0) - (v - v0) * (u1 - u0)) / length
        if aside < washer:
            half = sqrt(washer * washer - aside * aside)
            found.append((along - half, along + half))
    return tuple(sorted(found))
