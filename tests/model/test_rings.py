"""Rings in their one form, however the points came."""

from __future__ import annotations

import pytest

from generator.model.geometry import area, canonical

CORNERS = ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (0.0, 5.0))


@pytest.mark.parametrize("start", range(5))
@pytest.mark.parametrize("at", range(4))
def test_a_corner_that_all_but_touches_another_point_stays_a_corner(at: int, start: int) -> None:
    """As clippings leave them: two points a millionth of a millimetre apart are one corner, not none."""
    u, v = CORNERS[at]
    ring = [*CORNERS[: at + 1], (u + 1e-6, v + 1e-6), *CORNERS[at + 1 :]]
    found = canonical(ring[start:] + ring[:start])
    assert len(found) == 4
    assert area(found) == pytest.approx(50.0, abs=1e-3)


def test_points_in_the_middle_of_a_side_go_and_the_lowest_left_comes_first() -> None:
    assert canonical(((10.0, 5.0), (0.0, 5.0), (0.0, 2.0), (0.0, 0.0), (4.0, 0.0), (10.0, 0.0))) == CORNERS
