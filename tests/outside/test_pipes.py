"""Pipe diameters against published tables, read by another program (`fluids`) where it holds them."""

from __future__ import annotations

import pytest
from fluids.piping import S40o_D1785, nearest_pipe, o_CTS_D2241
from pint import UnitRegistry

from generator.reading import load_catalogue

UNITS: UnitRegistry[float] = UnitRegistry()
PIPES = load_catalogue().pipes
SIZES = ("1-2", "3-4", "1")
NPS = (0.5, 0.75, 1.0)


def test_the_names_of_sizes_are_not_diameters() -> None:
    """facts.md, section 3: 1/2 copper is 15.875 mm outside, not 12.7."""
    assert PIPES["copper-1-2"].outside_diameter == pytest.approx(15.875)
    assert PIPES["brass-nps-1-2"].outside_diameter == pytest.approx(21.336)
    assert PIPES["copper-15-mm"].outside_diameter == 15.0


@pytest.mark.parametrize("material", ["copper", "pex", "cpvc"])
@pytest.mark.parametrize(("size", "inches"), zip(SIZES, (0.625, 0.875, 1.125), strict=True))
def test_copper_tube_sizes(material: str, size: str, inches: float) -> None:
    """ASTM B88, F876 and D2846 as in facts.md; the size and 1/8 in."""
    wanted = (inches * UNITS.inch).to(UNITS.mm).magnitude
    assert PIPES[f"{material}-{size}"].outside_diameter == pytest.approx(wanted)


@pytest.mark.parametrize(("size", "index"), zip(SIZES, range(3), strict=True))
def test_copper_tube_sizes_against_the_library(size: str, index: int) -> None:
    """`fluids` has CTS outside diameters in its D2241 table, in mm; 1/2 in is the first size that it shares."""
    table = sorted(o_CTS_D2241)
    start = min(range(len(table)), key=lambda i: abs(table[i] - 15.875))
    assert PIPES[f"copper-{size}"].outside_diameter == pytest.approx(table[start + index], abs=0.01)


@pytest.mark.parametrize("material", ["brass", "steel"])
@pytest.mark.parametrize(("size", "nominal"), zip(SIZES, NPS, strict=True))
def test_pipe_sizes_against_the_library(material: str, size: str, nominal: float) -> None:
    """ASME B36.10 by `fluids`: metres, rounded to 0.1 mm; its D1785 table has the same diameters to 0.001 mm."""
    diameter = PIPES[f"{material}-nps-{size}"].outside_diameter
    assert diameter == pytest.approx(nearest_pipe(NPS=nominal)[2] * 1000, abs=0.051)
    assert min(abs(diameter - other) for other in S40o_D1785) < 0.005


@pytest.mark.parametrize("mm", [15, 22, 28])
def test_metric_copper_is_named_by_its_diameter(mm: int) -> None:
    """EN 1057."""
    assert PIPES[f"copper-{mm}-mm"].outside_diameter == mm


def test_only_steel_needs_no_shield_plate() -> None:
    assert {pipe.id for pipe in PIPES.values() if pipe.steel} == {f"steel-nps-{size}" for size in SIZES}
