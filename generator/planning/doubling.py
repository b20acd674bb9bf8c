"""Studs beside those in corners: they take the screws where boards round the corner leave no place for a washer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.model.ends import corner_offset, lean
from generator.model.geometry import NOISE, TOUCH, Point
from generator.model.plan import PlannedWall, Support
from generator.model.room import Corner, Room, Side, Wall
from generator.planning.bays import Span, face_between, fills, is_upright
from generator.planning.faces import Ends, end_lines
from generator.planning.fastening.corners import beside, takes_no_washer
from generator.planning.fastening.screws import screw_for
from generator.planning.room_corners import board_thickness, corner_at
from generator.planning.supports import added_stud, has_room


def outermost(wall: Wall, planned: PlannedWall, side: Side) -> list[Point]:
    """The corners of the wet region on the line where the boards of a wall end at that side."""
    slope = lean(planned.outline, side) if wall.beside[0 if side == "left" else 1] == "corner" else 0.0
    points = [p for region in planned.wet_region for p in region.ring]
    off = [u - slope * v for u, v in points]
    end = min(off) if side == "left" else max(off)
    return [p for p, own in zip(points, off, strict=True) if abs(own - end) <= TOUCH]


def doubles(
    room: Room, wall: Wall, planned: PlannedWall, side: Side, supports: Sequence[Support]
) -> dict[float, Support]:
    """u of each stud to add beside an upright in a corner, flush with it, and that upright.

    None where an upright that touches it has a place, where there is no room for one, or where one would have no place
    either: such a corner is refused when its screws are planned.
    """
    corner = corner_at(room, wall, side)
    if corner is None:
        return {}
    ends, points = _corner_line(room, wall, side, corner), outermost(wall, planned, side)
    stretch = min(v for _, v in points), max(v for _, v in points)
    found: dict[float, Support] = {}
    for stud in (s for s in supports if is_upright(s) and s.kind != "ledger" and not s.set_back):
        crossed = _overlap(stud, points, side, stretch) >= room.limit("bearing-edge") - NOISE
        if crossed and _has_no_place(room, ends, stretch, stud):
            place = _flush(room, wall, stud, side)
            doubled = (*beside(stud, supports), added_stud(room, wall, place, "", "cure"))
            taking = [other for other in doubled if not _has_no_place(room, ends, stretch, other)]
            if taking == [doubled[-1]] and has_room(room, wall, supports, place):
                found.setdefault(place, stud)
    return found


def _overlap(stud: Support, points: Iterable[Point], side: Side, stretch: Span) -> float:
    """mm of a face that the board ending at these points covers where it reaches nearest to the corner."""
    left, right = face_between(stud, *stretch)
    us = [u for u, _ in points]
    return right - min(us) if side == "left" else max(us) - left


def _flush(room: Room, wall: Wall, stud: Support, side: Side) -> float:
    """u of a stud of the wall's added kind that touches one on the side away from the corner."""
    half = room.choices.added_stud[wall.id].face / 2
    return fills(stud)[1] + half if side == "left" else fills(stud)[0] - half


def _corner_line(room: Room, wall: Wall, side: Side, corner: Corner) -> Ends:
    """Where the board faces of a wall will meet those round a corner."""
    offset = corner_offset(board_thickness(room), board_thickness(room), corner.angle_deg)
    return end_lines(wall.outline, offset, None) if side == "left" else end_lines(wall.outline, None, offset)


def _has_no_place(room: Room, ends: Ends, stretch: Span, stud: Support) -> bool:
    return takes_no_washer(stud, ends, stretch, screw_for(room, stud).washer_diameter / 2)
