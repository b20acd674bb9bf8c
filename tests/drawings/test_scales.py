"""Scales against the published table, and against a search by brute force."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.drawings.scales import ISO, US, fitting_scale, standard_scales

# Facts table section 7, US scales (sites.google.com/view/faidtech), inches to the foot and the ratio computed there.
PUBLISHED_US = {
    "1/8": 96, "3/16": 64, "1/4": 48, "3/8": 32, "1/2": 24, "3/4": 16, "1": 12, "1-1/2": 8, "3": 4, "6": 2,
}  # fmt: skip
# ISO 5455 as quoted in the same section.
PUBLISHED_ISO = (2, 5, 10, 20, 50, 100, 200, 500)


@pytest.mark.parametrize(("inches", "ratio"), PUBLISHED_US.items())
def test_us_scales_are_the_published_ratios(inches: str, ratio: int) -> None:
    scale = next(s for s in US if s.text == f'{inches}" = 1\'-0"')
    assert Fraction(scale.factor).limit_denominator(1000) == Fraction(1, ratio)


@pytest.mark.parametrize("ratio", PUBLISHED_ISO)
def test_iso_scales_are_the_published_ratios(ratio: int) -> None:
    assert next(s for s in ISO if s.text == f"1:{ratio}").factor == 1 / ratio


@pytest.mark.parametrize("units", ["in", "mm"])
def test_no_other_scales_are_used(units: str) -> None:
    names = {s.text for s in standard_scales(units)}  # type: ignore[arg-type]
    us = {f'{i}" = 1\'-0"' for i in PUBLISHED_US} | {"FULL SIZE"}
    assert names == (us if units == "in" else {f"1:{n}" for n in (1, *PUBLISHED_ISO)})


@given(st.floats(10, 8000), st.floats(10, 4000), st.sampled_from(["in", "mm"]))
def test_the_largest_scale_that_fits_is_chosen(width: float, height: float, units: str) -> None:
    scales = standard_scales(units)  # type: ignore[arg-type]
    chosen = fitting_scale((width, height), (150.0, 120.0), units)  # type: ignore[arg-type]
    fits = [s.factor for s in scales if max(width * s.factor / 150.0, height * s.factor / 120.0) <= 1.0]
    assert chosen.factor == (max(fits) if fits else min(s.factor for s in scales))
