"""Measured stud faces of a wall, with what may be done at each, and how flat the tile wants them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import dist, floor

from generator.model.geometry import NOISE, box, tidy
from generator.model.room import FoundSupport, Room, Wall
from generator.model.stud_work import FaceReading
from generator.units import paper_step


@dataclass(frozen=True, slots=True)
class Face:
    """A reading and its stretch of the stud; most_shim and most_plane are whole steps, most_shim None: any number."""

    support: str
    u: float
    v: float
    off: float
    low: float
    high: float
    width: float
    most_shim: int | None
    most_plane: int

    @property
    def area(self) -> float:
        return self.width * (self.high - self.low)


@dataclass(frozen=True, slots=True)
class Flatness:
    """How far faces may lie behind the plane (`far`), and two of them apart within `reach` (`near`)."""

    large: bool
    far: float
    near: float
    reach: float

    def between(self, apart: float) -> float:
        """What two faces so far apart may differ by; beyond the reach it grows as the distance does."""
        return min(self.far, self.near * max(1.0, apart / self.reach))


def wanted_flatness(room: Room) -> Flatness:
    """By the tile's longest edge; a tile that nobody named counts as large, which is stricter."""
    longest = room.finish.longest
    large = longest is None or longest >= room.limit("large-tile") - NOISE
    size = "large" if large else "small"
    return Flatness(
        large,
        room.limit(f"flatness-far-{size}"),
        room.limit(f"flatness-near-{size}"),
        room.limit(f"flatness-reach-{size}"),
    )


def close_pairs(faces: Sequence[Face], wanted: Flatness) -> tuple[tuple[int, int, float], ...]:
    """Pairs that the near rule speaks of, by index, with what they may differ by."""
    pairs = []
    for (i, a), (j, b) in combinations(enumerate(faces), 2):
        most = wanted.between(dist((a.u, a.v), (b.u, b.v)))
        if most < wanted.far - NOISE:
            pairs.append((i, j, most))
    return tuple(pairs)


def faces_of(room: Room, wall: Wall) -> tuple[Face, ...]:
    """The wall's readings in their order, from left to right and upwards."""
    studs = {s.path: s for s in wall.supports}
    bound = _bound_studs(room, wall)
    faces: list[Face] = []
    for path in dict.fromkeys(r.support for r in wall.readings):
        own = [r for r in wall.readings if r.support == path]
        most = floor(room.limit("fit") / paper_step(room.units) + NOISE) if path in bound else None
        faces += (
            Face(
                path,
                r.u,
                r.v,
                r.off,
                low,
                high,
                studs[path].profile.face,
                most,
                _planing(room, wall, studs[path], low, high),
            )
            for r, (low, high) in zip(own, _stretches(room, wall, studs[path], own), strict=True)
        )
    return tuple(faces)


def _stretches(
    room: Room, wall: Wall, stud: FoundSupport, readings: Sequence[FaceReading]
) -> list[tuple[float, float]]:
    """From half way to the reading below to half way to the one above; the ends reach as far as boards do."""
    deck = min((v for side in room.base.sides if side.wall == wall.id for _, v in side.deck), default=0.0)
    _, foot, _, head = box(stud.outline)
    lowest, highest = min(max(foot, deck), readings[0].v), max(min(head, wall.top), readings[-1].v)
    cuts = [lowest, *(tidy((a.v + b.v) / 2) for a, b in pairwise(readings)), highest]
    return list(pairwise(cuts))


def _planing(room: Room, wall: Wall, stud: FoundSupport, low: float, high: float) -> int:
    """Steps that may be planed: none on steel or beside a hole, else up to the profile's limit and a notch's."""
    bored = any(h.support == stud.path and low - h.diameter / 2 < h.v < high + h.diameter / 2 for h in wall.holes)
    if stud.profile.material == "steel" or bored:
        return 0
    share = room.limit("notch-nonbearing" if wall.duty == "non_bearing" else "notch-bearing")
    most = min(room.limit("planing"), share * stud.profile.depth)
    return floor(most / paper_step(room.units) + NOISE)


def _bound_studs(room: Room, wall: Wall) -> frozenset[str]:
    """Studs next to a corner in which this wall is boarded first: their shims take from the neighbour's fit."""
    bound: set[str] = set()
    for corner in room.corners:
        if corner.first == wall.id and wall.readings:
            ordered = sorted(wall.readings, key=lambda r: r.u)
            bound.add(ordered[-1 if corner.left_wall == wall.id else 0].support)
    return frozenset(bound)
