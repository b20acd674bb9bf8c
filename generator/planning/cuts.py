"""Where the details of a room are cut: one plane with its window for each condition that the room has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from generator.model.cuts import Cut, CutKind
from generator.model.ends import height_at
from generator.model.frames import Frame
from generator.model.geometry import TOUCH, box
from generator.model.plan import (
    Board,
    Edge,
    Fastener,
    Plan,
    PlannedCorner,
    PlannedSide,
    PlannedWall,
)
from generator.model.room import Room
from generator.planning.bays import is_upright
from generator.planning.feature_cuts import feature_cuts

BEHIND, BEFORE = 50.0, 78.0
"""mm shown behind the stud faces and before them."""
Keyed = tuple[tuple[object, ...], Cut]


def detail_cuts(room: Room, plan: Plan) -> tuple[Cut, ...]:
    """The cuts in the order in which their details are drawn; conditions that are alike are cut once."""
    found = (*_bases(room, plan), *_corners(plan), *_wallboards(plan), *feature_cuts(room, plan), *_screws(plan))
    once: dict[tuple[object, ...], Cut] = {}
    for key, cut in found:
        once.setdefault(key, cut)
    return tuple(once.values())


def upright(wall: PlannedWall, u: float) -> Frame:
    """The plane across a wall at u: x is the wall's w, y its v."""
    return wall.frame.turned((u, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))


def level(wall: PlannedWall, u: float, v: float) -> Frame:
    """The level plane at v from above, x = 0 at u: x is the wall's u, y is -w."""
    return wall.frame.turned((u, v, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0))


def bottom_at(board: Board, u: float) -> float:
    """v of a board's lower edge at u; of its box where it does not reach."""
    sides = zip(board.outline, (*board.outline[1:], board.outline[0]), strict=True)
    return min((height_at(side, u) for side in sides if side[0][0] < u < side[1][0]), default=box(board.outline)[1])


def _bases(room: Room, plan: Plan) -> Iterator[Keyed]:
    for side in plan.base.sides:
        edge = _longest_over(plan, side)
        if edge is None:
            continue
        wall, board = plan.wall(side.wall), plan.board(edge.board)
        u = _on_support(plan, board, edge)
        deck, bottom = height_at(side.deck, u), bottom_at(board, u)
        screws = [f.point[1] for f in plan.fasteners if board.id in f.board_ids and abs(f.point[0] - u) < 1.0]
        top = max(bottom + room.limit("mortar-strip") + 14.0, side.flange_top + 20.0, min(screws, default=0.0) + 22.0)
        window = (-BEHIND, max(min(deck, bottom) - 32.0, -6.0), BEFORE, top)
        key = ("base", round(side.gap, 2), round(wall.furring, 2), board.thickness)
        yield key, Cut(f"base:{side.wall}", "base", side.wall, side.wall, upright(wall, u), window)


def _longest_over(plan: Plan, side: PlannedSide) -> Edge | None:
    """The longest lower edge of a board over a side of the base."""
    walls = {b.id: b.wall for b in plan.boards}
    edges = [
        e
        for e in plan.edges
        if e.role == "bottom"
        and walls[e.board] == side.wall
        and side.start - TOUCH < (e.p[0] + e.q[0]) / 2 < side.end + TOUCH
        and abs(e.q[0] - e.p[0]) > abs(e.q[1] - e.p[1])
    ]
    return max(edges, key=lambda e: (round(dist(e.p, e.q), 3), e.id), default=None)


def _on_support(plan: Plan, board: Board, edge: Edge) -> float:
    """u of the lowest screw over the edge that is nearest to its middle, so that stud and screw are cut too."""
    low, high = sorted((edge.p[0], edge.q[0]))
    middle = (low + high) / 2
    us = [f.point[0] for f in plan.fasteners if board.id in f.board_ids and low + 30 < f.point[0] < high - 30]
    return min(us, key=lambda u: (round(abs(u - middle), 3), u), default=middle)


