"""Two square-cut boards in a corner of any angle, placed by our offsets, measured as polygons in the plan."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest
from shapely import Polygon
from shapely.affinity import rotate

from generator.planning.room_corners import corner_offset
from tests.worked_room import worked_room

FIT, THICK = 3.175, 12.7


def _boards(angle: float) -> tuple[Polygon, Polygon]:
    """The first board along +x from the corner, the later one along the direction at the angle; both 300 long."""
    room = worked_room()
    corner = replace(room.corners[1], angle_deg=angle)
    first, later = (w for w in room.walls[1:])
    near, far = corner_offset(room, first, corner), corner_offset(room, later, corner)
    one = Polygon([(near, 0), (300, 0), (300, THICK), (near, THICK)])
    two = Polygon([(far, 0), (300, 0), (300, -THICK), (far, -THICK)])
    return one, rotate(two, angle, origin=(0, 0))


@pytest.mark.parametrize("angle", [40, 45, 60, 80, 89.5, 90, 90.5, 100, 120, 135, 140])
def test_boards_keep_the_fit_from_each_other_and_from_the_framing(angle: float) -> None:
    one, two = _boards(angle)
    assert one.distance(two) >= FIT * min(1.0, abs(sin(radians(angle)))) - 1e-6
    other_wall = Polygon([(0, 0), (900 * cos(radians(angle)), 900 * sin(radians(angle))), (-900, 900), (-900, 0)])
    assert one.distance(other_wall) >= FIT - 1e-6 if angle < 180 else True
    first_wall = Polygon([(0, 0), (900, 0), (900, -900), (-900, -900)])
    assert two.distance(first_wall) >= FIT - 1e-6


@pytest.mark.parametrize("angle", [90, 90.5, 100, 120, 135, 140])
def test_a_wide_corner_leaves_no_more_than_twice_the_fit_between_the_boards(angle: float) -> None:
    one, two = _boards(angle)
    assert one.distance(two) <= 2 * FIT
