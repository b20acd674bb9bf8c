"""Where seams meet: no four corners at one point, nor nearly at one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.checks.measuring import (
    edge_wall,
    edges_of,
    is_level_edge,
    is_upright_edge,
    line_place,
    or_note,
    tightest,
    wall_path,
)
from generator.model.findings import Measure
from generator.model.geometry import TOUCH, Point, tidy
from generator.model.plan import Plan
from generator.model.room import Room

Line = tuple[float, float, float]
"""A seam along one axis: where it lies across it, from, to."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two seams that end on a third from opposite sides: where it lies, and where they end."""

    at: float
    before: float
    after: float

    @property
    def apart(self) -> float:
        return tidy(abs(self.before - self.after))


def meetings(through: Iterable[Line], ending: Iterable[Line]) -> Iterator[Meeting]:
    """For each seam that runs through, the nearest two seams that end on it from opposite sides.

    One that crosses it inside its length counts from both sides; one that it ends on itself does not count.
    """
    ends = _joined(ending)
    for at, low, high in _joined(through):
        near = [end for end in ends if low - TOUCH <= end[0] <= high + TOUCH]
        inside = [end for end in near if low + TOUCH < end[0] < high - TOUCH]
        crossing = [x for x, start, stop in inside if start < at - TOUCH and stop > at + TOUCH]
        before = [x for x, _, stop in near if abs(stop - at) <= TOUCH] + crossing
        after = [x for x, start, _ in near if abs(start - at) <= TOUCH] + crossing
        pairs = [Meeting(at, a, b) for a in before for b in after]
        if pairs:
            yield min(pairs, key=lambda m: (m.apart, m.before, m.after))


def _joined(lines: Iterable[Line]) -> list[Line]:
    """Stretches that follow each other on one line become one."""
    joined: list[Line] = []
    for at, low, high in sorted(lines):
        last = joined[-1] if joined else None
        if last and abs(last[0] - at) <= TOUCH and low <= last[2] + TOUCH:
            joined[-1] = (last[0], last[1], max(last[2], high))
        else:
            joined.append((at, low, high))
    return joined


def stagger(room: Room, plan: Plan) -> Iterator[Measure]:
    """Seams that end on a third from opposite sides are staggered; four boards never share a corner."""
    measures = (m for wall in plan.walls for m in _wall_meetings(room, plan, wall.id))
    return or_note(tightest(room.rules["stagger"], measures), "no two seams end on a third from opposite sides")


def _wall_meetings(room: Room, plan: Plan, wall: str) -> Iterator[Measure]:
    seams = [e for e in edges_of(plan, "seam") if edge_wall(plan, e) == wall]
    upright = sorted({_line(e.p, e.q) for e in seams if is_upright_edge(e)})
    level = sorted({_line(_turned(e.p), _turned(e.q)) for e in seams if is_level_edge(e)})
    for meeting in meetings(level, upright):
        ends = ((meeting.before, meeting.at), (meeting.after, meeting.at))
        yield _measure(room, wall, meeting, ends)
    for meeting in meetings(upright, level):
        ends = ((meeting.at, meeting.before), (meeting.at, meeting.after))
        yield _measure(room, wall, meeting, ends)


def _measure(room: Room, wall: str, meeting: Meeting, ends: tuple[Point, Point]) -> Measure:
    subject = f"{wall}: seams that end on one seam from opposite sides"
    return Measure(subject, meeting.apart, line_place(wall, *ends), wall_path(room, wall))


def _line(p: Point, q: Point) -> Line:
    return tidy(p[0]), min(p[1], q[1]), max(p[1], q[1])


def _turned(point: Point) -> Point:
    return point[1], point[0]
