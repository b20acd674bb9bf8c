"""All screws of a room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.errors import CannotPlanError
from generator.model.features import Fold, Segment
from generator.model.geometry import NOISE, TOUCH, Point, tidy
from generator.model.plan import (
    Board,
    Fastener,
    Opening,
    PlannedBase,
    PlannedSide,
    PlannedWall,
    Support,
)
from generator.model.room import Room
from generator.planning.bays import Span, centre, face_between, heights_at, is_upright, whole_heights
from generator.planning.benches import is_bonded
from generator.planning.faces import Ends, face_lines
from generator.planning.fastening.corners import beside, stretch_before, takes_no_washer
from generator.planning.fastening.ledgers import ledger_row
from generator.planning.fastening.rows import blocked
from generator.planning.fastening.rows import heights as row_heights
from generator.planning.fastening.screws import screw_for
from generator.planning.fastening.soffits import clear_of_soffits, soffit_lines
from generator.planning.fastening.strips import Strip, board_heights, carriers, in_a_tip, row_u, strips
from generator.planning.folds import Seen, seen
from generator.units import label


@dataclass(frozen=True, slots=True)
class Spot:
    """A screw before it has its id."""

    point: Point
    support: Support


@dataclass(frozen=True, slots=True)
class _WallParts:
    """What the rows of one wall have to do with."""

    boards: tuple[Board, ...]
    supports: tuple[Support, ...]
    sides: tuple[PlannedSide, ...]
    openings: tuple[Opening, ...]
    ends: Ends
    seen: Seen
    soffits: tuple[Segment, ...]
    trimmed: bool
    """True where furring of a neighbour, or a corner under 90 degrees, takes from this wall's end."""


def plan_fasteners(
    room: Room,
    walls: tuple[PlannedWall, ...],
    folds: tuple[Fold, ...],
    base: PlannedBase,
    supports: tuple[Support, ...],
    boards: tuple[Board, ...],
) -> tuple[Fastener, ...]:
    """The screws of all boards, sorted by id: a row along each upright support that a board crosses.

    Level blocking gets none of its own: it carries a bay, rows stand on uprights. Points are in the wall frame.
    """
    ends = face_lines(walls, room.corners, boards)
    views = {wall.id: seen(wall, folds) for wall in walls}
    fasteners: list[Fastener] = []
    for board in (board for board in boards if not is_bonded(room, board.wall)):
        wall = _WallParts(
            boards=tuple(other for other in boards if other.wall == board.wall),
            supports=tuple(s for s in supports if s.wall == board.wall),
            sides=tuple(side for side in base.sides if side.wall == board.wall),
            openings=tuple(o for other in boards if other.wall == board.wall for o in other.openings),
            ends=ends[board.wall],
            seen=views[board.wall],
            soffits=soffit_lines(room, folds, board.wall),
            trimmed=_is_trimmed(room, board.wall),
        )
        fasteners += _named(room, board, _board_spots(room, wall, board))
    return tuple(sorted(fasteners, key=lambda f: f.id))


def _is_trimmed(room: Room, wall_id: str) -> bool:
    furred = max(next(wall.trims for wall in room.walls if wall.id == wall_id)) > NOISE
    return furred or any(wall_id in (c.left_wall, c.right_wall) and c.angle_deg < 90.0 - NOISE for c in room.corners)


def _named(room: Room, board: Board, spots: Iterable[Spot]) -> Iterator[Fastener]:
    ordered = sorted(spots, key=lambda s: (s.point, s.support.id))
    digits = max(3, len(str(len(ordered))))
    for index, spot in enumerate(ordered, 1):
        screw = screw_for(room, spot.support)
        yield Fastener(
            id=f"F-{board.id}-{index:0{digits}d}",
            wall=board.wall,
            point=spot.point,
            board_ids=(board.id,),
            support_id=spot.support.id,
            length=screw.length,
            washer_diameter=screw.washer_diameter,
        )


def _board_spots(room: Room, wall: _WallParts, board: Board) -> Iterator[Spot]:
    spots = tuple(_plumb_spots(room, wall, board))
    yield from spots
    taken = [spot.point for spot in spots]
    for ledger in (s for s in wall.supports if s.kind == "ledger"):
        for u, v in ledger_row(room, board, ledger, taken):
            taken.append((tidy(u), tidy(v)))
            yield Spot(taken[-1], ledger)


def _plumb_spots(room: Room, wall: _WallParts, board: Board) -> Iterator[Spot]:
    for support in (s for s in wall.supports if is_upright(s) and s.kind != "ledger"):
        for strip in strips(board, support, room.limit("bearing-edge"), room.limit("screw-edge-distance")):
            yield from _row(room, wall, board, support, strip)


