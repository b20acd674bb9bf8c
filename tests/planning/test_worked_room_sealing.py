"""The sealing and take-off numbers of the room worked by hand, from the plan's own functions. Inches."""

from __future__ import annotations

from dataclasses import replace
from math import dist, fsum

import pytest

from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.sealing.bottoms import bottom_runs
from generator.planning.sealing.joints import apron_edges, corner_joints, seam_joints
from generator.planning.sealing.surface import Surface, find_surfaces
from generator.planning.takeoff.coverings import base_runs, masking_rows
from generator.planning.takeoff.sealant import (
    base_terms,
    corner_terms,
    leg_terms,
    middle_length,
    rabbet_terms,
    sealant_rows,
    section_above,
)
from tests.planning.finished import finished_worked
from tests.worked_plan import worked_room

CUBIC_INCH_ML = 25.4**3 / 1000


@pytest.fixture(scope="module")
def room() -> Room:
    return worked_room()


@pytest.fixture(scope="module")
def plan() -> Plan:
    return finished_worked()


@pytest.fixture(scope="module")
def surfaces(plan: Plan) -> tuple[Surface, ...]:
    return find_surfaces(plan.walls, plan.corners, plan.folds, plan.boards, plan.edges)


def test_inside_corners_to_band(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    joints = list(corner_joints(room, plan.corners, surfaces))
    assert sum(j.legs[0].length for j in joints) / 25.4 == pytest.approx(154.25)


def test_wallboard_edges_to_band(room: Room, surfaces: tuple[Surface, ...]) -> None:
    joints = [j for s in surfaces for j in seam_joints(room, s, "wallboard")]
    assert sum(j.legs[0].length for j in joints) / 25.4 == pytest.approx(191.25)


def test_apron_and_floor_joints_of_the_legs(plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    aprons = [dist(e.p, e.q) for s in surfaces for e in apron_edges(s)]
    floors = [run.length for s in surfaces for run in bottom_runs(s, plan.base) if run.side is None]
    assert (fsum(aprons) + fsum(floors)) / 25.4 == pytest.approx(45)
    assert [round(n / 25.4, 6) for n in (*aprons, *floors)] == [18.5, 18.5, 4.0, 4.0]


def test_base_line_at_the_board_faces(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    lengths = {run.wall: run.length / 25.4 for run in base_runs(plan, surfaces)}
    assert lengths == pytest.approx({"left": 31.25, "back": 59.25, "right": 31.25})
    (masking,) = masking_rows(room, plan, surfaces)
    assert masking.quantity / 25.4 == pytest.approx(121.75)


def test_gap_in_front_of_the_flange(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    middle = (3 / 16 + 1 / 2) / 2 * 25.4
    by_wall = {s.wall: s for s in surfaces}
    lengths = {
        run.wall: middle_length(plan, surfaces, by_wall[run.wall], run, middle) / 25.4
        for run in base_runs(plan, surfaces)
    }
    assert lengths == pytest.approx({"left": 31 + 13 / 32, "back": 59 + 9 / 16, "right": 31 + 13 / 32})
    ml = fsum(term.value for term in base_terms(room, plan, surfaces))
    assert ml / CUBIC_INCH_ML == pytest.approx(9.561, abs=5e-4)
    assert ml == pytest.approx(156.7, abs=0.05)
    assert ml / room.choices.sealant.cartridge == pytest.approx(0.52, abs=0.005)


def test_joints_of_the_two_legs(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    ml = fsum(term.value for term in leg_terms(room, plan, surfaces))
    assert ml / CUBIC_INCH_ML == pytest.approx(5.625, abs=1e-6)


def test_corner_slots(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    ml = fsum(term.value for term in corner_terms(room, plan, surfaces))
    assert ml / CUBIC_INCH_ML == pytest.approx(9.641, abs=5e-4)


def test_space_left_in_the_rabbet(plan: Plan) -> None:
    flange = section_above(plan.base.flange_section, 25.4 / 4) / 25.4**2
    assert 1 / 4 * 7 / 8 - flange == pytest.approx(0.078, abs=5e-4)
    back = [term.value for term in rabbet_terms(plan) if "back" in term.label]
    assert fsum(back) / CUBIC_INCH_ML == pytest.approx(0.078125 * 59.75, abs=1e-6)


def test_profile_values_say_which_slots_are_filled(room: Room, plan: Plan, surfaces: tuple[Surface, ...]) -> None:
    def ml(rabbet: bool, corners: bool) -> float:
        sealant = replace(room.choices.sealant, fill_rabbet=rabbet, fill_corners=corners, waste=0.0)
        (row,) = sealant_rows(replace(room, choices=replace(room.choices, sealant=sealant)), plan, surfaces)
        return row.quantity / CUBIC_INCH_ML

    bare = 9.561 + 5.625
    rabbets = fsum(term.value for term in rabbet_terms(plan)) / CUBIC_INCH_ML
    assert ml(False, False) == pytest.approx(bare, abs=1e-3)
    assert ml(False, True) == pytest.approx(bare + 9.641, abs=1e-3)
    assert ml(True, True) == pytest.approx(bare + 9.641 + rabbets, abs=1e-3)
