"""Small rooms with what is built in them: a half wall, a bench, a corner seat, a curb, a deck beside a tub."""

from __future__ import annotations

from generator.model.frames import Vector
from generator.model.geometry import Ring
from generator.model.room import Room, Wall

WALLS = """\
walls:
  - name: left
    width: 60
    height: 96
    supports: {from: right, studs: [{profile: wood-2x4, centres: [3/4, 16, 32, 44, 59 1/4]}]}
  - name: back
    width: 60
    height: 96
    supports: {studs: [{profile: wood-2x4, centres: [3/4, 16, 32, 44, 59 1/4]}]}
  - name: right
    width: 60
    height: 96
    supports: {studs: [{profile: wood-2x4, centres: [3/4, 16, 32, 44, 59 1/4]}]}
"""
TRAY = (
    "name: built\nunits: in\nplace: {code: none}\n"
    "base: {kind: tray, profile: tray-boards-first, along: back, length: 60, width: 36, deck: 1}\n" + WALLS
)
BENCH = TRAY + "benches:\n  - {name: seat, along: back, from: 36, depth: 15, height: 17}\n"
CORNER = TRAY + "benches:\n  - {name: seat, kind: corner, between: [left, back], legs: [16, 16], height: 18}\n"
CURB = TRAY + "curbs:\n  - {name: curb, along: back, thickness: 3 1/2, height: 4 1/2}\n"
TUB = (
    "name: built\nunits: in\nplace: {code: none}\n"
    "base: {kind: tub, profile: thin-3-16, along: back, start: 12, length: 48, width: 30, deck: 16}\n" + WALLS
)
DECK = TUB + "benches:\n  - {name: ledge, kind: deck, along: back, length: 12, depth: 30, height: 16}\n"
HALF = """\
name: half
units: in
place: {code: none}
base: {kind: none}
walls:
  - name: back
    width: 48
    height: 96
    supports: {studs: [{profile: wood-2x4, centres: [3/4, 16, 32, 47 1/4]}]}
  - name: half
    width: 34
    height: 42
    partition: {thickness: 3 1/2, cap: true}
    supports: {studs: [{profile: wood-2x4, centres: [3/4, 12, 23, 33 1/4]}]}
"""


def wall_of(room: Room, wall_id: str) -> Wall:
    return next(wall for wall in room.walls if wall.id == wall_id)


def inches(ring: Ring) -> list[tuple[float, float]]:
    """A ring in inches, to a ten-thousandth."""
    return [(round(u / 25.4, 4), round(v / 25.4, 4)) for u, v in ring]


def at(point: Vector) -> tuple[float, float, float]:
    """A room point in inches."""
    x, y, z = (value / 25.4 for value in point)
    return x, y, z
