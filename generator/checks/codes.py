"""What published codes ask of the finished room, and what only a person can confirm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist

from generator.checks.measuring import (
    WHOLE_ROOM,
    edge_wall,
    edges_of,
    line_place,
    margin,
    or_note,
    outline_place,
    say,
    unmeasured,
)
from generator.model.ends import height_at, top_line
from generator.model.findings import Measure, Verdict
from generator.model.geometry import TOUCH, Point, area, tidy
from generator.model.placing import floor_point
from generator.model.plan import Edge, Plan, PlannedWall
from generator.model.room import Room, Wall


def not_asked(room: Room, rule: str) -> str:
    """Why a rule of the codes is not measured here; "" where it is."""
    return "" if rule in room.code.rules else f"the code chosen does not ask for it ({room.code.name})"


def no_spray(room: Room) -> str:
    """Why no wall is sprayed; "" in showers, and at tubs with a shower arm."""
    if room.base.kind in ("shower_base", "tray") or any(f.kind == "arm" for f in room.fittings):
        return ""
    return "no shower in this room"


def finish_height(room: Room, plan: Plan) -> Iterator[Measure]:
    """The wall finish that water does not soak into reaches high enough above the finished floor."""
    reason = not_asked(room, "finish-height") or no_spray(room)
    if reason:
        yield unmeasured(reason, "note", "", "place.code")
    elif room.datum == "bare floor" and room.floor_build_up is None:
        text = "the floor was measured bare; confirm how high the finished floor will stand above it"
        yield unmeasured(text, "confirm", "", "floor")
    else:
        floor = room.floor_build_up if room.datum == "bare floor" and room.floor_build_up else 0.0
        yield from _tops(room, plan, room.limit("finish-height"), floor, "finished floor")


def finish_height_drain(room: Room, plan: Plan) -> Iterator[Measure]:
    """The wall finish that water does not soak into reaches high enough above the drain."""
    reason = not_asked(room, "finish-height-drain") or no_spray(room)
    if reason:
        yield unmeasured(reason, "note", "", "place.code")
    elif room.base.drain is None:
        text = "height of the drain is not known; confirm the height of the boards above it"
        yield unmeasured(text, "confirm", "", room.base.path)
    else:
        yield from _tops(room, plan, room.limit("finish-height-drain"), room.base.drain, "drain")


def _tops(room: Room, plan: Plan, wanted: float, above: float, what: str) -> Iterator[Measure]:
    """The lowest top edge of each wall that could go higher: nothing is boarded above a half wall or a low ceiling."""
    for wall in room.chain:
        tops = [e for e in edges_of(plan, "top") if edge_wall(plan, e) == wall.id]
        tops = [e for e in tops if min(e.p[1], e.q[1]) - above >= wanted or not _under_ceiling(room, wall, e)]
        if tops:
            edge = min(tops, key=lambda e: (min(e.p[1], e.q[1]), e.id))
            height = tidy(min(edge.p[1], edge.q[1]) - above)
            place = line_place(wall.id, edge.p, edge.q)
            yield Measure(f"{wall.id}: top of the boards above the {what}", height, place, f"{wall.path}.boards")


def _under_ceiling(room: Room, wall: Wall, edge: Edge) -> bool:
    """True where the boards go up to the framing's top, a fit below it."""
    line, fit = top_line(wall.outline), room.limit("fit")
    return all(height_at(line, u) - v <= 2.0 * fit for u, v in (edge.p, edge.q))


@dataclass(frozen=True, slots=True)
class Interior:
    """Finished inside of a shower in plan: mm2, and mm between the two nearest parallel lines that it fits between."""

    area: float
    side: float


def finished_interior(room: Room, plan: Plan) -> Interior:
    """The base's footprint less boards, bed and tile on every wall that it stands against.

    KeyError where the base stands against no wall; tile and bed count as nothing where unknown.
    """
    thick = max((b.thickness for b in plan.boards), default=0.0) + (room.finish.tile or 0.0) + (room.finish.bed or 0.0)
    along = plan.wall(room.base.along)
    ring: tuple[Point, ...] = tuple(floor_point(along, u, w - along.furring) for u, w in room.base.footprint)
    for wall in (plan.wall(side.wall) for side in room.base.sides):
        ring = _in_front(ring, wall, thick)
    return Interior(abs(area(ring)), _least_width(ring))


