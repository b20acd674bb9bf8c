"""What is fastened to the finished wall: grab bars, seats, glass, doors. Lengths in mm in the wall frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import Point, Ring, box

MountKind = Literal["grab_bar", "seat", "glass", "door"]
Direction = Literal["level", "upright"]
Accessible = Literal["transfer_shower", "roll_in", "bathtub"]
"""The accessible bathing places of ADA 607 and 608 whose bars, seat and controls are measured."""


@dataclass(frozen=True, slots=True)
class Mount:
    """`ring`: its box on the wall; `fixings`: middles of the plates that are screwed through the board.

    A bar's ring is its gripping part from end to end, a seat's goes from its top down to its lowest fixings, that of
    glass or a door is the line (as wide as its plate) along which it is fastened to the wall.
    """

    path: str
    id: str
    name: str
    wall: str
    kind: MountKind
    direction: Direction
    ring: Ring
    fixings: tuple[Point, ...]
    plate: float
    """Side of the square behind each fixing that must be solid."""
    diameter: float = 0.0
    """Of a bar's section."""
    gap: float = 0.0
    """Between a bar and the finished face of its wall."""
    out: float = 0.0
    """How far a seat stands out from the finished face of its wall."""

    @property
    def top(self) -> float:
        """v of its upper side: of a bar the top of the grip, of a seat its sitting face."""
        return box(self.ring)[3]

    @property
    def ends(self) -> tuple[float, float]:
        """u from, u to."""
        left, _, right, _ = box(self.ring)
        return left, right
