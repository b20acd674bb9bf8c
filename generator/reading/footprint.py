"""The base from above: its outline in the frame of the wall it stands along, and where it runs along each wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import radians, tan

from generator.model.frames import Frame, chain_frames
from generator.model.geometry import TOUCH, Point, Ring, tidy
from generator.reading.room_shapes import BaseShape

CORNER_GAP = 25.4
"""mm: a base that ends this near to a corner is set into it, and stands against the neighbour too. Common practice,
no source: a base is sold up to 1/2 in shorter than its recess, and shimmed. It decides what the room file means and
is no limit of the trade."""
ASKEW = 0.1
"""Run over rise: a side that turns away from a wall by more does not run along it. It names things, and limits none."""


@dataclass(frozen=True, slots=True)
class Chain:
    """The walls as a tape gives them, left to right: names, widths at the floor, angles of the corners between."""

    names: tuple[str, ...]
    widths: tuple[float, ...]
    angles: tuple[float, ...]

    def is_inside(self, corner: int) -> bool:
        """Whether there is a corner of that index, and inside the room."""
        return 0 <= corner < len(self.angles) and self.angles[corner] < 180.0


@dataclass(frozen=True, slots=True)
class Run:
    """Where the base runs along a wall: index of the wall, u from and to there, and how far off its framing.

    `flare`: mm that the base goes on beyond either end for each mm out from the wall.
    """

    index: int
    start: float
    end: float
    gap: float
    flare: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a base stands: index of the wall along it, u from and to there, which neighbours it touches, outline.

    `footprint`: (u, w) of that wall, counter-clockwise from its left end there. `neo`: side of its corner, or "".
    """

    index: int
    start: float
    end: float
    left: bool
    right: bool
    neo: str
    footprint: Ring
    runs: tuple[Run, ...]


def stand_of(shape: BaseShape, chain: Chain) -> Stand:
    """Where it stands in the room. The wall it stands along is known; lengths left out count as nothing."""
    index = chain.names.index(shape.along)
    length, width = shape.length.mm if shape.length else 0.0, chain.widths[index]
    neighbours = (chain.is_inside(index - 1), chain.is_inside(index))
    neo = _neo_corner(shape, chain, index)
    at_right = neo == "right" if neo else neighbours[1] and not neighbours[0]
    start = _start(shape, chain, index, width - length, at_right)
    end = tidy(start + length)
    left = neighbours[0] and start <= CORNER_GAP + TOUCH
    right = neighbours[1] and width - end <= CORNER_GAP + TOUCH
    ring = _neo_ring(shape, chain, index, (start, end), neo) if neo else None
    ring = ring or _four_sided(shape, chain, index, (start, end), (left, right))
    return Stand(index, start, end, left, right, neo, ring, tuple(_runs(ring, chain, index, bool(neo))))


def _start(shape: BaseShape, chain: Chain, index: int, slack: float, at_right: bool) -> float:
    """As measured, else what the gap at its left end or at its right end leaves; else in its corner."""
    before = chain.names[index - 1] if index else ""
    after = chain.names[index + 1] if index + 1 < len(chain.names) else ""
    if shape.start is not None:
        return shape.start.mm
    if before in shape.gaps and not at_right:
        return min(shape.gaps[before].mm, max(0.0, tidy(slack)))
    if after in shape.gaps:
        return max(0.0, tidy(slack - shape.gaps[after].mm))
    return tidy(slack) if at_right else 0.0


def _off(shape: BaseShape) -> float:
    """How far its back stands off the framing of the wall it stands along, mm."""
    return shape.gaps[shape.along].mm if shape.along in shape.gaps else 0.0


def _neo_corner(shape: BaseShape, chain: Chain, index: int) -> str:
    """The end of its wall at which a neo-angle base has its corner: towards the other wall that has a return."""
    if shape.shape != "neo_angle":
        return ""
    beside = (chain.names[index - 1] if index else "", chain.names[index + 1] if index + 1 < len(chain.names) else "")
    return "left" if beside[0] in shape.returns else "right" if beside[1] in shape.returns else ""


