"""Framing of benches, caps and curbs: by hand, in inches."""

from __future__ import annotations

from math import hypot, radians, sqrt, tan

import pytest

from generator.model.geometry import box
from generator.model.plan import Support
from generator.model.room import Room
from generator.planning.benches import is_bonded
from generator.planning.framing import plan_supports
from generator.planning.lumber.plan import length_of
from generator.planning.regions import plan_walls
from tests.reading.built_rooms import BENCH, CORNER, CURB, DECK, HALF, inches
from tests.reading.rooms import changed, read

SLANT = hypot(1.0, 1 / 48)


def supports_of(room: Room, wall: str) -> list[Support]:
    return [s for s in plan_supports(room, plan_walls(room)) if s.wall == wall]


LEAN = 3.5 / 48 / SLANT
"""in: how far a 2x4's lower side leans out of plumb that stands square to a seat."""


def test_a_bench_of_two_feet_has_three_knee_studs_a_rail_on_them_and_a_joist_behind_each() -> None:
    """Framed from 0 to 23-1/2, 17 high: studs at 3/4, 11-3/4, 22-3/4 between a plate of 1-1/2 and a rail of 3-1/2.

    Joists begin behind the rail, 1-1/2 in from the front; the outer two run to the boards at the wall, 14-1/2 in from
    the front and less what they lean, the middle one to the ledger of 1-1/2 between them.
    """
    room = read(BENCH)
    front, seat = supports_of(room, "seat-front"), supports_of(room, "seat-seat")
    studs = [s for s in front if s.kind == "stud"]
    assert [s.axis[0][0] / 25.4 for s in studs] == pytest.approx([0.75, 11.75, 22.75])
    assert {inches(s.outline)[0][1] for s in studs} == {1.5} and {inches(s.outline)[2][1] for s in studs} == {13.5}
    assert {(s.origin, s.reason) for s in studs} == {("added", "knee stud of seat")}
    plates = {s.reason: length_of(s) / 25.4 for s in front if s.kind == "plate"}
    assert plates == pytest.approx({"sole plate of seat": 23.5, "front rail of seat": 23.5})
    own = [s for s in seat if s.same_as is None]
    deep = 14.5 * SLANT - LEAN - 1.5 * SLANT
    assert [(s.reason, round(length_of(s) / 25.4, 3)) for s in own] == [
        ("joist of seat", round(deep, 3)),
        ("ledger of seat", 20.5),
        ("joist of seat", round(deep - 1.5, 3)),
        ("ledger of seat", round(deep, 3)),
    ]
    assert [s.same_as for s in seat if s.same_as] == [s.id for s in front if s.reason.startswith("front rail")]


def test_the_end_of_a_bench_stands_on_its_own_studs_and_sees_the_joist_over_them() -> None:
    """At the wall the joist's lower side is 3-1/2 SLANT plumb under 17 + 14-1/2 / 48; the rail's end is level there."""
    left = supports_of(read(BENCH), "seat-left")
    assert [s.kind for s in left] == ["plate", "stud", "stud", "plate", "plate", "stud", "plate"]
    assert inches(left[1].outline)[0] == (0.5, 1.5)
    top = 17 + 14.5 / 48 - 3.5 * SLANT
    assert max(v for _, v in inches(left[1].outline)) == pytest.approx(top, abs=1e-4)
    assert box(left[3].outline)[3] / 25.4 == pytest.approx(17 + 14.5 / 48, abs=2e-3)


def test_the_lumber_of_a_corner_seat_is_cut_to_45_degrees() -> None:
    """Legs of 16 from the framing; inside boards of 1/2 they are 15, so rail and sole plate are 15 root 2 long.

    Seen from above, with the walls as axes, the rail takes 1-1/2 root 2 of either leg. Ledgers keep s off the boards,
    the lean of 3-1/2 turned by 45 degrees. The through one runs from there to the rail: 15 - 1-1/2 root 2 - 2 s; the
    other is shorter by the 1-1/2 of the first. The joist runs from the rail to their inner corner, 1-1/2 + s from
    either wall: (15 - 2 (1-1/2 + s)) / root 2 - 1-1/2.
    """
    room = read(CORNER)
    front, seat = supports_of(room, "seat-front"), supports_of(room, "seat-seat")
    s = LEAN / sqrt(2)
    through = 15 - 1.5 * sqrt(2) - 2 * s
    joist = (15 - 2 * (1.5 + s)) / sqrt(2) - 1.5
    lengths = {(p.reason.removesuffix(" of seat"), round(length_of(p) / 25.4, 2)) for p in (*front, *seat)}
    assert lengths == {
        ("sole plate", round(15 * sqrt(2), 2)),
        ("front rail", round(15 * sqrt(2), 2)),
        ("knee stud, turned flat,", 13.0),
        ("knee stud", 13.0),
        ("ledger", round(through, 2)),
        ("ledger", round(through - 1.5, 2)),
        ("joist", round(joist, 2)),
    }
    bevelled = {p.reason.removesuffix(" of seat"): p.bevels for p in front if any(p.bevels)}
    assert bevelled["front rail"] == bevelled["sole plate"] == pytest.approx((1.0, 1.0))


def test_a_seat_with_five_sides_is_mitred_at_its_corners() -> None:
    """The ends turn 135 degrees from the front: each is mitred to half of it, tan 22.5 of its depth."""
    room = read(changed(("legs: [16, 16]", "legs: [20, 20], returns: 6"), text=CORNER))
    mitre = tan(radians(22.5))
    (rail,) = (p for p in supports_of(room, "seat-front") if p.reason == "front rail of seat")
    assert rail.bevels == pytest.approx((mitre, mitre), abs=1e-6)
    assert length_of(rail) / 25.4 == pytest.approx(14 * sqrt(2), abs=1e-4)
    (end,) = (p for p in supports_of(room, "seat-left") if p.reason == "end rail of seat")
    assert end.bevels == pytest.approx((0.0, mitre), abs=1e-6)


def test_a_deck_has_a_header_at_the_tub_a_ledger_at_the_wall_and_joists_between() -> None:
    """Framed 12 along the wall, boards of 1/2 at its far end: the outer joists run 11-1/2, less the lean."""
    own = [p for p in supports_of(read(DECK), "ledge-top") if p.same_as is None]
    whole = 11.5 * SLANT - LEAN
    assert [(p.reason, round(length_of(p) / 25.4, 2)) for p in own if p.kind == "stud"] == [
        ("joist of ledge", round(whole, 2)),
        ("joist of ledge", round(whole - 3.0, 2)),
        ("joist of ledge", round(whole - 3.0, 2)),
        ("ledger of ledge", round(whole, 2)),
    ]
    assert {(p.reason, round(length_of(p) / 25.4, 2)) for p in own if p.kind == "plate"} == {
        ("header of ledge", 26.5),
        ("ledger of ledge", 26.5),
    }


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
