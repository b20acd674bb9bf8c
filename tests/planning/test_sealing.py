"""Bands, patches and collars: against slow twins, the verifier, and bands that were taken away."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.geometry import Point, Ring, box
from generator.model.plan import (
    Band,
    Edge,
    Plan,
    PlannedBase,
    PlannedSide,
)
from generator.model.room import Room
from generator.planning.sealing.bottoms import bottom_runs
from generator.planning.sealing.legs import Leg
from generator.planning.sealing.pieces import common, cut_legs
from generator.planning.sealing.spots import collar_ring, uncovered
from generator.planning.sealing.surface import find_surfaces
from tests.planning.finished import as_json, finished, finished_worked, limited, sheet_board, size_in, wall_in
from tests.verifier import bands as verifier
from tests.worked_plan import worked_plan
from tests.worked_room import mm, worked_room

CHECKS = (
    verifier.check_cover,
    verifier.check_screws_covered,
    verifier.check_laps,
    verifier.check_lengths,
    verifier.check_collars,
)


def _violations(room: Room, plan: Plan) -> list[str]:
    record = as_json(room, plan)
    return [v.message for check in CHECKS for v in check(record)]


def _banded(room: Room, **changes: float) -> Room:
    return replace(room, choices=replace(room.choices, band=replace(room.choices.band, **changes)))  # type: ignore[arg-type]


def _by_kind(plan: Plan, kind: str) -> list[Band]:
    return [band for band in plan.bands if band.kind == kind]


def _inside(ring: Ring, point: Point) -> bool:
    """Crossing count of a ray to the right, by hand."""
    crossings = 0
    for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (v0 > point[1]) != (v1 > point[1]) and point[0] < u0 + (point[1] - v0) / (v1 - v0) * (u1 - u0):
            crossings += 1
    return crossings % 2 == 1


def test_the_worked_room_satisfies_a_reader_of_plan_json() -> None:
    assert _violations(worked_room(), finished_worked()) == []


def test_rings_of_the_worked_room() -> None:
    """Half the 5 in band on either side of a joint; up from the bottom edge; from the line where faces meet."""
    plan = finished_worked()
    rings = {band.id: [(r.wall, size_in(r.ring)) for r in band.rings] for band in plan.bands}
    assert rings["T-back-seam-001"] == [("back", (28.5, 18.75, 33.5, 95.875))]
    assert rings["T-back-base-001"] == [("back", (0.5, 18.75, 59.75, 23.75))]
    assert rings["T-back-right-corner-001"] == [
        ("back", (57.25, 18.75, 59.75, 95.875)),
        ("right", (0.5, 18.75, 3.0, 95.875)),
    ]
    assert rings["T-right-seam-001"] == [("right", (33.5, 0.25, 38.5, 95.875))]
    assert rings["T-right-base-003"] == [("right", (32.0, 0.25, 37.0, 21.25))]


JUNCTIONS = {
    "back": [(31, 18.75), (0.5, 18.75), (59.75, 18.75)],
    "right": [(0.5, 18.75), (32, 18.75), (32, 0.25), (36, 0.25)],
    "left": [(59.5, 18.75), (28, 18.75), (28, 0.25), (24, 0.25), (24, 60), (59.5, 60)],
}


def test_at_each_place_where_joints_meet_two_pieces_lap() -> None:
    """The junctions of the worked room, listed by hand: two pieces reach each and list each other as laps."""
    plan = finished_worked()
    for wall, points in JUNCTIONS.items():
        for u, v in points:
            here = [b for b in plan.bands if b.kind in ("seam", "corner", "base") and _reaches(b, wall, (mm(u), mm(v)))]
            laps = [(a.id, b.id) for a in here for b in here if b.id in a.lap_ids]
            assert laps, (wall, u, v)


def _reaches(band: Band, wall: str, point: Point) -> bool:
    boxes = [box(r.ring) for r in band.rings if r.wall == wall]
    return any(b[0] - 0.01 <= point[0] <= b[2] + 0.01 and b[1] - 0.01 <= point[1] <= b[3] + 0.01 for b in boxes)


def test_laps_are_mutual_and_wide_enough() -> None:
    bands = {band.id: band for band in finished_worked().bands}
    for band in bands.values():
        for other in band.lap_ids:
            assert band.id in bands[other].lap_ids
            assert common(band, bands[other]) >= mm(2) - 1e-6


@settings(max_examples=12, deadline=None)
@given(width=st.floats(110, 220), roll=st.floats(2500, 12000), patch=st.floats(50, 140))
def test_any_band_and_roll_keeps_cover_and_laps(width: float, roll: float, patch: float) -> None:
    room = _banded(worked_room(), width=width, roll_length=roll, patch_side=patch)
    assert _violations(room, finished_worked(room)) == []


@pytest.mark.parametrize("roll", [600.0, 900.0, 1500.0, 2000.0])
def test_short_rolls_are_lapped_along_the_joint(roll: float) -> None:
    room = _banded(worked_room(), roll_length=roll)
    plan = finished_worked(room)
    assert all(band.length <= roll + 1e-6 for band in plan.bands)
    assert list(verifier.check_cover(as_json(room, plan))) == []
    pieces = [b for b in plan.bands if b.id.startswith("T-right-seam")]
    assert len(pieces) > 1
    for below, above in pairwise(sorted(pieces, key=lambda b: b.rings[0].ring)):
        assert above.id in below.lap_ids
        assert common(below, above) == pytest.approx(mm(2), abs=1e-4)


@given(length=st.floats(30, 9000), roll=st.floats(200, 3000), lap=st.floats(20, 90))
def test_pieces_cover_a_joint_with_as_few_cuts_as_the_roll_allows(length: float, roll: float, lap: float) -> None:
    pieces = [legs[0] for legs in cut_legs((Leg("w", (0.0, 0.0), (length, 0.0), 50.0, 50.0),), roll, lap)]
    assert (pieces[0].p[0], pieces[-1].q[0]) == pytest.approx((0, length), abs=1e-5)
    assert all(a.q[0] - b.p[0] == pytest.approx(lap, abs=1e-5) for a, b in pairwise(pieces))
    assert all(piece.length <= roll + 1e-5 for piece in pieces)
    fewest = next(n for n in range(1, 500) if n * roll - (n - 1) * lap >= length - 1e-4)
    assert len(pieces) == fewest


def _washer(point: Point, radius: float) -> Iterator[Point]:
    for i in range(72):
        yield point[0] + radius * cos(2 * pi * i / 72), point[1] + radius * sin(2 * pi * i / 72)


def test_a_patch_lies_over_each_screw_that_nothing_else_covers_and_over_no_other() -> None:
    """Twin: 72 points of each washer's rim, each asked of each ring by counting crossings."""
    plan = finished_worked()
    rings = [(r.wall, r.ring) for b in plan.bands if b.kind != "patch" for r in b.rings]
    bare = {
        f.id
        for f in plan.fasteners
        if not any(
            wall == f.wall and all(_inside(ring, p) for p in _washer(f.point, f.washer_diameter / 2 - 1e-3))
            for wall, ring in rings
        )
    }
    patched = [band.covers[0] for band in _by_kind(plan, "patch")]
    assert sorted(patched) == sorted(bare)
    assert 0 < len(bare) < len(plan.fasteners)


