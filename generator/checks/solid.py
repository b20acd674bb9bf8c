"""The solids against the plan: each rule measures on bodies what the plan predicts; its limit is on the difference."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi
from typing import TYPE_CHECKING

from generator.checks.base import (
    flange_fronts,
    lapped_boards,
    notched_boards,
    over_base,
    over_deck,
    rabbet_top_above_flange,
)
from generator.checks.framing_found import fitting_distance
from generator.checks.measuring import line_place, on_framing, or_note, outline_place, tightest
from generator.model.findings import Measure, Place, Verdict
from generator.model.geometry import TOUCH, area, box, tidy
from generator.model.plan import (
    Board,
    Edge,
    Plan,
    Support,
)
from generator.model.room import Room
from generator.planning.base_edge import boards_stop_at_base
from generator.planning.benches import BUILT, kind_of
from generator.reading.facing import above, below

if TYPE_CHECKING:
    from generator.solids.records import Bodies


def solid_bearing(room: Room, plan: Plan, bodies: Bodies) -> Iterator[Measure]:
    """Each upright edge bears on the studs' faces as the plan says."""
    edges = (e for e in plan.edges if e.bearing is not None)
    measures = (m for e in edges if (m := _bearing(plan, bodies, e)))
    return or_note(tightest(room.rules["solid-bearing"], measures), "no upright edge in this plan")


def _bearing(plan: Plan, bodies: Bodies, edge: Edge) -> Measure | None:
    from generator.solids.measure import bearing

    framed = on_framing(plan, edge)
    p, q = (edge.p[0], framed.p[1]), (edge.q[0], framed.q[1])
    measured = bearing(bodies, edge.board, p, q, edge.support_ids)
    if measured is None or edge.bearing is None:
        return None
    place = line_place(plan.board(edge.board).wall, edge.p, edge.q)
    return Measure(f"{edge.id}: bearing against the plan's", tidy(abs(measured - edge.bearing)), place)


def solid_deck_gap(room: Room, plan: Plan, bodies: Bodies) -> Iterator[Measure]:
    """Each board hangs over the deck as high as the plan says."""
    from generator.solids.measure import deck_gap

    predicted = _deck_gaps(room, plan)
    hanging = (b for b in plan.boards if b.id in predicted)
    measures = (_difference(b, deck_gap(bodies, b.id), predicted[b.id], "above the deck") for b in hanging)
    return or_note(tightest(room.rules["solid-deck-gap"], measures), "no board over a deck")


def _deck_gaps(room: Room, plan: Plan) -> dict[str, float]:
    """By board; none where the boards run down behind a tray that is made after them."""
    gaps: dict[str, float] = {}
    if not boards_stop_at_base(room):
        return gaps
    for edge, side in over_base(room, plan):
        gaps[edge.board] = min(gaps.get(edge.board, float("inf")), over_deck(edge, side))
    return gaps


def _difference(board: Board, measured: float | None, predicted: float, what: str, slack: float = 0.0) -> Measure:
    """The two against each other, less the slack; a board that does not hang there is off by its own thickness."""
    apart = board.thickness if measured is None else max(0.0, abs(measured - predicted) - slack)
    place = outline_place(board.wall, board.outline)
    return Measure(f"{board.id}: its distance {what} against the plan's", tidy(apart), place)


def solid_flange_clearance(room: Room, plan: Plan, bodies: Bodies) -> Iterator[Measure]:
    """Each board clears the flange, above it and in depth, as the plan says."""
    from generator.solids.measure import flange_gap_above, flange_gap_in_depth

    above, depth = _clearances(room, plan), _depths(room, plan)
    over, before = ([b for b in plan.boards if b.id in known] for known in (above, depth))
    measures = [
        _difference(b, flange_gap_above(bodies, b.id), above[b.id], "above the flange", _fall(plan, b)) for b in over
    ]
    measures += [_difference(b, flange_gap_in_depth(bodies, b.id), depth[b.id], "before the flange") for b in before]
    return or_note(tightest(room.rules["solid-flange-clearance"], measures), "no flange in this room")


