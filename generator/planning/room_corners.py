"""Corners of the room as boards meet in them: which wall is beside which, how far its boards keep off or lap."""

from __future__ import annotations

from math import cos, hypot, pi, sin

from generator.model.ends import lean
from generator.model.geometry import Ring, canonical, tidy
from generator.model.room import Corner, Room, Side, Wall


def board_thickness(room: Room) -> float:
    """mm; all sheets of a room have one thickness."""
    return room.choices.stocks[0].board.thickness


def lap_at(room: Room, wall: Wall, side: Side) -> float:
    """How far the boards of a wall pass its end to lap the edge of the neighbour's at an outside corner; else 0."""
    corner = corner_at(room, wall, side)
    if corner is None or corner.angle_deg <= 180.0 or corner.first == wall.id:
        return 0.0
    return -corner_offset(room, wall, corner)


def unit(value: float) -> float:
    """A component of a unit vector: 12 decimals, no negative zero."""
    return round(value, 12) + 0.0


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
    sine, cosine = unit(sin(angle)), unit(cos(angle))
    fit, thickness = room.limit("fit"), board_thickness(room)
    if sine < 0.0:
        return 0.0 if corner.first == wall.id else tidy(thickness * sine)
    first = (fit + max(0.0, thickness * cosine)) / sine
    if corner.first == wall.id:
        return tidy(first)
    if cosine >= 0.0:
        return tidy(first + thickness / sine)
    return tidy(first * cosine + thickness * sine + fit)


def end_strip(wall: Wall, side: Side, near: float, far: float, low: float, high: float) -> Ring:
    """The strip between two distances from an end of the wall, square to the end where it leans."""
    index, way = (0, 1.0) if side == "left" else (1, -1.0)
    slope = lean(wall.outline, side)
    level = way * hypot(1.0, slope)
    ends = [(wall.reach[index] + slope * v, v) for v in (low, high)]
    return canonical((*((u + level * near, v) for u, v in ends), *((u + level * far, v) for u, v in reversed(ends))))
