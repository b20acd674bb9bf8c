"""What mounts must be fastened to: rows of blocking behind bars and seats, studs behind glass and doors."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import NOISE, TOUCH, Ring, box, rectangle
from generator.model.mounts import Mount
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.planning.bays import Span, face_between, heights, is_upright
from generator.planning.blocking.rows import Row, flat, named
from generator.planning.supports import added_stud, nearest_place
from generator.units import label

LINES = ("glass", "door")
"""Kinds that are fastened along an upright line, and want a stud there."""


def solid_zones(mount: Mount) -> tuple[Ring, ...]:
    """What must be solid behind a mount: a square behind each fixing, the whole line of glass and doors."""
    if mount.kind in LINES:
        return (mount.ring,)
    half = mount.plate / 2
    return tuple(rectangle(u - half, v - half, u + half, v + half) for u, v in mount.fixings)


def lumber_of(room: Room, wall: Wall) -> StudProfile:
    """What is laid flat behind mounts: as chosen, else as the wall's studs."""
    return flat(room.choices.added_block or room.choices.added_stud[wall.id])


def mount_rows(room: Room, wall: Wall) -> Iterator[Row]:
    """A row for each height at which a bar or a seat is fastened; one row for all where one piece covers them."""
    lumber = lumber_of(room, wall)
    for mount in (m for m in room.mounts if m.wall == wall.id and m.kind not in LINES):
        zones = [box(zone) for zone in solid_zones(mount)]
        for low, high in _heights(sorted({(z[1], z[3]) for z in zones}), lumber.face):
            own = [z for z in zones if low - TOUCH <= z[1] and z[3] <= high + TOUCH]
            across = min(z[0] for z in own), max(z[2] for z in own)
            reason = f"carries the {named(mount.kind.replace('_', ' '), mount.name)}"
            centre = _centre(room, mount, (low, high), lumber.face)
            yield Row(wall.id, across, (low, high), centre, lumber, reason, "mount", mount.path)


def _heights(spans: list[Span], most: float) -> Iterator[Span]:
    """The heights together where one piece covers them, else each for itself."""
    whole = (min(low for low, _ in spans), max(high for _, high in spans))
    if whole[1] - whole[0] <= most + NOISE:
        yield whole
    else:
        yield from spans


def _centre(room: Room, mount: Mount, need: Span, face: float) -> float:
    """Behind the bar; in an accessible place in the middle of the whole zone where the bar may end up."""
    middle = (need[0] + need[1]) / 2
    if room.accessible is None or mount.kind != "grab_bar" or mount.direction != "level":
        return middle
    wanted = sum(bar_zone(room, mount.plate)) / 2
    return wanted if wanted - face / 2 <= need[0] + TOUCH and need[1] - TOUCH <= wanted + face / 2 else middle


def bar_zone(room: Room, plate: float) -> Span:
    """v from, v to that the plates of any bar may reach whose grip is at the height that ADA 609.4 gives."""
    thin, thick = room.limit("ada-bar-section-least"), room.limit("ada-bar-section-most")
    low = room.limit("ada-bar-low") - thick / 2 - plate / 2
    return low, room.limit("ada-bar-high") - thin / 2 + plate / 2


def back_lines(room: Room, wall: Wall, _: PlannedWall, supports: tuple[Support, ...]) -> tuple[Support, ...]:
    """A stud behind each glass channel and each door's hinges, where none stands in the line."""
    for mount in (m for m in room.mounts if m.wall == wall.id and m.kind in LINES):
        left, low, right, high = box(mount.ring)
        if any(_stands_behind(s, (left, right), (low, high)) for s in supports):
            continue
        half = room.choices.added_stud[wall.id].face / 2
        place = nearest_place(room, wall, supports, (left + right) / 2, right - half, left + half)
        if place is not None:
            reason = (
                f"backing for the {mount.kind} {mount.name} at {label((left + right) / 2, room.units)} from the left"
            )
            supports = (*supports, added_stud(room, wall, place, reason, "mount"))
    return supports


def _stands_behind(support: Support, across: Span, up: Span) -> bool:
    if not is_upright(support) or heights(support)[0] > up[0] + TOUCH or heights(support)[1] < up[1] - TOUCH:
        return False
    left, right = face_between(support, *up)
    return left <= across[0] + TOUCH and across[1] - TOUCH <= right
