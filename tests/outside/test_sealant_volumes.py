"""Sealant volumes against the reference table (section 8), units by pint.

Source of the rows: computed there with pint, length = V / (12 w d). Published match: 24 to 27 ft from a cartridge
of 10.1 fl oz at 1/4 x 1/4 in; another page's 50 to 55 ft is wrong by two.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from pint import UnitRegistry

from generator.model.plan import Edge
from generator.planning.sealing.surface import find_surfaces
from generator.planning.takeoff.sealant import leg_terms
from generator.planning.takeoff.words import FLUID_OUNCE
from generator.reading import load_catalogue
from tests.planning.finished import NO_BASE, limited, lone, sheet_board, wall_in
from tests.worked_plan import worked_plan
from tests.worked_room import worked_room

UNITS: UnitRegistry[float] = UnitRegistry()
IN_FEET = [
    (1 / 8, 1 / 8, 97.2, 99.1, 29.8),
    (3 / 16, 3 / 16, 43.2, 44.1, 13.2),
    (1 / 4, 1 / 8, 48.6, 49.6, 14.9),
    (1 / 4, 1 / 4, 24.3, 24.8, 7.44),
    (3 / 8, 1 / 4, 16.2, 16.5, 4.96),
    (3 / 8, 3 / 8, 10.8, 11.0, 3.31),
    (1 / 2, 1 / 4, 12.2, 12.4, 3.72),
    (1 / 2, 3 / 8, 8.1, 8.3, 2.48),
    (1 / 2, 1 / 2, 6.1, 6.2, 1.86),
]
IN_METRES = [(3, 3, 33.3), (5, 5, 12.0), (6, 6, 8.33), (10, 5, 6.0), (10, 10, 3.0)]


def _to(value: float, unit: str, target: str) -> float:
    return float(UNITS.Quantity(value, unit).to(target).magnitude)


def _joint_ml(width: float, depth: float) -> tuple[float, float]:
    """(length in mm, ml) of a floor joint: boards of that thickness, that far from the floor."""
    board = replace(sheet_board(0, 1, 60, 90), thickness=depth)
    edge = Edge("E-1", board.id, board.outline[0], board.outline[1], "bottom", None, (), None)
    walls = (wall_in(60, 96),)
    room = limited(lone(worked_room()), leg_gap=width)
    plan = replace(worked_plan(room), walls=walls, corners=(), base=NO_BASE, boards=(board,), edges=(edge,))
    (term,) = leg_terms(room, plan, find_surfaces(walls, (), (), (board,), (edge,)))
    return edge.q[0] - edge.p[0], term.value


@pytest.mark.parametrize(("width", "depth", "feet_101", "feet_103", "metres_300"), IN_FEET)
def test_length_from_a_cartridge(
    width: float, depth: float, feet_101: float, feet_103: float, metres_300: float
) -> None:
    length, ml = _joint_ml(_to(width, "inch", "mm"), _to(depth, "inch", "mm"))
    per_ml = length / ml
    assert _to(_to(10.1, "US_fluid_ounce", "ml") * per_ml, "mm", "foot") == pytest.approx(feet_101, abs=0.06)
    assert _to(_to(10.3, "US_fluid_ounce", "ml") * per_ml, "mm", "foot") == pytest.approx(feet_103, abs=0.06)
    assert 300 * per_ml / 1000 == pytest.approx(metres_300, abs=0.06)


@pytest.mark.parametrize(("width", "depth", "metres"), IN_METRES)
def test_length_from_a_metric_cartridge(width: float, depth: float, metres: float) -> None:
    length, ml = _joint_ml(width, depth)
    assert 300 * length / ml / 1000 == pytest.approx(metres, abs=0.05)


def test_the_published_ten_foot_joint() -> None:
    """Published worked example: 10 ft at 1/4 x 1/4 in is 7.5 in3."""
    length, ml = _joint_ml(_to(0.25, "inch", "mm"), _to(0.25, "inch", "mm"))
    ten_feet = ml * _to(10, "foot", "mm") / length
    assert _to(ten_feet, "ml", "inch ** 3") == pytest.approx(7.5)


def test_a_fluid_ounce_and_the_shipped_cartridges() -> None:
    assert pytest.approx(_to(1, "US_fluid_ounce", "ml")) == FLUID_OUNCE
    assert pytest.approx(1.80469, abs=1e-5) == _to(FLUID_OUNCE, "ml", "inch ** 3")
    sealants = load_catalogue().sealants
    assert sealants["sealant-10-1-oz"].cartridge == pytest.approx(298.7, abs=0.05)
    assert sealants["sealant-300-ml"].cartridge == 300.0
