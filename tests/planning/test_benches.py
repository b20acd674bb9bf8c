"""Framing of benches, caps and curbs: by hand, in inches."""

from __future__ import annotations

from math import hypot

import pytest

from generator.model.plan import Support
from generator.model.room import Room
from generator.planning.benches import is_bonded
from generator.planning.framing import plan_supports
from generator.planning.regions import plan_walls
from tests.reading.built_rooms import BENCH, CURB, HALF, inches
from tests.reading.rooms import changed, read

SLANT = hypot(1.0, 1 / 48)


def supports_of(room: Room, wall: str) -> list[Support]:
    return [s for s in plan_supports(room, plan_walls(room)) if s.wall == wall]


def test_a_bench_of_two_feet_has_three_knee_studs_and_a_joist_behind_each() -> None:
    """Framed from 0 to 23-1/2: studs at 3/4, 11-3/4, 22-3/4; joists begin behind them, 3-1/2 in from the front."""
    room = read(BENCH)
    front, seat = supports_of(room, "seat-front"), supports_of(room, "seat-seat")
    assert [s.axis[0][0] / 25.4 for s in front] == pytest.approx([0.75, 11.75, 22.75])
    assert {(s.origin, s.reason) for s in front} == {("added", "knee stud of seat")}
    joists = [s for s in seat if s.same_as is None]
    assert [s.axis[0][0] / 25.4 for s in joists] == pytest.approx([0.75, 11.75, 22.75])
    assert {round(s.axis[0][1] / 25.4, 4) for s in joists} == {round(3.5 * SLANT, 4)}
    assert sorted(s.same_as or "" for s in seat if s.same_as) == [*(s.id for s in front), "S-seat-left-01"]


def test_a_cap_is_fastened_to_the_top_plate_that_is_there() -> None:
    room = read(
        changed(
            (
                "supports: {studs: [{profile: wood-2x4, centres: [3/4, 12",
                "supports: {plates: {profile: wood-2x4}, studs: [{profile: wood-2x4, centres: [3/4, 12",
            ),
            text=HALF,
        )
    )
    (plate,) = supports_of(room, "half-cap")
    assert plate.same_as is not None
    assert plate.kind == "plate"
    assert inches(plate.outline)[2] == (round(3.5 * SLANT, 4), 34)


def test_the_lumber_of_a_curb_is_one_stack_and_nothing_goes_through_its_top_or_inside() -> None:
    room = read(CURB)
    (stack,) = supports_of(room, "curb-outside")
    assert [s.same_as for face in ("curb-inside", "curb-cap") for s in supports_of(room, face)] == [stack.id] * 2
    assert [wall.id for wall in room.walls if is_bonded(room, wall.id)] == ["curb-inside", "curb-cap"]
