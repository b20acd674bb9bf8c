"""A half wall 34 in long whose top falls from 48 in to 36 in: its boards, plate and studs by hand, in inches.

The rake is 12 in 34. Across, the cap falls 1 in 48 to the inside.
"""

from __future__ import annotations

from math import hypot

import pytest

from generator.model.geometry import box
from generator.model.plan import Plan
from generator.planning.framing import plan_supports
from generator.planning.lumber.plan import length_of
from generator.planning.regions import plan_walls
from tests.example_rooms import planned
from tests.reading.built_rooms import HALF, inches
from tests.reading.rooms import changed, read

RAKE, FALL, BOARD, FIT = 12 / 34, 1 / 48, 0.5, 0.125
SECANT = hypot(1.0, RAKE)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned("raked-half-wall")[1]


def top_over(u: float) -> float:
    """Height of the framing over a point of the inside, u from the back wall's framing."""
    return 48 - RAKE * u


def tops(plan: Plan, wall: str) -> dict[float, float]:
    """Of each u at which boards of a wall have corners, the height of the upper one."""
    corners: dict[float, float] = {}
    for u, v in (p for b in plan.boards if b.wall == wall for p in b.outline):
        key = round(u / 25.4, 3)
        corners[key] = max(corners.get(key, 0.0), v / 25.4)
    return corners


def test_the_inside_ends_under_the_back_of_the_cap_where_that_is_lowest(plan: Plan) -> None:
    """From 5/8 (board and fit of the back wall) to 34: at the front of the board the cap's back is 1/2 x 1/48 lower."""
    assert tops(plan, "half") == pytest.approx({u: top_over(u) - BOARD * FALL for u in (0.625, 34.0)}, abs=1e-4)


def test_the_other_side_ends_with_its_framing_and_is_as_skewed_the_other_way(plan: Plan) -> None:
    """Seen from behind u runs from the free end; it ends 5/8 before the back wall's framing, and has a seam at 11."""
    assert tops(plan, "half-outside") == pytest.approx({u: 36 + RAKE * u for u in (0.0, 11.0, 33.375)}, abs=1e-4)


def test_the_end_is_cut_square_at_the_lowest_that_the_cap_leaves(plan: Plan) -> None:
    """Its board is 1/2 in front of the framing, where the cap has fallen by 1/2 x 12/34, and laps the inside's face by
    1/2, where it has fallen across by 1/2 x 1/48 as well."""
    low = 36 - BOARD * RAKE - BOARD * FALL
    assert tops(plan, "half-end") == pytest.approx({-0.5: low, 4.0: low}, abs=1e-4)


def test_the_cap_is_measured_along_its_slope(plan: Plan) -> None:
    """Its lower end stands 1/2 before the framing of the end at its upper arris, which leans out by 1/2 x sin; it
    begins 5/8 from the back wall's framing. Its ends are square, 4-1/2 x 1/48 x 12/34 shorter than along one side."""
    (cap,) = (b for b in plan.boards if b.wall == "half-cap")
    left, low, right, high = (x / 25.4 for x in box(cap.outline))
    along = (34 + BOARD) * SECANT - BOARD * RAKE
    start = (BOARD + FIT) * SECANT
    assert high - low == pytest.approx(along - start - 4.5 * FALL * RAKE, abs=3e-3)
    assert right - left == pytest.approx(4.5, abs=0.02)


def test_the_plate_is_bought_long_enough_for_its_bevels_and_the_studs_are_cut_to_it(plan: Plan) -> None:
    """34 x sec along its middle; cut plumb at both ends, it takes 1-1/2 x 12/34 more of a stick."""
    plate = next(s for s in plan.supports if s.wall == "half" and s.kind == "plate" and s.origin == "added")
    assert "both ends cut plumb, 19.4 degrees off square" in plate.reason  # atan 12/34
    assert length_of(plate) / 25.4 == pytest.approx(34 * SECANT + 1.5 * RAKE, abs=1e-4)
    under = 1.5 * SECANT
    for stud in (s for s in plan.supports if s.wall == "half" and s.kind == "stud"):
        left, _, right, _ = (x / 25.4 for x in box(stud.outline))
        assert {round(v / 25.4, 3) for _, v in stud.outline} == {
            1.5,
            *(round(top_over(u) - under, 3) for u in (left, right)),
        }


def test_a_top_plate_along_the_rake_that_is_there_is_read_and_none_is_added() -> None:
    """Two 2x4 on one another: 3 in square to the rake, the studs end below both; nothing is bought."""
    room = read(
        changed(
            ("height: 42", "heights: [{at: 0, is: 48}, {at: 34, is: 36}]"),
            (
                "supports: {studs: [{profile: wood-2x4, centres: [3/4, 12",
                "supports: {plates: {profile: wood-2x4, top_plies: 2}, studs: [{profile: wood-2x4, centres: [3/4, 12",
            ),
            text=HALF,
        )
    )
    own = [s for s in plan_supports(room, plan_walls(room)) if s.wall == "half"]
    assert {s.origin for s in own} == {"found"}
    rake = next(s for s in own if s.room_path.endswith("plates.top"))
    assert inches(rake.outline) == [(34, round(36 - 3 * SECANT, 4)), (34, 36), (0, 48), (0, round(48 - 3 * SECANT, 4))]
    heads = [max(v for _, v in s.outline) / 25.4 for s in own if s.kind == "stud"]
    assert heads == pytest.approx([top_over(u) - 3 * SECANT for u in (0, 11.25, 22.25, 32.5)], abs=1e-4)
