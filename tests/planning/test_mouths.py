"""Framing of niches and windows, worked by hand in inches on a small room with 2x4 studs (1-1/2 by 3-1/2)."""

from __future__ import annotations

import math

import pytest

from generator.model.geometry import box
from generator.model.plan import Support
from generator.model.room import Room
from generator.planning.framing import plan_supports
from generator.planning.regions import plan_walls
from tests.reading.rooms import changed, read

Box = tuple[float, float, float, float]
STUDS = "centres: [3/4, 15, 30, 45, 59 1/4]"
"""Of the back wall: faces 0 to 1-1/2, 14-1/4 to 15-3/4, 29-1/4 to 30-3/4, 44-1/4 to 45-3/4, 58-1/2 to 60."""
DROP = 0.75 * math.cos(math.atan(1 / 48)) - 0.5 / 48
"""From the opening's bottom to the sill blocking: a strip 3/4 thick, square to a slope of 1 in 48, whose board is at
the bottom of the opening where it ends, 1/2 in before the studs."""


def niche(name: str = "shelf", across: float = 22.5, up: float = 48, width: str = "12", height: float = 24) -> str:
    return f"  - {{name: {name}, wall: back, across: {across}, up: {up}, width: {width}, height: {height}, depth: 2}}\n"


def room_with(*niches: str, kind: str = "niches", studs: str = STUDS) -> Room:
    return read(changed(("fittings:", f"{kind}:\n{''.join(niches)}fittings:"), (STUDS, studs)))


def framed(room: Room) -> dict[str, list[Support]]:
    """The supports of each wall."""
    supports = plan_supports(room, plan_walls(room))
    return {wall.id: [s for s in supports if s.wall == wall.id] for wall in room.walls}


def inches(support: Support) -> Box:
    left, low, right, high = (x / 25.4 for x in box(support.outline))
    return left, low, right, high


def boxes(supports: list[Support], word: str) -> list[Box]:
    """Of the supports whose reason begins with a word."""
    return [inches(s) for s in supports if s.reason.startswith(word)]


def close(*wanted: Box) -> list[object]:
    return [pytest.approx(one, abs=1e-4) for one in wanted]


def test_between_two_studs_it_needs_packing_header_and_sill() -> None:
    """Opening 16 to 29; the studs' faces at 15-3/4 and 29-1/4 are 1/4 away from its sides. Nothing is cut."""
    back = framed(room_with(niche()))["back"]
    sill = 47.5 - DROP
    assert boxes(back, "header") == close((16, 72.5, 29, 74))
    assert boxes(back, "sill") == close((16, sill - 1.5, 29, sill))
    assert boxes(back, "packs") == close((15.75, sill - 1.5, 16, 74), (29, sill - 1.5, 29.25, 74))
    assert not boxes(back, "trimmer")
    assert all(s.reason == "as found" for s in back if s.origin == "found")


def test_one_that_fills_its_bay_needs_neither_packing_nor_trimmer() -> None:
    back = framed(room_with(niche(across=17, width="bay")))["back"]
    assert boxes(back, "header") == close((15.75, 72.5, 29.25, 74))
    assert not boxes(back, "packs") and not boxes(back, "trimmer")


def test_across_a_stud_that_is_cut_between_header_and_sill() -> None:
    """Opening 19 to 42: the stud at 30 goes; trimmers stand at both sides, the next studs 3-1/4 and 2-1/4 away."""
    room = room_with(niche(across=30.5, width="22", height=12))
    back, sill = framed(room)["back"], 47.5 - DROP
    assert boxes(back, "trimmer") == close((17.5, 0, 19, 96), (42, 0, 43.5, 96))
    cut = [s for s in back if "; cut at shelf" in s.reason]
    assert [inches(s) for s in cut] == close((29.25, 0, 30.75, sill - 1.5), (29.25, 62, 30.75, 96))
    assert {s.room_path for s in cut} == {"walls.1.supports.studs.0.centres.2"}
    assert [s.axis[0][1] for s in cut] == pytest.approx([box(s.outline)[1] for s in cut])


def test_a_trimmer_stops_where_another_niche_is() -> None:
    """The lower niche spans 19 to 42, 35-1/2 to 48-1/2; the upper one's right trimmer would stand at 37 to 38-1/2."""
    room = room_with(
        niche("low", 30.5, 36, "22", 12), niche("high", 31.5, 60, "10", 12), studs="centres: [3/4, 59 1/4]"
    )
    back = framed(room)["back"]
    assert boxes(back, "trimmer at the right of high") == close((37, 0, 38.5, 35.5 - DROP - 1.5), (37, 50, 38.5, 96))


