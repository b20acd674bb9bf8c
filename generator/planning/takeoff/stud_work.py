"""What the studs consume: strips of furring, shims of each thickness, and shield plates."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from generator.model.plan import Plan
from generator.model.purchase import TakeoffRow
from generator.model.room import Room
from generator.planning.furring import strip_sizes
from generator.planning.takeoff.rows import in_van, make_row, term
from generator.units import label

PLATE = "steel shield plate, 16 gauge (0.0575 in) or more"
"""IRC P2603.2.1; NEC 300.4 asks for 1/16 in over cables."""


def shim_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """One for each thickness and width, a term for each wall."""
    units = room.choices.drawing_units
    shims = sorted((s for s in plan.shims if s.work == "shim"), key=lambda s: (s.thickness, s.width, s.wall, s.id))
    for index, ((thickness, width), group) in enumerate(groupby(shims, lambda s: (s.thickness, s.width))):
        own = tuple(group)
        longest = max(s.high - s.low for s in own)
        sizes = f"{label(thickness, units)} thick, {label(width, units)} wide, up to {label(longest, units)} long"
        walls = [(wall, tuple(of)) for wall, of in groupby(own, lambda s: s.wall)]
        terms = [term(f"wall {wall}", float(len(of)), {s.support_id for s in of}) for wall, of in walls]
        yield make_row("shim", "", f"shim {sizes}", "pieces", terms, 1.0, in_van(room, "shim", index == 0))


def furring_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """One for each thickness, width and length, a term for each wall."""
    units = room.choices.drawing_units
    strips = sorted(((f.thickness, *strip_sizes(f)), f.wall, f.id, f.support_id) for f in plan.furring)
    for index, ((thickness, width, length), group) in enumerate(groupby(strips, lambda s: s[0])):
        sizes = f"{label(thickness, units)} thick, {label(width, units)} wide, {label(length, units)} long"
        walls = [(wall, tuple(of)) for wall, of in groupby(group, lambda s: s[1])]
        terms = [term(f"wall {wall}", float(len(of)), {s[3] for s in of}) for wall, of in walls]
        there = in_van(room, "furring", index == 0)
        yield make_row("furring", "", f"furring strip {sizes}", "pieces", terms, 1.0, there)


def plate_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """One row, a term for each wall."""
    walls = [(wall, tuple(of)) for wall, of in groupby(plan.plates, lambda p: p.wall)]
    if walls:
        terms = [term(f"wall {wall}", float(len(of)), {p.support_id for p in of}) for wall, of in walls]
        yield make_row("shield-plate", "", PLATE, "pieces", terms, 1.0, in_van(room, "shield-plate"))
