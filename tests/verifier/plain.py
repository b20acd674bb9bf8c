"""Plain geometry and look-ups for a reader of plan.json alone. Millimetres; rings are lists of [u, v]."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

Record = dict[str, Any]
Point = list[float]
Ring = list[Point]
Span = tuple[float, float]

NOISE = 2e-6
TOUCH = 0.01
REAL_AREA = 0.1
SEEN = 1e-3
"""Slack on a limit: a thousandth of a millimetre, well under what any tape shows."""


@dataclass(frozen=True, slots=True, order=True)
class Violation:
    """`rule`: the rule of the plan that a finding could speak of; "" where no finding excuses it."""

    code: str
    message: str
    rule: str = ""
    wall: str = ""


def broken(rule: str, wall: str, message: str) -> Violation:
    """A rule of the trade that does not hold on a wall."""
    return Violation(rule, message, rule, wall)


def limit(plan: Record, rule: str) -> float:
    return float(plan["rules"][rule]["limit"])


def on_wall(plan: Record, kind: str, wall: str) -> list[Record]:
    """Records of a wall; of its supports those that boards may bear on, not what is set back behind a fitting."""
    return [record for record in plan[kind] if record["wall"] == wall and not record.get("set_back")]


def by_id(plan: Record, kind: str) -> dict[str, Record]:
    return {record["id"]: record for record in plan[kind]}


def sides(ring: Ring) -> Iterator[tuple[Point, Point]]:
    yield from zip(ring, [*ring[1:], ring[0]], strict=True)


def twice_area(ring: Ring) -> float:
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in sides(ring))


def box(ring: Iterable[Point]) -> tuple[float, float, float, float]:
    us, vs = zip(*ring, strict=True)
    return min(us), min(vs), max(us), max(vs)


def rect(left: float, bottom: float, right: float, top: float) -> BaseGeometry:
    """An upright rectangle; empty when it has no inside."""
    if right <= left or top <= bottom:
        return Polygon()
    return Polygon([(left, bottom), (right, bottom), (right, top), (left, top)])


def shape(ring: Ring) -> BaseGeometry:
    return Polygon([(u, v) for u, v in ring])


def union(rings: Iterable[Ring]) -> BaseGeometry:
    return unary_union([shape(ring) for ring in rings])


def wet(wall: Record) -> BaseGeometry:
    return unary_union([Polygon(region["ring"], region["holes"]) for region in wall["wet_region"]])


def level_cuts(ring: Ring, v: float) -> list[Span]:
    """Where a level line at `v` (at no corner of the ring) lies inside it, left to right."""
    us = []
    for p, q in sides(ring):
        if (p[1] < v) != (q[1] < v):
            us.append(p[0] + (q[0] - p[0]) * (v - p[1]) / (q[1] - p[1]))
    us.sort()
    return list(zip(us[::2], us[1::2], strict=True))


def upright_cuts(ring: Ring, u: float) -> list[Span]:
    """Where an upright line at `u` lies inside the ring, bottom to top."""
    return level_cuts([[v, x] for x, v in ring], u)


def stretches(heights: Iterable[float], low: float, high: float) -> list[Span]:
    """The pieces that the heights cut low..high into; those thinner than a touch are left out."""
    marks = sorted({low, high, *(h for h in heights if low < h < high)})
    return [(a, b) for a, b in pairwise(marks) if b - a > TOUCH]


def upright(support: Record) -> bool:
    """True of what rises more than it runs, and of ledgers: they end a bay at every height that they reach."""
    if support["kind"] == "ledger":
        return True
    (u0, v0), (u1, v1) = support["axis"]
    return bool(abs(v1 - v0) > abs(u1 - u0))


def raked(support: Record) -> bool:
    """True of a piece that is cut to a rake, as a half wall's top plate and the studs under it."""
    return len({v for _, v in support["outline"]}) > 2


def rakes_at(supports: Iterable[Record], v: float) -> list[Span]:
    """What a height meets of plates along a rake."""
    return [face for s, face in faces_at(supports, v) if raked(s) and not upright(s)]


def axis_at(support: Record, v: float) -> float:
    (u0, v0), (u1, v1) = support["axis"]
    return float(u0 + (u1 - u0) * (v - v0) / (v1 - v0)) if abs(v1 - v0) > TOUCH else float((u0 + u1) / 2)


def just_inside(low: float, high: float) -> tuple[float, float]:
    """Two heights beside the ends of a stretch: what leans is widest and narrowest there."""
    step = min(NOISE * 50, (high - low) / 4)
    return low + step, high - step


def faces_at(supports: Iterable[Record], v: float) -> list[tuple[Record, Span]]:
    return [(s, span) for s in supports for span in level_cuts(s["outline"], v)]


def heights(records: Iterable[Record]) -> list[float]:
    return [v for record in records for _, v in record["outline"]]


def framing_ends(wall: Record) -> Span:
    """u of the two ends of a wall at their feet, where neighbours meet."""
    lowest = min(v for _, v in wall["outline"])
    feet = [u for u, v in wall["outline"] if v < lowest + TOUCH]
    return min(feet), max(feet)


