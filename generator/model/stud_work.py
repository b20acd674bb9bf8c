"""What was found on and done to studs: faces off a string line, holes, notches; shims, planing, shield plates.

Lengths in mm in the wall frame. A reading is taken with a tape from a string line or laser plane that stands in
front of the studs, straight back to the stud's face: never negative, and larger where the wall is hollow.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import Ring

Carried = Literal["pipe", "steel_pipe", "cable", "nothing"]
"""What goes through a hole or a notch."""


@dataclass(frozen=True, slots=True)
class FaceReading:
    """How far the face of a stud stands behind the line at one height; `support` is the stud's path."""

    path: str
    support: str
    u: float
    v: float
    off: float


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole bored through a stud from side to side; `from_face`: its middle from the face at the boards."""

    path: str
    support: str
    v: float
    diameter: float
    from_face: float
    doubled: bool
    """True where a second stud is fastened beside the bored one."""
    carries: Carried


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch in the face at the boards (front) or in the opposite one (back)."""

    path: str
    support: str
    low: float
    high: float
    depth: float
    face: Literal["front", "back"]
    carries: Carried


@dataclass(frozen=True, slots=True)
class Shim:
    """One stretch of a stud's face brought to the finished plane: shimmed forward, or planed back."""

    id: str
    wall: str
    support_id: str
    work: Literal["shim", "plane"]
    v: float
    """Height of the reading that it answers."""
    low: float
    high: float
    """The stretch of the stud, half way to the readings below and above."""
    width: float
    thickness: float


@dataclass(frozen=True, slots=True)
class Furring:
    """A strip on the face of a support, w from -thickness to 0; `ring` is its face in (u, v)."""

    id: str
    wall: str
    support_id: str
    ring: Ring
    thickness: float


@dataclass(frozen=True, slots=True)
class StudFace:
    """A reading that the plan used, with its support in the plan."""

    wall: str
    support_id: str
    u: float
    v: float
    off: float


@dataclass(frozen=True, slots=True)
class FinishedPlane:
    """The plane at which no finished stud face stands in front, as three points (u, v, off).

    `off` is measured as the readings are: back from the line. `material` is the volume shimmed and planed in mm3,
    `bound` what no schedule can go below, `proven` True where the two meet.
    """

    wall: str
    points: tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]]
    material: float
    bound: float
    proven: bool
    longest: float | None = None
    """Longest edge of the tile that the plane is for; None: not known, and judged as large."""

    def off(self, u: float, v: float) -> float:
        """How far the plane lies behind the line at a point of the wall."""
        (u0, v0, w0), (u1, _, w1), (_, v1, w2) = self.points
        return w0 + (w1 - w0) * (u - u0) / (u1 - u0) + (w2 - w0) * (v - v0) / (v1 - v0)


@dataclass(frozen=True, slots=True)
class ShieldPlate:
    """A steel plate on the face of a stud, over a hole or notch of `height`, its middle at v."""

    id: str
    wall: str
    support_id: str
    v: float
    height: float
    carries: Carried
    room_path: str
