"""Measures on the solids: the numbers of worked-room.md, and what they become when the room is spoilt."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.geometry import canonical
from generator.model.plan import Board, Plan, Support
from generator.solids import measure as on
from tests.solids.bodies_of import bodies_of, with_board, with_support, worked_bodies
from tests.solids.test_bodies import turned
from tests.worked_plan import worked_plan, worked_room
from tests.worked_room import END_STUDS_AS_FOUND, mm, rect_in

LAPPED = ("B-back-1", "B-back-2", "B-left-1", "B-right-1")


def moved(board: Board, du: float, dv: float) -> Board:
    """A board and its rabbets, shifted on its wall."""
    rabbets = tuple(replace(r, ring=canonical((u + du, v + dv) for u, v in r.ring)) for r in board.rabbets)
    return replace(board, outline=canonical((u + du, v + dv) for u, v in board.outline), rabbets=rabbets)


def shifted(support: Support, du: float) -> Support:
    return replace(support, outline=canonical((u + du, v) for u, v in support.outline))


@pytest.mark.parametrize("board", LAPPED)
def test_gaps_are_those_worked_by_hand(board: str) -> None:
    """Deck gap 1/4, rabbet clearance 1/8 above the flange and 1/16 in depth, rabbet 1/4 deep."""
    bodies = worked_bodies()
    assert on.deck_gap(bodies, board) == pytest.approx(mm(1 / 4), abs=1e-6)
    assert on.flange_gap_above(bodies, board) == pytest.approx(mm(1 / 8), abs=1e-6)
    assert on.flange_gap_in_depth(bodies, board) == pytest.approx(mm(1 / 16), abs=1e-6)
    assert on.flange_distance(bodies, board) == pytest.approx(mm(1 / 16), abs=1e-6)
    assert on.rabbet_depths(bodies, board) == pytest.approx([mm(1 / 4)], abs=1e-6)


def test_upper_course_is_not_before_the_flange() -> None:
    assert on.flange_gap_in_depth(worked_bodies(), "B-left-2") is None
    assert on.rabbet_depths(worked_bodies(), "B-left-2") == ()


@pytest.mark.parametrize(("drop", "gap"), [(1 / 8, 1 / 8), (1 / 2, -1 / 4)])
def test_lowered_board_loses_its_gap_and_then_passes_the_deck(drop: float, gap: float) -> None:
    plan = with_board(worked_plan(), "B-back-1", lambda b: moved(b, 0.0, -mm(drop)))
    assert on.deck_gap(bodies_of(plan), "B-back-1") == pytest.approx(mm(gap), abs=1e-6)


def test_shallow_rabbet_meets_the_flange() -> None:
    def shallow(board: Board) -> Board:
        return replace(board, rabbets=tuple(replace(r, depth=mm(1 / 8)) for r in board.rabbets))

    bodies = bodies_of(with_board(worked_plan(), "B-left-1", shallow))
    assert on.flange_gap_in_depth(bodies, "B-left-1") == pytest.approx(-mm(1 / 16), abs=1e-6)
    assert on.flange_distance(bodies, "B-left-1") == 0.0
    shared = {(i.first, i.second): i.volume for i in on.interferences(bodies)}
    assert shared == {("B-left-1", "base"): pytest.approx(mm(31.75 - 5 / 8) * mm(3 / 4) * mm(1 / 16), rel=1e-6)}


def test_board_without_its_nip_meets_the_neighbour_flange() -> None:
    """The end flange stands 3/16 into the corner, the board starts at 1/8: they share 1/16 of its width."""

    def square(board: Board) -> Board:
        left = canonical((mm(1 / 8) if u < 10 else u, v) for u, v in board.outline)
        return replace(board, outline=left)

    bodies = bodies_of(with_board(worked_plan(), "B-back-1", square))
    assert on.flange_distance(bodies, "B-back-1") == 0.0
    assert [(i.first, i.second) for i in on.interferences(bodies)] == [("B-back-1", "base")]


def test_bearings_are_those_of_the_plan() -> None:
    for edge in (e for e in worked_plan().edges if e.bearing is not None):
        measured = on.bearing(worked_bodies(), edge.board, edge.p, edge.q, edge.support_ids)
        assert measured == pytest.approx(edge.bearing, abs=1e-6), edge.id


def edge_bearing(plan: Plan, edge_id: str) -> float | None:
    edge = next(e for e in plan.edges if e.id == edge_id)
    return on.bearing(bodies_of(plan), edge.board, edge.p, edge.q, edge.support_ids)


@pytest.mark.parametrize(("shift", "left"), [(1 / 4, 1 / 2), (-1 / 4, 1), (7 / 8, 0), (-7 / 8, 0)])
def test_bearing_follows_the_stud(shift: float, left: float) -> None:
    """The left board of the seam at 31 bears on the stud's left half; 3/4 of face on either side of the axis."""
    plan = with_support(worked_plan(), "S-back-03", lambda s: shifted(s, mm(shift)))
    assert edge_bearing(plan, "E-B-back-1-02") == pytest.approx(mm(left), abs=1e-6)


