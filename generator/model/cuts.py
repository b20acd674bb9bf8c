"""Where a detail is cut: a plane with its window.

A cut's frame lies in its plane: x is the frame's u, y its v, and its w comes towards the reader. Upright cuts have
the wall on the left and the room on the right; level ones are seen from above with the wall at the top.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.frames import Frame

Window = tuple[float, float, float, float]
"""(left, bottom, right, top) in a cut's frame, mm."""
CutKind = Literal[
    "base",
    "corner",
    "outside_corner",
    "wallboard",
    "screw",
    "head",
    "sill",
    "cap",
    "nosing",
    "seat",
    "rim",
    "curb",
    "drop",
    "underside",
]


@dataclass(frozen=True, slots=True)
class Cut:
    """`name`: its key among the job's sections; `subject`: id of the side's wall, corner, edge, fastener or fold."""

    name: str
    kind: CutKind
    subject: str
    wall: str
    """The wall that it is a detail of: its boards are not for cutting where that wall failed."""
    frame: Frame
    window: Window
    feature: str = ""