def _neo_ring(shape: BaseShape, chain: Chain, index: int, ends: tuple[float, float], corner: str) -> Ring | None:
    """Five corners: both walls, both returns, and the front across; None while a return is not known."""
    other = chain.names[index - 1 if corner == "left" else index + 1]
    if shape.width is None or not {shape.along, other} <= set(shape.returns):
        return None
    (start, end), out, off = ends, shape.width.mm, _off(shape)
    near, far = shape.returns[shape.along].mm, shape.returns[other].mm
    if corner == "left":
        ring = ((start, off), (end, off), (end, near), (start + far, out), (start, out))
    else:
        ring = ((start, off), (end, off), (end, out), (end - far, out), (start, near))
    return tuple((tidy(u), tidy(w)) for u, w in ring)


def _four_sided(
    shape: BaseShape, chain: Chain, index: int, ends: tuple[float, float], set_in: tuple[bool, bool]
) -> Ring:
    """Its front runs along its wall; a side that is set into a corner follows the neighbour, the other is square.

    Plane trigonometry: the neighbour at A degrees is w cot A further in at a distance w from the wall.
    """
    (start, end), out = ends, shape.width.mm if shape.width else 0.0
    left = out * _cotangent(chain.angles[index - 1]) if set_in[0] else 0.0
    right = out * _cotangent(chain.angles[index]) if set_in[1] else 0.0
    off = _off(shape)
    return ((start, off), (end, off), (tidy(end - right), out), (tidy(start + left), out))


def _cotangent(angle_deg: float) -> float:
    return 0.0 if angle_deg == 90.0 else 1.0 / tan(radians(angle_deg))


def _runs(ring: Ring, chain: Chain, index: int, all_round: bool) -> Iterator[Run]:
    """Left to right. A front that is no part of a corner stands free, whatever is over there."""
    ids = [str(i) for i in range(len(chain.names))]
    frames = chain_frames(tuple(zip(ids, chain.widths, strict=True)), chain.angles, ids[index])
    for i, width in enumerate(chain.widths):
        seen = [_seen(frames[ids[i]], frames[ids[index]], p) for p in ring]
        for k, (p, q) in enumerate(pairwise((*seen, seen[0]))):
            if i == index and k == 0:
                yield Run(i, tidy(p[0]), tidy(q[0]), tidy(p[1]), _flare(seen, k))
            elif (all_round or (abs(i - index) == 1 and k != 2)) and _is_along(p, q):
                start, end = tidy(max(0.0, p[0])), tidy(min(width, q[0]))
                if end - start > TOUCH:
                    yield Run(i, start, end, tidy(max(p[1], q[1])), _flare(seen, k))


def _seen(wall: Frame, along: Frame, point: Point) -> Point:
    u, _, w = wall.of(along.at(point[0], 0.0, point[1]))
    return u, w


def _is_along(p: Point, q: Point) -> bool:
    """True for a side that runs as the wall does, no further off than a gap in a corner."""
    off, run = (p[1], q[1]), q[0] - p[0]
    return run > TOUCH and max(off) <= CORNER_GAP + TOUCH and abs(off[1] - off[0]) <= ASKEW * run


def _flare(seen: Sequence[Point], k: int) -> tuple[float, float]:
    """How the base widens at both ends of its side k, from the directions of the sides before and after it."""
    p, q = seen[k], seen[(k + 1) % len(seen)]
    before, after = seen[k - 1], seen[(k + 2) % len(seen)]
    return _widening(before, p, -1.0), _widening(after, q, 1.0)


def _widening(away: Point, end: Point, way: float) -> float:
    out = away[1] - end[1]
    return tidy(max(0.0, way * (away[0] - end[0]) / out)) if out > TOUCH else 0.0