def lean(wall: Record, side: str) -> float:
    """Run over rise of an end of the wall: of the outline's side that goes up from its foot."""
    foot = framing_ends(wall)[0 if side == "left" else 1]
    lowest = min(v for _, v in wall["outline"])
    for (u0, v0), (u1, v1) in sides(wall["outline"]):
        for (u, v), (x, y) in (((u0, v0), (u1, v1)), ((u1, v1), (u0, v0))):
            if abs(u - foot) < NOISE and abs(v - lowest) < NOISE < y - v:
                return (x - u) / (y - v)
    return 0.0


def leaning(p: Point, q: Point) -> bool:
    """True for a line that stands, or leans by no more than 1 in 10."""
    return abs(q[0] - p[0]) <= 0.1 * abs(q[1] - p[1]) and abs(q[1] - p[1]) > TOUCH


def u_at(p: Point, q: Point, v: float) -> float:
    """u at a height of the line through two points."""
    return p[0] if p[0] == q[0] else p[0] + (v - p[1]) / (q[1] - p[1]) * (q[0] - p[0])


def thickness(plan: Record, wall: str) -> float:
    boards = on_wall(plan, "boards", wall)
    return float(boards[0]["thickness"]) if boards else 0.0


def corner_of(plan: Record, wall: str, side: str) -> Record | None:
    """The corner at the left or right end of a wall."""
    key = "right_wall" if side == "left" else "left_wall"
    return next((c for c in plan["corners"] if c[key] == wall), None)


def across_corner(corner: Record, wall: str) -> str:
    return str(corner["left_wall"] if corner["right_wall"] == wall else corner["right_wall"])


def fold_lines(plan: Record, wall: str) -> list[list[Point]]:
    """The lines on a wall where the board faces of others meet its own."""
    return [line for f in plan["folds"] for face, line in zip(f["faces"], f["lines"], strict=True) if face == wall]


def runs_along(edge: Record, line: list[Point], apart: float) -> bool:
    """True where the middle of an edge lies within `apart` of a line that runs the same way."""
    length = math.dist(*line)
    du, dv = ((line[1][k] - line[0][k]) / length for k in (0, 1))
    off = [abs((p[0] - line[0][0]) * dv - (p[1] - line[0][1]) * du) for p in (edge["p"], edge["q"])]
    along = [(p[0] - line[0][0]) * du + (p[1] - line[0][1]) * dv for p in (edge["p"], edge["q"])]
    same_way = abs(along[1] - along[0]) > 4 * abs(off[1] - off[0])
    return same_way and bool(max(off) <= apart and -apart <= sum(along) / 2 <= length + apart)


def seen_box(plan: Record, wall: Record) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) that the inside folds of a face leave to see; without end on a wall of the room."""
    left, bottom, right, top = -math.inf, -math.inf, math.inf, math.inf
    if wall["face"] == "wall":
        return left, bottom, right, top
    low_u, low_v, high_u, high_v = box(wall["extent"])
    inside = [f for f in plan["folds"] if f["angle_deg"] < 180]
    for p, q in (line for f in inside for line in fold_lines({"folds": [f]}, wall["id"])):
        if leaning(p, q):
            ahead = p[0] + q[0] >= low_u + high_u
            left, right = (left, min(right, p[0], q[0])) if ahead else (max(left, p[0], q[0]), right)
        elif leaning(p[::-1], q[::-1]):
            above = p[1] + q[1] >= low_v + high_v
            bottom, top = (bottom, min(top, p[1], q[1])) if above else (max(bottom, p[1], q[1]), top)
    return left, bottom, right, top


def face_lines(plan: Record, wall: Record) -> Span:
    """u of the lines where this wall's board faces meet the neighbours'; infinite where there is no corner.

    On the floor; upwards they lean as the ends of the wall do.
    """
    ends = framing_ends(wall)
    lines = []
    for side, end, sign in (("left", ends[0], 1.0), ("right", ends[1], -1.0)):
        corner = corner_of(plan, wall["id"], side)
        level = math.hypot(1.0, lean(wall, side))
        lines.append(-sign * math.inf if corner is None else end + sign * level * _setback(plan, wall["id"], corner))
    return lines[0], lines[1]


def _setback(plan: Record, wall: str, corner: Record) -> float:
    angle = math.radians(corner["angle_deg"])
    other = thickness(plan, across_corner(corner, wall))
    return (other + thickness(plan, wall) * math.cos(angle)) / math.sin(angle)


def deck_at(side: Record, u: float) -> float:
    """Height of the deck along a side of the base, straight between its points."""
    deck = side["deck"]
    for (u0, v0), (u1, v1) in pairwise(deck):
        if u <= u1:
            return float(v0 + (v1 - v0) * (u - u0) / (u1 - u0))
    return float(deck[-1][1])


def opening_shape(opening: Record, grow: float = 0.0) -> BaseGeometry:
    """The hole as a polygon, a circle as one of 256 corners just outside it."""
    if opening["shape"] == "ring":
        return shape(opening["ring"]).buffer(grow) if grow else shape(opening["ring"])
    radius = (opening["diameter"] / 2 + grow) / math.cos(math.pi / 256)
    u, v = opening["centre"]
    turns = [2 * math.pi * i / 256 for i in range(256)]
    return Polygon([(u + radius * math.cos(t), v + radius * math.sin(t)) for t in turns])
