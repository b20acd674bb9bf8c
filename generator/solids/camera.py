"""From where a picture is taken: parallel rays on to a paper with x to the right and y up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from generator.model.frames import Vector
from generator.model.plan import PlannedWall


@dataclass(frozen=True, slots=True)
class Camera:
    """The paper passes through `target`; `back` is the unit vector from it towards the eye."""

    target: Vector
    right: Vector
    up: Vector
    back: Vector

    def axes(self) -> Any:
        """The camera as the kernel's coordinate system."""
        from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

        return gp_Ax2(gp_Pnt(*self.target), gp_Dir(*self.back), gp_Dir(*self.right))


def looking(target: Vector, azimuth_deg: float, elevation_deg: float) -> Camera:
    """An upright camera: where its eye stands, from above counter-clockwise from x, and how high."""
    a, e = math.radians(azimuth_deg), math.radians(elevation_deg)
    back = (math.cos(a) * math.cos(e), math.sin(a) * math.cos(e), math.sin(e))
    right = (-math.sin(a), math.cos(a), 0.0)
    up = (-math.cos(a) * math.sin(e), -math.sin(a) * math.sin(e), math.cos(e))
    return Camera(target, right, up, back)


def facing(wall: PlannedWall) -> Camera:
    """Square on to a wall from the room: x is u, y is v."""
    return Camera(wall.origin, wall.u_axis, wall.v_axis, wall.w_axis)


def behind(wall: PlannedWall) -> Camera:
    """Square on to a wall from behind: x is -u, y is v."""
    return Camera(wall.origin, reversed_(wall.u_axis), wall.v_axis, reversed_(wall.w_axis))


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def reversed_(a: Vector) -> Vector:
    """The opposite vector."""
    return -a[0], -a[1], -a[2]
