"""Rows of screws: where they stand, against the contract's words, a slow twin, and walls made to be awkward."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from generator.model.ends import corner_offset
from generator.model.geometry import rectangle
from generator.model.plan import (
    Board,
    Fastener,
    Opening,
    PlannedBase,
    PlannedSide,
    Support,
)
from generator.model.profiles import StudProfile
from generator.planning.fastening import plan_fasteners, screw_for
from generator.planning.fastening.rows import blocked, even, heights
from generator.planning.fastening.strips import strips
from tests.planning.finished import (
    NO_BASE,
    as_json,
    board_in,
    finished_worked,
    heights_in,
    limited,
    lone,
    plate_in,
    sheet_board,
    stud_in,
    wall_in,
)
from tests.verifier import screws as verifier
from tests.worked_plan import worked_plan
from tests.worked_room import STUD, mm, worked_room

ROOM = lone(worked_room())


def _fasten(
    boards: tuple[Board, ...], supports: tuple[Support, ...], base: PlannedBase = NO_BASE
) -> tuple[Fastener, ...]:
    return plan_fasteners(ROOM, (wall_in(60, 96),), (), base, supports, boards)


def _spots(screws: tuple[Fastener, ...]) -> list[tuple[float, float]]:
    return [(round(f.point[0] / 25.4, 4), round(f.point[1] / 25.4, 4)) for f in screws]


def test_the_worked_room_has_the_rows_laid_out_by_hand() -> None:
    by_hand, planned = worked_plan(), finished_worked()
    assert len(planned.fasteners) == len(by_hand.fasteners) == 137
    for a, b in zip(planned.fasteners, by_hand.fasteners, strict=True):
        assert (a.id, a.board_ids, a.support_id) == (b.id, b.board_ids, b.support_id)
        assert a.point == pytest.approx(b.point, abs=1e-5)


def test_a_row_runs_from_edge_distance_to_edge_distance() -> None:
    screws = _fasten((sheet_board(0, 10, 48, 90),), (stud_in(24, 0, 96),))
    assert {u for u, _ in _spots(screws)} == {24.0}
    assert heights_in([f.point for f in screws]) == pytest.approx([10.75 + 78.5 * i / 7 for i in range(8)], abs=1e-4)


def test_over_the_base_a_row_starts_above_the_flange_and_beside_it_at_the_boards_edge() -> None:
    side = PlannedSide("back", 0.0, mm(30), ((0.0, mm(9)), (mm(30), mm(9))), mm(11))
    base = PlannedBase("lapped", (), (side,))
    screws = _fasten((sheet_board(0, 10, 48, 90),), (stud_in(20, 0, 96), stud_in(40, 0, 96, "S-2")), base)
    lows = {u: min(v for x, v in _spots(screws) if x == u) for u in (20.0, 40.0)}
    assert lows == {20.0: 11 + 0.125 + 0.625, 40.0: 10.75}


def test_a_tray_keeps_its_lining_whole() -> None:
    """Threshold 4 in, screws above 5 in (IRC P2709.2, from memory): `flange_top` of a tray is that height."""
    side = PlannedSide("back", 0.0, mm(60), ((0.0, mm(1)), (mm(60), mm(1))), mm(5))
    screws = _fasten((sheet_board(0, 1.25, 48, 90),), (stud_in(24, 0, 96),), PlannedBase("tray", (), (side,)))
    assert min(v for _, v in _spots(screws)) == pytest.approx(5 + 0.125 + 0.625, abs=1e-4)


def test_two_boards_on_one_stud_have_a_row_each_off_the_seam() -> None:
    boards = (sheet_board(0, 10, 24, 90, "B-1"), sheet_board(24, 10, 48, 90, "B-2"))
    assert {u for u, _ in _spots(_fasten(boards, (stud_in(24, 0, 96),)))} == {23.625, 24.375}
    off_axis = (sheet_board(0, 10, 24.125, 90, "B-1"), sheet_board(24.125, 10, 48, 90, "B-2"))
    assert {u for u, _ in _spots(_fasten(off_axis, (stud_in(24, 0, 96),)))} == {24.125 - 0.4375, 24.5}


def test_a_board_that_hardly_reaches_a_stud_does_not_cross_it() -> None:
    reaching, short = sheet_board(0, 10, 23.75, 90), sheet_board(0, 10, 23.7, 90)
    assert _fasten((reaching,), (stud_in(24, 0, 96),))
    assert _fasten((short,), (stud_in(24, 0, 96),)) == ()


def test_a_leg_on_part_of_a_face_shares_its_row_with_the_board_above() -> None:
    leg = board_in("B-1", [(32, 0.25), (36, 0.25), (36, 90), (0.5, 90), (0.5, 18.75), (32, 18.75)])
    screws = _fasten((leg,), (stud_in(32, 0, 96),))
    assert {u for u, _ in _spots(screws)} == {32.375}
    assert heights_in([f.point for f in screws])[0] == 1.0


def test_a_leg_that_misses_the_face_leaves_the_row_to_the_board_above() -> None:
    leg = board_in("B-1", [(32, 0.25), (36, 0.25), (36, 90), (0.5, 90), (0.5, 18.75), (32, 18.75)])
    screws = _fasten((leg,), (stud_in(31.5, 0, 96),))
    assert {u for u, _ in _spots(screws)} == {31.5}
    assert heights_in([f.point for f in screws])[0] == 19.5


def test_washers_on_a_leg_clear_the_base_beside_it() -> None:
    leg = board_in("B-1", [(31.875, 0.25), (36, 0.25), (36, 90), (0.5, 90), (0.5, 18.75), (31.875, 18.75)])
    side = PlannedSide("back", 0.0, mm(31.75), ((0.0, mm(18.5)), (mm(31.75), mm(18.5))), mm(19.5))
    screws = _fasten((leg,), (stud_in(32, 0, 96),), PlannedBase("lapped", (), (side,)))
    assert all(0 < f.point[0] - f.washer_diameter / 2 - side.end < 0.02 for f in screws)
    assert heights_in([f.point for f in screws])[0] == 1.0


def test_a_short_support_ends_the_row_and_plates_carry_it_on() -> None:
    board = sheet_board(0, 0.25, 48, 95.875)
    short = stud_in(24, 20, 80)
    assert heights_in([f.point for f in _fasten((board,), (short,))])[::5] == [20.75, 79.25]
    stud, plates = (
        stud_in(24, 1.5, 94.5),
        (plate_in(0, 60, 0, 1.5, "S-2"), plate_in(0, 60, 94.5, 96, "S-3"), plate_in(0, 20, 94.5, 96, "S-4")),
    )
    screws = _fasten((board,), (stud, *plates))
    found = sorted((f.point[1], f.support_id) for f in screws)
    assert heights_in([f.point for f in screws])[::8] == [1.0, 95.125]
    assert [key for _, key in found] == ["S-2", *["S-1"] * 7, "S-3"]


def test_level_blocking_gets_no_row_of_its_own() -> None:
    blocking = replace(plate_in(1, 47, 50, 53.5, "S-2"), kind="blocking")
    assert {f.support_id for f in _fasten((sheet_board(0, 10, 48, 90),), (stud_in(24, 0, 96), blocking))} == {"S-1"}


def test_a_strip_too_low_for_both_distances_gets_one_screw_in_its_middle() -> None:
    assert _spots(_fasten((sheet_board(0, 10, 48, 11.25),), (stud_in(24, 0, 96),))) == [(24.0, 10.625)]


@pytest.mark.parametrize("angle", [60, 75, 90, 120, 135, 150])
def test_where_two_board_faces_meet_both_are_half_an_inch_from_their_framing(angle: int) -> None:
    """Equal boards meet on the line that halves the angle: t / tan(A / 2) from the framing corner."""
    assert corner_offset(12.7, 12.7, angle) == pytest.approx(12.7 / tan(angle * pi / 360))


@given(own=st.floats(5, 20), other=st.floats(5, 20), angle=st.integers(30, 330).filter(lambda a: abs(a - 180) > 5))
def test_the_line_where_faces_meet_lies_on_both(own: float, other: float, angle: int) -> None:
    """The point (u, own) seen from the neighbour's framing line, by the distance of a point from a line."""
    u = corner_offset(own, other, angle)
    assert u * sin(radians(angle)) - own * cos(radians(angle)) == pytest.approx(other)


