"""The one door to the modelling kernel, and the frame of a wall in its terms."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from generator.errors import MissingSystemLibraryError
from generator.model.frames import Vector
from generator.model.geometry import Point
from generator.model.plan import PlannedWall


def kernel() -> Any:
    """The cadquery module, loaded on first use.

    Raises MissingSystemLibraryError when the system's OpenGL library, which its wheels need, is absent.
    """
    try:
        import cadquery
    except ModuleNotFoundError:
        raise
    except (ImportError, OSError) as error:
        raise MissingSystemLibraryError(
            f"The modelling kernel cannot start ({error}). It needs the system's OpenGL library: "
            "on Debian or Ubuntu install the package libgl1 (apt-get install libgl1)."
        ) from error
    return cadquery


def at(wall: PlannedWall, u: float, v: float, w: float) -> Vector:
    """The room point (mm) of a point in the wall's frame."""
    axes = (wall.u_axis, wall.v_axis, wall.w_axis)
    x, y, z = (o + sum(k * a[i] for k, a in zip((u, v, w), axes, strict=True)) for i, o in enumerate(wall.origin))
    return x, y, z


def in_wall(wall: PlannedWall, point: Vector) -> Vector:
    """The (u, v, w) of a room point (mm)."""
    offset = [p - o for p, o in zip(point, wall.origin, strict=True)]
    u, v, w = (
        sum(a * d for a, d in zip(axis, offset, strict=True)) for axis in (wall.u_axis, wall.v_axis, wall.w_axis)
    )
    return u, v, w


def wire(points: Iterable[Vector]) -> Any:
    """A closed wire through room points."""
    cq = kernel()
    return cq.Wire.makePolygon([cq.Vector(*p) for p in points], close=True)


def wall_wire(wall: PlannedWall, ring: Iterable[Point], w: float) -> Any:
    """A ring of the wall's (u, v), as a closed wire at that w."""
    return wire(at(wall, u, v, w) for u, v in ring)


def sweep(outline: Any, holes: Iterable[Any], direction: Vector, length: float) -> Any:
    """The solid that a plane outline with holes sweeps along a straight line."""
    cq = kernel()
    return cq.Solid.extrudeLinear(outline, list(holes), cq.Vector(*direction) * length)


def circle(wall: PlannedWall, centre: Point, diameter: float, w: float) -> Any:
    """A true circle in a plane parallel to the wall."""
    cq = kernel()
    return cq.Wire.makeCircle(diameter / 2, cq.Vector(*at(wall, *centre, w)), cq.Vector(*wall.w_axis))


def one_solid(shape: Any) -> Any:
    """The only solid of a compound; the shape itself when there are several."""
    solids = shape.Solids()
    return solids[0] if len(solids) == 1 else shape
