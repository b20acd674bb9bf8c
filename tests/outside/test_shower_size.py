"""Shower-size row of the fact table, section 1: IRC P2708.1, finished interior (secondary text).

"studs 31.5, board 1/2 + tile 3/8 each side -> 29.75 -> FAIL; 32 -> 30.25 OK; 25x52 = 1300 OK; 25x51 FAIL".
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_plan_checks
from generator.checks.codes import finished_interior
from generator.model.findings import Finding
from generator.model.plan import Plan
from generator.model.room import BaseSide, Finish, Room
from generator.reading import load_catalogue
from tests.checks.changes import change_base
from tests.worked_plan import worked_plan
from tests.worked_room import mm, rect_in, worked_room

BUILD_UP = 7 / 8
"""Inches: board 1/2 and tile 3/8."""


def _shower(length: float, width: float, walls: tuple[str, ...]) -> tuple[Room, Plan]:
    """A shower base of that size between studs, its length along the back wall where it has one."""
    catalogue = load_catalogue()
    room = replace(worked_room(), rules=catalogue.rules, code=catalogue.codes["irc"], finish=Finish(mm(3 / 8), 0.0))
    spans = {"left": width, "back": length, "right": width}
    sides = tuple(
        BaseSide(f"base.sides.{w}", w, 0.0, mm(spans[w]), ((0.0, 0.0), (mm(spans[w]), 0.0)), True) for w in walls
    )
    floor = rect_in(0, 0, length, width)
    room = change_base(
        room,
        lambda b: replace(b, kind="shower_base", sides=sides, length=mm(length), width=mm(width), footprint=floor),
    )
    plan = worked_plan(worked_room())
    right = replace(plan.wall("right"), origin=(mm(length), 0.0, 0.0))
    return room, replace(plan, walls=(*plan.walls[:2], right))


def _size(room: Room, plan: Plan) -> dict[str, list[Finding]]:
    found = run_plan_checks(room, plan)
    return {rule: [f for f in found if f.rule == rule] for rule in ("shower-area", "shower-side")}


ALCOVE = ("left", "back", "right")


@pytest.mark.parametrize(("studs", "inside", "verdict"), [(31.5, 29.75, "fail"), (32.0, 30.25, "pass")])
def test_least_width_between_tiled_walls(studs: float, inside: float, verdict: str) -> None:
    found = _size(*_shower(studs, 40 + BUILD_UP, ALCOVE))["shower-side"]
    assert [f.verdict for f in found] == [verdict]
    assert found[0].measured == pytest.approx(mm(inside), abs=1e-6)


@pytest.mark.parametrize(("long", "verdict"), [(52, "note"), (51, "fail")])
def test_a_narrow_shower_is_allowed_from_1300_in2(long: float, verdict: str) -> None:
    found = _size(*_shower(25 + 2 * BUILD_UP, long + BUILD_UP, ALCOVE))["shower-side"]
    assert [f.verdict for f in found] == [verdict]
    assert found[0].margin == pytest.approx(mm(-5), abs=1e-6)


@pytest.mark.parametrize(("width", "verdict"), [(30.0, "pass"), (29.99, "fail")])
def test_900_in2(width: float, verdict: str) -> None:
    found = _size(*_shower(30 + 2 * BUILD_UP, width + BUILD_UP, ALCOVE))["shower-area"]
    assert [f.verdict for f in found] == [verdict]
    assert found[0].measured == pytest.approx(30 * width * 25.4**2, rel=1e-9)


def test_walls_on_two_sides_of_a_corner_shower_take_once_from_each_size() -> None:
    inside = finished_interior(*_shower(48, 36, ("left", "back")))
    assert inside.area == pytest.approx(mm(48 - BUILD_UP) * mm(36 - BUILD_UP))
    assert inside.side == pytest.approx(mm(36 - BUILD_UP))


def test_unknown_tile_is_to_be_confirmed_and_a_tub_is_not_asked() -> None:
    room, plan = _shower(60, 32, ALCOVE)
    untiled = _size(replace(room, finish=Finish(None, None)), plan)
    assert [f.verdict for rule in untiled.values() for f in rule] == ["confirm", "confirm"]
    tub = change_base(room, lambda b: replace(b, kind="tub"))
    assert [f.verdict for rule in _size(tub, plan).values() for f in rule] == ["note", "note"]


def _neo(side: float, back: float) -> tuple[Room, Plan]:
    """A neo-angle base in the corner of the left and the back wall: both sides and both returns alike."""
    room, plan = _shower(side, side, ("left", "back"))
    corners = ((0.0, 0.0), (side, 0.0), (side, back), (back, side), (0.0, side))
    ring = tuple((mm(u), mm(w)) for u, w in corners)
    return change_base(room, lambda b: replace(b, footprint=ring)), plan


def test_neo_angle_by_the_shoelace_formula() -> None:
    """38 in sides, 18 in returns, 7/8 in of board and tile on both walls, worked by hand.

    Corners (7/8, 7/8) (38, 7/8) (38, 18) (18, 38) (7/8, 38): 38^2 - 20^2 / 2 = 1244 in2, less two strips of
    38 x 7/8 that share a square of (7/8)^2: 1244 - 66.5 + 0.765625 = 1178.265625 in2. It is 37 1/8 in wide between
    either wall and the other's return; between corner and front (56 - 7/4) / sqrt 2 = 38.36 in.
    """
    inside = finished_interior(*_neo(38, 18))
    assert inside.area / 25.4**2 == pytest.approx(1178.265625)
    assert inside.side == pytest.approx(mm(37.125))


def test_a_neo_angle_whose_square_would_do_is_too_small() -> None:
    """32 in sides and 12 in returns: 31 1/8 in square is 968 in2, but the front takes 20^2 / 2 = 200 of it."""
    found = _size(*_neo(32, 12))
    assert [f.verdict for f in found["shower-area"]] == ["fail"]
    assert found["shower-area"][0].measured == pytest.approx((31.125**2 - 200) * 25.4**2)