def test_steel_takes_sharp_or_drill_points_by_its_thickness() -> None:
    """33 mil and over: drill points (ASTM C954 and C1002, from memory)."""
    steel = [
        StudProfile(f"steel-{mils}", "steel", STUD.origin, {}, "steel", 31.75, 92.0, mils) for mils in (18.0, 33.0)
    ]
    walls = (replace(ROOM.walls[0], supports=tuple(replace(ROOM.walls[0].supports[0], profile=p) for p in steel)),)
    room = replace(ROOM, walls=walls)
    kinds = [screw_for(room, replace(stud_in(24, 0, 96), material="steel", profile_id=p.id)).support for p in steel]
    assert [*kinds, screw_for(room, stud_in(24, 0, 96)).support] == ["light_steel", "heavy_steel", "wood"]


@given(start=st.floats(0, 500), span=st.floats(0, 3000), spacing=st.floats(50, 400))
def test_pitch_is_the_widest_that_divides_the_span(start: float, span: float, spacing: float) -> None:
    row = even(start, start + span, spacing)
    fewest = next(n for n in range(1, 200) if span / n <= spacing * (1 + 1e-9))
    assert len(row) == (1 if span < 1e-6 * spacing else fewest + 1)
    assert (row[0], row[-1]) == pytest.approx((start, start + span if len(row) > 1 else start))


