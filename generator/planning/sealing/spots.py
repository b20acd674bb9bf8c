"""Collars round the openings and patches over the screws that nothing else covers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import cos, pi, sin

from generator.model.geometry import NOISE, REAL_AREA, Point, Ring, box, canonical, rectangle
from generator.model.plan import (
    Band,
    Board,
    Fastener,
    PlannedFitting,
    WallRing,
)
from generator.planning.sealing.surface import Surface
from generator.planning.shapes import polygon

CORNERS = 64
"""A collar's ring is a regular polygon of so many corners on its circle, hence never larger than the collar."""


def collars(fittings: Iterable[PlannedFitting], boards: Iterable[Board]) -> Iterator[Band]:
    """One for each fitting that comes through a board."""
    through = {opening.fitting_id for board in boards for opening in board.openings}
    for fitting in fittings:
        if fitting.id in through and fitting.collar_diameter > 0:
            ring = WallRing(fitting.wall, collar_ring(fitting.centre, fitting.collar_diameter))
            name = f"T-{fitting.wall}-collar-{fitting.id}"
            yield Band(name, "collar", (fitting.id,), (ring,), fitting.collar_diameter, ())


def collar_ring(centre: Point, diameter: float) -> Ring:
    """Polygon of a round collar, with corners at its leftmost, lowest, rightmost and topmost points."""
    turns = [2 * pi * i / CORNERS for i in range(CORNERS)]
    return canonical((centre[0] + diameter / 2 * cos(t), centre[1] + diameter / 2 * sin(t)) for t in turns)


def patches(
    fasteners: Sequence[Fastener], bands: Sequence[Band], surfaces: Mapping[str, Surface], side: float
) -> Iterator[Band]:
    """A square patch over each screw whose washer lies in no band or collar, numbered wall by wall."""
    numbers: dict[str, int] = {}
    for fastener in uncovered(fasteners, bands):
        number = numbers[fastener.wall] = numbers.get(fastener.wall, 0) + 1
        ring = patch_ring(fastener, side, surfaces[fastener.wall])
        name = f"T-{fastener.wall}-patch-{number:03d}"
        yield Band(name, "patch", (fastener.id,), (WallRing(fastener.wall, ring),), side, ())


def uncovered(fasteners: Iterable[Fastener], bands: Iterable[Band]) -> Iterator[Fastener]:
    """Screws whose washers lie wholly within no single ring."""
    shapes: dict[str, list[Ring]] = {}
    for band in bands:
        for leg in band.rings:
            shapes.setdefault(leg.wall, []).append(leg.ring)
    for fastener in fasteners:
        radius = fastener.washer_diameter / 2
        if not any(holds(ring, fastener.point, radius) for ring in shapes.get(fastener.wall, ())):
            yield fastener


def holds(ring: Ring, centre: Point, radius: float) -> bool:
    """True where the disc lies within the ring."""
    from shapely import Point as ShapelyPoint

    shape, spot = polygon(ring), ShapelyPoint(centre)
    return bool(shape.contains(spot)) and bool(shape.boundary.distance(spot) >= radius - NOISE)


def patch_ring(fastener: Fastener, side: float, surface: Surface) -> Ring:
    """The square over the screw, slid to stay on the faces, but only as far as it holds the washer.

    It is cut only where the face is narrower than it is.
    A washer that overhangs a free edge takes its patch with it, folded round the edge.
    """
    radius = fastener.washer_diameter / 2
    reach = [(surface.least + surface.leans[0] * v, surface.most + surface.leans[1] * v) for v in _heights(fastener)]
    least, most = max(low for low, _ in reach), min(high for _, high in reach)
    left, right = _slid(fastener.point[0], radius, side, least, most)
    bottom, top = _slid(fastener.point[1], radius, side, surface.bottom, surface.top)
    return _off_mouths(rectangle(left, bottom, right, top), fastener, surface)


def _off_mouths(ring: Ring, fastener: Fastener, surface: Surface) -> Ring:
    """The square slid back from an outside fold that it would overhang, the shortest way, as far as it may go."""
    square, side = polygon(ring), box(ring)[2] - box(ring)[0]
    crossed = [f for f in surface.lines if f.outside and polygon(f.strip(-side)).intersection(square).area > REAL_AREA]
    slides = sorted((-min(line.depth_of(point) for point in ring), line.into) for line in crossed)
    for by, (du, dv) in slides:
        slid = canonical((u + by * du, v + by * dv) for u, v in ring)
        left, bottom, right, top = box(slid)
        on_face = left >= surface.least and right <= surface.most and bottom >= surface.bottom and top <= surface.top
        if on_face and holds(slid, fastener.point, fastener.washer_diameter / 2):
            return slid
    return ring


def _heights(fastener: Fastener) -> tuple[float, float]:
    """From the lowest to the highest point of a washer."""
    v, radius = fastener.point[1], fastener.washer_diameter / 2
    return v - radius, v + radius


def _slid(centre: float, radius: float, side: float, least: float, most: float) -> tuple[float, float]:
    """Where the square starts and ends along one axis."""
    if most - least < side:
        return min(least, centre - radius), max(most, centre + radius)
    start = max(min(centre - side / 2, most - side), least)
    start = max(min(start, centre - radius), centre + radius - side)
    return start, start + side
