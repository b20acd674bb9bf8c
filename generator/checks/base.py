"""How boards meet the tub or shower base: gaps, the flange in its notch, legs, and what keeps off a lining."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import ceil

from generator.checks.codes import not_asked
from generator.checks.measuring import (
    edge_wall,
    edges_of,
    is_level_edge,
    is_upright_edge,
    line_place,
    or_note,
    outline_place,
    room_wall,
    say,
    tightest,
    unmeasured,
)
from generator.model.ends import is_upright
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import NOISE, TOUCH, Point, Ring, box, tidy
from generator.model.plan import (
    Board,
    Edge,
    Plan,
    Rabbet,
)
from generator.model.room import BaseSide, Room
from generator.units import paper_step


def _sides(room: Room) -> dict[str, BaseSide]:
    return {side.wall: side for side in room.base.sides}


def _deck_at(deck: tuple[Point, ...], u: float) -> float:
    """Height of the deck at u (its ends beyond them), mm above the datum."""
    if u <= deck[0][0]:
        return deck[0][1]
    for (u0, v0), (u1, v1) in pairwise(deck):
        if u <= u1:
            return v0 + (u - u0) / (u1 - u0) * (v1 - v0)
    return deck[-1][1]


def over_base(room: Room, plan: Plan) -> Iterator[tuple[Edge, BaseSide]]:
    """Lower edges that hang over the base, with the side they hang over."""
    sides = _sides(room)
    for edge in edges_of(plan, "bottom"):
        side = sides.get(edge_wall(plan, edge))
        left, right = sorted((edge.p[0], edge.q[0]))
        if side and right - left > TOUCH and min(right, side.end) - max(left, side.start) > TOUCH:
            yield edge, side


def over_deck(edge: Edge, side: BaseSide) -> float:
    """Least height of a lower edge over the deck, mm."""
    ends = (edge.p, edge.q)
    return min(v - _deck_at(side.deck, u) for u, v in ends)


def deck_gap(room: Room, plan: Plan) -> Iterator[Measure]:
    """No board rests on the deck: its lower edge stays clear of it."""
    if room.base.treatment == "tray" and room.base.tray and room.base.tray.order == "boards_first":
        yield unmeasured("the boards go up before the tray: they meet no deck", "note", "", room.base.path)
        return
    measures = (_gap(e, s, plan) for e, s in over_base(room, plan))
    yield from or_note(tightest(room.rules["deck-gap"], measures), "no base under these walls")


def _gap(edge: Edge, side: BaseSide, plan: Plan) -> Measure:
    wall = edge_wall(plan, edge)
    place = line_place(wall, edge.p, edge.q)
    return Measure(f"{edge.board}: lower edge above the deck", tidy(over_deck(edge, side)), place, side.path)


def bed_gap(room: Room, plan: Plan) -> Iterator[Measure]:
    """A board above a thick flange leaves room for its bed of sealant."""
    if room.base.treatment != "butted" or room.base.flange is None:
        yield unmeasured("no thick flange in this room", "note", "", room.base.path)
        return
    top = room.base.flange.top
    for edge, side in over_base(room, plan):
        if side.flanged:
            wall = edge_wall(plan, edge)
            gap = tidy(over_deck(edge, side) - top)
            yield Measure(
                f"{edge.board}: lower edge above the flange", gap, line_place(wall, edge.p, edge.q), side.path
            )


def thick_flush(room: Room, plan: Plan) -> Iterator[Measure]:
    """A thick flange is as deep as the board, so that their faces are flush; else shim."""
    if room.base.treatment != "butted" or room.base.flange is None:
        yield unmeasured("no thick flange in this room", "note", "", room.base.path)
        return
    depth = room.base.flange.thickness
    flanged = {s.wall: s for s in room.base.sides if s.flanged}
    for board in (b for b in plan.boards if b.wall in flanged and _hangs_over(room, plan, b)):
        side = flanged[board.wall]
        proud = tidy(side.gap + depth - board.thickness)
        cure = _fur(room, board.wall, room_wall(room, board.wall).furring + proud) if proud > 0 else None
        place = outline_place(board.wall, board.outline)
        yield Measure(f"{board.id}: its face and the flange's", abs(proud), place, side.path, cure)


def _fur(room: Room, wall: str, thickness: float) -> Cure:
    """Furring for a whole wall; the thickness is in all, what it has already counted, up to the paper's next step."""
    step = paper_step(room.units)
    strip = say(ceil(thickness / step - NOISE) * step, room.units)
    text = f"fur all studs of wall {wall} by {strip} and enter that under `at_flange`"
    return Cure(text, "advice", wall, "base.at_flange", 0.0)