def _touches(opening: Opening, u: float, v: float, radius: float) -> bool:
    if opening.diameter:
        return hypot(u - opening.centre[0], v - opening.centre[1]) < opening.diameter / 2 + radius
    return bool(Polygon(opening.ring).distance(Point(u, v)) < radius)


openings = st.one_of(
    st.builds(
        lambda u, v, d: Opening("O-1", "f", None, (u, v), d, ()),
        st.floats(-60, 60),
        st.floats(100, 900),
        st.floats(20, 250),
    ),
    st.builds(
        lambda u, v, w, h: Opening("O-1", "f", None, (u, v), 0.0, rectangle(u, v, u + w, v + h)),
        st.floats(-60, 10),
        st.floats(100, 900),
        st.floats(20, 90),
        st.floats(20, 300),
    ),
)


@settings(max_examples=60, deadline=None)
@given(opening=openings, spacing=st.floats(120, 320))
def test_a_screw_over_an_opening_moves_to_its_nearer_side(opening: Opening, spacing: float) -> None:
    """Twin: from each planned screw walk up and down until the washer is clear; the nearer find is its place."""
    radius, start, end = 15.875, 20.0, 1200.0
    placed = heights(start, end, spacing, blocked((opening,), 0.0, radius))
    for v in even(start, end, spacing):
        steps = [(0.25 * i, sign) for i in range(1600) for sign in (-1, 1)]
        near = next(
            (v + sign * d for d, sign in steps if not _touches(opening, 0.0, v + sign * d, radius - 1e-3)), None
        )
        assert near is not None
        if start + 1 < near < end - 1:
            assert min(min(abs(p - near), abs(p - (2 * v - near))) for p in placed) < 0.6
    assert not any(_touches(opening, 0.0, p, radius - 1e-3) for p in placed)
    for a, b in pairwise(placed):
        crosses = LineString(((0, a), (0, b))).distance(_area(opening)) < radius
        assert b - a <= spacing + 1e-6 or crosses


def _area(opening: Opening) -> Polygon:
    return Point(opening.centre).buffer(opening.diameter / 2) if opening.diameter else Polygon(opening.ring)


legs = st.tuples(st.integers(1, 40), st.integers(42, 60), st.integers(2, 30), st.integers(40, 90))


@settings(max_examples=40, deadline=None)
@given(shape=legs, centre=st.floats(0, 62), least=st.floats(8, 20))
def test_strips_are_where_a_slow_scan_finds_the_board_on_the_face(
    shape: tuple[int, int, int, int], centre: float, least: float
) -> None:
    inner, outer, foot, top = shape
    board = board_in("B-1", [(inner, 0), (outer, 0), (outer, top), (0, top), (0, foot), (inner, foot)])
    stud = stud_in(centre, -10, 120)
    found = [(s.low, s.high) for s in strips(board, stud, least, mm(0.75))]
    crossed = [v for v in range(1, int(mm(top))) if _on_face(board.outline, stud, v) >= least]
    covered = [v for v in range(1, int(mm(top))) if any(low <= v <= high for low, high in found)]
    assert covered == crossed


def _on_face(ring: tuple[tuple[float, float], ...], stud: Support, v: float) -> float:
    left, right = stud.outline[0][0], stud.outline[1][0]
    return float(Polygon(ring).intersection(LineString(((left, v), (right, v)))).length)


@settings(max_examples=12, deadline=None)
@given(spacing=st.floats(100, 400), edge=st.floats(15, 40), side=st.floats(5, 15), washer=st.floats(20, 34))
def test_rows_satisfy_a_reader_of_plan_json(spacing: float, edge: float, side: float, washer: float) -> None:
    room = limited(worked_room(), screw_spacing=spacing, screw_edge_distance=edge, screw_side_distance=side)
    screws = {k: replace(s, washer_diameter=washer) for k, s in room.choices.screws.items()}
    room = replace(room, choices=replace(room.choices, screws=screws))
    plan = worked_plan(room)
    placed = plan_fasteners(room, plan.walls, plan.folds, plan.base, plan.supports, plan.boards)
    plan_file = as_json(room, replace(plan, fasteners=placed))
    assert [v for check in (verifier.check_each, verifier.check_rows) for v in check(plan_file)] == []


def test_a_missing_row_does_not_go_unseen() -> None:
    plan = as_json(worked_room(), finished_worked())
    plan["fasteners"] = [f for f in plan["fasteners"] if f["support_id"] != "S-back-02"]
    assert [v.code for v in verifier.check_rows(plan)] == ["screw-spacing"]


def test_the_same_plan_gives_the_same_screws_whatever_the_order_of_its_supports() -> None:
    plan = worked_plan()
    room = worked_room()
    turned = plan_fasteners(room, plan.walls, plan.folds, plan.base, plan.supports[::-1], plan.boards[::-1])
    assert turned == plan_fasteners(room, plan.walls, plan.folds, plan.base, plan.supports, plan.boards)
