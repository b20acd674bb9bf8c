"""The combed bed against the reference table (section 8, "Comb bed"; computed there from first principles)."""

from __future__ import annotations

from math import pi

import pytest
from pint import UnitRegistry

from generator.model.combs import comb_bed
from generator.model.profiles import Origin, TrowelProfile
from generator.reading import load_catalogue

UNITS: UnitRegistry[float] = UnitRegistry()
INCH = float(UNITS.Quantity(1, "inch").to("mm").magnitude)
SQUARE_FEET = float(UNITS.Quantity(1, "foot ** 2").to("mm ** 2").magnitude)
ORIGIN = Origin("reference table, section 8", "published")
ROWS = [
    ("square", 1 / 4, 1 / 4, 1 / 4, 0.125),
    ("square", 1 / 4, 3 / 8, 1 / 4, 0.1875),
    ("square", 1 / 2, 1 / 2, 1 / 2, 0.250),
    ("v", 3 / 16, 5 / 32, 0, 0.0781),
    ("v", 3 / 16, 5 / 32, 1 / 16, 0.0586),
    ("v", 1 / 4, 3 / 16, 0, 0.0938),
]


def _trowel(notch: str, width: float, height: float, land: float, angle: float = 90) -> TrowelProfile:
    return TrowelProfile("t", "t", ORIGIN, {}, notch, width * INCH, height * INCH, land * INCH, angle)  # type: ignore[arg-type]


@pytest.mark.parametrize(("notch", "width", "height", "land", "mean"), ROWS)
def test_mean_beds_of_the_table(notch: str, width: float, height: float, land: float, mean: float) -> None:
    assert comb_bed(_trowel(notch, width, height, land)) / INCH == pytest.approx(mean, abs=5.1e-5)


def test_a_u_notch_is_a_rectangle_on_a_half_circle() -> None:
    """[w (h - w/2) + pi w2/8] / p; a notch as deep as half its width is the half circle alone."""
    assert comb_bed(_trowel("u", 1 / 4, 1 / 8, 1 / 4)) == pytest.approx(pi / 2 * (INCH / 8) ** 2 / (INCH / 2))
    assert comb_bed(_trowel("u", 1 / 4, 3 / 8, 1 / 4)) == pytest.approx((0.0625 + pi / 2 / 64) / 0.5 * INCH)


@pytest.mark.parametrize(("angle", "square_feet"), [(90, 57.6), (45, 81.5), (30, 115)])
def test_coverage_of_a_bag_at_a_tilt(angle: float, square_feet: float) -> None:
    """0.6 ft3 of mortar under a 1/4 in square notch (same table, "Bag yield")."""
    bag = float(UNITS.Quantity(0.6, "foot ** 3").to("mm ** 3").magnitude)
    covered = bag / comb_bed(_trowel("square", 1 / 4, 1 / 4, 1 / 4, angle)) / SQUARE_FEET
    assert covered == pytest.approx(square_feet, abs=0.5)


def test_shipped_trowels_have_the_beds_of_the_table() -> None:
    trowels = load_catalogue().trowels
    wanted = {"square-1-4": 0.125, "square-1-4x3-8": 0.1875, "square-1-2": 0.25, "v-3-16": 0.0781, "v-1-4": 0.0938}
    for key, mean in wanted.items():
        assert comb_bed(trowels[key]) / INCH == pytest.approx(mean, abs=5.1e-5)


def test_a_shipped_bag_yields_what_was_published() -> None:
    """22.68 kg at 1.2 to 1.5 kg/m2 mm: 18.9 to 15.1 l (same table)."""
    assert 15100 <= load_catalogue().mortars["thinset-50-lb"].bag <= 18900