def _corners(plan: Plan) -> Iterator[Keyed]:
    for corner in plan.corners:
        first = plan.wall(corner.first)
        at_right = corner.left_wall == corner.first
        u = first.outline[1 if at_right else 0][0]
        v = _clear_height(plan, corner, u)
        kind: CutKind = "corner" if corner.angle_deg < 180 else "outside_corner"
        near, far = (80.0, BEHIND) if kind == "corner" else (55.0, 68.0)
        across = (-near, far) if at_right else (-far, near)
        if kind == "outside_corner":
            across = (-far, near) if at_right else (-near, far)
        window = (across[0], -near, across[1], far)
        other = plan.wall(corner.right_wall if at_right else corner.left_wall)
        key = (kind, round(corner.angle_deg, 1), round(first.furring, 2), round(other.furring, 2))
        yield key, Cut(f"corner:{corner.id}", kind, corner.id, first.id, level(first, u, v), window)


def _clear_height(plan: Plan, corner: PlannedCorner, u: float) -> float:
    """Height of the screw near the corner that is nearest to half height, clear of level lumber, seams, openings."""
    walls = (corner.left_wall, corner.right_wall)
    low, high = _shared_heights(plan, walls)
    near = [f for f in plan.fasteners if f.wall == corner.first and abs(f.point[0] - u) < 120.0]
    taken = tuple(_level_things(plan, walls))
    free = [f.point[1] for f in near if low < f.point[1] < high and not any(a < f.point[1] < b for a, b in taken)]
    return min(free, key=lambda v: (round(abs(v - (low + high) / 2), 3), v), default=(low + high) / 2)


def _shared_heights(plan: Plan, walls: Sequence[str]) -> tuple[float, float]:
    """Between which heights all of the walls have boards."""
    spans = [[box(b.outline) for b in plan.boards if b.wall == wall] for wall in walls]
    lows, highs = ([f(b[i] for b in boards) for boards in spans if boards] for f, i in ((min, 1), (max, 3)))
    return max(lows, default=0.0), min(highs, default=0.0)


def _level_things(plan: Plan, walls: Sequence[str]) -> Iterator[tuple[float, float]]:
    """Heights between which a level cut would run along a piece of lumber, a seam or an opening."""
    for support in plan.supports:
        if support.wall in walls and not is_upright(support):
            yield box(support.outline)[1] - 1.0, box(support.outline)[3] + 1.0
    for board in plan.boards:
        if board.wall in walls:
            _, low, _, high = box(board.outline)
            yield low - 70.0, low + 70.0
            yield high - 70.0, high + 70.0


def _wallboards(plan: Plan) -> Iterator[Keyed]:
    walls = {b.id: b.wall for b in plan.boards}
    for edge in (e for e in plan.edges if e.role == "wallboard" and dist(e.p, e.q) > 150.0):
        screw = _screw_near(plan, edge)
        wall = plan.wall(walls[edge.board])
        u, v = (edge.p[0] + edge.q[0]) / 2, screw.point[1] if screw else (edge.p[1] + edge.q[1]) / 2
        window = (-65.0, -35.0, 65.0, BEHIND)
        material = [s.material for s in plan.supports if s.id in edge.support_ids]
        key = ("wallboard", round(wall.furring, 2), tuple(sorted(set(material))))
        yield key, Cut(f"wallboard:{edge.id}", "wallboard", edge.id, wall.id, level(wall, u, v), window)


def _screw_near(plan: Plan, edge: Edge) -> Fastener | None:
    middle = (edge.p[1] + edge.q[1]) / 2
    free = [
        f
        for f in plan.fasteners
        if edge.board in f.board_ids and f.support_id in edge.support_ids and abs(f.point[0] - edge.p[0]) < 40.0
    ]
    return min(free, key=lambda f: (round(abs(f.point[1] - middle), 3), f.id), default=None)


def _screws(plan: Plan) -> Iterator[Keyed]:
    """A screw well inside its board for each kind of support that screws go into."""
    boards = {b.id: box(b.outline) for b in plan.boards}
    supports = {s.id: s for s in plan.supports}
    for screw in plan.fasteners:
        support, (left, low, right, high) = supports[screw.support_id], boards[screw.board_ids[0]]
        (u, v), wall = screw.point, plan.wall(screw.wall)
        inside = min(u - left, right - u, v - low, high - v) > 45.0
        if inside and wall.face == "wall" and is_upright(support) and not support.same_as:
            key = ("screw", support.material, screw.length, round(wall.furring, 2))
            window = (-32.0, -14.0 - _thick(plan, screw), 32.0, screw.length)
            yield key, Cut(f"screw:{screw.id}", "screw", screw.id, screw.wall, level(wall, u, v), window)


def _thick(plan: Plan, screw: Fastener) -> float:
    return plan.board(screw.board_ids[0]).thickness
