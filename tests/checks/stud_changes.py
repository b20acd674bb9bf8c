"""Studs of the worked room's back wall with holes, notches and readings; lengths in inches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.plan import Plan
from generator.model.room import Duty, Room, Wall
from generator.model.stud_work import FaceReading, FinishedPlane, Hole, Notch, Shim, StudFace
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


HEIGHTS = (24.0, 90.0)
"""Of the readings: farther apart than the near rule speaks of."""


def hollow(sixteenths: int, flange: float | None = None) -> Change:
    """The back wall measured: its third stud hollow, the others flat; the plan's plane is that of the others."""

    def changed(room: Room, plan: Plan) -> Pair:
        wall = next(w for w in room.walls if w.id == "back")
        readings = tuple(_reading(wall, i, v, sixteenths if i == 2 else 0) for i in range(5) for v in HEIGHTS)
        off = None if flange is None else (mm(1 / 2 + flange), mm(1 / 2 + flange))
        room, plan = on_back(lambda w: replace(w, readings=readings, flange_off=off))(room, plan)
        faces = tuple(StudFace("back", f"S-back-0{i + 1}", r.u, r.v, r.off) for i, r in _numbered(readings))
        flat = ((0.0, 0.0, mm(1 / 2)), (mm(60.25), 0.0, mm(1 / 2)), (0.0, mm(96), mm(1 / 2)))
        return room, replace(plan, faces=faces, planes=(FinishedPlane("back", flat, 0.0, 0.0, True),))

    return changed


def _numbered(readings: tuple[FaceReading, ...]) -> list[tuple[int, FaceReading]]:
    return [(i // len(HEIGHTS), reading) for i, reading in enumerate(readings)]


def _reading(wall: Wall, stud: int, v: float, sixteenths: int) -> FaceReading:
    support = wall.supports[stud]
    return FaceReading(f"{wall.path}.string_line", support.path, support.axis[0][0], mm(v), mm(0.5 + sixteenths / 16))


def _moved(stud: int, sixteenths: int) -> tuple[Shim, ...]:
    """Both stretches of a stud shimmed, or planed where the number is negative."""
    work = [(f"H-back-0{i + 1}", mm(v)) for i, v in enumerate(HEIGHTS)]
    kind = "shim" if sixteenths > 0 else "plane"
    return tuple(
        Shim(key, "back", f"S-back-0{stud}", kind, v, v - 100, v + 100, mm(1.5), mm(abs(sixteenths) / 16))  # type: ignore[arg-type]
        for key, v in work
    )


def with_moves(change: Change, stud: int, sixteenths: int) -> Change:
    def changed(room: Room, plan: Plan) -> Pair:
        room, plan = change(room, plan)
        return room, replace(plan, shims=_moved(stud, sixteenths))

    return changed


def shimmed(sixteenths: int) -> Change:
    """The hollow stud shimmed flat."""
    return with_moves(hollow(sixteenths), 3, sixteenths)


def corner_shim(sixteenths: int) -> Change:
    """A shim on the stud in the corner with the left wall, which is boarded second."""
    return with_moves(hollow(0), 1, sixteenths)


def planed(sixteenths: int) -> Change:
    return with_moves(hollow(0), 2, -sixteenths)


def tied(flange: float) -> Change:
    """The back of the flange measured so much behind the finished plane, in inches."""
    return hollow(0, flange)
