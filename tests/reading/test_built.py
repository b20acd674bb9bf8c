"""Faces of what is built in the room, against hand numbers in inches. Boards are 1/2 thick, the fall is 1 in 48.

Framing stands before the boards of the walls: it begins 1/2 from their framing.
"""

from __future__ import annotations

from math import dist, hypot

import pytest

from generator.model.geometry import Point, area, rectangle
from generator.model.placing import placed
from generator.reading.facing import above, below
from tests.reading.built_rooms import BENCH, CORNER, CURB, DECK, HALF, at, inches, wall_of
from tests.reading.rooms import changed, read

FALL = 1 / 48
SLANT = hypot(1.0, FALL)
"""Length along a slope for each inch level."""
ROOMS = {
    "bench": BENCH,
    "corner": CORNER,
    "five sides": changed(("legs: [16, 16]", "legs: [18, 20], returns: 6"), text=CORNER),
    "curb": CURB,
    "deck": DECK,
    "half": HALF,
    "sloped half": changed(("height: 42", "heights: [{at: 0, is: 48}, {at: 34, is: 42}]"), text=HALF),
    "bench between": changed(("from: 36, ", ""), text=BENCH),
    "bench away": changed(("from: 36, ", "from: 12, length: 30, "), text=BENCH),
}


@pytest.mark.parametrize("name", ROOMS)
def test_frames_are_right_handed_and_square(name: str) -> None:
    for wall in read(ROOMS[name]).walls:
        if wall.frame is not None:
            u, v, w = wall.frame.u_axis, wall.frame.v_axis, wall.frame.w_axis
            cross = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
            assert cross == pytest.approx(w, abs=1e-9)
            assert sum(a * b for a, b in zip(u, v, strict=True)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("name", ROOMS)
def test_both_faces_see_a_fold_in_one_place(name: str) -> None:
    """A point half an inch before one face is the same point of the room as the one before the other."""
    room = read(ROOMS[name])
    frames = dict(placed(room.chain, room.corners, room.base)) | {w.id: w.frame for w in room.walls if w.frame}
    board = room.choices.stocks[0].board.thickness
    assert room.folds
    for fold in room.folds:
        for p, q in zip(*fold.lines, strict=True):
            here, there = frames[fold.faces[0]].at(*p, board), frames[fold.faces[1]].at(*q, board)
            assert dist(here, there) < 2e-6, fold.id


@pytest.mark.parametrize("name", ROOMS)
def test_no_board_lies_in_another(name: str) -> None:
    """At an outside fold the first board stays behind the framing plane of the one that laps it, at all its depth, and
    no part of that one stands out beyond the first one's face: one of its arrises lies in it."""
    room = read(ROOMS[name])
    board = room.choices.stocks[0].board.thickness
    faces = {w.id: w for w in room.walls if w.frame is not None}
    for fold in (f for f in room.folds if f.angle_deg > 180.0 and set(f.faces) <= set(faces)):
        first, later = (faces[i] for i in fold.faces)
        assert first.frame is not None and later.frame is not None
        reached = [later.frame.of(first.frame.at(u, v, w))[2] for u, v in first.extent for w in (0.0, board)]
        assert max(reached) <= 1e-5
        ahead = [first.frame.of(later.frame.at(u, v, w))[2] for u, v in later.extent for w in (0.0, board)]
        assert max(ahead) == pytest.approx(board, abs=1e-5)


def test_a_bench_by_hand() -> None:
    """From 36 to the right wall at 60: its front 15 out, 17 high; the seat rises 15/48 to the wall."""
    room = read(BENCH)
    front, left, seat = (wall_of(room, f"seat-{which}") for which in ("front", "left", "seat"))
    assert inches(front.outline) == [(0, 0), (23.5, 0), (23.5, 17), (0, 17)]
    assert inches(front.extent)[2][1] == pytest.approx(17 - FALL / 2, abs=1e-4)
    assert inches(left.outline) == [(0.5, 0), (15, 0), (15, 17), (0.5, round(17 + 14.5 * FALL, 4))]
    assert inches(left.extent)[1] == (15.5, 0)
    assert list(inches(seat.outline)[2]) == pytest.approx([23.5, 14.5 * SLANT], abs=1e-4)
    assert [a.name for a in front.allowances] == ["neighbour", "leg-gap"]
    assert inches(front.allowances[0].ring)[0] == (23.375, 0)
    frame = seat.frame
    assert frame is not None
    back = placed(room.chain, room.corners, room.base)["back"]
    assert back.of(frame.at(0.0, 0.0)) == pytest.approx((36 * 25.4, 17 * 25.4, 15 * 25.4))
    assert back.of(frame.at(0.0, 15 * SLANT * 25.4)) == pytest.approx((36 * 25.4, 17.3125 * 25.4, 0.0), abs=1e-6)


def test_what_a_bench_between_two_walls_needs_no_ends() -> None:
    room = read(ROOMS["bench between"])
    assert [w.id for w in room.walls if w.frame] == ["seat-front", "seat-seat"]
    away = read(ROOMS["bench away"])
    assert [w.id for w in away.walls if w.frame] == ["seat-front", "seat-left", "seat-right", "seat-seat"]


def test_a_corner_seat_by_hand() -> None:
    """Legs of 16, 15 before the boards: a front of 15 root 2, a seat of 15 x 15 / 2, and more for its slope."""
    room = read(CORNER)
    front, seat = wall_of(room, "seat-front"), wall_of(room, "seat-seat")
    us = [u for u, _ in inches(front.outline)]
    assert max(us) - min(us) == pytest.approx(15 * 2**0.5, abs=2e-4)
    assert area(seat.outline) / 25.4**2 == pytest.approx(15 * 15 / 2 * SLANT, rel=1e-6)
    inside = [f for f in room.folds if f.faces == ("left", "seat-front")]
    assert [f.angle_deg for f in inside] == [pytest.approx(135.0)]


def test_five_sides_have_two_ends_square_to_the_walls() -> None:
    room = read(ROOMS["five sides"])
    left, right = wall_of(room, "seat-left"), wall_of(room, "seat-right")
    assert (inches(left.outline)[1], inches(right.outline)[1]) == ((6, 0), (5.5, 0))
    seat = wall_of(room, "seat-seat")
    assert area(seat.outline) / 25.4**2 == pytest.approx((17.5 * 19.5 - 12 * 14 / 2) * SLANT, rel=1e-6)


def test_a_curb_by_hand() -> None:
    """3-1/2 thick from 36 on: 4-1/2 high, level; faces of 59 between the boards of the side walls."""
    room = read(CURB)
    inside, outside, cap = (wall_of(room, f"curb-{which}") for which in ("inside", "outside", "cap"))
    assert inches(inside.outline) == [(0, 0.5), (4.5, 0.5), (4.5, 59.5), (0, 59.5)]
    assert inches(outside.outline)[1] == (4.5, 0.5)
    assert inches(cap.outline)[1] == (round(3.5 * SLANT, 4), 0.5)
    feature = room.features[0]
    assert (feature.kind, feature.drains) == ("curb", ("curb-cap",))


def test_the_faces_of_a_curb_meet_its_side_walls_up_to_the_face_of_its_top() -> None:
    """Outside: 4-1/2, the fall over 3-1/2 and one board of 1/2, and the slanting board: 5.0834 in."""
    room = read(CURB)
    line = next(f.lines[1] for f in room.folds if f.faces == ("left", "curb-outside"))
    assert max(u for u, _ in line) / 25.4 == pytest.approx(4.5 + 4.0 / 48.0 + 0.5 * SLANT, abs=1e-4)


def test_a_deck_falls_to_the_tub_and_keeps_off_it() -> None:
    """12 wide beside a tub that begins at 12: its top is 16 high at the tub and 12/48 more at the wall."""
    room = read(DECK)
    top, back = wall_of(room, "ledge-top"), placed(room.chain, room.corners, room.base)["back"]
    assert top.frame is not None
    low, high = (back.of(top.frame.at(0.0, v * SLANT * 25.4)) for v in (0.0, 12.0))
    assert at(low) == pytest.approx((12, 16, 30))
    assert at(high) == pytest.approx((0, 16.25, 30), abs=1e-6)
    assert {a.name for a in top.allowances} == {"neighbour", "base"}


def test_a_half_wall_is_three_walls_and_a_cap() -> None:
    room = read(HALF)
    assert [w.id for w in room.chain] == ["back", "half", "half-end", "half-outside"]
    assert [(c.left_wall, c.angle_deg, c.first) for c in room.corners][1:] == [
        ("half", 270.0, "half"),
        ("half-end", 270.0, "half-outside"),
    ]
    end, cap = wall_of(room, "half-end"), wall_of(room, "half-cap")
    assert inches(end.extent) == [(-0.5, 0), (4, 0), (4, round(42 - FALL / 2, 4)), (-0.5, round(42 - FALL / 2, 4))]
    assert inches(cap.outline)[2] == (round(3.5 * SLANT, 4), 34)
    assert [w.borrows for w in room.chain] == [False, False, True, True]


def test_at_the_other_end_of_the_list_it_is_mirrored() -> None:
    walls = HALF[: HALF.index("walls:\n")]
    back, half = HALF[HALF.index("  - name: back") :].split("  - name: half")
    room = read(f"{walls}walls:\n  - name: half{half}{back}")
    assert [w.id for w in room.chain] == ["half-outside", "half-end", "half", "back"]
    frames = placed(room.chain, room.corners, room.base)
    back_plane = frames["back"]
    cap = wall_of(room, "half-cap")
    assert cap.frame is not None
    assert cap.frame.w_axis[2] > 0.99
    us = [back_plane.of(cap.frame.at(u, v))[2] for u, v in cap.outline]
    assert (min(us), max(us)) == pytest.approx((0.5 * 25.4, 34 * 25.4), abs=1e-5)
    inside = frames["half"]
    heights = {round(inside.of(cap.frame.at(u, v))[1] / 25.4, 4) for u, v in cap.outline}
    assert heights == {42.0, round(42 + 3.5 * FALL, 4)}


def test_a_sloped_cap_falls_both_ways() -> None:
    """From 48 down to 42 over 34: across it still falls 1 in 48 to the inside. Its ends are cut square, where the
    planes would have them askew by 3-1/2 x 1/48 x 6/34 = 1/80 in."""
    room = read(ROOMS["sloped half"])
    inside = placed(room.chain, room.corners, room.base)["half"]
    cap = wall_of(room, "half-cap")
    assert cap.frame is not None
    corners = sorted(tuple(x / 25.4 for x in inside.of(cap.frame.at(u, v))) for u, v in cap.outline)
    assert [(u, w) for u, _, w in corners] == [
        pytest.approx(corner, abs=1e-3) for corner in [(0.5, 0), (0.5125, -3.5), (33.9875, 0), (34, -3.5)]
    ]
    assert [v for _, v, _ in corners] == pytest.approx([48 - u * 6 / 34 - w * FALL for u, _, w in corners])


def test_a_lapping_edge_passes_the_framing_by_one_board_square_to_the_wall_that_it_laps() -> None:
    """By hand: a cap that falls 1 in 48 to the inside. Its outer edge, cut square, touches the outside's finished face
    with its lower arris: 1/2 in level, 1/2 x sec along the slope. Its inner edge touches with the upper arris, which
    leans over by 1/2 x sin: so its lower one stands 1/96 in behind the face of the inside."""
    room = read(HALF)
    cap = wall_of(room, "half-cap")
    (left, _), (right, _) = inches(cap.extent)[:2]
    assert left == pytest.approx(-0.5 * SLANT, abs=1e-4)
    assert right == pytest.approx((3.5 + 0.5) * SLANT - 0.5 * FALL, abs=1e-4)


@pytest.mark.parametrize("most", [0.0, 3.0, 7.5, 12.0])
def test_clipping_keeps_all_of_the_area_on_one_side_or_the_other(most: float) -> None:
    ring: tuple[Point, ...] = rectangle(0, 0, 10, 4)
    line = (0.6, 0.8, 0.0)
    kept, rest = below(ring, line, most), above(ring, line, most)
    assert sum(area(part) for part in (kept, rest) if len(part) > 2) == pytest.approx(40.0)


def test_faces_are_named_after_what_they_belong_to() -> None:
    room = read(BENCH)
    (feature,) = room.features
    assert feature.faces == tuple(w.id for w in room.walls if w.feature == "seat")
