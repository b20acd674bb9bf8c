"""Between our rings and shapely: polygons in, canonical rings out, always in one order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from generator.model.geometry import REAL_AREA, Point, Ring, canonical
from generator.model.plan import Region

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


SLIVER = 0.1
"""mm: what is left between two cuts that are meant to be one is thinner than this."""


def polygon(ring: Sequence[Point], holes: Iterable[Sequence[Point]] = ()) -> BaseGeometry:
    """The shapely polygon of a ring."""
    from shapely import Polygon

    return Polygon(ring, [tuple(hole) for hole in holes])


def union(shapes: Iterable[BaseGeometry]) -> BaseGeometry:
    """All shapes as one."""
    from shapely import unary_union

    return unary_union(list(shapes))


def without_slivers(shape: BaseGeometry) -> BaseGeometry:
    """The shape less what is thinner than a sliver: no cutter could make it, and no pencil mark it."""
    return shape.buffer(-SLIVER / 2, join_style="mitre").buffer(SLIVER / 2, join_style="mitre")


def regions(shape: BaseGeometry) -> tuple[Region, ...]:
    """The polygons of a shape with their holes, slivers below the real area left out, lowest-left first."""
    found = [_region(part) for part in _polygons(shape) if part.area > REAL_AREA]
    return tuple(sorted(found, key=lambda region: (region.ring[0][1], region.ring[0][0], region.ring)))


def rings(shape: BaseGeometry) -> tuple[Ring, ...]:
    """The outer rings of a shape's polygons, lowest-left first."""
    return tuple(region.ring for region in regions(shape))


def _region(part: BaseGeometry) -> Region:
    holes = sorted(canonical(hole.coords[:-1]) for hole in part.interiors)  # type: ignore[attr-defined]
    return Region(canonical(part.exterior.coords[:-1]), tuple(holes))  # type: ignore[attr-defined]


def _polygons(shape: BaseGeometry) -> list[BaseGeometry]:
    parts = list(shape.geoms) if hasattr(shape, "geoms") else [shape]
    return [part for part in parts if part.geom_type == "Polygon"]
