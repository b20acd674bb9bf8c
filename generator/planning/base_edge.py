"""Where boards meet the base: their bottom edge, the notch over a thin flange, corners nipped for a flange beside."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from generator.model.ends import foot, height_at, lean
from generator.model.geometry import NOISE, Point, Ring, canonical, tidy
from generator.model.plan import Allowance
from generator.model.room import BaseSide, Corner, Room, Side, Wall
from generator.planning.room_corners import board_thickness, corner_at, corner_offset, end_strip, unit


def screw_floor(room: Room, side: BaseSide) -> float:
    """v of the flange's top at a side (its highest point), or for a tray the height that screws keep above."""
    deck = max(v for _, v in side.deck)
    if room.base.flange is not None:
        return deck + (room.base.flange.top if side.flanged else 0.0)
    if room.base.threshold is not None:
        return max(deck, room.base.threshold) + room.limit("lining-clear")
    return deck + (room.base.tray.lining_height if room.base.tray else 0.0)


def bottom_lift(room: Room, side: BaseSide) -> float:
    """How far the boards' bottom edge lies above the deck; 0 where boards run down behind a tray."""
    if room.base.treatment == "butted":
        top = room.base.flange.top if room.base.flange and side.flanged else 0.0
        return top + room.limit("bed-gap")
    return room.limit("deck-gap")


def boards_stop_at_base(room: Room) -> bool:
    """False where a site-built tray goes in after the boards, which then run down to the floor."""
    return room.base.tray is None or room.base.tray.order == "tray_first"


def base_allowances(room: Room, wall: Wall, side: BaseSide) -> Iterator[Allowance]:
    """The base with the gap above its deck, and the clear space beside its apron where a leg passes it.

    Where it stands off the neighbour's framing in a corner, no leg goes down between the two.
    """
    edge = _bottom_line(room, side)
    start, end = side.start, side.end
    if _turns_on(room, wall, "left") and start > (least := wall.reach[0] - _lean_out(wall, "left", edge[0][1])):
        start, edge = least, ((least, edge[0][1]), *edge)
    if _turns_on(room, wall, "right") and end < (most := wall.reach[1] + _lean_out(wall, "right", edge[-1][1])):
        end, edge = most, (*edge, (most, edge[-1][1]))
    yield Allowance("base", canonical(((start, 0.0), (end, 0.0), *reversed(edge))))
    left, right = (tidy(room.limit("leg-gap") + flare * board_thickness(room)) for flare in side.flare)
    if start > wall.reach[0] + NOISE:
        yield Allowance("leg-gap", _beside_apron(edge[0], edge[1], -left))
    if end < wall.reach[1] - NOISE:
        yield Allowance("leg-gap", _beside_apron(edge[-1], edge[-2], right))


def _lean_out(wall: Wall, side: Side, height: float) -> float:
    """How far an end of the wall leans outwards up to a height: there, too, no board goes down behind the base."""
    slope = lean(wall.outline, side)
    return tidy(max(0.0, -slope if side == "left" else slope) * height)


def _beside_apron(end: Point, before: Point, past: float) -> Ring:
    """So far past an end of the base; a bottom edge that rises outwards runs straight on, else it goes on level."""
    (u, v), slope = end, (end[1] - before[1]) / (end[0] - before[0])
    return canonical(((u, 0.0), (u + past, 0.0), (u + past, v + max(0.0, slope * past)), (u, v)))


def _turns_on(room: Room, wall: Wall, side: Side) -> bool:
    """True where the base goes on round the corner at that end, along the neighbour."""
    corner = corner_at(room, wall, side)
    if corner is None:
        return False
    other = corner.left_wall if side == "left" else corner.right_wall
    return _side_in_corner(room, other, "right" if side == "left" else "left") is not None


def _bottom_line(room: Room, side: BaseSide) -> tuple[Point, ...]:
    """The boards' bottom edge over the base, left to right."""
    lift = bottom_lift(room, side)
    return tuple((u, tidy(v + lift)) for u, v in side.deck)


def rabbet_line(room: Room, side: BaseSide) -> tuple[Point, ...]:
    """Upper edge of the rabbet over a thin flange, left to right, run past the flange's ends."""
    assert room.base.flange is not None
    lift = room.base.flange.top + room.limit("flange-clearance")
    return tuple((u, tidy(v + lift)) for u, v in side.deck)


def rabbet_depth(room: Room, side: BaseSide) -> float:
    """How deep the back is notched: the flange's gap, flange and fixings, and the clearance.

    Zero or less where the furred faces stand in front of the flange: then there is no notch.
    """
    assert room.base.flange is not None
    return tidy(side.gap + room.base.flange.thickness + room.limit("rabbet-clearance"))


def nips(room: Room, wall: Wall) -> Iterator[Allowance]:
    """Lower corners nipped through the full thickness where the neighbour's thin flange stands in their way."""
    if room.base.treatment != "lapped":
        return
    for side in ("left", "right"):
        corner = corner_at(room, wall, side)
        other = _flange_at(room, side, corner)
        if corner is None or other is None or corner.angle_deg > 180.0:
            continue
        near, far = corner_offset(room, wall, corner), _nip_width(room, corner, other)
        if far > near + NOISE:
            low, high = _nip_heights(room, other, side)
            slope = lean(wall.outline, side)
            out = max(0.0, -slope if side == "left" else slope) * high  # the flange stands plumb: up from the foot
            yield Allowance("nip", end_strip(wall, side, near, far + out, low, high))


def _nip_width(room: Room, corner: Corner, other: BaseSide) -> float:
    """How far along the wall the neighbour's notch reaches, where any of the board's thickness is in its way.

    Plane trigonometry: a point (u, w) of this wall lies u sin A - w cos A from the neighbour's stud faces.
    """
    angle, depth = corner.angle_deg * pi / 180, rabbet_depth(room, other)
    if depth <= 0.0:
        return depth
    return tidy((depth + max(0.0, board_thickness(room) * unit(cos(angle)))) / unit(sin(angle)))


def _flange_at(room: Room, side: Side, corner: Corner | None) -> BaseSide | None:
    """The flanged side of the base on the neighbouring wall, where it reaches the common corner."""
    if corner is None:
        return None
    other = corner.left_wall if side == "left" else corner.right_wall
    found = _side_in_corner(room, other, "right" if side == "left" else "left")
    return found if found is not None and found.flanged else None


def _side_in_corner(room: Room, wall_id: str, end: Side) -> BaseSide | None:
    """The side of the base on a wall that reaches the wall's corner at that end, or ends within a board of it."""
    wall = next(w for w in room.walls if w.id == wall_id)
    at, near = foot(wall.outline, end), board_thickness(room)
    for side in room.base.sides:
        if side.wall == wall_id and side.start - near <= at <= side.end + near:
            return side
    return None


def _nip_heights(room: Room, other: BaseSide, side: Side) -> tuple[float, float]:
    """Bottom edge and top of the nip, from the neighbour's flange as far as the board is in front of it."""
    end, into = (other.end, -1.0) if side == "left" else (other.start, 1.0)
    reach = board_thickness(room) + max(0.0, rabbet_depth(room, other))
    decks = [height_at(other.deck, u) for u in (end, end + into * reach)]
    assert room.base.flange is not None
    top = max(decks) + room.base.flange.top + room.limit("flange-clearance")
    return min(decks), tidy(top)
