"""Screws: close enough, far enough from edges, deep enough and not too deep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from math import dist
from typing import TYPE_CHECKING

from generator.checks.codes import not_asked
from generator.checks.measuring import on_wall, or_note, say, tightest, unmeasured, wall_path
from generator.checks.openings import opening_shape
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import NOISE, TOUCH, Point, box, tidy
from generator.model.plan import (
    Board,
    Fastener,
    Plan,
    Support,
)
from generator.model.room import Room
from generator.planning.bays import centre, face_at, heights, heights_at, is_upright
from generator.planning.benches import is_bonded
from generator.planning.faces import Ends, face_lines
from generator.planning.fastening.corners import beside, stretch_before, takes_no_washer
from generator.planning.fastening.strips import in_a_tip

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def _outline(board: Board) -> BaseGeometry:
    from generator.planning.shapes import polygon

    return polygon(board.outline)


def _crossed(room: Room, plan: Plan, board: Board) -> Iterator[tuple[Support, float, float]]:
    """Upright supports that the board crosses, with the stretches (v from, v to) that it covers of each.

    None behind a board that is bonded.
    """
    from generator.planning.shapes import polygon, rings

    if is_bonded(room, board.wall):
        return
    outline = _outline(board)
    for support in on_wall(plan.supports, board.wall):
        if is_upright(support):
            for ring in rings(outline.intersection(polygon(support.outline))):
                left, low, right, high = box(ring)
                if right - left >= room.limit("bearing-edge") - NOISE:
                    yield support, low, high


def screw_spacing(room: Room, plan: Plan) -> Iterator[Measure]:
    """Along each stud that a board crosses its screws stand no farther apart than the limit."""
    lines = face_lines(plan.walls, plan.corners, plan.boards)
    rows = ((b, row) for b in plan.boards for row in _crossed(room, plan, b))
    measures = (_row(room, plan, board, lines[board.wall], *row) for board, row in rows)
    return or_note(tightest(room.rules["screw-spacing"], measures), "no board crosses a stud")


def _row(room: Room, plan: Plan, board: Board, ends: Ends, support: Support, low: float, high: float) -> Measure:
    """The longest stretch of a row without a screw, its ends from the board's edges; an opening between excuses it."""
    holding = _holding(plan, board, ends, support)
    own = sorted(
        f.point[1]
        for f in plan.fasteners
        if board.id in f.board_ids and f.support_id in holding and low - TOUCH <= f.point[1] <= high + TOUCH
    )
    u = _row_u(plan, board, support)
    gaps = [(b - a, a, b) for a, b in pairwise((low, *own, high)) if not _opening_between(board, u, a, b)]
    longest, a, b = max(gaps, default=(0.0, low, high))
    subject = f"{board.id}: screws on {support.id}" + ("" if own else ", none there")
    return Measure(subject, tidy(longest), Place(board.wall, ((u, a), (u, b))), wall_path(room, board.wall))


def screwed(room: Room, plan: Plan) -> Iterator[Measure]:
    """Every board has a screw on each stud that it crosses.

    On an upright so short that its row has none between the ends, those in the plates that it stands between hold; so
    do the rows beside the tip of a board under a rake, and those on the stud beside one in a corner that has no place.
    """
    lines = face_lines(plan.walls, plan.corners, plan.boards)
    rows = ((b, row) for b in plan.boards for row in _crossed(room, plan, b))
    measures = (_bare_row(room, plan, board, lines[board.wall], *row) for board, row in rows)
    return or_note(tightest(room.rules["screwed"], measures), "no board crosses a stud")


def _bare_row(room: Room, plan: Plan, board: Board, ends: Ends, support: Support, low: float, high: float) -> Measure:
    own = [f for f in plan.fasteners if board.id in f.board_ids]
    u, edge = _row_u(plan, board, support), room.limit("screw-edge-distance")
    foot, head = heights_at(support, u)
    below = head - low < edge if low > foot + TOUCH else _in_plate(plan, support, foot, own)
    above = high - foot < edge if high < head - TOUCH else _in_plate(plan, support, head, own)
    tip = bool(own) and in_a_tip(board, (u, (low + high) / 2), edge)
    holding = _holding(plan, board, ends, support)
    held = any(f.support_id in holding for f in own) or (below and above) or tip
    subject = f"{board.id} on {support.id}: " + ("screwed" if held else "no screw there")
    return Measure(subject, 0.0 if held else 1.0, Place(board.wall, ((u, low), (u, high))))