def test_patches_hold_their_washers_and_stay_on_the_faces() -> None:
    room = limited(worked_room(), screw_edge_distance=16.0)
    plan = finished_worked(room)
    screws = {f.id: f for f in plan.fasteners}
    for patch in _by_kind(plan, "patch"):
        screw, (left, bottom, right, top) = screws[patch.covers[0]], box(patch.rings[0].ring)
        radius = screw.washer_diameter / 2
        u, v = screw.point
        assert min(u - left, right - u, v - bottom, top - v) >= radius - 1e-6
        assert (right - left, top - bottom) == pytest.approx((mm(5), mm(5)))
        assert top <= mm(95.875) + 1e-6


def test_a_collar_is_a_polygon_on_its_circle() -> None:
    ring = collar_ring((100.0, 200.0), 80.0)
    assert len(ring) == 64
    assert all(hypot(u - 100, v - 200) == pytest.approx(40, abs=1e-5) for u, v in ring)
    assert box(ring) == (60, 160, 140, 240)


def test_each_fitting_with_an_opening_gets_one_collar() -> None:
    plan = finished_worked()
    assert sorted(band.covers[0] for band in _by_kind(plan, "collar")) == ["arm", "spout", "valve"]
    bare = finished(worked_room(), replace(plan, boards=tuple(replace(b, openings=()) for b in plan.boards)))
    assert _by_kind(bare, "collar") == []


