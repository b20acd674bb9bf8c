"""Frames: where a wall, or a face of a niche or bench, stands in the room.

Frame of a face: `u` and `v` in its plane, `w` out of it towards the room; w = 0 is the plane of the framing that
boards are fastened to. Room: mm, z up from the datum.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from generator.model.geometry import tidy

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """Right-handed: u x v = w; the axes are unit vectors."""

    origin: Vector
    u_axis: Vector
    v_axis: Vector
    w_axis: Vector

    def at(self, u: float, v: float, w: float = 0.0) -> Vector:
        """The room point of a point in this frame."""
        axes = (self.u_axis, self.v_axis, self.w_axis)
        x, y, z = (o + sum(k * a[i] for k, a in zip((u, v, w), axes, strict=True)) for i, o in enumerate(self.origin))
        return x, y, z

    def of(self, point: Vector) -> Vector:
        """The (u, v, w) of a room point."""
        offset = [p - o for p, o in zip(point, self.origin, strict=True)]
        u, v, w = (
            sum(a * d for a, d in zip(axis, offset, strict=True)) for axis in (self.u_axis, self.v_axis, self.w_axis)
        )
        return u, v, w

    def turned(self, origin: Vector, u: Vector, v: Vector) -> Frame:
        """A frame given in this one's terms: its origin and the directions of its u and v (any length, square)."""
        axes = [_unit(self._direction(way)) for way in (u, v, _cross(u, v))]
        x, y, z = self.at(*origin)
        return Frame((tidy(x), tidy(y), tidy(z)), axes[0], axes[1], axes[2])

    def _direction(self, way: Vector) -> Vector:
        end, start = self.at(*way), self.origin
        return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def upright_frame(origin: Vector, heading_deg: float) -> Frame:
    """Of a plumb wall that runs along a heading (degrees from x towards y), seen from its right-hand side."""
    x, y = _whole(cos(heading_deg * pi / 180)), _whole(sin(heading_deg * pi / 180))
    return Frame(origin, (x, y, 0.0), (0.0, 0.0, 1.0), (y, _whole(-x), 0.0))


def chain_frames(widths: Sequence[tuple[str, float]], angles_deg: Sequence[float], along: str) -> Mapping[str, Frame]:
    """Frames of walls that follow each other left to right, by id; the wall `along` runs along x.

    `widths`: id and width at the floor; `angles_deg`: of each corner, inside the room (an outside one over 180).
    """
    turns = [180.0 - angle for angle in angles_deg]
    ids = [wall_id for wall_id, _ in widths]
    heading, at, frames = sum(turns[: ids.index(along)]), (0.0, 0.0), {}
    for index, (wall_id, width) in enumerate(widths):
        frame = upright_frame((tidy(at[0]), tidy(at[1]), 0.0), heading)
        frames[wall_id] = frame
        at = (at[0] + width * frame.u_axis[0], at[1] + width * frame.u_axis[1])
        heading -= turns[index] if index < len(turns) else 0.0
    return frames


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _unit(way: Vector) -> Vector:
    length = sum(x * x for x in way) ** 0.5
    x, y, z = (_whole(x / length) for x in way)
    return x, y, z


def _whole(value: float) -> float:
    """A component of a unit vector: 12 decimals, no negative zero."""
    return round(value, 12) + 0.0
