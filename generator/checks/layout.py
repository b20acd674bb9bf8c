"""How the boards lie on the walls: whole, once, close to what they meet, and not in slivers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations
from math import cos, hypot, radians, sin

from generator.checks.measuring import (
    edge_wall,
    edges_of,
    inwards,
    is_upright_edge,
    line_place,
    or_note,
    outline_place,
    room_wall,
    tightest,
    wall_path,
)
from generator.model.ends import Side, end_at, lean
from generator.model.findings import Measure, Place
from generator.model.geometry import TOUCH, Point, Ring, box, tidy
from generator.model.plan import (
    Board,
    Edge,
    Plan,
    PlannedWall,
)
from generator.model.room import Corner, Room


def _boards(plan: Plan, wall: str) -> list[Board]:
    return [b for b in plan.boards if b.wall == wall]


def coverage(room: Room, plan: Plan) -> Iterator[Measure]:
    """The boards of a wall cover what they should, all of it and nothing else."""
    return or_note((_coverage(room, plan, wall) for wall in plan.walls), "no wall in this plan")


def _coverage(room: Room, plan: Plan, wall: PlannedWall) -> Measure:
    from generator.planning.shapes import polygon, union

    wet = union(polygon(region.ring, region.holes) for region in wall.wet_region)
    boards = _boards(plan, wall.id)
    cut_out = union(polygon(o.ring) for board in boards for o in board.openings if o.feature_id is not None)
    laid = union(polygon(board.outline) for board in boards).difference(cut_out)
    apart = wet.symmetric_difference(laid)
    place = outline_place(wall.id, wall.extent) if apart.is_empty else _box_place(wall.id, apart.bounds)
    subject = f"{wall.id}: area bare, or covered where no board belongs"
    return Measure(subject, tidy(apart.area), place, wall_path(room, wall.id))


def _box_place(wall: str, bounds: tuple[float, ...]) -> Place:
    return outline_place(wall, ((bounds[0], bounds[1]), (bounds[2], bounds[3])))


def overlap(room: Room, plan: Plan) -> Iterator[Measure]:
    """No two boards of a wall lie over each other."""
    pairs = (pair for wall in plan.walls for pair in combinations(_boards(plan, wall.id), 2))
    measures = (_overlap(room, a, b) for a, b in pairs)
    return or_note(tightest(room.rules["overlap"], measures), "no wall has two boards")


def _overlap(room: Room, a: Board, b: Board) -> Measure:
    from generator.planning.shapes import polygon

    common = polygon(a.outline).intersection(polygon(b.outline))
    place = outline_place(a.wall, a.outline) if common.is_empty else _box_place(a.wall, common.bounds)
    return Measure(f"{a.id} and {b.id}: area in common", tidy(common.area), place, wall_path(room, a.wall))


def least_rip(room: Room, plan: Plan) -> Iterator[Measure]:
    """No board is a narrow ripping; legs do not count, nor the whole of a narrow face, as a niche's or partition's."""
    measures = (_rip(room, board) for board in plan.boards if not _is_narrow_face(plan, board))
    return or_note(tightest(room.rules["least-rip"], measures), "no board in this plan")


def _is_narrow_face(plan: Plan, board: Board) -> bool:
    """True where the board is as narrow as all of its face, on a wall as all of its framing."""
    wall = plan.wall(board.wall)
    whole = wall.outline if wall.face == "wall" else [p for r in wall.wet_region for p in r.ring]
    return bool(whole) and _narrow_side(board.outline) >= _narrow_side(whole) - TOUCH


def _narrow_side(points: Iterable[Point]) -> float:
    left, low, right, high = box(points)
    return tidy(min(right - left, high - low))


def _rip(room: Room, board: Board) -> Measure:
    place = outline_place(board.wall, board.outline)
    return Measure(
        f"{board.id}: narrow side", _narrow_side(board.outline), place, wall_path(room, board.wall), None, "warn"
    )


def fit(room: Room, plan: Plan) -> Iterator[Measure]:
    """Boards keep their allowance from what they meet in corners and at the ceiling."""
    measures = (*_corner_fits(room, plan), *_ceiling_fits(room, plan))
    return or_note(tightest(room.rules["fit"], measures), "no corner and no ceiling to fit to")


def _corner_fits(room: Room, plan: Plan) -> Iterator[Measure]:
    for edge in edges_of(plan, "corner"):
        wall = edge_wall(plan, edge)
        corner = _corner_of(room, wall, inwards(edge) > 0)
        if corner is not None and is_upright_edge(edge) and corner.angle_deg < 180:
            gap = _corner_gap(room, plan, edge, corner)
            place = line_place(wall, edge.p, edge.q)
            yield Measure(f"{edge.board}: gap in {corner.id}", gap, place, corner.path)


def _corner_of(room: Room, wall: str, left_end: bool) -> Corner | None:
    return next((c for c in room.corners if (c.right_wall if left_end else c.left_wall) == wall), None)


def _corner_gap(room: Room, plan: Plan, edge: Edge, corner: Corner) -> float:
    """mm to the neighbour's framing for the wall boarded first, else to its boards: their face, or their end in a
    corner wider than a right angle.

    Plane trigonometry: a point (u, w) of this wall lies u sin A - w cos A from the neighbour's stud faces; a
    point (u, w) of the neighbour lies u cos A + w sin A along this wall.
    """
    board, angle = plan.board(edge.board), radians(corner.angle_deg)
    side: Side = "left" if inwards(edge) > 0 else "right"
    along = _from_end(room, board.wall, side, edge.p)
    if corner.first == board.wall:
        return tidy(along * sin(angle) - max(0.0, board.thickness * cos(angle)))
    others = _boards(plan, corner.left_wall if side == "left" else corner.right_wall)
    thick = max((b.thickness for b in others), default=0.0)
    if corner.angle_deg <= 90:
        return tidy(along * sin(angle) - board.thickness * cos(angle) - thick)
    other_side: Side = "right" if side == "left" else "left"
    end = min((_from_end(room, b.wall, other_side, p) for b in others for p in b.outline), default=0.0)
    return tidy(along - end * cos(angle) - thick * sin(angle))


def _from_end(room: Room, wall_id: str, side: Side, point: Point) -> float:
    """mm from an end of a wall, square to it."""
    outline = room_wall(room, wall_id).outline
    return abs(point[0] - end_at(outline, side, point[1])) / hypot(1.0, lean(outline, side))


def _ceiling_fits(room: Room, plan: Plan) -> Iterator[Measure]:
    for edge in edges_of(plan, "top"):
        wall = room_wall(room, edge_wall(plan, edge))
        if wall.to_ceiling:
            left, _, right, _ = box(wall.outline)  # where it laps a neighbour's edge it passes the framing
            gap = min(_top_at(wall.outline, min(max(u, left), right)) - v for u, v in (edge.p, edge.q))
            place = line_place(wall.id, edge.p, edge.q)
            yield Measure(f"{edge.board}: gap under the ceiling", tidy(gap), place, f"{wall.path}.boards")


def _top_at(outline: Ring, u: float) -> float:
    """Highest v of the outline at one u, mm."""
    tops = []
    for (u0, v0), (u1, v1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if min(u0, u1) - TOUCH <= u <= max(u0, u1) + TOUCH:
            share = min(1.0, max(0.0, (u - u0) / (u1 - u0))) if abs(u1 - u0) > TOUCH else float(v1 > v0)
            tops.append(v0 + share * (v1 - v0))
    return max(tops, default=0.0)
