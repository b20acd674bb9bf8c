"""Boards, framing and screws of a soffit: the example room by hand, in inches, board 1/2, fit 1/8, studs 1 1/2 x 3 1/2.

It is framed from 36 on the back wall to the right wall at 60, 15 deep, from 84 to the ceiling at 96.
"""

from __future__ import annotations

import pytest

from generator.model.geometry import area, box
from generator.model.plan import Board, Plan, Support
from generator.planning.bays import heights, is_upright
from generator.planning.pipeline import make_plan
from tests.example_rooms import planned
from tests.reading.built_rooms import TUB
from tests.reading.rooms import changed, read
from tests.worked_room import mm

NAME = "soffit-over-tub"


def _plan() -> Plan:
    return planned(NAME)[1]


def _board(board_id: str) -> Board:
    return _plan().board(board_id)


def _inches(support: Support) -> tuple[float, ...]:
    return tuple(round(side / 25.4, 3) for side in box(support.outline))


def _own(plan: Plan, wall: str) -> dict[str, list[tuple[float, ...]]]:
    """Faces of a wall's own pieces, by what they are."""
    found: dict[str, list[tuple[float, ...]]] = {}
    for support in (s for s in plan.supports if s.wall == wall and s.same_as is None):
        found.setdefault(support.reason.removesuffix(" of soffit"), []).append(_inches(support))
    return found


@pytest.mark.parametrize(
    ("board", "across", "up"),
    [
        # 24 less a board and the fit at the right wall; 15 less the same at the back wall.
        ("B-soffit-underside-1", 23.375, 14.375),
        # As long; 12 high and a board to lap the underside's edge, less the fit at the ceiling.
        ("B-soffit-front-1", 23.375, 12.375),
        # 15 less a board and the fit at the back wall, and a board to lap the front's edge.
        ("B-soffit-left-1", 14.875, 12.375),
    ],
)
def test_each_board_has_the_area_and_the_volume_worked_by_hand(board: str, across: float, up: float) -> None:
    found = _board(board)
    assert area(found.outline) == pytest.approx(mm(across) * mm(up))
    density = next(stock.density for stock in _plan().stocks if stock.id == found.stock_id)
    assert found.weight_kg == pytest.approx(mm(across) * mm(up) * mm(0.5) * 1e-9 * density, abs=1e-5)


def test_the_ladder_and_its_lookouts() -> None:
    """24 long with a piece at either end, one between: 24 - 1 1/2 = 22 1/2 is more than 16."""
    under, front = _own(_plan(), "soffit-underside"), _own(_plan(), "soffit-front")
    assert under == {
        "ledger on the studs": [(1.5, 0, 24, 1.5)],
        "lower rail of the ladder": [(0, 11.5, 24, 15)],
        "bottom plate of the left end": [(0, 0, 1.5, 11.5)],
        "lookout": [(11.25, 1.5, 12.75, 11.5), (22.5, 1.5, 24, 11.5)],
    }
    assert front == {
        "upper rail of the ladder": [(0, 10.5, 24, 12)],
        "upright of the ladder": [(0, 1.5, 1.5, 10.5), (11.25, 1.5, 12.75, 10.5), (22.5, 1.5, 24, 10.5)],
    }
    # 15 - 1 1/2 is less than 16: nothing between the nailer and the ladder's last upright.
    assert _own(_plan(), "soffit-left") == {"nailer at the wall": [(0, 87.5, 1.5, 96)]}


def test_the_lower_rail_is_one_piece_for_three_faces() -> None:
    rail = next(s for s in _plan().supports if s.reason.startswith("lower rail") and s.same_as is None)
    assert {s.wall for s in _plan().supports if s.same_as == rail.id} == {"soffit-front", "soffit-left"}


def test_an_edge_beside_it_has_a_stud_wide_enough_for_washers_that_clear_its_face() -> None:
    """Boards end 1/8 off the framing, its own face is 3/8 farther, half a washer 5/8: a stud flush with the edge."""
    stud = next(s for s in _plan().supports if "beside the soffit" in s.reason and s.wall == "right")
    assert _inches(stud) == (15.125, 0, 16.625, 96)
    beside = [f for f in _plan().fasteners if f.support_id == stud.id and f.point[1] > mm(84)]
    assert beside and all(f.point[0] - f.washer_diameter / 2 >= mm(15.5) - 1e-6 for f in beside)


def test_no_washer_of_a_wall_lies_under_the_boards_of_its_underside() -> None:
    """Its finished face hangs at 83 1/2."""
    below = [f for f in _plan().fasteners if f.wall == "back" and mm(36) < f.point[0] < mm(59) and f.point[1] > mm(80)]
    assert below and all(f.point[1] + f.washer_diameter / 2 <= mm(83.5) + 1e-6 for f in below)


def test_no_seam_ends_beside_its_lower_corner() -> None:
    seams = [e for e in _plan().edges if e.role == "seam" and e.board.startswith(("B-back", "B-right"))]
    for corner, wall in (((35.875, 83.875), "B-back"), ((15.125, 83.875), "B-right")):
        for edge in (e for e in seams if e.board.startswith(wall)):
            for u, v in (edge.p, edge.q):
                assert max(abs(u - mm(corner[0])), abs(v - mm(corner[1]))) >= mm(4) - 1e-6


def test_a_seam_in_a_long_one_stands_on_a_lookout_between_the_rails() -> None:
    """60 long from wall to wall: no sheet of 32 x 48 covers its underside in one."""
    text = changed(
        ("start: 12, length: 48", "length: 60"),
        ("base:", "choices: {sheets: [{board: foam-1-2, size: 32x48}]}\nbase:"),
        text=TUB + "soffits:\n  - {name: box, along: back, depth: 15, height: 84}\n",
    )
    plan = make_plan(read(text))
    seams = [e for e in plan.edges if e.role == "seam" and e.board.startswith("B-box-underside")]
    assert seams and all(e.bearing is not None and e.bearing >= mm(0.625) for e in seams)
    lookouts = [s for s in plan.supports if s.wall == "box-underside" and is_upright(s) and s.kind == "stud"]
    assert {tuple(round(v / 25.4, 3) for v in heights(s)) for s in lookouts} == {(1.5, 11.5)}