def _holding(plan: Plan, board: Board, ends: Ends, support: Support) -> set[str]:
    """Ids of the uprights whose screws hold a board on one: it alone, and where the boards round the corner leave no
    place on it for a row of washers from bottom to top, those that touch it side by side."""
    doubled = {other.id for other in beside(support, on_wall(plan.supports, support.wall))}
    washers = [f.washer_diameter for f in plan.fasteners if board.id in f.board_ids and f.support_id in doubled]
    if washers and takes_no_washer(support, ends, stretch_before(support, plan.boards), min(washers) / 2):
        return {support.id, *doubled}
    return {support.id}


def _in_plate(plan: Plan, support: Support, end: float, screws: Sequence[Fastener]) -> bool:
    """True where a screw in line with an upright stands in a plate at that end of it."""
    (left, right), u = face_at(support, end), centre(support)
    plates = {
        s.id
        for s in on_wall(plan.supports, support.wall)
        if s.kind == "plate" and any(abs(v - end) <= TOUCH for v in heights_at(s, u))
    }
    return any(f.support_id in plates and left - TOUCH <= f.point[0] <= right + TOUCH for f in screws)


def washer_gap(room: Room, plan: Plan) -> Iterator[Measure]:
    """No washer lies on another; where two rows share a stud they do, and one row is shifted by hand."""
    rows: dict[tuple[tuple[str, ...], ...], list[tuple[float, Fastener, Fastener]]] = {}
    for a, b in combinations(plan.fasteners, 2):
        if a.wall == b.wall:
            gap = dist(a.point, b.point) - (a.washer_diameter + b.washer_diameter) / 2
            rows.setdefault(tuple(sorted((a.board_ids, b.board_ids))), []).append((tidy(gap), a, b))
    measures = (_washers(near) for near in rows.values())
    return or_note(tightest(room.rules["washer-gap"], measures), "no two screws on a wall")


def _washers(near: Sequence[tuple[float, Fastener, Fastener]]) -> Measure:
    """The closest washers of two boards' screws, or of one board's, with how many pairs lie on each other."""
    gap, first, second = min(near, key=lambda pair: pair[0])
    lapping = sum(1 for apart, _, _ in near if apart < 0.0)
    subject = f"washers of {first.id} and {second.id}"
    if lapping:
        others = f" and {lapping - 1} more pair{'s' * (lapping > 2)} of these rows" if lapping > 1 else ""
        subject += f"{others}: raise one row by a washer where they lie on each other"
    return Measure(subject, gap, Place(first.wall, (first.point, second.point)), on_break="note")


def _row_u(plan: Plan, board: Board, support: Support) -> float:
    own = (f.point[0] for f in plan.fasteners if board.id in f.board_ids and f.support_id == support.id)
    return next(own, centre(support))


def _opening_between(board: Board, u: float, low: float, high: float) -> bool:
    from shapely import LineString

    line = LineString(((u, low), (u, high)))
    return any(opening_shape(o).intersects(line) for o in board.openings)


def _reach(board: Board, point: Point, upright: bool) -> float:
    """mm from a point to the board's outline straight up and down, or straight to the sides; negative outside."""
    from shapely import LineString
    from shapely import Point as ShapelyPoint

    outline, (u, v), far = _outline(board), point, 1e5
    ray = ((u, v - far), (u, v + far)) if upright else ((u - far, v), (u + far, v))
    hit = outline.boundary.intersection(LineString(ray))
    spot = ShapelyPoint(point)
    distance = 0.0 if hit.is_empty else hit.distance(spot)
    return tidy(distance if outline.covers(spot) else -max(distance, outline.distance(spot)))


def screw_edge_distance(room: Room, plan: Plan) -> Iterator[Measure]:
    """The first and last screw of a row keep their distance from the board's ends."""
    measures = (_edge_measure(room, plan, f, True) for f in plan.fasteners)
    return or_note(tightest(room.rules["screw-edge-distance"], measures), "no screw in this plan")


def screw_side_distance(room: Room, plan: Plan) -> Iterator[Measure]:
    """A screw keeps its distance from the board's side edges; one that lies on a seam holds both boards."""
    single = (f for f in plan.fasteners if len(f.board_ids) == 1)
    measures = (_edge_measure(room, plan, f, False) for f in single)
    return or_note(tightest(room.rules["screw-side-distance"], measures), "no screw in this plan")


