"""The worked room's regions, nips, rabbet lines and framing: every number was worked out by hand in inches.

Source of all expected values: the worked room that fixes the project's conventions (arithmetic by hand).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.geometry import area, box
from generator.model.plan import PlannedWall
from generator.planning.base_edge import rabbet_depth, rabbet_line
from generator.planning.bays import find_bays
from generator.planning.framing import edge_bearing, plan_supports, wide_bays
from generator.planning.regions import plan_walls
from generator.planning.supports import found_supports
from tests.worked_room import worked_room

IN = 25.4


def _wall(name: str) -> PlannedWall:
    return next(wall for wall in plan_walls(worked_room()) if wall.id == name)


def test_back_wall_runs_from_fit_to_fit_and_from_the_deck_gap_to_the_ceiling_fit() -> None:
    left, bottom, right, top = box(_wall("back").wet_region[0].ring)
    assert [left / IN, right / IN] == pytest.approx([1 / 8, 60 + 1 / 8])
    assert [bottom / IN, top / IN] == pytest.approx([18 + 3 / 4, 95 + 7 / 8])


def test_back_area_is_the_rectangle_less_two_nips() -> None:
    assert area(_wall("back").wet_region[0].ring) / IN**2 == pytest.approx(4627.28125, abs=1e-6)


@pytest.mark.parametrize("name", ["left", "right"])
def test_end_area_is_the_rectangle_and_the_leg(name: str) -> None:
    assert area(_wall(name).wet_region[0].ring) / IN**2 == pytest.approx(2802.296875, abs=1e-6)


def test_end_boards_start_a_board_and_a_fit_from_the_back_framing() -> None:
    left, _, right, _ = box(_wall("right").wet_region[0].ring)
    assert [left / IN, right / IN] == pytest.approx([5 / 8, 36])


def test_leg_runs_from_the_gap_beside_the_apron_to_the_reach() -> None:
    ring = _wall("right").wet_region[0].ring
    leg = [(round(u / IN, 6), round(v / IN, 6)) for u, v in ring]
    assert leg[:2] == [(32.0, 0.25), (36.0, 0.25)]
    assert (32.0, 18.75) in leg


def test_nips_are_an_eighth_wide_and_as_high_as_the_rabbet() -> None:
    nips = [box(a.ring) for a in _wall("back").allowances if a.name == "nip"]
    assert [((right - left) / IN, (top - (18.75 * IN)) / IN) for left, _, right, top in nips] == [
        pytest.approx((1 / 8, 7 / 8)),
        pytest.approx((1 / 8, 7 / 8)),
    ]


def test_rabbet_is_a_quarter_deep_and_seven_eighths_above_the_bottom_edge() -> None:
    room = worked_room()
    assert [rabbet_depth(room, side) / IN for side in room.base.sides] == pytest.approx([1 / 4] * 3)
    assert rabbet_line(room, room.base.sides[0])[0][1] / IN - 18.75 == pytest.approx(7 / 8)


@pytest.mark.parametrize(("name", "widest"), [("back", 15.5), ("right", 15.5), ("left", 15.5)])
def test_widest_bay_passes_sixteen(name: str, widest: float) -> None:
    room = worked_room()
    wall = next(wall for wall in room.walls if wall.id == name)
    bays = find_bays(_wall(name).wet_region, found_supports(wall), room.limit("bearing-edge"))
    assert max(bay.width for bay in bays) / IN == pytest.approx(widest)


def test_nothing_is_added_to_the_worked_room() -> None:
    room = worked_room()
    assert {s.origin for s in plan_supports(room, plan_walls(room))} == {"found"}


def test_corner_bearings() -> None:
    room = worked_room()
    back, right = (found_supports(w) for w in room.walls[1:])
    assert edge_bearing(back, (IN / 8, IN / 8), "left", 480, 2400) / IN == pytest.approx(1 + 3 / 8)
    assert edge_bearing(right, (5 * IN / 8, 5 * IN / 8), "left", 480, 2400) / IN == pytest.approx(7 / 8)
    assert edge_bearing(right, (32 * IN, 32 * IN), "left", 10, 470) / IN == pytest.approx(1 + 1 / 2)


def test_a_missing_stud_is_replaced_so_that_no_bay_stays_wide() -> None:
    room = worked_room()
    back = room.walls[1]
    bare = replace(back, supports=tuple(s for s in back.supports if abs(s.axis[0][0] / IN - 31) > 1))
    changed = replace(room, walls=(room.walls[0], bare, room.walls[2]))
    walls = plan_walls(changed)
    supports = plan_supports(changed, walls)
    assert len([s for s in supports if s.origin == "added"]) == 1
    assert wide_bays(changed, walls[1], supports) == []
