"""Which screw a support takes."""

from __future__ import annotations

from generator.model.geometry import NOISE
from generator.model.plan import Support
from generator.model.profiles import FastenerProfile, StudProfile
from generator.model.room import Room

MIL = 0.0254
"""mm in a thousandth of an inch."""


def stud_profile(room: Room, support: Support) -> StudProfile | None:
    """The profile of a support, among those that the room uses; None when it names none of them."""
    found = [s.profile for wall in room.walls for s in wall.supports]
    known = (*found, *room.choices.added_stud.values(), room.choices.added_block)
    return next((profile for profile in known if profile and profile.id == support.profile_id), None)


def screw_for(room: Room, support: Support) -> FastenerProfile:
    """The screw, or the plug, that the room's choices give to this kind of support."""
    if support.material != "steel":
        return room.choices.screws[support.material]
    profile = stud_profile(room, support)
    heavy = profile is not None and profile.steel_mils * MIL >= room.limit("drill-point") - NOISE
    return room.choices.screws["heavy_steel" if heavy else "light_steel"]
