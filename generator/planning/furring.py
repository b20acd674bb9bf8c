"""Strips of furring on the supports of walls that are furred out for the base's flange."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.geometry import NOISE, TOUCH, Ring, box, rectangle, tidy
from generator.model.plan import PlannedBase, PlannedWall, Support
from generator.model.room import Room
from generator.model.stud_work import Furring
from generator.planning.bays import is_upright
from generator.planning.shapes import polygon, rings, union


def plan_furring(
    room: Room, walls: Sequence[PlannedWall], base: PlannedBase, supports: Sequence[Support]
) -> tuple[Furring, ...]:
    """A strip on every support of a furred wall, as far as boards cross it, sorted by id.

    Uprights are furred from end to end and level pieces between them. Where the strips are thicker than the flange's
    gap they end above the flange, by its clearance.
    """
    found: list[Furring] = []
    framed = {wall.id for wall in room.walls if not wall.masonry}
    for wall in (wall for wall in walls if wall.furring > 0.0 and wall.id in framed):
        own = [s for s in supports if s.wall == wall.id and not s.set_back]
        behind = _behind_flange(base, wall, room.limit("flange-clearance"))
        for support in own:
            uprights = [] if is_upright(support) else [s.outline for s in own if is_upright(s)]
            for i, ring in enumerate(_faces(wall, support, (*behind, *uprights))):
                found.append(Furring(_named(support, i), wall.id, support.id, ring, wall.furring))
    return tuple(sorted(found, key=lambda strip: strip.id))


def _named(support: Support, index: int) -> str:
    return f"R-{support.id.removeprefix('S-')}" + (f"-{index + 1}" if index else "")


def _behind_flange(base: PlannedBase, wall: PlannedWall, clear: float) -> tuple[Ring, ...]:
    """Where the flange stands farther back than the strips' faces."""
    sides = (side for side in base.sides if side.wall == wall.id and side.gap < -NOISE)
    return tuple(rectangle(s.start, -TOUCH, s.end, tidy(s.flange_top + clear)) for s in sides)


def _faces(wall: PlannedWall, support: Support, taken: Sequence[Ring]) -> list[Ring]:
    """Across the support's face as far along it as boards go; cut at a furred neighbour, and at what is taken."""
    face = polygon(support.outline).intersection(polygon(wall.outline))
    boarded = face.intersection(union(polygon(region.ring) for region in wall.wet_region))
    strips = union(polygon(_across(support, part)) for part in rings(boarded)).intersection(face)
    return sorted(rings(strips.difference(union(polygon(ring) for ring in taken))))


def _across(support: Support, part: Ring) -> Ring:
    """As long as a part of its face and as wide as the support."""
    left, low, right, high = box(part)
    own = box(support.outline)
    return rectangle(own[0], low, own[2], high) if is_upright(support) else rectangle(left, own[1], right, own[3])


def strip_sizes(strip: Furring) -> tuple[float, float]:
    """Width and length of a strip, mm."""
    left, low, right, high = box(strip.ring)
    across, along = sorted((tidy(right - left), tidy(high - low)))
    return across, along
