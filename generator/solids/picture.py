"""The vector picture: visible edges, closed into patches, each with the body seen there and its shade."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import TYPE_CHECKING

from generator.model.geometry import Point, Ring, canonical
from generator.model.job import Face, Projection, Stroke
from generator.solids.camera import Camera
from generator.solids.edges import Chain, seen_edges
from generator.solids.records import Body
from generator.solids.strokes import strokes
from generator.solids.surface import Seen, Surface

if TYPE_CHECKING:
    from shapely import LinearRing, Polygon
    from shapely.geometry.base import BaseGeometry

REACH = 0.01
"""mm by which each visible edge is lengthened, so that T-junctions close."""
GRID = 1e-4
"""mm: the grid on which the edges of a picture are snapped together."""
SPECK = 0.2
"""mm2 (mm for a stroke): nothing smaller is drawn; a picture is printed at a tenth of its size."""


def picture(name: str, bodies: tuple[Body, ...], camera: Camera) -> Projection:
    """Filled faces and visible strokes of what the camera sees, in mm on its paper.

    Strokes marked `outer` run where one body ends before another; the others are creases within a body.
    """
    edges = seen_edges((b.shape for b in bodies), camera)
    surface = Surface.of(bodies, camera)
    seen: dict[Seen, list[Polygon]] = defaultdict(list)
    for patch in _patches((*edges.sharp, *edges.smooth)):
        spot = patch.representative_point()
        if (what := surface.seen_at(spot.x, spot.y)) is not None:
            seen[what].append(patch)
    faces = {what: _joined(patches) for what, patches in seen.items()}
    outlines = _outlines(faces)
    return Projection(name, _faces(faces, bodies), (*_heavy(outlines), *_creases(edges.sharp, outlines)))


def _patches(chains: Iterable[Chain]) -> list[Polygon]:
    """The patches that the edges close."""
    from shapely import LineString, get_parts, polygonize, unary_union

    lines = unary_union([LineString(_lengthened(c)) for c in chains if c[0] != c[-1]], grid_size=GRID)
    return [p for p in get_parts(polygonize(get_parts(lines))) if p.area > SPECK]


def _lengthened(chain: Chain) -> Chain:
    return _beyond(chain[1], chain[0]), *chain[1:-1], _beyond(chain[-2], chain[-1])


def _beyond(start: Point, end: Point) -> Point:
    """A point just past `end`."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    stretch = REACH / max((dx * dx + dy * dy) ** 0.5, REACH)
    return end[0] + dx * stretch, end[1] + dy * stretch


def _joined(patches: list[Polygon]) -> BaseGeometry:
    from shapely import unary_union

    return unary_union(patches, grid_size=GRID)


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [p for p in getattr(shape, "geoms", [shape]) if p.geom_type == "Polygon" and p.area > SPECK]


def _faces(faces: dict[Seen, BaseGeometry], bodies: tuple[Body, ...]) -> tuple[Face, ...]:
    """One face per patch of one body and one shade, holes as further rings, in a fixed order."""
    found = [
        Face(bodies[what.body].id, bodies[what.body].kind, _rings(polygon), what.shade)
        for what, shape in faces.items()
        for polygon in _polygons(shape)
    ]
    return tuple(sorted(found, key=lambda f: (f.rings[0], f.part)))


def _rings(polygon: Polygon) -> tuple[Ring, ...]:
    return _ring(polygon.exterior), *sorted(_ring(hole) for hole in polygon.interiors)


def _ring(line: LinearRing) -> Ring:
    return canonical((x, y) for x, y in line.coords[:-1])


def _outlines(faces: dict[Seen, BaseGeometry]) -> BaseGeometry:
    """The borders between bodies, each once."""
    from shapely import unary_union

    parts: dict[int, list[BaseGeometry]] = defaultdict(list)
    for what, shape in faces.items():
        parts[what.body].append(shape)
    borders = [unary_union(shapes, grid_size=GRID).boundary for shapes in parts.values()]
    return unary_union(borders, grid_size=GRID)


def _heavy(outlines: BaseGeometry) -> tuple[Stroke, ...]:
    return strokes(outlines, "", hidden=False, outer=True, least=SPECK)


def _creases(chains: tuple[Chain, ...], outlines: BaseGeometry) -> tuple[Stroke, ...]:
    """Visible edges that no outline covers."""
    from shapely import LineString, unary_union

    lines = unary_union([LineString(c) for c in chains], grid_size=GRID)
    rest = lines.difference(outlines.buffer(2 * REACH))
    return strokes(rest, "", hidden=False, outer=False, least=SPECK)