def _row(room: Room, wall: _WallParts, board: Board, support: Support, strip: Strip) -> Iterator[Spot]:
    radius = screw_for(room, support).washer_diameter / 2
    wall = replace(wall, seen=clear_of_soffits(wall.seen, wall.soffits, strip, board.thickness))
    if _is_relieved(room, wall, board, support):
        return
    clear = _clear_span(wall, strip, radius)
    narrowed = any(wall.ends.leans) or wall.trimmed or bool(wall.soffits)
    left, right = face_between(support, strip.low, strip.high)
    if narrowed and min(right, clear[1]) < max(left, clear[0]) - TOUCH:
        raise CannotPlanError(_no_place(room, board, support), support.room_path)
    u = row_u(strip, support, room.limit("screw-side-distance"), clear)
    chain = carriers(support, wall.supports, u)
    along = board_heights(board, strip, u, room.limit("screw-edge-distance"))
    start, end = _row_span(room, wall, chain, along, u, radius)
    if start < end < start + 2 * radius + room.limit("washer-gap") - NOISE:  # two washers would lie on each other
        start = end = (start + end) / 2
    if start > end + NOISE or in_a_tip(board, (u, (along[0] + along[1]) / 2), room.limit("screw-edge-distance")):
        return
    for v in row_heights(start, end, room.limit("screw-spacing"), blocked(wall.openings, u, radius)):
        yield Spot((tidy(u), tidy(v)), _carrier(support, chain, (u, v)))


def _is_relieved(room: Room, wall: _WallParts, board: Board, support: Support) -> bool:
    """True where the corner leaves no place on the face, and an upright beside it takes the board's row instead."""
    doubled = [s for s in beside(support, wall.supports) if _crosses(room, board, s)]
    if not doubled:
        return False
    stretch = stretch_before(support, wall.boards)
    crowded, *others = (
        takes_no_washer(s, wall.ends, stretch, screw_for(room, s).washer_diameter / 2) for s in (support, *doubled)
    )
    return crowded and not all(others)


def _crosses(room: Room, board: Board, support: Support) -> bool:
    return bool(strips(board, support, room.limit("bearing-edge"), room.limit("screw-edge-distance")))


def _no_place(room: Room, board: Board, support: Support) -> str:
    return (
        f"no washer on the upright {label(centre(support), room.units)} from the left end of wall {board.wall} clears "
        "the boards round the corner, which is narrow, leans or is furred, or those of the soffit beside it; a wider "
        "upright there, or a soffit that ends elsewhere, would take the screws"
    )


def _clear_span(wall: _WallParts, strip: Strip, radius: float) -> Span:
    """From, to of the screws whose washers clear the neighbours' board faces, and on a leg the base beside it."""
    left, right = wall.ends.between(strip.low, strip.high)
    lefts = [side.end + TOUCH for side in wall.sides if side.end <= strip.edges[0] + TOUCH]
    rights = [side.start - TOUCH for side in wall.sides if side.start >= strip.edges[1] - TOUCH]
    return max((*lefts, left, wall.seen.left)) + radius, min((*rights, right, wall.seen.right)) - radius


def _row_span(room: Room, wall: _WallParts, chain: Sequence[Support], board: Span, u: float, radius: float) -> Span:
    """v of a row's first and last screw; where both distances do not fit, the middle of what is left."""
    edge = room.limit("screw-edge-distance")
    floor = max(_screw_floor(room, wall.sides, u, radius), wall.seen.bottom + radius)
    low, high = max(board[0], _reach(chain[0], u)[0]), min(board[1], _reach(chain[-1], u)[1])
    start, end = max(low + edge, floor), min(high - edge, wall.seen.top - radius)
    if start <= end + NOISE:
        return start, max(start, end)
    middle = (max(low, floor) + high) / 2
    return (middle, middle) if max(low, floor) <= high else (start, end)


def _reach(support: Support, u: float) -> Span:
    """v from, v to of what takes screws at u: of an upright as far as it is whole, where its end is cut aslant."""
    return heights_at(support, u) if support.kind == "plate" else whole_heights(support)


def _screw_floor(room: Room, sides: Sequence[PlannedSide], u: float, radius: float) -> float:
    """v that screws over the base stand at or above: flange top (of a tray: the lining's), clearance, half a washer."""
    over = [side for side in sides if side.start < u + radius and u - radius < side.end]
    clear = room.limit("flange-clearance") + radius
    return max((max(side.flange_top, *(v for _, v in side.deck)) + clear for side in over), default=float("-inf"))


def _carrier(support: Support, chain: Sequence[Support], at: Point) -> Support:
    """The support at a point: the upright itself where it reaches, else the plate."""
    u, v = at
    nearest = min(chain, key=lambda s: max(heights_at(s, u)[0] - v, v - heights_at(s, u)[1], 0.0))
    low, high = heights_at(support, u)
    return support if low - NOISE <= v <= high + NOISE else nearest