def _in_front(ring: Sequence[Point], wall: PlannedWall, off: float) -> tuple[Point, ...]:
    """The part of a convex ring that lies farther than `off` from a wall's stud faces."""
    out = [sum(wall.w_axis[i] * (p[i] - wall.origin[i]) for i in (0, 1)) - off for p in ring]
    kept: list[Point] = []
    for i, (p, w) in enumerate(zip(ring, out, strict=True)):
        before, far = ring[i - 1], out[i - 1]
        if (w > 0.0) != (far > 0.0):
            share = far / (far - w)
            kept.append((before[0] + share * (p[0] - before[0]), before[1] + share * (p[1] - before[1])))
        kept += [p] if w > 0.0 else []
    return tuple(kept)


def _least_width(ring: Sequence[Point]) -> float:
    """Of a convex ring: from one of its sides to the corner farthest from it, the least."""
    widths = [
        max(abs((q[0] - p[0]) * (c[1] - p[1]) - (q[1] - p[1]) * (c[0] - p[0])) for c in ring) / dist(p, q)
        for p, q in zip(ring, (*ring[1:], *ring[:1]), strict=True)
        if dist(p, q) > TOUCH
    ]
    return min(widths, default=0.0)


def _unmeasured_shower(room: Room, rule: str) -> tuple[str, Verdict]:
    """Why a shower's size can't be judged, and how much that matters; ("", pass) where it can."""
    reason = not_asked(room, rule)
    if reason:
        return reason, "note"
    if room.base.kind not in ("shower_base", "tray") or not room.base.sides:
        return "no shower base in this room: not applicable", "note"
    if room.finish.tile is None or room.finish.bed is None:
        return "tile and bed are not known; confirm the finished inside of the shower", "confirm"
    return "", "pass"


def shower_area(room: Room, plan: Plan) -> Iterator[Measure]:
    """The finished inside of a shower has the least area."""
    reason, verdict = _unmeasured_shower(room, "shower-area")
    if reason:
        yield unmeasured(reason, verdict, "", room.base.path)
        return
    inside = finished_interior(room, plan)
    yield Measure("finished inside of the shower", tidy(inside.area), WHOLE_ROOM, room.base.path)


def shower_side(room: Room, plan: Plan) -> Iterator[Measure]:
    """The finished inside of a shower has the least width, or the larger area that allows a narrower one."""
    reason, verdict = _unmeasured_shower(room, "shower-side")
    if reason:
        yield unmeasured(reason, verdict, "", room.base.path)
        return
    inside = finished_interior(room, plan)
    sizes = (("shower-area-narrow", inside.area), ("shower-side-narrow", inside.side))
    roomy = all(margin(room.rules[rule], size) >= 0 for rule, size in sizes)
    subject = "least width of the finished shower"
    if roomy and margin(room.rules["shower-side"], inside.side) < 0:
        subject += ", allowed because its area is large enough for a narrow one"
    yield Measure(subject, tidy(inside.side), WHOLE_ROOM, room.base.path, None, "note" if roomy else "fail")


def foam_listing(room: Room, plan: Plan) -> Iterator[Measure]:
    """Foam-core board is foam plastic: its listing, approval and thermal barrier are confirmed by the authority."""
    ids = sorted({s.material for s in plan.stocks})
    text = f"{', '.join(ids) or 'board'}: confirm listing, approval and thermal barrier with the authority"
    yield unmeasured(text, "confirm", "", "choices.sheets" if room.choices.stocks else "")


def duty_known(room: Room, plan: Plan) -> Iterator[Measure]:
    """Whether a wall bears load is known before a stud of it is cut or moved."""
    measures = (_duty(plan, wall) for wall in room.chain if not wall.masonry)
    return or_note(measures, "no wall with studs")


def _duty(plan: Plan, wall: Wall) -> Measure:
    place = outline_place(wall.id, plan.wall(wall.id).outline)
    unknown = float(wall.duty == "unknown")
    subject = f"{wall.id}: " + ("not known whether it bears load" if unknown else wall.duty.replace("_", "-"))
    return Measure(subject, unknown, place, wall.path, None, "confirm")


def masonry_ready(room: Room, plan: Plan) -> Iterator[Measure]:
    """The face of each wall of concrete or masonry is confirmed before boards are bonded to it."""
    measures = (_unready(room, plan, wall) for wall in room.chain if wall.masonry)
    return or_note(measures, "no wall of concrete or masonry")


def _unready(room: Room, plan: Plan, wall: Wall) -> Measure:
    bed = say(plan.wall(wall.id).furring, room.units)
    text = (
        f"{wall.id}: confirm that its face is sound, clean, primed and as flat as the tile wants, which wires and "
        f"pipes are chased into it, and that a bed of {bed} mortar before it suits the base"
    )
    return unmeasured(text, "confirm", wall.id, f"{wall.path}.supports.masonry")
