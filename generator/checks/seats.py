"""Benches, corner seats and decks: what a person sits on is carried closely, and along every edge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from generator.checks.framing_planned import bay_measure, board_bays
from generator.checks.measuring import at, line_place, on_wall, or_note, tightest, wall_path
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import REAL_AREA, TOUCH, tidy
from generator.model.plan import Edge, Plan, PlannedWall
from generator.model.room import Room
from generator.planning.bays import is_upright
from generator.planning.benches import kind_of
from generator.planning.seats.fixing import HELD, Fixing, behind, fixings
from generator.planning.seats.pieces import KINDS

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def _faces(room: Room, plan: Plan) -> list[PlannedWall]:
    return [wall for wall in plan.walls if kind_of(room, wall.id) in KINDS]


def seat_span(room: Room, plan: Plan) -> Iterator[Measure]:
    """Joists under a seat, and knee studs under its front and ends, stand no farther apart than the limit."""
    faces = {wall.id for wall in _faces(room, plan)}
    bays = ((b, bay) for b in plan.boards if b.wall in faces for bay in board_bays(room, plan, b))
    measures = (bay_measure(room, board, bay) for board, bay in bays)
    return or_note(tightest(room.rules["seat-span"], measures), "no bench, seat or deck in this room")


def seat_edge(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each edge of a seat lies on lumber, along its whole length, by the least width."""
    seats = {wall.id for wall in _faces(room, plan) if wall.face == "seat"}
    edges = (e for e in plan.edges if e.role != "seam" and plan.board(e.board).wall in seats)
    measures = (_carried(room, plan, edge) for edge in edges)
    return or_note(tightest(room.rules["seat-edge"], measures), "no bench, seat or deck in this room")


def _carried(room: Room, plan: Plan, edge: Edge) -> Measure:
    """mm from an edge, or from the framing's where the board laps beyond that, in to the nearest gap in the lumber."""
    from generator.planning.shapes import polygon, union

    board = plan.board(edge.board)
    wall = plan.wall(board.wall)
    lumber = union(polygon(s.outline) for s in on_wall(plan.supports, wall.id)).buffer(TOUCH)
    shows = polygon(board.outline).intersection(polygon(wall.outline))
    width = _clear(edge, shows, lumber, max(s.depth for s in on_wall(plan.supports, wall.id)))
    subject = f"edge of {board.id} from {at(room, wall.id, edge.p[0])} to {at(room, wall.id, edge.q[0])}"
    return Measure(subject, tidy(width), line_place(wall.id, edge.p, edge.q), wall_path(room, wall.id))


def _clear(edge: Edge, shows: BaseGeometry, lumber: BaseGeometry, most: float) -> float:
    """Least distance from the rim of what shows, beside the edge, to a bare spot inwards of it; `most` at most."""
    from shapely import LineString, get_parts

    line = LineString((edge.p, edge.q))
    bare = shows.difference(lumber).intersection(line.buffer(most + 25.0, cap_style="flat"))
    rim = shows.boundary.intersection(line.buffer(25.0, cap_style="flat"))
    spots = [part for part in get_parts(bare) if part.area > REAL_AREA]
    return min((rim.distance(spot) for spot in spots), default=most)


def ledger_fixed(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each ledger lies across enough of the framing of its wall to be screwed to."""
    measures = (_fixed(plan, fixing) for fixing in fixings(room, plan.walls, plan.supports))
    return or_note(tightest(room.rules["ledger-fixed"], measures), "no ledger in this room, or masonry behind all")


def _fixed(plan: Plan, fixing: Fixing) -> Measure:
    """A block is one piece, and takes screws along the whole of it: it counts as two."""
    pieces = behind(fixing, plan.supports)
    count = sum(1 if is_upright(piece) else HELD for piece in pieces)
    subject = f"{fixing.ledger.id} on wall {fixing.wall}: pieces of framing behind it (a block counts as {HELD})"
    place = Place(fixing.wall, ((fixing.across[0], fixing.middle), (fixing.across[1], fixing.middle)))
    path, words = fixing.ledger.room_path, "put backing between the studs behind it before the boards"
    return Measure(subject, float(count), place, path, Cure(words, "advice", fixing.wall, path, fixing.across[0]))
