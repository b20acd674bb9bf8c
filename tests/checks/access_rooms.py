"""Accessible places as read from small changes of the example room, planned once each."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from generator.model.geometry import rectangle
from generator.model.mounts import Accessible, Mount
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.reading import read_room
from tests.worked_room import mm

EXAMPLE = Path(__file__).parents[2] / "profiles" / "rooms" / "transfer-shower.yaml"
Pair = tuple[Room, Plan]


@cache
def transfer() -> Pair:
    """The example: 38 in of framing, finish of 1 in on every wall, base to 37 in out. Controls on wall `control`."""
    room = read_room(EXAMPLE)
    return room, make_plan(room)


def bar(name: str, wall: str, left: float, top: float, length: float, thick: float = 1.25) -> Mount:
    """A level bar in inches from the wall's left end."""
    ring = rectangle(mm(left), mm(top - thick), mm(left + length), mm(top))
    ends = tuple((mm(u), mm(top - thick / 2)) for u in (left + 1.5, left + length - 1.5))
    return Mount(f"mounts.{name}", name, name, wall, "grab_bar", "level", ring, ends, mm(3), mm(thick), mm(1.5))


def place(kind: Accessible, *mounts: Mount) -> Pair:
    """The example's framing with other mounts, as another kind of place."""
    room, plan = transfer()
    return replace(room, accessible=kind, mounts=mounts), plan


def changed(name: str, **fields: object) -> Pair:
    """The example with one mount's fields changed."""
    room, plan = transfer()
    mounts = tuple(replace(m, **fields) if m.id == name else m for m in room.mounts)  # type: ignore[arg-type]
    return replace(room, mounts=mounts), plan


def without(name: str) -> Pair:
    room, plan = transfer()
    return replace(room, mounts=tuple(m for m in room.mounts if m.id != name)), plan


def moved(name: str, u: float = 0.0, v: float = 0.0, longer: float = 0.0) -> Pair:
    """One mount moved, and lengthened to the right, in inches."""
    room, _ = transfer()
    mount = next(m for m in room.mounts if m.id == name)
    ring = tuple((x + mm(u) + (mm(longer) if x > mount.ends[0] + 1 else 0.0), y + mm(v)) for x, y in mount.ring)
    return changed(name, ring=ring, fixings=tuple((x + mm(u), y + mm(v)) for x, y in mount.fixings))


def valve_moved(u: float = 0.0, v: float = 0.0, pair: Pair | None = None, wall: str = "") -> Pair:
    """The valve moved in inches, or put on another wall."""
    room, plan = pair or transfer()
    fittings = tuple(
        replace(f, centre=(f.centre[0] + mm(u), f.centre[1] + mm(v)), wall=wall or f.wall) if f.id == "valve" else f
        for f in room.fittings
    )
    return replace(room, fittings=fittings), plan


def finished(pair: Pair, more: float) -> Pair:
    """Tile thicker by so many inches on every wall."""
    room, plan = pair
    return replace(room, finish=replace(room.finish, tile=(room.finish.tile or 0.0) + mm(more))), plan


def threshold(height: float) -> Pair:
    room, plan = transfer()
    return replace(room, base=replace(room.base, threshold=mm(height))), plan


TUB_RIM = 15.0
TUB_BARS = (
    bar("low", "back", 6, TUB_RIM + 9, 26),
    bar("high", "back", 6, 34, 26),
    bar("at-controls", "control", 10, 34, 26),
    bar("at-head", "seat-wall", 20, 34, 14),
)
"""Head wall `seat-wall`, 1 in of finish: the back bars begin 5 in from the head wall and end 5 in from the controls."""


def tub(*mounts: Mount) -> Pair:
    """A tub with its rim at 15 in, and its valve at 24 in, half way between rim and bar."""
    room, plan = valve_moved(v=24 - 43, u=2, pair=place("bathtub", *(mounts or TUB_BARS)))
    sides = tuple(replace(s, deck=tuple((u, mm(TUB_RIM)) for u, _ in s.deck)) for s in room.base.sides)
    return replace(room, base=replace(room.base, sides=sides)), plan


def tub_with(name: str, mount: Mount) -> Pair:
    return tub(*(mount if m.id == name else m for m in TUB_BARS))


def seat(top: float = 18.0) -> Mount:
    """The example's seat, on the head wall."""
    room, _ = transfer()
    mount = next(m for m in room.mounts if m.kind == "seat")
    shift = mm(top) - mount.top
    return replace(mount, ring=tuple((u, v + shift) for u, v in mount.ring))


ROLL_BARS = (bar("back-bar", "back", 17, 34, 16), bar("side", "control", 4, 34, 30))


def roll_in(u: float = 0.0, bars: tuple[Mount, ...] = ROLL_BARS) -> Pair:
    """With a seat on `seat-wall`, and the valve on the back wall, 20 in from the framing."""
    return valve_moved(u=20 - 21 + u, pair=place("roll_in", *bars, seat()), wall="back")


def wide_roll_in(width: float, out: float) -> Pair:
    """A roll-in shower of this framing, in inches: the finish takes 1 in on each wall."""
    room, plan = roll_in()
    outline = rectangle(0.0, 0.0, mm(width), mm(96))
    walls = tuple(replace(w, outline=outline) if w.id == "back" else w for w in plan.walls)
    sides = tuple(
        replace(s, start=mm(48 - out))
        if s.wall == "seat-wall"
        else replace(s, end=mm(out))
        if s.wall == "control"
        else s
        for s in room.base.sides
    )
    return replace(room, base=replace(room.base, sides=sides)), replace(plan, walls=walls)
