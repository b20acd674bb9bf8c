"""Which screw a support takes."""

from __future__ import annotations

from generator.model.plan import Support
from generator.model.profiles import FastenerProfile, StudProfile
from generator.model.room import Room

DRILL_POINT_MILS = 33.0
"""mil: steel from here up takes drill-point screws (C954), thinner steel sharp points (C1002); from memory."""


def stud_profile(room: Room, support: Support) -> StudProfile | None:
    """The profile of a support, among those that the room uses; None when it names none of them."""
    found = [s.profile for wall in room.walls for s in wall.supports]
    known = (*found, *room.choices.added_stud.values())
    return next((profile for profile in known if profile.id == support.profile_id), None)


def screw_for(room: Room, support: Support) -> FastenerProfile:
    """The screw that the room's choices give to this kind of support."""
    if support.material == "wood":
        return room.choices.screws["wood"]
    profile = stud_profile(room, support)
    heavy = profile is not None and profile.steel_mils >= DRILL_POINT_MILS
    return room.choices.screws["heavy_steel" if heavy else "light_steel"]
