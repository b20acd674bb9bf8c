"""Benches, corner seats and decks beside a tub, as faces in the room: a front, free ends, and a top that drains.

The walls are boarded first and run on behind; the front comes next, the ends lap it, and the top laps them all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import dist

from generator.model.ends import foot
from generator.model.features import Feature, Fold
from generator.model.frames import Frame
from generator.model.geometry import TOUCH
from generator.model.room import Base, Corner, Wall
from generator.model.room import Side as End
from generator.reading.bench_shapes import BenchShape
from generator.reading.facing import Against, Body, Side, faces_of, folds_of

UP = (0.0, 1.0, 0.0)
Made = tuple[tuple[Wall, ...], tuple[Fold, ...], Feature]


@dataclass(frozen=True, slots=True)
class Site:
    """Where features are built: the chain with its frames, corners and base, and what the boards keep off (mm)."""

    walls: Sequence[Wall]
    frames: Mapping[str, Frame]
    corners: Sequence[Corner]
    base: Base
    board: float
    fit: float
    leg_gap: float
    deck_gap: float
    fall: float
    """mm per mm towards the drain."""

    def width(self, wall: str) -> float:
        """Width of a wall at the floor."""
        return next(foot(one.outline, "right") for one in self.walls if one.id == wall)

    def beside(self, wall: str, end: End) -> str:
        """The neighbour at an inside corner at an end of a wall; "" where there is none."""
        for corner in self.corners:
            own, other = (
                (corner.right_wall, corner.left_wall) if end == "left" else (corner.left_wall, corner.right_wall)
            )
            if own == wall and corner.angle_deg < 180.0:
                return other
        return ""

    def boarded(self, wall: str) -> Against:
        """A wall whose boards are there first."""
        return Against("neighbour", self.frames[wall], self.board + self.fit, wall, self.board)

    def floor(self, only: tuple[str, ...] = (), tray: bool = False) -> Against:
        """The floor, or the deck of a tray that goes in before the boards."""
        level = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
        first = tray and self.base.tray is not None and self.base.tray.order == "tray_first"
        deck = max((v for side in self.base.sides for _, v in side.deck), default=0.0)
        keep = deck + self.deck_gap if first else self.leg_gap
        return Against("base" if first else "leg-gap", level, keep, only=only)


def bench_at(path: str, shape: BenchShape, site: Site) -> Made:
    """A bench, seat or deck; the shape has been judged."""
    if shape.kind == "corner":
        return _made(path, shape, _corner_body(path, shape, site), shape.between[0])
    body = _deck_body(path, shape, site) if shape.kind == "deck" else _bench_body(path, shape, site)
    return _made(path, shape, body, shape.along)


def _made(path: str, shape: BenchShape, body: Body, wall: str) -> Made:
    faces = faces_of(body)
    tops = tuple(f.id for f in faces if f.face == "seat")
    feature = Feature(path, shape.name, body.kind, wall, tuple(f.id for f in faces), tops)
    return faces, folds_of(body), feature


def span_of(shape: BenchShape, width: float) -> tuple[float, float]:
    """u from and to of a bench along its wall."""
    start = shape.start.mm if shape.start else 0.0
    return start, start + shape.length.mm if shape.length else width


def _bench_body(path: str, shape: BenchShape, site: Site) -> Body:
    wall, (start, end) = site.frames[shape.along], span_of(shape, site.width(shape.along))
    depth, height = _mm(shape.depth), _mm(shape.height)
    ends, beside = free_ends(shape.name, shape.along, (start, end), (0.0, depth), site)
    seat = wall.turned((start, height, depth), (1.0, 0.0, 0.0), (0.0, site.fall, -1.0))
    front = Side(f"{shape.name}-front", "front", wall.turned((start, 0.0, depth), (1.0, 0.0, 0.0), UP))
    sides = (front, *ends, Side(f"{shape.name}-seat", "seat", seat))
    against = (site.boarded(shape.along), *beside, site.floor(tray=True))
    return Body(path, shape.name, "bench", site.board, sides, against, site.fit)


def free_ends(
    name: str, along: str, span: tuple[float, float], out: tuple[float, float], site: Site
) -> tuple[tuple[Side, ...], tuple[Against, ...]]:
    """The ends of what stands along a wall, `out` (from, to) from its framing: those that stand free as sides,
    and the neighbours that it runs up to."""
    wall, (start, end) = site.frames[along], span
    left, right = site.beside(along, "left"), site.beside(along, "right")
    sides, against = [], []
    if left and start <= TOUCH:
        against.append(site.boarded(left))
    else:
        frame = wall.turned((start, 0.0, out[0]), (0.0, 0.0, 1.0), UP)
        sides.append(Side(f"{name}-left", "left", frame, borrows=True))
    if right and end >= site.width(along) - TOUCH:
        against.append(site.boarded(right))
    else:
        frame = wall.turned((end, 0.0, out[1]), (0.0, 0.0, -1.0), UP)
        sides.append(Side(f"{name}-right", "right", frame, borrows=True))
    return tuple(sides), tuple(against)


def _deck_body(path: str, shape: BenchShape, site: Site) -> Body:
    """It falls along the wall to the tub, whose end it keeps off as a leg keeps off an apron."""
    wall, (start, end) = site.frames[shape.along], span_of(shape, site.width(shape.along))
    depth, height = _mm(shape.depth), _mm(shape.height)
    side = next(side for side in site.base.sides if side.wall == shape.along)
    at_left = end <= side.start + TOUCH
    tub, way = (end, -1.0) if at_left else (start, 1.0)
    beside = site.beside(shape.along, "left" if at_left else "right")
    low = (end, height, depth) if at_left else (start, height, 0.0)
    top = wall.turned(low, (0.0, 0.0, way), (way, site.fall, 0.0))
    front = Side(f"{shape.name}-front", "front", wall.turned((start, 0.0, depth), (1.0, 0.0, 0.0), UP))
    apron = Against("base", wall.turned((tub, 0.0, 0.0), (0.0, 0.0, -way), UP), site.leg_gap)
    against = (site.boarded(shape.along), site.boarded(beside), apron, site.floor())
    return Body(
        path, shape.name, "deck", site.board, (front, Side(f"{shape.name}-top", "seat", top)), against, site.fit
    )


def _corner_body(path: str, shape: BenchShape, site: Site) -> Body:
    """A seat across a corner, three-sided, or five-sided where its ends stand out from the walls."""
    (left, right), height = shape.between, _mm(shape.height)
    out = _mm(shape.returns)
    here, there = site.frames[left], site.frames[right]
    foot_left, foot_right = site.width(left) - shape.legs[0].mm, shape.legs[1].mm
    p, q = here.at(foot_left, 0.0, out), there.at(foot_right, 0.0, out)
    run = dist(p, q)
    way = ((q[0] - p[0]) / run, (q[1] - p[1]) / run, 0.0)
    room = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    front = room.turned(p, way, (0.0, 0.0, 1.0))
    ends = (
        Side(f"{shape.name}-left", "left", here.turned((foot_left, 0.0, 0.0), (0.0, 0.0, 1.0), UP)),
        Side(f"{shape.name}-right", "right", there.turned((foot_right, 0.0, out), (0.0, 0.0, -1.0), UP)),
    )
    seat = Side(f"{shape.name}-seat", "seat", front.turned((0.0, height, 0.0), (1.0, 0.0, 0.0), (0.0, site.fall, -1.0)))
    sides = (Side(f"{shape.name}-front", "front", front), *(ends if out > 0.0 else ()), seat)
    against = (site.boarded(left), site.boarded(right), site.floor(tray=True))
    return Body(path, shape.name, "bench", site.board, sides, against, site.fit)


def _mm(length: object) -> float:
    return float(getattr(length, "mm", 0.0))
