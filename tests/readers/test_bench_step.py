"""The bench of an example room, read back from the STEP file: its three boards' volumes, worked by hand in inches."""

from __future__ import annotations

import math

import pytest

from generator.solids import make_bodies, step_bytes
from tests.example_rooms import planned
from tests.readers.step_text import flat_solids

FIT, GAP, BOARD, FALL = 1 / 8, 1 / 4, 1 / 2, 1 / 48
LONG, DEEP, HIGH = 18, 15, 17
"""Of the framing: along the back wall to the right one, out from the back wall, up to its front edge."""
KEEP = BOARD + FIT
"""Off the framing of a wall that was boarded before."""
SLOPE = math.atan(FALL)


def volumes() -> dict[str, float]:
    """Cubic inches. The front ends under the seat's back, the left end laps the front, the seat laps both."""
    front = (LONG - KEEP) * (HIGH - BOARD * FALL - GAP)
    reach = DEEP + BOARD - KEEP
    middle = HIGH + (DEEP - (DEEP + BOARD + KEEP) / 2) * FALL
    left = reach * (middle - FIT / math.cos(SLOPE) - GAP)
    up, down = (DEEP - KEEP) / math.cos(SLOPE), BOARD * (1 - math.sin(SLOPE)) / math.cos(SLOPE)
    seat = (LONG - KEEP + BOARD) * (up + down)
    return {f"B-seat-{face}-1": area * BOARD for face, area in (("front", front), ("left", left), ("seat", seat))}


def test_the_boards_of_a_bench_have_the_volumes_of_a_hand() -> None:
    room, plan = planned("seat-and-curb")
    solids = flat_solids(step_bytes(make_bodies(room, plan)), frozenset(volumes()))
    assert {name: solid.volume / 25.4**3 for name, solid in solids.items()} == pytest.approx(volumes(), rel=1e-5)