def _edge_measure(room: Room, plan: Plan, screw: Fastener, upright: bool) -> Measure:
    apart = min(_reach(plan.board(b), screw.point, upright) for b in screw.board_ids)
    words = "end" if upright else "side"
    subject = f"{screw.id}: distance from the {words} of its board"
    return Measure(subject, apart, Place(screw.wall, (screw.point,)), wall_path(room, screw.wall))


def screw_bite_wood(room: Room, plan: Plan) -> Iterator[Measure]:
    """Screws in wood reach deep enough into it."""
    return _bites(room, plan, "wood")


def screw_bite_steel(room: Room, plan: Plan) -> Iterator[Measure]:
    """Screws in steel reach far enough past its flange."""
    return _bites(room, plan, "steel")


def plug_depth(room: Room, plan: Plan) -> Iterator[Measure]:
    """Plugs reach deep enough into concrete or masonry, through the board and the mortar under it."""
    return _bites(room, plan, "masonry")


BITES = {"wood": "screw-bite-wood", "steel": "screw-bite-steel", "masonry": "plug-depth"}


def _bites(room: Room, plan: Plan, material: str) -> Iterator[Measure]:
    supports = {s.id: s for s in plan.supports if s.material == material}
    held = ((f, supports[f.support_id]) for f in plan.fasteners if f.support_id in supports)
    measures = (_bite(room, plan, f, support) for f, support in held)
    return or_note(tightest(room.rules[BITES[material]], measures), f"no screw in {material}")


def _bite(room: Room, plan: Plan, screw: Fastener, support: Support) -> Measure:
    """What the screw reaches beyond the stud's face; nothing where it misses the face."""
    u, v = screw.point
    (left, right), (low, high) = face_at(support, v), heights(support)
    misses = not (left - TOUCH <= u <= right + TOUCH and low - TOUCH <= v <= high + TOUCH)
    before = _thickness(plan, screw) + _shimmed(plan, screw) + plan.wall(screw.wall).furring
    depth = 0.0 if misses else screw.length - before
    subject = f"{screw.id} in {support.id}" + (", which it misses" if misses else "")
    cure = None if misses else _longer(room, screw, before + room.limit(BITES[support.material]))
    return Measure(subject, tidy(depth), Place(screw.wall, (screw.point,)), wall_path(room, screw.wall), cure)


def _longer(room: Room, screw: Fastener, length: float) -> Cure:
    text = f"use screws of at least {say(length, room.units)} on wall {screw.wall}"
    return Cure(text, "advice", screw.wall, "choices.screws", screw.point[0])


def _thickness(plan: Plan, screw: Fastener) -> float:
    return max(plan.board(b).thickness for b in screw.board_ids)


def _shimmed(plan: Plan, screw: Fastener) -> float:
    """Thickness of the shim that the screw goes through, mm."""
    own = (s for s in plan.shims if s.work == "shim" and s.support_id == screw.support_id)
    return max((s.thickness for s in own if s.low - TOUCH <= screw.point[1] <= s.high + TOUCH), default=0.0)


def pipe_zone(room: Room, plan: Plan) -> Iterator[Measure]:
    """No screw reaches so far past the stud's face that a pipe or cable there would need a shield plate."""
    if reason := not_asked(room, "pipe-zone"):
        return iter((unmeasured(reason, "note", "", "place.code"),))
    framing = {s.id for s in plan.supports if s.material != "masonry"}
    measures = (_reach_behind(room, plan, f) for f in plan.fasteners if f.support_id in framing)
    return or_note(tightest(room.rules["pipe-zone"], measures), "no screw in this plan")


def _reach_behind(room: Room, plan: Plan, screw: Fastener) -> Measure:
    before = _thickness(plan, screw) + plan.wall(screw.wall).furring
    depth = tidy(screw.length - before)
    shorter = say(room.limit("pipe-zone") + before, room.units)
    text = f"use screws of at most {shorter}, or put shield plates where pipes or cables pass"
    cure = Cure(text, "advice", screw.wall, "choices.screws", screw.point[0])
    subject = f"{screw.id}: reach beyond the stud's face"
    return Measure(subject, depth, Place(screw.wall, (screw.point,)), "choices.screws", cure, "warn")