def test_bearing_follows_the_board_that_was_cut() -> None:
    """The plan's edge says 31, the board is 1/16 short of it: the solid decides."""
    plan = with_board(worked_plan(), "B-back-1", lambda b: moved(b, -mm(1 / 16), 0.0))
    assert edge_bearing(plan, "E-B-back-1-02") == pytest.approx(mm(3 / 4 - 1 / 16), abs=1e-6)


def test_short_stud_leaves_part_of_the_edge_without_bearing() -> None:
    plan = with_support(worked_plan(), "S-back-03", lambda s: replace(s, outline=rect_in(30.25, 0, 31.75, 90)))
    assert edge_bearing(plan, "E-B-back-1-02") == 0.0


def test_plate_carries_what_the_stud_does_not() -> None:
    plate = replace(worked_plan().supports[0], id="P-top", wall="back", kind="plate", outline=rect_in(0, 90, 60.25, 96))
    plan = with_support(worked_plan(), "S-back-03", lambda s: replace(s, outline=rect_in(30.25, 0, 31.75, 90)))
    plan = replace(plan, supports=(*plan.supports, plate))
    edge = next(e for e in plan.edges if e.id == "E-B-back-1-02")
    measured = on.bearing(bodies_of(plan), edge.board, edge.p, edge.q, ("S-back-03", "P-top"))
    assert measured == pytest.approx(mm(3 / 4), abs=1e-6)


def test_stud_behind_the_plane_of_the_faces_bears_nothing() -> None:
    plan = worked_plan()
    back = plan.wall("back")
    sunk = replace(back, origin=(0.0, 2.0, 0.0))
    studs = bodies_of(replace(plan, walls=tuple(sunk if w.id == "back" else w for w in plan.walls)))
    bodies = replace(
        worked_bodies(), parts=(*worked_bodies().of_kind("board"), *(p for p in studs.parts if p.kind == "stud"))
    )
    edge = next(e for e in plan.edges if e.id == "E-B-back-1-02")
    assert on.bearing(bodies, edge.board, edge.p, edge.q, edge.support_ids) == 0.0


def test_nothing_meets_in_the_room_that_passes() -> None:
    assert on.interferences(worked_bodies()) == ()


def test_as_measured_three_things_meet_the_stud() -> None:
    """worked-room.md: valve body, spout and arm stand in the stud at 16 1/4; body 4 1/2 x 4 1/2 x 3, stud 1 1/2."""
    room = worked_room(END_STUDS_AS_FOUND)
    found = {
        i.second: i.volume for i in on.interferences(bodies_of(worked_plan(room), room)) if i.first == "S-right-02"
    }
    assert sorted(found) == ["arm", "spout", "valve"]
    assert found["valve"] == pytest.approx(mm(1.5) * mm(4.5) * mm(3), rel=1e-6)


def test_interference_agrees_with_every_pair() -> None:
    """The broad phase drops nothing: all pairs, one by one, on a room with a board out of place."""
    plan = with_board(worked_plan(), "B-back-2", lambda b: moved(b, -mm(1), -mm(1)))
    bodies = bodies_of(plan)
    pairs = [(a, b) for i, a in enumerate(bodies.parts) for b in bodies.parts[i + 1 :]]
    slow = {(a.id, b.id) for a, b in pairs if a.shape.intersect(b.shape).Volume() > 1.0}
    assert {(i.first, i.second) for i in on.interferences(bodies)} == slow
    assert ("B-back-1", "B-back-2") in slow and ("B-back-2", "base") in slow


@pytest.mark.parametrize("angle", [0.3, 1.0, 2.5, -0.7])
def test_measures_do_not_depend_on_how_the_wall_stands(angle: float) -> None:
    plan = worked_plan()
    plan = replace(plan, walls=tuple(turned(w, angle) if w.id == "back" else w for w in plan.walls))
    back = plan.base.sides[1]
    plan = replace(plan, base=replace(plan.base, sides=(back,)))
    bodies = bodies_of(plan)
    assert on.deck_gap(bodies, "B-back-2") == pytest.approx(mm(1 / 4), abs=1e-6)
    assert on.flange_gap_in_depth(bodies, "B-back-2") == pytest.approx(mm(1 / 16), abs=1e-6)
    edge = next(e for e in plan.edges if e.id == "E-B-back-1-02")
    assert on.bearing(bodies, edge.board, edge.p, edge.q, edge.support_ids) == pytest.approx(mm(3 / 4), abs=1e-6)