def test_blocking_that_was_found_is_cut_for_the_niche() -> None:
    """Opening 19-1/2 to 28-1/2: of a fire block from stud to stud 2-1/4 stay, left of the trimmer at 18 to 19-1/2."""
    studs = f"{STUDS}}}\n      blocking: [{{profile: wood-2x4, from: 15 3/4, to: 29 1/4, centre: 60}}]\n"
    text = changed(("fittings:", f"niches:\n{niche(across=24, width='8')}fittings:"), (f"{STUDS}}}\n", studs))
    back = framed(read(text))["back"]
    pieces = [inches(s) for s in back if s.kind == "blocking" and s.origin == "found"]
    assert pieces == close((15.75, 59.25, 18, 60.75))


def test_cleats_stand_behind_the_rear_board_from_sill_to_header() -> None:
    rear = framed(room_with(niche()))["shelf-rear"]
    sill = 47.5 - DROP
    assert boxes(rear, "cleat") == close((16, sill, 17.5, 72.5), (27.5, sill, 29, 72.5))
    assert [s.depth for s in rear] == pytest.approx([1.5 * 25.4] * 2)


def test_a_wide_rear_board_has_cleats_as_close_as_studs() -> None:
    """23 wide, first and last axis 21-1/2 apart: one more between them."""
    rear = framed(room_with(niche(across=30.5, width="22", height=12)))["shelf-rear"]
    axes = [s.axis[0][0] / 25.4 for s in rear]
    assert axes == pytest.approx([19.75, 30.5, 41.25])


def test_the_strip_lies_under_the_sill_board_and_is_seen_from_the_front() -> None:
    """From the stud faces back to the rear board less the fit: 2 - 1/2 - 1/8 deep, along the slope."""
    supports = framed(room_with(niche()))
    (strip,) = supports["shelf-sill"]
    deep = 1.375 * math.hypot(1, 1 / 48)
    assert inches(strip) == pytest.approx((-deep, 16, 0, 29), abs=1e-4)
    (front,) = [s for s in supports["back"] if s.same_as == strip.id]
    assert front.kind == "blocking"
    left, low, right, _ = inches(front)
    assert (left, low, right) == pytest.approx((16, 47.5 - DROP, 29), abs=1e-4)


def test_sides_and_head_borrow_the_framing() -> None:
    """In a full bay the studs' sides, 3-1/2 deep, carry the left and right board; the header's carries the head."""
    supports = framed(room_with(niche(across=17, width="bay")))
    sides = {face: supports[f"shelf-{face}"] for face in ("left", "right", "head")}
    ids = {s.id: s.reason for s in supports["back"]}
    assert [ids[s.same_as or ""] for one in sides.values() for s in one] == [
        "as found",
        "as found",
        "header over shelf",
    ]
    assert [inches(s)[::2] for s in sides["left"]] == [pytest.approx((0, 3.5))]
    assert [inches(s)[::2] for s in sides["right"]] == [pytest.approx((-3.5, 0))]
    assert [inches(s) for s in sides["head"]] == close((0, 15.75, 3.5, 29.25))


def test_framing_of_a_window_that_is_there_is_left_alone() -> None:
    """Studs at the sides, header on the opening's top, rough sill under its bottom: only the strip is new."""
    studs = (
        f"{STUDS}}}\n      blocking:\n"
        "        - {profile: wood-2x4, from: 30 3/4, to: 44 1/4, centre: 49 1/4}\n"
        "        - {profile: wood-2x4, from: 30 3/4, to: 44 1/4, centre: 74 3/4}\n"
    )
    window = "  - {name: light, wall: back, across: 37 1/2, up: 50, width: 13 1/2, height: 24, depth: 3}\n"
    text = changed(("fittings:", f"windows:\n{window}fittings:"), (f"{STUDS}}}\n", studs))
    back = framed(read(text))["back"]
    assert [s.reason for s in back if s.origin == "added"] == ["bevelled strip under the sill of light"]


def test_a_window_of_which_no_framing_was_listed_is_framed() -> None:
    window = "  - {name: light, wall: back, across: 37 1/2, up: 50, width: 13, height: 24, depth: 3}\n"
    back = framed(room_with(window, kind="windows"))["back"]
    assert boxes(back, "header") == close((31, 74, 44, 75.5))
    assert boxes(back, "sill") == close((31, 48.5, 44, 50))


def test_a_stud_that_closes_a_bay_over_a_wide_window_is_two_cripples() -> None:
    """Opening 16-1/2 to 43-1/2 and packed out: 30 from axis to axis, so one stud between, and none in the opening."""
    window = "  - {name: light, wall: back, across: 30, up: 50, width: 27, height: 24, depth: 3}\n"
    back = framed(room_with(window, kind="windows", studs="centres: [3/4, 15, 45, 59 1/4]"))["back"]
    assert boxes(back, "closes the bay") == close((29.25, 0, 30.75, 48.5), (29.25, 75.5, 30.75, 96))
