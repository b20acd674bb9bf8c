"""Where boards may lie on each wall: the framing, less what was not asked for, less the named allowances."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, pi, sin
from typing import TYPE_CHECKING

from generator.model.ends import foot, height_at, lean, top_line
from generator.model.frames import Frame
from generator.model.geometry import NOISE, Point, Ring, box, canonical, rectangle, tidy
from generator.model.placing import placed
from generator.model.plan import (
    Allowance,
    PlannedBase,
    PlannedCorner,
    PlannedMouth,
    PlannedSide,
    PlannedWall,
)
from generator.model.room import BaseSide, Corner, Room, Side, Wall
from generator.planning.shapes import polygon, regions, rings, union

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def plan_corners(room: Room) -> tuple[PlannedCorner, ...]:
    """The corners, sorted by id."""
    corners = (PlannedCorner(c.id, c.left_wall, c.right_wall, c.angle_deg, c.first) for c in room.corners)
    return tuple(sorted(corners, key=lambda corner: corner.id))


def plan_base(room: Room) -> PlannedBase:
    """The base as the boards meet it; the section is measured from the flange's back, which stands at a side's gap."""
    section = room.base.flange.section if room.base.flange else ()
    sides = (PlannedSide(s.wall, s.start, s.end, s.deck, tidy(screw_floor(room, s)), s.gap) for s in room.base.sides)
    return PlannedBase(room.base.treatment, section, tuple(sides))


def board_thickness(room: Room) -> float:
    """mm; all sheets of a room have one thickness."""
    return room.choices.stocks[0].board.thickness


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


def plan_walls(room: Room) -> tuple[PlannedWall, ...]:
    """Every wall with its place in the room, allowances and wet region: the chain left to right, then the faces."""
    frames = placed(room.chain, room.corners, room.base)
    return tuple(_plan_wall(room, wall, wall.frame or frames[wall.id]) for wall in room.walls)


def _plan_wall(room: Room, wall: Wall, frame: Frame) -> PlannedWall:
    extent = _extent(room, wall)
    allowances = tuple(sorted(_allowances(room, wall), key=lambda a: (a.name, a.ring)))
    left_out = (*(a.ring for a in allowances), *(mouth.ring for mouth in wall.mouths))
    wet = _asked(room, wall, extent).difference(union(polygon(ring) for ring in left_out))
    return PlannedWall(
        id=wall.id,
        origin=frame.origin,
        u_axis=frame.u_axis,
        v_axis=frame.v_axis,
        w_axis=frame.w_axis,
        datum_name=room.datum,
        datum_v=0.0,
        outline=wall.outline,
        extent=extent,
        allowances=allowances,
        wet_region=regions(wet),
        mouths=tuple(PlannedMouth(m.feature, m.kind, m.ring) for m in wall.mouths),
        face=wall.face,
        feature_id=wall.feature or None,
        furring=wall.furring,
    )


def _asked(room: Room, wall: Wall, extent: Ring) -> BaseGeometry:
    """The outline within the extent, and the strips by which boards pass it where they lap another's edge."""
    if wall.frame is not None:
        return polygon(extent)
    return _lapped(room, wall).intersection(polygon(extent))


def _lapped(room: Room, wall: Wall) -> BaseGeometry:
    """The outline, made longer where the wall's boards lap their neighbour's edge at an outside corner."""
    outline = wall.outline
    left, right = foot(outline, "left"), foot(outline, "right")
    before, after = lap_at(room, wall, "left"), lap_at(room, wall, "right")
    strips = [rectangle(left - before, 0.0, left, outline[-1][1])] if before > 0.0 else []
    strips += [rectangle(right, 0.0, right + after, outline[2][1])] if after > 0.0 else []
    return union([polygon(outline), *(polygon(strip) for strip in strips)])


def _extent(room: Room, wall: Wall) -> Ring:
    """Reach and height asked for. The floor is the datum, so it starts at v = 0.

    In a corner the boards follow the end of the wall, so the extent holds all of an end that leans out; at an
    outside corner it passes the end by one board where the wall's boards lap their neighbour's edge.
    """
    if wall.extent:
        return wall.extent
    outline = box(wall.outline)
    left = min(wall.reach[0], outline[0]) if wall.beside[0] == "corner" else wall.reach[0]
    right = max(wall.reach[1], outline[2]) if wall.beside[1] == "corner" else wall.reach[1]
    return rectangle(left - lap_at(room, wall, "left"), 0.0, right + lap_at(room, wall, "right"), wall.top)


def lap_at(room: Room, wall: Wall, side: Side) -> float:
    """How far the boards of a wall pass its end to lap the edge of the neighbour's at an outside corner; else 0."""
    corner = corner_at(room, wall, side)
    if corner is None or corner.angle_deg <= 180.0 or corner.first == wall.id:
        return 0.0
    return -corner_offset(room, wall, corner)


def _unit(value: float) -> float:
    """A component of a unit vector: 12 decimals, no negative zero."""
    return round(value, 12) + 0.0


def _allowances(room: Room, wall: Wall) -> Iterator[Allowance]:
    if wall.frame is not None:
        yield from wall.allowances
        return
    yield from wall.allowances
    yield from _end_allowances(room, wall)
    if wall.to_ceiling:
        yield from _ceiling_allowance(room, wall)
    left, _, right, _ = box(_extent(room, wall))
    yield Allowance("leg-gap", rectangle(left, 0.0, right, room.limit("leg-gap")))
    for side in room.base.sides:
        if side.wall == wall.id and boards_stop_at_base(room):
            yield from _base_allowances(room, wall, side)
    yield from _nips(room, wall)


