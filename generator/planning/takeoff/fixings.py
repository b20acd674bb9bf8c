"""Sealant round what is screwed through the boards: the plates of bars and seats."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from generator.model.purchase import Term
from generator.model.room import Room
from generator.planning.blocking.mounts import LINES
from generator.planning.takeoff.rows import term
from generator.units import label


def fixing_terms(room: Room) -> Iterator[Term]:
    """A bead round each plate, in ml: its side is the rule's; the glass of a screen has its own maker's sealing."""
    units = room.choices.drawing_units
    for mount in (m for m in room.mounts if m.kind not in LINES):
        side, length = room.limit("fixing-bead"), len(mount.fixings) * pi * mount.plate
        size = f"{label(length, units)} x {label(side, units)} x {label(side, units)}"
        text = f"round the {len(mount.fixings)} plates of {mount.id}: {size}"
        yield term(text, length * side * side / 1000, (mount.id,))
