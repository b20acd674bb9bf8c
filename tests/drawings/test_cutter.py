"""A disc is rolled along the way of the cutter, by shapely: what it leaves of a sheet is the part that was wanted."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, LineString, Point, Polygon, box
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from generator.drawings.cutter import cutter_way, inner_corners, relieved, run_over
from generator.model.geometry import Ring, canonical

FINE = 0.02
"""mm: how far the cut part may be off."""
RADIUS = 3.175
LEG = canonical(((0, 470), (797, 470), (797, 0), (898.5, 0), (898.5, 1500), (0, 1500)))
SKEW = canonical(((0, 400), (500, 405), (510, 0), (700, 10), (690, 900), (-8, 905)))
SLOT = canonical(((0, 0), (200, 0), (200, 80), (110, 80), (110, 40), (90, 40), (90, 80), (0, 80)))
MOUTH = canonical(((100, 700), (500, 703), (498, 1000), (102, 996)))


def _swept(way: Ring, radius: float = RADIUS) -> BaseGeometry:
    """All that the disc takes on its way (a circle of 256 chords)."""
    return LinearRing(way).buffer(radius, quad_segs=64)


def _left_of(way: Ring, hole: bool) -> BaseGeometry:
    """What remains inside a way round an outline; all that is taken away by a way inside a hole."""
    swept = _swept(way)
    return Polygon(way).union(swept) if hole else Polygon(way).difference(swept)


def _apart(a: BaseGeometry, b: BaseGeometry) -> float:
    return float(a.boundary.hausdorff_distance(b.boundary))


@pytest.mark.parametrize("ring", [canonical(((0, 0), (300, 0), (300, 200), (0, 200))), MOUTH])
def test_a_part_without_inner_corners_comes_out_as_it_is(ring: Ring) -> None:
    way = cutter_way(ring, RADIUS, (), hole=False)
    assert _apart(_left_of(way, hole=False), Polygon(ring)) < FINE


@pytest.mark.parametrize("ring", [LEG, SKEW, SLOT])
def test_an_inner_corner_keeps_a_fillet_of_the_cutter_and_nothing_else(ring: Ring) -> None:
    """The fillet of theory: what no disc outside the part can reach, a closing by the disc."""
    want = Polygon(ring).buffer(RADIUS, quad_segs=64).buffer(-RADIUS, quad_segs=64)
    assert _apart(_left_of(cutter_way(ring, RADIUS, (), hole=False), hole=False), want) < FINE


@pytest.mark.parametrize("ring", [LEG, SKEW, SLOT])
def test_with_reliefs_the_cutter_reaches_every_inner_corner_and_takes_no_more_than_they_say(ring: Ring) -> None:
    reliefs = inner_corners(ring, RADIUS, hole=False)
    reflex = {p for p in ring if not _is_convex(ring, p)}
    assert len(reliefs) == len(reflex)
    left = _left_of(cutter_way(ring, RADIUS, reliefs, hole=False), hole=False)
    for p in reflex:
        assert left.distance(Point(p)) < FINE or left.boundary.distance(Point(p)) < FINE
    want: BaseGeometry = Polygon(ring).buffer(RADIUS, quad_segs=64).buffer(-RADIUS, quad_segs=64)
    for relief in reliefs:
        want = want.difference(LineString((relief.turn, relief.end)).buffer(RADIUS, quad_segs=64))
    assert _apart(left, want) < FINE
    assert _apart(Polygon(relieved(ring, reliefs, hole=False)), left) < FINE


def _is_convex(ring: Ring, p: tuple[float, float]) -> bool:
    i = ring.index(p)
    (ax, ay), (bx, by) = ring[i - 1], ring[(i + 1) % len(ring)]
    return (p[0] - ax) * (by - p[1]) - (p[1] - ay) * (bx - p[0]) > 0


@pytest.mark.parametrize("ring", [MOUTH, SLOT])
def test_inside_a_hole_the_cutter_keeps_off_its_edges(ring: Ring) -> None:
    want = Polygon(ring).buffer(-RADIUS, quad_segs=64).buffer(RADIUS, quad_segs=64)
    assert _apart(_left_of(cutter_way(ring, RADIUS, (), hole=True), hole=True), want) < FINE


def test_a_relieved_mouth_is_reached_to_its_four_corners() -> None:
    reliefs = inner_corners(MOUTH, RADIUS, hole=True)
    assert len(reliefs) == 4
    taken = _left_of(cutter_way(MOUTH, RADIUS, reliefs, hole=True), hole=True)
    assert all(taken.distance(Point(p)) < FINE for p in MOUTH)
    assert _apart(Polygon(relieved(MOUTH, reliefs, hole=True)), taken) < FINE


def test_a_square_corner_is_relieved_as_a_workshop_draws_it() -> None:
    """Disc through the corner, its middle on the diagonal: r / sqrt 2 off either side."""
    (relief,) = inner_corners(LEG, RADIUS, hole=False)
    assert relief.end == pytest.approx((797 - RADIUS / math.sqrt(2), 470 - RADIUS / math.sqrt(2)))
    assert relief.turn == pytest.approx((797 - RADIUS, 470 - RADIUS))


def test_a_step_that_the_cutter_cannot_enter_gets_no_relief() -> None:
    """A notch 5 wide under a cutter of 6.35."""
    ring = canonical(((0, 0), (100, 0), (100, 50), (105, 50), (105, 0), (200, 0), (200, 100), (0, 100)))
    assert inner_corners(ring, RADIUS, hole=False) == ()


def test_a_hole_smaller_than_the_cutter_has_no_way() -> None:
    assert cutter_way(canonical(((0, 0), (6, 0), (6, 40), (0, 40))), RADIUS, (), hole=True) == ()


def test_ways_are_simple_rings_without_pieces_too_short_to_cut() -> None:
    for ring, hole in ((LEG, False), (SKEW, False), (SLOT, False), (MOUTH, True)):
        way = cutter_way(ring, RADIUS, inner_corners(ring, RADIUS, hole), hole)
        assert LinearRing(way).is_simple
        assert all(math.dist(p, q) > 0.005 for p, q in zip(way, (*way[1:], way[0]), strict=True))


@given(st.floats(0, 360), st.floats(1, 12), st.floats(20, 200), st.floats(20, 200))
def test_an_l_of_any_turn_is_left_as_wanted(angle: float, radius: float, a: float, b: float) -> None:
    shape = rotate(box(0, 0, 400, 400).difference(box(0, 0, a, b)), angle, origin=(0, 0))
    assert isinstance(shape, Polygon)
    ring = canonical((x, y) for x, y, *_ in shape.exterior.coords[:-1])
    reliefs = inner_corners(ring, radius, hole=False)
    assert len(reliefs) == 1
    way = cutter_way(ring, radius, reliefs, hole=False)
    left = Polygon(way).difference(LinearRing(way).buffer(radius, quad_segs=64))
    corner = max(ring, key=lambda p: (not _is_convex(ring, p), p))
    assert left.boundary.distance(Point(corner)) < FINE
    assert left.difference(shape.buffer(FINE)).area < 0.01
    bite = shape.difference(left).buffer(-FINE)
    assert bite.is_empty or bite.bounds[2] - bite.bounds[0] < 2 * radius


def test_an_open_side_runs_over_and_a_closed_one_stays() -> None:
    """The rabbet of a board with a leg: open at the bottom and at the left, closed at the right end and above."""
    pocket = canonical(((0, 470), (793.75, 470), (793.75, 492.2), (0, 492.2)))
    assert run_over(pocket, LEG, RADIUS) == canonical(
        ((-RADIUS, 470 - RADIUS), (793.75, 470 - RADIUS), (793.75, 492.2), (-RADIUS, 492.2))
    )


def test_a_side_that_is_open_for_a_part_of_its_length_runs_over_there_only() -> None:
    """A pocket across the foot of the step: under it the outline goes on up to 797 only."""
    pocket = canonical(((700, 470), (850, 470), (850, 500), (700, 500)))
    ran = Polygon(run_over(pocket, LEG, RADIUS))
    assert ran.symmetric_difference(box(700, 470, 850, 500).union(box(700, 470 - RADIUS, 797, 470))).area < 1e-6


@given(st.floats(1, 10))
def test_what_runs_over_a_skewed_edge_lies_outside_the_board(reach: float) -> None:
    """Open along a sloping bottom and a leaning left side, closed above and at the right end."""
    board = Polygon(SKEW)
    strip = board.intersection(Polygon(((-50, 399.5), (480, 404.8), (479.7, 430), (-50, 424.7))))
    assert isinstance(strip, Polygon)
    pocket = canonical((x, y) for x, y, *_ in strip.exterior.coords[:-1])
    ran = Polygon(run_over(pocket, SKEW, reach))
    assert ran.intersection(board).symmetric_difference(strip).area < 0.01
    open_length = 480.0 + 25.0
    assert ran.difference(board).area == pytest.approx(open_length * reach + reach**2, rel=0.01)
