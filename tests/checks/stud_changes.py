"""Studs of the worked room's back wall with holes, notches and readings; lengths in inches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.plan import Plan
from generator.model.room import Duty, Room, Wall
from generator.model.stud_work import Hole, Notch
from tests.worked_room import mm

Pair = tuple[Room, Plan]
Change = Callable[[Room, Plan], Pair]
DEPTH = 3.5
"""Of the worked room's studs."""


def on_back(change: Callable[[Wall], Wall]) -> Change:
    """The room with its back wall changed."""

    def changed(room: Room, plan: Plan) -> Pair:
        return replace(room, walls=tuple(change(w) if w.id == "back" else w for w in room.walls)), plan

    return changed


def hole(wall: Wall, stud: int, diameter: float, doubled: bool) -> Hole:
    path = wall.supports[stud].path
    return Hole(f"{wall.path}.supports.holes.0", path, mm(40), mm(diameter), mm(DEPTH / 2), doubled, "pipe")


def notch(wall: Wall, stud: int, depth: float, at: float = 40) -> Notch:
    path = wall.supports[stud].path
    return Notch(f"{wall.path}.supports.notches.0", path, mm(at - 1), mm(at + 1), mm(depth), "front", "pipe")


def bored(studs: tuple[int, ...], diameter: float, doubled: bool = False, duty: Duty = "bearing") -> Change:
    """The named studs of the back wall bored through the middle, 40 in up."""
    return on_back(lambda w: replace(w, duty=duty, holes=tuple(hole(w, i, diameter, doubled) for i in studs)))


def cut(stud: int, depth: float, duty: Duty = "bearing") -> Change:
    """One stud of the back wall notched, 39 to 41 in up."""
    return on_back(lambda w: replace(w, duty=duty, notches=(notch(w, stud, depth),)))


def cut_and_bored(at: float) -> Change:
    """A 1 in hole 40 in up, and a notch 2 in tall with its middle `at` that height, in one stud."""
    return on_back(lambda w: replace(w, holes=(hole(w, 1, 1, False),), notches=(notch(w, 1, 0.5, at),)))
