"""Where boards may lie on each wall: the framing, less what was not asked for, less the named allowances."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from generator.model.ends import foot, top_line
from generator.model.frames import Frame
from generator.model.geometry import Point, Ring, box, rectangle, tidy
from generator.model.placing import placed
from generator.model.plan import Allowance, PlannedBase, PlannedCorner, PlannedMouth, PlannedSide, PlannedWall
from generator.model.room import Room, Wall
from generator.planning.base_edge import base_allowances, boards_stop_at_base, nips, screw_floor
from generator.planning.room_corners import corner_at, corner_offset, end_strip, lap_at
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
            yield from base_allowances(room, wall, side)
    yield from nips(room, wall)


def _end_allowances(room: Room, wall: Wall) -> Iterator[Allowance]:
    for side in ("left", "right"):
        corner = corner_at(room, wall, side)
        if corner is not None and corner.angle_deg < 180.0:
            name = "fit" if corner.first == wall.id else "neighbour"
            yield Allowance(name, end_strip(wall, side, 0.0, corner_offset(room, wall, corner), 0.0, wall.top))


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
