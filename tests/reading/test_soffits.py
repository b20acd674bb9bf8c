"""Soffits as faces in the room, and what they take of the walls: by hand, in inches, board 1/2, fit 1/8."""

from __future__ import annotations

import pytest

from tests.reading.built_rooms import TUB, at, inches, wall_of
from tests.reading.rooms import read

HUNG = TUB + "soffits:\n  - {name: box, along: back, from: 36, depth: 15, height: 84}\n"


def test_its_faces_stand_against_the_right_wall_and_end_free_at_the_left() -> None:
    """It is framed from 36 to the right wall at 60, from the back wall out to 15, from 84 to the ceiling at 96."""
    room = read(HUNG)
    under, front, left = (wall_of(room, f"box-{which}") for which in ("underside", "front", "left"))
    assert [wall.id for wall in room.walls[3:]] == ["box-underside", "box-front", "box-left"]
    # Framing goes to the studs: 24 long, 15 deep, 12 high. Underside and front end with it at the free end.
    assert inches(under.outline) == [(0, 0), (24, 0), (24, 15), (0, 15)]
    assert inches(under.extent) == [(0, 0), (24, 0), (24, 15), (0, 15)]
    assert inches(front.outline) == [(0, 0), (24, 0), (24, 12), (0, 12)]
    # The front laps the underside's edge by a board, the end laps both.
    assert inches(front.extent) == [(0, -0.5), (24, -0.5), (24, 12), (0, 12)]
    assert inches(left.extent) == [(0, 83.5), (15.5, 83.5), (15.5, 96), (0, 96)]
    assert under.frame is not None and front.frame is not None and left.frame is not None
    # The back wall runs along x at y = 60, the room lies in front of it.
    assert at(under.frame.origin) == pytest.approx((36, 60, 84)) and under.frame.w_axis == (0.0, 0.0, -1.0)
    assert at(front.frame.origin) == pytest.approx((36, 45, 84)) and front.frame.w_axis == (0.0, -1.0, 0.0)
    assert left.frame.w_axis == (-1.0, 0.0, 0.0)


def test_boards_keep_off_the_walls_faces_and_the_ceiling() -> None:
    """A board and the fit off each wall, the fit off the ceiling."""
    room = read(HUNG)
    kept = {w.id: sorted((a.name, *inches(a.ring)) for a in w.allowances) for w in room.walls if w.feature == "box"}
    beside = [(23.375, 0), (24, 0), (24, 15), (23.375, 15)]
    assert kept["box-underside"] == [("neighbour", (0, 0), (24, 0), (24, 0.625), (0, 0.625)), ("neighbour", *beside)]
    assert kept["box-front"] == [
        ("fit", (0, 11.875), (24, 11.875), (24, 12), (0, 12)),
        ("neighbour", (23.375, -0.5), (24, -0.5), (24, 12), (23.375, 12)),
    ]


def test_the_walls_boards_end_round_it() -> None:
    """1/8 off its framing, hidden by its 1/2 in boards; on the right wall at 15 1/4, where a stud begins."""
    room = read(HUNG)
    taken = {wall.id: [(a.name, inches(a.ring)) for a in wall.allowances] for wall in room.chain}
    assert taken == {
        "left": [],
        "back": [("soffit", [(35.875, 83.875), (60, 83.875), (60, 96), (35.875, 96)])],
        "right": [("soffit", [(0, 83.875), (15.25, 83.875), (15.25, 96), (0, 96)])],
    }


def test_its_folds() -> None:
    """Inside at the walls; outside between underside, front and end, which all face the room."""
    folds = {fold.faces: round(fold.angle_deg, 6) for fold in read(HUNG).folds}
    assert folds == {
        ("back", "box-underside"): 90.0,
        ("right", "box-underside"): 90.0,
        ("right", "box-front"): 90.0,
        ("back", "box-left"): 90.0,
        ("box-underside", "box-front"): 270.0,
        ("box-underside", "box-left"): 270.0,
        ("box-front", "box-left"): 270.0,
    }


def test_from_wall_to_wall_it_has_no_ends() -> None:
    room = read(HUNG.replace("from: 36, ", ""))
    assert [wall.face for wall in room.walls if wall.feature == "box"] == ["underside", "front"]
    assert [len(wall.allowances) for wall in room.chain] == [1, 1, 1]