def corner_at(room: Room, wall: Wall, side: Side) -> Corner | None:
    """The corner at that end of a wall, where its boards reach it."""
    if wall.beside[0 if side == "left" else 1] != "corner":
        return None
    own = "right_wall" if side == "left" else "left_wall"
    return next((c for c in room.corners if getattr(c, own) == wall.id), None)


def corner_offset(room: Room, wall: Wall, corner: Corner) -> float:
    """Distance of the boards' edge from the framing corner, along the wall.

    Plane trigonometry: a point (u, w) of this wall lies u sin A - w cos A from the other wall's plane.
    Boards are cut square. Up to a right angle the front face is the part that would touch, and the later
    board keeps off the first one's face. In a wider corner the first board ends before the later one's
    plane, so the later board keeps off its end: the front of that end, at u on the first wall, lies
    u cos A + thickness sin A along the later wall. At an outside corner the first board ends with its framing and
    the later one laps its edge: it passes the corner (a negative distance).
    """
    angle = corner.angle_deg * pi / 180
    sine, cosine = _unit(sin(angle)), _unit(cos(angle))
    fit, thickness = room.limit("fit"), board_thickness(room)
    if sine < 0.0:
        return 0.0 if corner.first == wall.id else tidy(thickness * sine)
    first = (fit + max(0.0, thickness * cosine)) / sine
    if corner.first == wall.id:
        return tidy(first)
    if cosine >= 0.0:
        return tidy(first + thickness / sine)
    return tidy(first * cosine + thickness * sine + fit)


def _end_allowances(room: Room, wall: Wall) -> Iterator[Allowance]:
    for side in ("left", "right"):
        corner = corner_at(room, wall, side)
        if corner is not None and corner.angle_deg < 180.0:
            name = "fit" if corner.first == wall.id else "neighbour"
            yield Allowance(name, _strip(wall, side, 0.0, corner_offset(room, wall, corner), 0.0, wall.top))


def _strip(wall: Wall, side: Side, near: float, far: float, low: float, high: float) -> Ring:
    """The strip between two distances from an end of the wall, square to the end where it leans."""
    index, way = (0, 1.0) if side == "left" else (1, -1.0)
    slope = lean(wall.outline, side)
    level = way * hypot(1.0, slope)
    ends = [(wall.reach[index] + slope * v, v) for v in (low, high)]
    return canonical((*((u + level * near, v) for u, v in ends), *((u + level * far, v) for u, v in reversed(ends))))


def _ceiling_allowance(room: Room, wall: Wall) -> Iterator[Allowance]:
    from shapely.affinity import translate

    outline, fit = _lapped(room, wall), room.limit("fit")
    line = top_line(wall.outline)
    if len({v for _, v in line}) == 1:
        strip = outline.difference(translate(outline, 0.0, -fit))
    else:
        strip = outline.intersection(_beside(line, fit))
    for ring in rings(strip.intersection(polygon(_extent(room, wall)))):
        yield Allowance("fit", ring)


def _beside(line: Sequence[Point], distance: float) -> BaseGeometry:
    """All that lies nearer to a line than the distance, the line run on beyond its ends."""
    from shapely import LineString

    (u0, v0), (u1, v1), (u2, v2), (u3, v3) = line[0], line[1], line[-2], line[-1]
    first, last = ((u0 - u1) * 9 + u0, (v0 - v1) * 9 + v0), ((u3 - u2) * 9 + u3, (v3 - v2) * 9 + v3)
    return LineString((first, *line, last)).buffer(distance, cap_style="flat", join_style="mitre", mitre_limit=9.0)


def _base_allowances(room: Room, wall: Wall, side: BaseSide) -> Iterator[Allowance]:
    """The base with the gap above its deck, and the clear space beside its apron where a leg passes it.

    Where it stands off the neighbour's framing in a corner, no leg goes down between the two.
    """
    edge = _bottom_line(room, side)
    start, end = side.start, side.end
    if start > wall.reach[0] and _turns_on(room, wall, "left"):
        start, edge = wall.reach[0], ((wall.reach[0], edge[0][1]), *edge)
    if end < wall.reach[1] and _turns_on(room, wall, "right"):
        end, edge = wall.reach[1], (*edge, (wall.reach[1], edge[-1][1]))
    yield Allowance("base", canonical(((start, 0.0), (end, 0.0), *reversed(edge))))
    left, right = (tidy(room.limit("leg-gap") + flare * board_thickness(room)) for flare in side.flare)
    if start > wall.reach[0] + NOISE:
        yield Allowance("leg-gap", _beside_apron(edge[0], edge[1], -left))
    if end < wall.reach[1] - NOISE:
        yield Allowance("leg-gap", _beside_apron(edge[-1], edge[-2], right))


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


def _nips(room: Room, wall: Wall) -> Iterator[Allowance]:
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
            yield Allowance("nip", _strip(wall, side, near, far + out, low, high))


def _nip_width(room: Room, corner: Corner, other: BaseSide) -> float:
    """How far along the wall the neighbour's notch reaches, where any of the board's thickness is in its way.

    Plane trigonometry: a point (u, w) of this wall lies u sin A - w cos A from the neighbour's stud faces.
    """
    angle, depth = corner.angle_deg * pi / 180, rabbet_depth(room, other)
    if depth <= 0.0:
        return depth
    return tidy((depth + max(0.0, board_thickness(room) * _unit(cos(angle)))) / _unit(sin(angle)))


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
