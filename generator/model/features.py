"""What stands in, on or before a wall: niches, windows, benches, curbs, half walls. Their faces are planned as walls.

Every face is a `Wall` with a frame of its own, appended to the room's walls behind the chain of real walls; so one
mechanism lays out, cuts, screws and seals them all. A `Fold` says where the board faces of two such walls meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import Point, Ring

Segment = tuple[Point, Point]
FeatureKind = Literal["niche", "window", "bench", "curb", "half_wall", "deck", "soffit"]
FaceKind = Literal[
    "wall",
    "rear",
    "left",
    "right",
    "sill",
    "head",
    "seat",
    "front",
    "inside",
    "outside",
    "cap",
    "end",
    "underside",
]
"""What a face is of its feature; "wall" for a wall of the room."""


@dataclass(frozen=True, slots=True)
class Mouth:
    """Opening in a wall's framing for a niche or a window: the wall's boards end at its ring, flush with the framing.

    `ring` in the wall's frame. `depth`: from the stud faces back to the rearmost plane of what is built in.
    """

    path: str
    feature: str
    kind: Literal["niche", "window"]
    ring: Ring
    depth: float


@dataclass(frozen=True, slots=True)
class Fold:
    """The line where the finished board faces of two walls meet, as a segment on each (same points, same order).

    `angle_deg` is measured in the room, in front of the boards: under 180 an inside corner, over 180 an outside one.
    `first` is boarded first: at an outside fold the other laps its edge, at an inside one the other butts against it.
    """

    path: str
    id: str
    faces: tuple[str, str]
    lines: tuple[Segment, Segment]
    angle_deg: float
    first: str


@dataclass(frozen=True, slots=True)
class Feature:
    """A niche, window, bench ... with the ids of its faces. `drains`: those that must fall to the drain."""

    path: str
    id: str
    kind: FeatureKind
    wall: str
    """The wall that it is in or stands against; of a half wall its inside face."""
    faces: tuple[str, ...]
    drains: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class InBay:
    """What was found between the studs, as a box on the wall: `ring` in (u, v)."""

    path: str
    kind: Literal["pipe", "cable", "insulation", "duct"]
    ring: Ring