@pytest.mark.parametrize("kind", ["seam", "corner", "base", "collar"])
def test_a_band_taken_away_does_not_go_unseen(kind: str) -> None:
    plan = finished_worked()
    gone = _by_kind(plan, kind)[0]
    left = tuple(replace(b, lap_ids=tuple(i for i in b.lap_ids if i != gone.id)) for b in plan.bands if b.id != gone.id)
    assert _violations(worked_room(), replace(plan, bands=left))


def test_a_band_too_narrow_for_the_cover_does_not_go_unseen() -> None:
    room = _banded(worked_room(), width=mm(3.5))
    assert any("lie under no band" in message for message in _violations(room, finished_worked(room)))


def test_without_patches_screws_are_bare() -> None:
    plan = finished_worked()
    joints = tuple(band for band in plan.bands if band.kind != "patch")
    assert len(list(uncovered(plan.fasteners, joints))) == len(_by_kind(plan, "patch"))


def test_a_thick_flange_takes_part_of_the_band() -> None:
    """Butted 1 in above the deck: the band hangs 3/4 in onto the flange, 1/4 in clear of the deck."""
    room = worked_room()
    plan = worked_plan(room)
    base = replace(
        plan.base,
        kind="butted",
        sides=tuple(
            replace(s, deck=tuple((u, mm(17.75)) for u, _ in s.deck), flange_top=mm(18.625)) for s in plan.base.sides
        ),
    )
    bands = {b.id: b for b in finished(room, replace(plan, base=base)).bands}
    assert size_in(bands["T-back-base-001"].rings[0].ring) == (0.5, 18.0, 59.75, 23.0)


@pytest.mark.parametrize("turned", [False, True])
def test_a_seam_between_the_base_and_a_leg_leaves_no_splinter_of_band(turned: bool) -> None:
    """The base ends at 31-3/4, the leg starts at 32, the seam stands at 31-7/8: one run of band over the base."""
    bottoms = [((0.0, 18.75), (31.875, 18.75)), ((31.875, 18.75), (32.0, 18.75)), ((32.0, 0.25), (36.0, 0.25))]
    if turned:
        bottoms = [((36 - q[0], q[1]), (36 - p[0], p[1])) for p, q in reversed(bottoms)]
    edges = tuple(
        Edge(f"E-{i}", "B-1", (mm(p[0]), mm(p[1])), (mm(q[0]), mm(q[1])), "bottom", None, (), None)
        for i, (p, q) in enumerate(bottoms)
    )
    start, end = (mm(4.25), mm(36)) if turned else (0.0, mm(31.75))
    side = PlannedSide("back", start, end, ((start, mm(18.5)), (end, mm(18.5))), mm(19.5))
    (surface,) = find_surfaces((wall_in(36, 96),), (), (), (sheet_board(0, 0.25, 36, 90),), edges)
    runs = bottom_runs(surface, PlannedBase("lapped", (), (side,)))
    assert sorted(round(run.length / 25.4, 6) for run in runs) == [4.0, 31.75]
    (over,) = [run for run in runs if run.side]
    assert len(over.edges) == 2
    assert sorted(round(n / 25.4, 6) for n in over.past) == [0.0, 0.25]


def test_the_same_plan_gives_the_same_bands_whatever_the_order_of_its_parts() -> None:
    room, plan = worked_room(), worked_plan()
    turned = replace(plan, boards=plan.boards[::-1], edges=plan.edges[::-1], corners=plan.corners[::-1])
    assert finished(room, turned).bands == finished(room, plan).bands
