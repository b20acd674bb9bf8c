"""Walls that are no rectangles: where boards may lie, against plane trigonometry worked by hand. Inches where typed."""

from __future__ import annotations

from math import hypot

import pytest

from generator.model.plan import Plan
from generator.planning.regions import plan_walls
from tests.example_rooms import findings_of, planned
from tests.reading.rooms import changed, read
from tests.reading.test_measured import BACK, CLOSED

IN = 25.4


def region(measured: str) -> list[tuple[float, float]]:
    """The back wall's wet region, in inches."""
    room = read(changed((BACK, measured), text=CLOSED))
    (found,) = plan_walls(room)[1].wet_region
    return [(u / IN, v / IN) for u, v in found.ring]


def test_the_fit_is_kept_square_to_an_end_that_leans() -> None:
    # The left end leans in by 3 over 96 (1 in 32): level, the fit of 1/8 is 1/8 * sqrt(1 + 1/32^2) = 0.12506102.
    # The floor gap is 1/4, the ceiling 96 - 1/8 = 95 7/8: u = v/32 + 0.12506102, so 0.13287352 and 3.12115477
    # The back wall (60) goes first: fit on both sides.
    expected = [(0.13287352, 0.25), (59.875, 0.25), (59.875, 95.875), (3.12115477, 95.875)]
    got = region(BACK + "    plumb: {left: 3}\n")
    assert got == [pytest.approx(p, abs=1e-5) for p in expected]


def test_the_fit_is_kept_square_to_a_slope() -> None:
    # From (0, 96) down to (48, 60): 3 in 4. A parallel 1/8 below it lies 1/8 * 5/4 = 0.15625 lower at every u.
    # At u = 1/8: 96 - 0.09375 - 0.15625 = 95.75. It meets the level 60 - 1/8 where 96 - 0.75 u - 0.15625 = 59.875:
    # u = 35.96875 / 0.75 = 47.958333
    expected = [(0.125, 0.25), (59.875, 0.25), (59.875, 59.875), (47.958333, 59.875), (0.125, 95.75)]
    got = region("    width: 60\n    heights: [{at: 0, is: 96}, {at: 48, is: 60}]\n")
    assert got == [pytest.approx(p, abs=1e-5) for p in expected]


def test_the_fit_is_kept_beside_a_step() -> None:
    # 96 high up to 20, 90 from there: the upper part ends 1/8 short of the step, at 19 7/8
    expected = [
        (0.125, 0.25), (59.875, 0.25), (59.875, 89.875), (19.875, 89.875), (19.875, 95.875), (0.125, 95.875)
    ]  # fmt: skip
    got = region("    width: 60\n    heights: [{at: 20, is: 96}, {at: 20, is: 90}]\n")
    assert got == [pytest.approx(p, abs=1e-5) for p in expected]


def out_of_square() -> Plan:
    return planned("recess-out-of-square")[1]


def test_bearing_is_the_least_over_a_leaning_edge() -> None:
    # The post's face ends at 3 1/2. The left edge at its top (95 7/8): 95.875 * 3/4 / 96 = 0.74902344, and level fit
    # 1/8 * sqrt(1 + (1/128)^2) = 0.12500381; it is 0.87402725 from the corner and bears 3.5 - 0.87402725 = 2.62597275
    plan = out_of_square()
    edges = [e for e in plan.edges if plan.board(e.board).wall == "back" and e.role == "corner" and e.p[1] > e.q[1]]
    top = max(edges, key=lambda e: e.p[1])
    assert top.p[0] == pytest.approx(0.87402725 * IN, abs=1e-4)
    assert top.p[1] == pytest.approx(95.875 * IN)
    assert top.bearing == pytest.approx(2.62597275 * IN, abs=1e-4)
    # Its band is folded along the leaning line where the faces meet: 1/2 and its own lean, as long as the edges.
    band = next(b for b in plan.bands if b.kind == "corner" and top.id in b.covers)
    assert band.length == pytest.approx((95.875 - 18.75) * hypot(1, 1 / 128) * IN, abs=1e-3)


@pytest.mark.parametrize("name", ["recess-out-of-square", "attic-shower"])
def test_the_example_rooms_can_be_built(name: str) -> None:
    assert {f.verdict for f in findings_of(name)} <= {"pass", "note", "confirm"}
