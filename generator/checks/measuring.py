"""What the checks share: measuring in the plan, and saying where. No limit lives here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from generator.model.ends import is_upright as stands
from generator.model.findings import Measure, Place, Verdict
from generator.model.geometry import NOISE, TOUCH, Point, box, tidy
from generator.model.plan import (
    Edge,
    EdgeRole,
    Plan,
    Support,
)
from generator.model.profiles import Rule
from generator.model.room import Fitting, Room, Wall
from generator.planning.bays import face_at, heights_at, is_upright
from generator.planning.cures import across
from generator.units import Units, label

Check = Callable[[Room, Plan], Iterator[Measure]]
WHOLE_ROOM = Place("", ())


def say(mm: float, units: Units) -> str:
    """A length in a sentence: `16 1/4"`, `410 mm`."""
    return label(mm, units) + (" mm" if units == "mm" else "")


def room_wall(room: Room, wall_id: str) -> Wall:
    """The measured wall of that id."""
    return next(w for w in room.walls if w.id == wall_id)


def wall_path(room: Room, wall_id: str) -> str:
    return room_wall(room, wall_id).path


def at(room: Room, wall_id: str, u: float) -> str:
    """A place across a wall as the wall's own tape says it."""
    return across(room, room_wall(room, wall_id), u)


def measured_fitting(room: Room, fitting_id: str) -> Fitting:
    """The room's fitting of that id."""
    return next(f for f in room.fittings if f.id == fitting_id)


def margin(rule: Rule, value: float) -> float:
    """How far the value holds the rule, in its unit; negative when broken. Float noise breaks nothing."""
    apart = tidy(rule.limit - value if rule.sense == "at_most" else value - rule.limit)
    return max(apart, 0.0) if apart >= -NOISE * 1.001 else apart


def unmeasured(subject: str, verdict: Verdict = "note", wall: str = "", room_path: str = "") -> Measure:
    """A measure without a value; the subject says why."""
    return Measure(subject, None, Place(wall, ()), room_path, None, "fail", verdict)


def or_note(measures: Iterable[Measure], subject: str) -> Iterator[Measure]:
    """The measures; when there are none, one note that says so."""
    found = tuple(measures)
    yield from found or (unmeasured(subject),)


def tightest(rule: Rule, measures: Iterable[Measure]) -> Iterator[Measure]:
    """Every broken measure, and of those that hold the tightest on each wall, which says how many it speaks for."""
    held: dict[tuple[str, Verdict], list[Measure]] = {}
    for m in measures:
        if m.value is None or margin(rule, m.value) < 0:
            yield m
        else:
            held.setdefault((m.place.wall, m.on_hold), []).append(m)
    for group in held.values():
        first = min(group, key=lambda m: margin(rule, m.value or 0.0))
        yield replace(first, subject=first.subject + (f" (tightest of {len(group)})" if len(group) > 1 else ""))


def on_wall(supports: Iterable[Support], wall: str, origin: str = "") -> tuple[Support, ...]:
    """Supports of a wall that boards may bear on, of one origin if named; what is set back behind a fitting is none."""
    return tuple(s for s in supports if s.wall == wall and origin in ("", s.origin) and not s.set_back)


def framing_on(supports: Iterable[Support], wall: str, origin: str = "") -> tuple[Support, ...]:
    """As `on_wall`, masonry left out: pipes and valves are chased into that, and stand in nobody's way."""
    return tuple(s for s in on_wall(supports, wall, origin) if s.material != "masonry")


def edge_wall(plan: Plan, edge: Edge) -> str:
    """Id of the wall on which the edge lies."""
    return plan.board(edge.board).wall


def is_upright_edge(edge: Edge) -> bool:
    """True where the edge runs up or down, leaning no more than an end of a wall does."""
    return stands(edge.p, edge.q) and abs(edge.p[1] - edge.q[1]) > TOUCH


