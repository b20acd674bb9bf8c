"""All screws of a room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.model.geometry import NOISE, TOUCH, Point, tidy
from generator.model.plan import Board, Edge, Fastener, PlannedBase, PlannedSide, PlannedWall, Support
from generator.model.room import Room
from generator.planning.bays import Span, heights, is_upright
from generator.planning.faces import Ends, face_lines
from generator.planning.fastening.rows import blocked
from generator.planning.fastening.rows import heights as row_heights
from generator.planning.fastening.screws import screw_for
from generator.planning.fastening.strips import Strip, board_heights, carriers, row_u, strips


@dataclass(frozen=True, slots=True)
class Spot:
    """A screw before it has its id."""

    point: Point
    support: Support


def plan_fasteners(
    room: Room,
    walls: tuple[PlannedWall, ...],
    base: PlannedBase,
    supports: tuple[Support, ...],
    boards: tuple[Board, ...],
    edges: tuple[Edge, ...],  # noqa: ARG001
) -> tuple[Fastener, ...]:
    """The screws of all boards, sorted by id: a row along each upright support that a board crosses.

    Level blocking gets none of its own: it carries a bay, rows stand on uprights. Points are in the wall frame.
    """
    ends = face_lines(walls, room.corners, boards)
    fasteners: list[Fastener] = []
    for board in boards:
        own = [s for s in supports if s.wall == board.wall]
        fasteners += _named(room, board, _board_spots(room, base, own, board, ends[board.wall]))
    return tuple(sorted(fasteners, key=lambda f: f.id))


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


def _board_spots(
    room: Room, base: PlannedBase, supports: Sequence[Support], board: Board, ends: Ends
) -> Iterator[Spot]:
    sides = [side for side in base.sides if side.wall == board.wall]
    for support in supports:
        if is_upright(support):
            for strip in strips(board, support, room.limit("bearing-edge"), room.limit("screw-edge-distance")):
                yield from _row(room, sides, supports, board, support, strip, ends)


def _row(
    room: Room,
    sides: Sequence[PlannedSide],
    supports: Sequence[Support],
    board: Board,
    support: Support,
    strip: Strip,
    ends: Ends,
) -> Iterator[Spot]:
    washer = screw_for(room, support).washer_diameter
    u = row_u(strip, support, room.limit("screw-side-distance"), _clear_span(ends, washer / 2))
    chain = carriers(support, supports, u)
    low, high = board_heights(board, strip, u, room.limit("screw-edge-distance"))
    start, end = _row_span(room, sides, chain, (low, high), u, washer / 2)
    if start > end + NOISE:
        return
    blocks = blocked(board.openings, u, washer / 2)
    for v in row_heights(start, end, room.limit("screw-spacing"), washer, blocks):
        yield Spot((tidy(u), tidy(v)), _carrier(support, chain, v))


def _clear_span(ends: Ends, radius: float) -> Span:
    """From, to of the screws whose washers clear the neighbours' board faces."""
    left = float("-inf") if ends.left is None else ends.left + radius
    right = float("inf") if ends.right is None else ends.right - radius
    return left, right


def _row_span(
    room: Room, sides: Sequence[PlannedSide], chain: Sequence[Support], board: Span, u: float, radius: float
) -> Span:
    """v of a row's first and last screw; where both distances do not fit, the middle of what is left."""
    edge, off_end = room.limit("screw-edge-distance"), room.limit("screw-side-distance")
    floor = _screw_floor(room, sides, u, radius, board[0])
    low, high = heights(chain[0])[0], heights(chain[-1])[1]
    start = max(board[0] + edge, low + off_end, floor)
    end = min(board[1] - edge, high - off_end)
    if start <= end + NOISE:
        return start, max(start, end)
    least, most = max(board[0], low, floor), min(board[1], high)
    middle = (least + most) / 2
    return (middle, middle) if least <= most else (start, end)


def _screw_floor(room: Room, sides: Sequence[PlannedSide], u: float, radius: float, bottom: float) -> float:
    """v that screws over the base stand at or above: flange top (of a tray: the lining's), clearance, half a washer."""
    over = [side for side in sides if _is_over(side, u, radius, bottom)]
    clear = room.limit("flange-clearance") + radius
    return max((side.flange_top + clear for side in over), default=float("-inf"))


def _is_over(side: PlannedSide, u: float, radius: float, bottom: float) -> bool:
    """True where the screw is in front of the base; beside it, where its washer reaches it and no leg goes down."""
    if side.start - NOISE <= u <= side.end + NOISE:
        return True
    reaches = side.start < u + radius - TOUCH and u - radius + TOUCH < side.end
    return reaches and bottom > min(v for _, v in side.deck)


def _carrier(support: Support, chain: Sequence[Support], v: float) -> Support:
    """The support at height v: the upright itself where it reaches, else the plate."""
    nearest = min(chain, key=lambda s: max(heights(s)[0] - v, v - heights(s)[1], 0.0))
    return support if heights(support)[0] - NOISE <= v <= heights(support)[1] + NOISE else nearest