def _fall(plan: Plan, board: Board) -> float:
    """How far decks out of level rise or fall inside a corner, two boards wide: nips there are level. 0 elsewhere."""
    own = box(board.outline)
    nips = [box(a.ring) for a in plan.wall(board.wall).allowances if a.name == "nip"]
    if not any(n[0] < own[2] and own[0] < n[2] for n in nips):
        return 0.0
    slopes = [abs(s.deck[-1][1] - s.deck[0][1]) / (s.end - s.start) for s in plan.base.sides]
    return sum(slopes) * 2.0 * board.thickness


def _clearances(room: Room, plan: Plan) -> dict[str, float]:
    """Predicted height of each board's lower faces over the flanges, rabbets and nips included."""
    gaps: dict[str, list[float]] = {}
    for board, side in notched_boards(room, plan):
        gaps.setdefault(board.id, []).append(rabbet_top_above_flange(plan, board, side))
    for edge, side in over_base(room, plan) if room.base.treatment == "butted" else ():
        if side.flanged and room.base.flange:
            gaps.setdefault(edge.board, []).append(over_deck(edge, side) - room.base.flange.top)
    for board in plan.boards:
        gaps.setdefault(board.id, []).extend(_over_nips(room, plan, board))
    return {board_id: min(values) for board_id, values in gaps.items() if values}


def _over_nips(room: Room, plan: Plan, board: Board) -> Iterator[float]:
    """Height of a board's nipped corners over the neighbour's flange."""
    left, bottom, right, high = box(board.outline)
    for allowance in plan.wall(board.wall).allowances:
        near, _, far, top = box(allowance.ring)
        beside = near < right and left < far and bottom - TOUCH <= top < high
        if allowance.name == "nip" and beside:
            left_end = near < sum(box(plan.wall(board.wall).outline)[::2]) / 2
            neighbour = _neighbour(room, board.wall, left_end)
            for side in (s for s in plan.base.sides if s.wall == neighbour):
                rise = side.flange_top - max(v for _, v in side.deck)
                yield top - rise - side.deck[-1 if left_end else 0][1]


def _neighbour(room: Room, wall: str, left_end: bool) -> str:
    """The wall beyond a corner; "" where there is none."""
    if left_end:
        return next((c.left_wall for c in room.corners if c.right_wall == wall), "")
    return next((c.right_wall for c in room.corners if c.left_wall == wall), "")


def _depths(room: Room, plan: Plan) -> dict[str, float]:
    fronts = flange_fronts(plan)
    return {
        board.id: max((r.depth for r in board.rabbets), default=0.0) - fronts[side.wall]
        for board, side in lapped_boards(room, plan)
    }


def solid_interference(room: Room, plan: Plan, bodies: Bodies) -> Iterator[Measure]:
    """No two bodies fill the same room; a stud in a fitting's way is judged with the framing as found.

    A piece of lumber that two walls see is judged as the first of them has it.
    """
    from generator.solids.measure import interferences

    words = _explained(room, plan)
    seen_twice = {s.id for s in plan.supports if s.same_as is not None}
    found = [pair for pair in interferences(bodies) if not {pair.first, pair.second} & seen_twice]
    for pair in found:
        body = bodies.part(pair.first if bodies.part(pair.first).wall else pair.second)
        both = frozenset((pair.first, pair.second))
        verdict, why = words.get(both, ("fail", ""))
        subject = f"{pair.first} and {pair.second} in one place{why}"
        yield Measure(subject, tidy(pair.volume), Place(body.wall, _outline(plan, body.id)), on_break=verdict)
    if not found:
        yield Measure(f"volume in common, any two of {len(bodies.parts)} bodies", 0.0, Place("", ()))


def _explained(room: Room, plan: Plan) -> dict[frozenset[str], tuple[Verdict, str]]:
    """Pairs of bodies that may share a place, with the verdict and why."""
    cut = ": cut the blocking where the added stud stands, and fasten both ends to it"
    return {
        **dict.fromkeys(_let_in(plan), ("confirm", cut)),
        **dict.fromkeys(_formed(room, plan), ("note", ": the tray is formed round it")),
        **dict.fromkeys(_foreseen(room, plan) | _posts(plan), ("note", ", as found in the framing")),
    }


