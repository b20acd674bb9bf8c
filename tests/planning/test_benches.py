"""Framing of benches, caps and curbs: by hand, in inches."""

from __future__ import annotations

from math import hypot

import pytest

from generator.model.geometry import box
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


def test_without_one_the_studs_are_cut_for_a_plate_that_is_let_in() -> None:
    """42 high, a 2x4 laid flat: studs of 40-1/2 under it, and the end of the wall sees plate and stud as well."""
    room = read(HALF)
    half = supports_of(room, "half")
    assert [(s.kind, s.origin, round(box(s.outline)[3] / 25.4, 4)) for s in half] == [
        ("stud", "found", 40.5),
        ("plate", "added", 42.0),
        *[("stud", "found", 40.5)] * 3,
    ]
    assert [inches(s.outline)[0] for s in half if s.kind == "plate"] == [(0, 40.5)]
    assert [s.depth / 25.4 for s in half if s.kind == "plate"] == pytest.approx([3.5])
    (cap,) = supports_of(room, "half-cap")
    assert cap.same_as == half[1].id
    assert [inches(s.outline)[2] for s in supports_of(room, "half-end")] == [(3.5, 40.5), (3.5, 42)]


def test_under_a_cap_that_falls_along_the_wall_each_stud_is_cut_below_it() -> None:
    """From 48 down to 42 over 34: the plate is 1-1/2 thick square to its top, the studs are cut to its lower side."""
    room = read(changed(("height: 42", "heights: [{at: 0, is: 48}, {at: 34, is: 42}]"), text=HALF))
    rise, thick = 6 / 34, 1.5 * hypot(1.0, 6 / 34)
    studs = [s for s in supports_of(room, "half") if s.kind == "stud"]
    for stud, left in zip(studs, (0, 11.25, 22.25, 32.5), strict=True):
        foot, other, lower, higher = inches(stud.outline)
        assert (foot, other) == ((left, 0), (left + 1.5, 0))
        assert (higher[1], lower[1]) == pytest.approx([48 - rise * u - thick for u in (left, left + 1.5)], abs=1e-4)
        assert stud.axis[1][1] / 25.4 == pytest.approx(48 - rise * (left + 0.75) - thick, abs=1e-4)


def test_the_lumber_of_a_curb_is_one_stack_and_nothing_goes_through_its_top_or_inside() -> None:
    room = read(CURB)
    (stack,) = supports_of(room, "curb-outside")
    assert [s.same_as for face in ("curb-inside", "curb-cap") for s in supports_of(room, face)] == [stack.id] * 2
    assert [wall.id for wall in room.walls if is_bonded(room, wall.id)] == ["curb-inside", "curb-cap"]
