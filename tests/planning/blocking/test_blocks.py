"""Where blocks stand, worked by hand in inches; and where none may stand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.features import Mouth
from generator.model.geometry import box, rectangle
from generator.model.mounts import Mount
from generator.model.plan import Support
from generator.model.room import Room
from generator.planning.blocking.fittings import fitting_rows
from generator.planning.blocking.mounts import back_lines, mount_rows
from generator.planning.blocking.rows import Row, fill, flat
from generator.planning.blocking.seams import seam_rows
from generator.planning.supports import found_supports
from tests.checks.access_rooms import bar
from tests.worked_plan import worked_plan
from tests.worked_room import FOAM, STUD, mm, rect_in, worked_room

TWO_BY_EIGHT = replace(STUD, id="wood-2x8", depth=mm(7.25))


def _room(*mounts: Mount) -> Room:
    """The worked room: studs of the right wall at 3/4, 12-1/2, 28, 32-3/4 and 36 in from its left end."""
    room = worked_room()
    return replace(room, mounts=mounts, choices=replace(room.choices, added_block=TWO_BY_EIGHT))


def _inches(support: Support) -> tuple[float, ...]:
    return tuple(round(x / 25.4, 4) for x in box(support.outline))


def _blocks(room: Room, wall_id: str, rows: list[Row]) -> list[tuple[float, ...]]:
    wall = next(w for w in room.walls if w.id == wall_id)
    return sorted(_inches(b) for row in rows for b in fill(room, wall, row, found_supports(wall)))


def _of_mount(mount: Mount) -> list[tuple[float, ...]]:
    room = _room(mount)
    wall = next(w for w in room.walls if w.id == mount.wall)
    return _blocks(room, wall.id, list(mount_rows(room, wall)))


def test_a_bar_gets_one_run_of_blocks_over_every_bay_that_it_spans() -> None:
    """A bar from 4 to 36 in at 50 in (the axis 49-3/8): bays between the faces of the studs, 45-3/4 to 53 in up."""
    assert _of_mount(bar("b", "right", 4, 50, 32)) == [
        (1.5, 45.75, 11.75, 53.0),
        (13.25, 45.75, 27.25, 53.0),
        (28.75, 45.75, 32.0, 53.0),
        (33.5, 45.75, 35.25, 53.0),
    ]


def test_a_block_gives_way_to_a_fitting_as_far_as_the_plates_allow() -> None:
    """Over the spout (its hole with clearance ends 23.5625 up) a bar at 27 in: the block moves up, not through it.

    The valve's body above reaches down to 25.75, so between the two there is no room: the middle bay stays empty.
    """
    assert [b[:1] for b in _of_mount(bar("b", "right", 4, 27, 32))] == [(1.5,), (28.75,), (33.5,)]


def test_a_block_slides_clear_of_the_shower_arm() -> None:
    """Arm at 78 in, diameter 0.84 in: with its clearance it begins 77.33 up; plates from 71.875 to 74.875 in."""
    middle = next(b for b in _of_mount(bar("b", "right", 14, 74, 13)) if b[0] == 13.25)
    assert middle == (13.25, 69.75, 27.25, 77.0)
    higher = next(b for b in _of_mount(bar("b", "right", 14, 75.5, 13)) if b[0] == 13.25)
    assert higher[3] < 77.33 and higher[1] <= 73.375 and higher[3] >= 76.375


def test_found_blocking_that_is_solid_behind_the_plates_serves() -> None:
    mount = bar("b", "back", 18, 50, 11)
    room = _room(mount)
    back = next(w for w in room.walls if w.id == "back")
    row = next(mount_rows(room, back))
    found = found_supports(back)
    axis = ((mm(16.625), mm(49.5)), (mm(30.25), mm(49.5)))
    there = replace(found[0], kind="blocking", outline=rect_in(16.625, 47, 30.25, 52), axis=axis)
    assert list(fill(room, back, row, (*found, there))) == []
    assert len(list(fill(room, back, row, found))) == 1


def test_no_block_goes_into_a_niche() -> None:
    mount = bar("b", "back", 18, 50, 11)
    room = _room(mount)
    back = next(w for w in room.walls if w.id == "back")
    niche = replace(back, mouths=(Mouth("", "n", "niche", rect_in(18, 46, 28, 56), mm(3.5)),))
    assert list(fill(room, niche, next(mount_rows(room, niche)), found_supports(niche))) == []


def test_fittings_get_a_block_behind_them_at_their_depth() -> None:
    """Spout at 23 and arm at 78 in, 15-7/8 across: a flat 2x4 from 13-1/4 to 27-1/4, set back by the elbow's 7/8 in.

    Behind the valve's body, 3 in deep, a block of 1-1/2 in finds no room in a stud of 3-1/2 in.
    """
    room = _room()
    right = next(w for w in room.walls if w.id == "right")
    rows = list(fitting_rows(room, right, found_supports(right)))
    assert [row.set_back for row in rows] == [pytest.approx(mm(7 / 8))] * 2
    assert _blocks(room, "right", rows) == [(13.25, 21.25, 27.25, 24.75), (13.25, 76.25, 27.25, 79.75)]


def test_glass_gets_a_stud_where_none_stands_in_its_line() -> None:
    line = Mount("m", "g", "g", "back", "glass", "upright", rectangle(mm(21.5), mm(20), mm(22.5), mm(80)), (), mm(1))
    room = _room(line)
    back = next(w for w in room.walls if w.id == "back")
    planned = worked_plan().wall("back")
    (added,) = set(back_lines(room, back, planned, found_supports(back))) - set(found_supports(back))
    assert (_inches(added)[0], _inches(added)[2], added.cause) == (21.25, 22.75, "mount")
    on_stud = replace(line, ring=rectangle(mm(30.5), mm(20), mm(31.5), mm(80)))
    assert back_lines(_room(on_stud), back, planned, found_supports(back)) == found_supports(back)


def test_a_level_seam_is_backed_only_for_boards_that_ask_for_it() -> None:
    """The seam at 60 in runs from 24 to 59-3/8 in: blocks between studs at 24, 27-1/4, 32, 47-1/2 and 59-1/4."""
    room, plan = _room(), worked_plan()
    left = next(w for w in room.walls if w.id == "left")
    assert list(seam_rows(room, left, plan.boards)) == []
    stocks = tuple(replace(s, board=replace(FOAM, horizontal_backing=True)) for s in room.choices.stocks)
    asking = replace(room, choices=replace(room.choices, stocks=stocks))
    blocks = _blocks(asking, "left", list(seam_rows(asking, left, plan.boards)))
    assert [(b[0], b[2]) for b in blocks] == [(24.75, 26.5), (28.0, 31.25), (32.75, 46.75), (48.25, 58.5)]
    assert {(b[1], b[3]) for b in blocks} == {(58.25, 61.75)}


def test_lumber_laid_flat_turns_its_wide_side_to_the_room() -> None:
    assert (flat(TWO_BY_EIGHT).face, flat(TWO_BY_EIGHT).depth) == (mm(7.25), mm(1.5))
