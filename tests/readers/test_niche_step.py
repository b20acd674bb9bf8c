"""A niche of 12 x 24 x 2 in clear, read back from the STEP file: its five boards' volumes, worked by hand in inches."""

from __future__ import annotations

import math
from functools import cache

import pytest

from generator.checks import run_plan_checks, run_solid_checks
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.solids import make_bodies, step_bytes
from tests.readers.step_text import flat_solids
from tests.reading.rooms import GOOD, changed, read

FIT, BOARD, DEPTH = 1 / 8, 1 / 2, 2
SLOPE = math.atan(1 / 48)
ROUGH = (12 + 2 * BOARD, 24 + 2 * BOARD)
DEEP = DEPTH - FIT
"""From the wall's face to the rear board's, less the fit."""
NICHE = "niches:\n  - {name: shelf, wall: back, across: 23 7/16, up: 48, width: 12, height: 24, depth: 2}\nfittings:"


def volumes() -> dict[str, float]:
    """Cubic inches. The sides stand a board and the fit off head and sill; the sill rises 1 in 48 to the rear."""
    sill = (DEEP - BOARD * math.sin(SLOPE)) / math.cos(SLOPE)
    front = ROUGH[1] - (BOARD + FIT) - (BOARD + FIT) / math.cos(SLOPE)
    side = DEEP * (front - DEEP / 48 / 2)
    flat = {
        "rear": (ROUGH[0] - 2 * FIT) * (ROUGH[1] - 2 * FIT),
        "sill": sill * (ROUGH[0] - 2 * FIT),
        "head": DEEP * (ROUGH[0] - 2 * FIT),
        "left": side,
        "right": side,
    }
    return {f"B-shelf-{face}-1": area * BOARD for face, area in flat.items()}


@cache
def planned() -> tuple[Room, Plan]:
    room = read(changed(("fittings:", NICHE), text=GOOD))
    return room, make_plan(room)


def test_the_five_boards_have_the_volumes_of_a_hand() -> None:
    """A reader of the file's bare text, which knows nothing of the kernel."""
    room, plan = planned()
    names = frozenset(volumes())
    solids = flat_solids(step_bytes(make_bodies(room, plan)), names)
    assert {name: solid.volume / 25.4**3 for name, solid in solids.items()} == pytest.approx(volumes(), rel=1e-5)


def test_nothing_fails_in_the_plan_or_in_the_solids() -> None:
    room, plan = planned()
    found = (*run_plan_checks(room, plan, True), *run_solid_checks(room, plan, make_bodies(room, plan)))
    assert [f"{f.rule}: {f.subject}" for f in found if f.verdict == "fail"] == []
