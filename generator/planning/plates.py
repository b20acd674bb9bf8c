"""Shield plates: over every hole or notch through which a pipe or cable runs too near to the face at the boards."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import NOISE, tidy
from generator.model.plan import Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.model.stud_work import Hole, Notch, ShieldPlate

UNPROTECTED = ("pipe", "cable")
"""What a screw can hurt: steel pipe needs no plate."""


def plan_plates(room: Room, supports: tuple[Support, ...]) -> tuple[ShieldPlate, ...]:
    """The plates of every wall, by stud and height; none on steel studs, whose faces are judged otherwise.

    None where the code chosen does not ask for them.
    """
    if "shield-plate" not in room.code.rules:
        return ()
    ids = {s.room_path: s for s in supports if s.origin == "found" and s.same_as is None}
    plates: list[ShieldPlate] = []
    for wall in room.walls:
        wanted = sorted(
            ((ids[d.support].id, _middle(d), d.path, d) for d in unshielded(room, wall)), key=lambda w: w[:3]
        )
        for number, (support, v, path, found) in enumerate(wanted, 1):
            key = f"SP-{wall.id}-{number:02d}"
            plates.append(ShieldPlate(key, wall.id, support, v, _height(found), found.carries, path))
    return tuple(sorted(plates, key=lambda plate: plate.id))


def damage_of(wall: Wall) -> tuple[Hole | Notch, ...]:
    """Holes and notches of a wall's studs."""
    found: tuple[Hole | Notch, ...] = (*wall.holes, *wall.notches)
    return found


def unshielded(room: Room, wall: Wall) -> Iterator[Hole | Notch]:
    """Holes and notches of a wall whose pipe or cable is nearer to the face than the limit."""
    for found in damage_of(wall):
        if face_distance(wall, found) < room.limit("shield-plate") - NOISE and needs_shield(wall, found):
            yield found


def needs_shield(wall: Wall, found: Hole | Notch) -> bool:
    """True where what runs through could be hurt, in a wood stud."""
    return found.carries in UNPROTECTED and stud_of(wall, found.support).material == "wood"


def stud_of(wall: Wall, path: str) -> StudProfile:
    """The profile of the wall's stud with that path."""
    return next(s.profile for s in wall.supports if s.path == path)


def face_distance(wall: Wall, found: Hole | Notch) -> float:
    """mm from the face at the boards to what may run through the hole or notch."""
    if isinstance(found, Hole):
        return tidy(found.from_face - found.diameter / 2)
    return 0.0 if found.face == "front" else tidy(stud_of(wall, found.support).depth - found.depth)


def _middle(found: Hole | Notch) -> float:
    return found.v if isinstance(found, Hole) else tidy((found.low + found.high) / 2)


def _height(found: Hole | Notch) -> float:
    return found.diameter if isinstance(found, Hole) else tidy(found.high - found.low)
