"""Planes of finished board faces, and where they meet: the folds that bands go over."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees

from generator.model.features import Fold, Segment
from generator.model.frames import Frame, Vector
from generator.model.geometry import Point, tidy

PARALLEL = 1e-9
"""Of a triple product of unit normals: planes nearer to parallel than this meet nowhere."""


@dataclass(frozen=True, slots=True)
class Plane:
    """The points p with normal . p = offset (mm); the unit normal looks into the room."""

    normal: Vector
    offset: float


def face_plane(frame: Frame, w: float) -> Plane:
    """The plane at a height above a frame's own: at the boards' thickness their finished face."""
    return Plane(frame.w_axis, _dot(frame.w_axis, frame.at(0.0, 0.0, w)))


def meeting_point(a: Plane, b: Plane, c: Plane) -> Vector:
    """The one point of three planes. Raises ValueError where two of them are parallel."""
    crosses = _cross(b.normal, c.normal), _cross(c.normal, a.normal), _cross(a.normal, b.normal)
    volume = _dot(a.normal, crosses[0])
    if abs(volume) < PARALLEL:
        raise ValueError("planes that are parallel meet in no point")
    offsets = (a.offset, b.offset, c.offset)
    x, y, z = (sum(d * way[i] for d, way in zip(offsets, crosses, strict=True)) / volume for i in range(3))
    return x, y, z


def fold_between(
    path: str, first: tuple[str, Frame], later: tuple[str, Frame], ends: tuple[Vector, Vector], outside: bool
) -> Fold:
    """The fold of two faces, each with its id, between two room points on both. `first` is boarded first.

    `outside`: true where the two faces look away from each other, so that the air is more than half round it.
    """
    between = degrees(acos(max(-1.0, min(1.0, _dot(first[1].w_axis, later[1].w_axis)))))
    return Fold(
        path=path,
        id=f"F-{first[0]}-{later[0]}",
        faces=(first[0], later[0]),
        lines=(_line(first[1], ends), _line(later[1], ends)),
        angle_deg=tidy(180.0 + between if outside else 180.0 - between),
        first=first[0],
    )


def _line(frame: Frame, ends: tuple[Vector, Vector]) -> Segment:
    return _point(frame, ends[0]), _point(frame, ends[1])


def _point(frame: Frame, at: Vector) -> Point:
    u, v, _ = frame.of(at)
    return tidy(u), tidy(v)


def _dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
