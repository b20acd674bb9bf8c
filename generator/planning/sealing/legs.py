"""Joints and their legs: a line on each wall that a band lies along, and how wide it lies to either side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.ends import STEEPEST
from generator.model.geometry import Point, tidy
from generator.model.room import Room


@dataclass(frozen=True, slots=True)
class Leg:
    """A line on a wall with the band's width to the left and to the right of it, looking from p to q."""

    wall: str
    p: Point
    q: Point
    left: float
    right: float

    @property
    def length(self) -> float:
        return float(((self.q[0] - self.p[0]) ** 2 + (self.q[1] - self.p[1]) ** 2) ** 0.5)

    @property
    def middle(self) -> Point:
        return (self.p[0] + self.q[0]) / 2, (self.p[1] + self.q[1]) / 2


@dataclass(frozen=True, slots=True)
class Joint:
    """A straight joint; the two legs of a corner run side by side and are equally long."""

    kind: Literal["seam", "corner", "base"]
    place: str
    """Wall, corner or fold that names its pieces."""
    covers: tuple[str, ...]
    legs: tuple[Leg, ...]
    at_fold: bool = False
    """True where it is a fold: what lies beyond another fold is then no part of its faces."""


def longer(leg: Leg, before: float, after: float) -> Leg:
    """The leg run on beyond p and beyond q."""
    (u0, v0), (u1, v1) = leg.p, leg.q
    du, dv = (u1 - u0) / leg.length, (v1 - v0) / leg.length
    p = tidy(u0 - du * before), tidy(v0 - dv * before)
    q = tidy(u1 + du * after), tidy(v1 + dv * after)
    return Leg(leg.wall, p, q, leg.left, leg.right)


def runs_aslant(p: Point, q: Point) -> bool:
    """True of a line that is neither nearly level nor nearly upright."""
    least, most = sorted((abs(q[0] - p[0]), abs(q[1] - p[1])))
    return least > STEEPEST * most


def overlap(room: Room) -> float:
    """How far a band runs on past a joint where another one turns off: the lap, or half the band if more."""
    return max(room.limit("band-lap"), room.choices.band.width / 2)