def _hangs_over(room: Room, plan: Plan, board: Board) -> bool:
    return any(e.board == board.id for e, _ in over_base(room, plan))


def lapped_boards(room: Room, plan: Plan) -> list[tuple[Board, BaseSide]]:
    """Boards that pass in front of a thin flange."""
    over = sorted({(e.board, s.wall) for e, s in over_base(room, plan) if s.flanged})
    sides = _sides(room)
    return [(plan.board(b), sides[w]) for b, w in over] if room.base.treatment == "lapped" else []


def notched_boards(room: Room, plan: Plan) -> list[tuple[Board, BaseSide]]:
    """Boards in whose way the thin flange stands that they pass; before a flange behind furred faces none does."""
    fronts = flange_fronts(plan)
    return [(board, side) for board, side in lapped_boards(room, plan) if fronts[side.wall] > -NOISE]


NO_THIN_FLANGE = "no thin flange in this room"


def rabbet_share(room: Room, plan: Plan) -> Iterator[Measure]:
    """A rabbet leaves enough of the board's thickness."""
    measures = (_share(room, board, rabbet) for board in plan.boards for rabbet in board.rabbets)
    return or_note(tightest(room.rules["rabbet-share"], measures), "no rabbet in this room")


def _share(room: Room, board: Board, rabbet: Rabbet) -> Measure:
    """The cure furs the studs by what the rabbet is too deep."""
    over = rabbet.depth - room.limit("rabbet-share") * board.thickness
    subject = f"{board.id}: depth of its rabbet to its thickness"
    cure = _fur(room, board.wall, room_wall(room, board.wall).furring + over) if over > 0 else None
    return Measure(subject, tidy(rabbet.depth / board.thickness), Place(board.wall, rabbet.ring), "", cure)


def rabbet_clearance(room: Room, plan: Plan) -> Iterator[Measure]:
    """The rabbet is deeper than the flange with its fixings by the clearance."""
    fronts = flange_fronts(plan)
    measures = (_depth_left(board, side, fronts[side.wall]) for board, side in lapped_boards(room, plan))
    return or_note(tightest(room.rules["rabbet-clearance"], measures), NO_THIN_FLANGE)


def flange_fronts(plan: Plan) -> dict[str, float]:
    """Greatest w of the flange by wall, fixings counted; 0 or less where it stands behind the furred faces."""
    thick = max((w for w, _ in plan.base.flange_section), default=0.0)
    return {side.wall: side.gap + thick for side in plan.base.sides}


def _depth_left(board: Board, side: BaseSide, front: float) -> Measure:
    depth = max((r.depth for r in board.rabbets if r.face == "back"), default=0.0)
    return Measure(f"{board.id}: space in front of the flange", tidy(depth - front), _rabbet_place(board), side.path)


def _rabbet_place(board: Board) -> Place:
    return Place(board.wall, board.rabbets[0].ring if board.rabbets else board.outline)


def flange_clearance(room: Room, plan: Plan) -> Iterator[Measure]:
    """The rabbet reaches above the flange and past its free ends by the clearance."""
    measures = (m for board, side in notched_boards(room, plan) for m in _around(plan, board, side))
    return or_note(tightest(room.rules["flange-clearance"], measures), NO_THIN_FLANGE)


def _around(plan: Plan, board: Board, side: BaseSide) -> Iterator[Measure]:
    """Above the flange, and beyond an end of it that the board passes."""
    points = [p for r in board.rabbets for p in r.ring]
    left, _, right, _ = box(points) if points else (side.end, 0.0, side.start, 0.0)
    path, place = side.path, _rabbet_place(board)
    above = rabbet_top_above_flange(plan, board, side)
    yield Measure(f"{board.id}: top of its rabbet above the flange", above, place, path)
    own = box(board.outline)
    if own[0] < side.end < own[2] - NOISE:
        yield Measure(f"{board.id}: its rabbet past the flange's right end", tidy(right - side.end), place, path)
    if own[0] + NOISE < side.start < own[2]:
        yield Measure(f"{board.id}: its rabbet past the flange's left end", tidy(side.start - left), place, path)


