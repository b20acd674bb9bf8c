"""The plane faces of a body in a wall's frame, and gaps between them: what measuring on solids is made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.model.frames import Vector
from generator.model.plan import PlannedWall
from generator.solids.kernel import in_wall

if TYPE_CHECKING:
    from shapely import Polygon

FACING = 1e-6
"""Least component of a unit normal along an axis for a face to face along it."""
SLIVER = 1e-3
"""mm2: faces whose shadows share less than this do not lie over each other."""
CURVE_STEPS = 32
"""Chords per curved edge of a plane face (mouths of openings; nothing is measured on them)."""


@dataclass(frozen=True, slots=True)
class Facet:
    """A plane face: unit normal out of the body, rings (the outer one first), all in (u, v, w)."""

    normal: Vector
    rings: tuple[tuple[Vector, ...], ...]


def facets(shape: Any, wall: PlannedWall) -> tuple[Facet, ...]:
    """The plane faces of a shape."""
    return tuple(_facet(face, wall) for face in shape.Faces() if face.geomType() == "PLANE")


def _facet(face: Any, wall: PlannedWall) -> Facet:
    tip = face.normalAt() + _vector(wall.origin)
    wires = (face.outerWire(), *face.innerWires())
    return Facet(
        in_wall(wall, tip.toTuple()), tuple(tuple(in_wall(wall, p) for p in wire_points(w, face)) for w in wires)
    )


def _vector(point: Vector) -> Any:
    from cadquery import Vector as KernelVector

    return KernelVector(*point)


def wire_points(wire: Any, face: Any = None) -> list[Vector]:
    """The corners of a wire in order, curved edges as chords."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.BRepTools import BRepTools_WireExplorer
    from OCP.GeomAbs import GeomAbs_Line
    from OCP.TopAbs import TopAbs_REVERSED

    walk = BRepTools_WireExplorer(wire.wrapped, face.wrapped) if face else BRepTools_WireExplorer(wire.wrapped)
    points: list[Vector] = []
    while walk.More():
        edge = walk.Current()
        curve = BRepAdaptor_Curve(edge)
        steps = 1 if curve.GetType() == GeomAbs_Line else CURVE_STEPS
        first, last = curve.FirstParameter(), curve.LastParameter()
        if edge.Orientation() == TopAbs_REVERSED:
            first, last = last, first
        spots = [curve.Value(first + (last - first) * i / steps) for i in range(steps)]
        points += [(p.X(), p.Y(), p.Z()) for p in spots]
        walk.Next()
    return points


def shadow(facet: Facet, axis: int) -> Polygon:
    """The facet seen along an axis (0 u, 1 v, 2 w): its other two coordinates."""
    from shapely import Polygon

    rings = [[(*p[:axis], *p[axis + 1 :]) for p in ring] for ring in facet.rings]
    return Polygon(rings[0], rings[1:])


def height(facet: Facet, axis: int, spot: Sequence[float]) -> float:
    """The facet's plane's coordinate along the axis at a point of the shadow."""
    through, normal = facet.rings[0][0], facet.normal
    others = [i for i in range(3) if i != axis]
    drop = sum(normal[i] * (s - through[i]) for i, s in zip(others, spot, strict=True))
    return through[axis] - drop / normal[axis]


def gap(upper: Iterable[Facet], lower: Iterable[Facet], axis: int) -> float | None:
    """Least distance along the axis from faces of one body down to faces of another that look at them.

    Negative where they pass each other; None where none lies over another.
    """
    down = [f for f in upper if f.normal[axis] < -FACING]
    up = [f for f in lower if f.normal[axis] > FACING]
    return min((g for a in down for b in up for g in _gaps(a, b, axis)), default=None)


def _gaps(upper: Facet, lower: Facet, axis: int) -> list[float]:
    """Gaps at the corners of the common shadow, where a difference of planes has its least."""
    common = shadow(upper, axis).intersection(shadow(lower, axis))
    if common.area < SLIVER:
        return []
    parts = [p for p in getattr(common, "geoms", [common]) if p.geom_type == "Polygon"]
    spots = [c for p in parts for c in p.exterior.coords]
    return [height(upper, axis, s) - height(lower, axis, s) for s in spots]