def _foreseen(room: Room, plan: Plan) -> set[frozenset[str]]:
    """(support, fitting) pairs that the collision rules have found broken in the framing as it stands."""
    pairs = ((s, f) for s in plan.supports if s.origin == "found" for f in plan.fittings if f.wall == s.wall)
    broken = [(s.id, f.id) for s, f in pairs if fitting_distance(room, f, s) < 0]
    return {frozenset((s, name)) for s, f in broken for name in (f, f"{f}-body")}


def _formed(room: Room, plan: Plan) -> set[frozenset[str]]:
    """A site-built tray is formed round what stands on its floor."""
    if room.base.kind != "tray":
        return set()
    placed = [*((b.id, b.wall) for b in plan.boards), *((s.id, s.wall) for s in plan.supports)]
    return {frozenset((piece, "base")) for piece, wall in placed if kind_of(room, wall) in BUILT}


def _posts(plan: Plan) -> set[frozenset[str]]:
    """Pairs of found studs at an outside corner: one post, measured on both its faces."""
    met = [{c.left_wall, c.right_wall} for c in plan.corners if c.angle_deg > 180.0]
    found = [s for s in plan.supports if s.origin == "found" and s.same_as is None]
    return {frozenset((a.id, b.id)) for a in found for b in found if a.wall < b.wall and {a.wall, b.wall} in met}


def _let_in(plan: Plan) -> set[frozenset[str]]:
    """(added stud, found blocking) pairs of one wall: blocking is cut for a stud as a matter of course."""
    added = [s for s in plan.supports if s.origin == "added"]
    blocking = [s for s in plan.supports if s.origin == "found" and s.kind == "blocking"]
    return {frozenset((a.id, b.id)) for a in added for b in blocking if a.wall == b.wall}


def _outline(plan: Plan, body_id: str) -> tuple[tuple[float, float], ...]:
    records: tuple[Board | Support, ...] = (*plan.boards, *plan.supports)
    return next((r.outline for r in records if r.id == body_id), ())


def solid_volume(room: Room, plan: Plan, bodies: Bodies) -> Iterator[Measure]:
    """The volume of each board, support and strip of furring is what its outline, openings and rabbets make it."""
    from generator.solids.measure import volume

    predicted = [(b.id, b.wall, b.outline, _board_volume(b)) for b in plan.boards]
    predicted += [(s.id, s.wall, s.outline, _lumber_volume(s)) for s in plan.supports]
    predicted += [(f.id, f.wall, f.ring, area(f.ring) * f.thickness) for f in plan.furring]
    measures = (
        Measure(f"{key}: volume against the plan's", abs(volume(bodies, key) - mm3) / mm3, outline_place(wall, outline))
        for key, wall, outline, mm3 in predicted
    )
    return or_note(tightest(room.rules["solid-volume"], measures), "no part in this plan")


def _lumber_volume(support: Support) -> float:
    """mm3, by Simpson's rule, which is exact here: bevelled ends run in evenly, faces are cut straight."""
    front, middle, back = (_face_behind(support, share * support.depth) for share in (0.0, 0.5, 1.0))
    return (front + 4 * middle + back) / 6 * support.depth


def _face_behind(support: Support, depth: float) -> float:
    """mm2 of the section so far behind the face."""
    left, _, right, _ = box(support.outline)
    ring = above(support.outline, (1.0, 0.0, 0.0), left + support.bevels[0] * depth)
    return area(below(ring, (1.0, 0.0, 0.0), right - support.bevels[1] * depth))


def _board_volume(board: Board) -> float:
    """mm3; openings and rabbets of a board do not overlap."""
    openings = sum(area(o.ring) if o.ring else pi / 4 * o.diameter**2 for o in board.openings)
    return (area(board.outline) - openings) * board.thickness - sum(area(r.ring) * r.depth for r in board.rabbets)