def rabbet_top_above_flange(plan: Plan, board: Board, side: BaseSide) -> float:
    """Least height (mm) of a rabbet's upper edge over the flange, which follows the deck; without one, the board's."""
    planned = next(s for s in plan.base.sides if s.wall == side.wall)
    rise = planned.flange_top - max(v for _, v in planned.deck)
    tops = [p for r in board.rabbets for p in _upper_points(r.ring)]
    if not tops:
        return tidy(box(board.outline)[1] - planned.flange_top)
    return tidy(min(v - _deck_at(planned.deck, u) - rise for u, v in tops))


def _upper_points(ring: Ring) -> Iterator[Point]:
    """Ends of the sides that close a ring upwards: counter-clockwise those run to the left."""
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        if q[0] < p[0] and not is_upright(p, q):
            yield from (p, q)


def leg_gap(room: Room, plan: Plan) -> Iterator[Measure]:
    """A leg beside the base stays clear of the apron and of the floor."""
    measures = (*_apron_gaps(room, plan), *_floor_gaps(room, plan))
    return or_note(tightest(room.rules["leg-gap"], measures), "no leg in this room")


def _apron_gaps(room: Room, plan: Plan) -> Iterator[Measure]:
    sides = _sides(room)
    for edge in edges_of(plan, "apron"):
        wall = edge_wall(plan, edge)
        if is_upright_edge(edge) and wall in sides:
            side, u = sides[wall], edge.p[0]
            gap = tidy(u - side.end if u > (side.start + side.end) / 2 else side.start - u)
            yield Measure(f"{edge.board}: gap beside the apron", gap, line_place(wall, edge.p, edge.q), side.path)


def _floor_gaps(room: Room, plan: Plan) -> Iterator[Measure]:
    over = {e.id for e, _ in over_base(room, plan)}
    for edge in edges_of(plan, "bottom"):
        wall = plan.wall(edge_wall(plan, edge))
        if is_level_edge(edge) and edge.id not in over and not _is_nip(edge, plan):
            gap = tidy(min(edge.p[1], edge.q[1]) - wall.datum_v)
            place = line_place(wall.id, edge.p, edge.q)
            yield Measure(f"{edge.board}: gap above the floor", gap, place, room.base.path)


def _is_nip(edge: Edge, plan: Plan) -> bool:
    """True for the short level edge above a nipped corner."""
    wall = plan.wall(edge_wall(plan, edge))
    nips: Iterable[tuple[float, float, float, float]] = (box(a.ring) for a in wall.allowances if a.name == "nip")
    u, v = (edge.p[0] + edge.q[0]) / 2, edge.p[1]
    return any(n[0] <= u <= n[2] and abs(v - n[3]) <= TOUCH for n in nips)


def lining_clear(room: Room, plan: Plan) -> Iterator[Measure]:
    """No fastener goes through a tray's lining near or below the finished threshold."""
    if room.base.kind != "tray":
        yield unmeasured("no site-built tray in this room", "note", "", room.base.path)
        return
    if reason := not_asked(room, "lining-clear"):
        yield unmeasured(reason, "note", "", "place.code")
        return
    if room.base.threshold is None:
        text = "height of the finished threshold is not known; keep fasteners off the lining"
        yield unmeasured(text, "confirm", "", room.base.path)
        return
    walls = _sides(room)
    screws = [f for f in plan.fasteners if f.wall in walls and _beside(f.point[0], walls[f.wall])]
    measures = (
        Measure(f"{f.id}: above the threshold", tidy(f.point[1] - room.base.threshold), Place(f.wall, (f.point,)), "")
        for f in screws
    )
    yield from or_note(tightest(room.rules["lining-clear"], measures), "no fastener beside the tray")


def _beside(u: float, side: BaseSide) -> bool:
    return side.start - TOUCH <= u <= side.end + TOUCH