def is_level_edge(edge: Edge) -> bool:
    """True where the edge runs straight to the left or right."""
    return abs(edge.p[1] - edge.q[1]) <= TOUCH < abs(edge.p[0] - edge.q[0])


def edges_of(plan: Plan, *roles: EdgeRole) -> tuple[Edge, ...]:
    """Edges of these roles; of the two listings of a seam both."""
    return tuple(e for e in plan.edges if e.role in roles)


def inwards(edge: Edge) -> float:
    """+1 where an upright edge's board lies to its right, -1 to its left."""
    return 1.0 if edge.p[1] > edge.q[1] else -1.0


def line_place(wall: str, p: Point, q: Point) -> Place:
    """The stretch between two points, lower or left end first."""
    return Place(wall, tuple(sorted((p, q))))


def stretches(edge: Edge, supports: Sequence[Support]) -> tuple[tuple[float, float], ...]:
    """An upright edge cut at the ends of the supports beside it, as (v from, v to)."""
    low, high = sorted((edge.p[1], edge.q[1]))
    u = (edge.p[0] + edge.q[0]) / 2
    cuts = sorted({low, high, *(v for s in supports for v in heights_at(s, u) if low < v < high)})
    return tuple((a, b) for a, b in pairwise(cuts) if b - a > TOUCH)


def carrying(supports: Sequence[Support], u: float, v: float) -> tuple[Support, ...]:
    """Supports whose face reaches the point, within 0.01 mm across."""
    return tuple(s for s in supports if _covers(face_at(s, v), u) and _covers(heights_at(s, u), v))


def _covers(span: tuple[float, float], value: float) -> bool:
    return span[0] - TOUCH <= value <= span[1] + TOUCH


def bearing(edge: Edge, supports: Sequence[Support]) -> tuple[float, Support | None]:
    """Width of face under an upright edge on its board's side, mm, the least over its length, and what carries there.

    As in the contract: zero where no face reaches the edge within 0.01 mm; stretches over a plate or level blocking
    count as carried by it, and where there are no others its own width counts.
    """
    side = inwards(edge)
    best: list[tuple[bool, float, Support | None]] = []
    for low, high in stretches(edge, supports):
        ends = [(v, _edge_u(edge, v)) for v in (low, high)]
        beside = [s for s in supports if _covers(heights_at(s, sum(u for _, u in ends) / 2), (low + high) / 2)]
        under = [s for s in beside if all(_covers(face_at(s, v), u) for v, u in ends)]
        runs = [(min(_run(face_at(s, v), u, side) for v, u in ends), s) for s in under]
        width, carrier = max(runs, key=lambda run: (run[0], run[1].id), default=(0.0, None))
        best.append((any(not is_upright(s) for _, s in runs), width, carrier))
    _, width, carrier = min(best, key=lambda b: b[:2], default=(False, 0.0, None))
    return width, carrier


def on_framing(plan: Plan, edge: Edge) -> Edge:
    """The edge as it bears: one that laps a neighbour's board stands past the framing and bears from its end on."""
    left, low, right, high = box(plan.wall(edge_wall(plan, edge)).outline)
    p, q = ((min(max(u, left), right), min(max(v, low), high)) for u, v in (edge.p, edge.q))
    return replace(edge, p=p, q=q)


def _edge_u(edge: Edge, v: float) -> float:
    """u of an upright edge at a height between its ends."""
    (u0, v0), (u1, v1) = edge.p, edge.q
    return u0 if u0 == u1 else u0 + (v - v0) / (v1 - v0) * (u1 - u0)


def _run(span: tuple[float, float], u: float, side: float) -> float:
    return tidy(max(0.0, span[1] - u if side > 0 else u - span[0]))


def uprights(supports: Iterable[Support]) -> tuple[Support, ...]:
    """Those that stand."""
    return tuple(s for s in supports if is_upright(s))


def outline_place(wall: str, points: Sequence[Point]) -> Place:
    """The rectangle round these points."""
    left, low, right, high = box(points)
    return Place(wall, ((left, low), (right, low), (right, high), (left, high)))
