"""Faces before the bare walls: studs furred out for the base's flange, masonry under its bed of mortar.

How thick that is, and what it takes from the walls beside.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from math import hypot

from generator.model.combs import comb_bed
from generator.model.ends import corner_offset, foot, height_at, lean, top_line
from generator.model.geometry import NOISE, Point, Ring, canonical, tidy
from generator.model.profiles import Rule, TrowelProfile
from generator.model.room import Base, BaseSide, Corner, Wall
from generator.reading.room_shapes import AtFlange
from generator.units import Length

Furring = Mapping[str, float]
"""Thickness in mm by wall id; walls without are left out."""


def furring_of(base: Base, at_flange: Mapping[str, AtFlange], rules: Mapping[str, Rule], board: float) -> Furring:
    """What the room file asks for at each flange. `board`: thickness of the boards, mm.

    `fur` is as thick as it takes: over a thin flange until no notch is needed, at a thick one until faces are flush.
    """
    thick = {}
    for side in (side for side in base.sides if side.flanged and base.flange is not None):
        asked = at_flange.get(side.wall, at_flange.get("", "rabbet"))
        if isinstance(asked, Length):
            thick[side.wall] = asked.mm
        elif asked == "fur" and base.flange is not None:
            front = side.gap + base.flange.thickness
            behind = -board if base.treatment == "butted" else rules["rabbet-clearance"].limit
            thick[side.wall] = max(0.0, front + behind)
    return {wall: tidy(mm) for wall, mm in thick.items() if mm > NOISE}


def bedded(walls: Sequence[Wall], trowel: TrowelProfile) -> Furring:
    """The mean bed of mortar between the masonry and the boards that are bonded to it."""
    return {wall.id: tidy(comb_bed(trowel)) for wall in walls if wall.masonry}


def furred(
    walls: Sequence[Wall], corners: Sequence[Corner], base: Base, furring: Furring
) -> tuple[tuple[Wall, ...], Base]:
    """Walls and sides with w = 0 in the plane of the furred faces; u, and the footprint, stay with the bare framing."""
    if not furring:
        return tuple(walls), base
    found = {wall.id: _furred(wall, _trims(wall, corners, furring), furring.get(wall.id, 0.0)) for wall in walls}
    sides = tuple(_moved(side, found[side.wall]) for side in base.sides)
    return tuple(found.values()), replace(base, sides=sides)


def _trims(wall: Wall, corners: Sequence[Corner], furring: Furring) -> tuple[float, float]:
    """How far inside the corners of the bare framing the furred faces meet, at the left and the right foot."""
    trims = [0.0, 0.0]
    for corner in corners:
        for index, (own, other) in enumerate(
            ((corner.right_wall, corner.left_wall), (corner.left_wall, corner.right_wall))
        ):
            if own == wall.id:
                apart = corner_offset(furring.get(own, 0.0), furring.get(other, 0.0), corner.angle_deg)
                trims[index] = tidy(apart * hypot(1.0, lean(wall.outline, ("left", "right")[index])))
    return trims[0], trims[1]


def _furred(wall: Wall, trims: tuple[float, float], thickness: float) -> Wall:
    outline = trimmed(wall.outline, trims)
    left, right = foot(outline, "left"), foot(outline, "right")
    reach = (
        left if wall.beside[0] == "corner" else wall.reach[0],
        right if wall.beside[1] == "corner" else wall.reach[1],
    )
    return replace(wall, outline=outline, reach=reach, furring=thickness, trims=trims)


def trimmed(outline: Ring, trims: tuple[float, float]) -> Ring:
    """The outline with its left and right end moved inwards, along the floor, by so much (mm)."""
    top = top_line(outline)
    left, right = foot(outline, "left") + trims[0], foot(outline, "right") - trims[1]
    ends = [_under(top, left, lean(outline, "left")), _under(top, right, lean(outline, "right"))]
    between = [p for p in top if ends[0][0] + NOISE < p[0] < ends[1][0] - NOISE]
    return canonical(((left, 0.0), (right, 0.0), ends[1], *reversed(between), ends[0]))


def _under(ceiling: Sequence[Point], start: float, slope: float) -> Point:
    """Where an end that starts there on the floor meets the ceiling; each round comes nearer by lean times slope."""
    v = height_at(ceiling, start)
    for _ in range(60):
        v = height_at(ceiling, start + slope * v)
    return start + slope * v, v


def _moved(side: BaseSide, wall: Wall) -> BaseSide:
    """The side as far as it shows between the furred faces, in the furred wall's frame."""
    start, end = max(side.start, foot(wall.outline, "left")), min(side.end, foot(wall.outline, "right"))
    middle = [p for p in side.deck if start < p[0] < end]
    deck = ((start, _deck_at(side.deck, start)), *middle, (end, _deck_at(side.deck, end)))
    return replace(side, start=start, end=end, deck=deck, gap=tidy(side.gap - wall.furring))


def _deck_at(deck: Sequence[Point], u: float) -> float:
    for (u0, v0), (u1, v1) in pairwise(deck):
        if u <= u1:
            return tidy(v0 + (u - u0) / (u1 - u0) * (v1 - v0))
    return deck[-1][1]
