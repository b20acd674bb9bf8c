"""A stud beside the one in a corner that leans, by hand, in inches: board 1/2, washer 1 1/4, fit 1/8, studs 1 1/2.

The left end of the back wall leans in, over 96. Boards end 1/8 under the ceiling, at 95 7/8: there the face of the left
wall's boards stands lean * 95.875 / 96 + 1/2 from the foot of the corner, and half a washer more is 5/8. A plumb row
has a place on the stud from 0 to 1 1/2 while lean * 0.9987 + 1 1/8 is at most 1 1/2: up to 3/8, and not at 7/16.
"""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from generator.checks import run_plan_checks
from generator.errors import CannotPlanError
from generator.model.findings import Finding
from generator.model.geometry import box
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from tests.planning.finished import as_json
from tests.properties.light import wholly
from tests.reading.rooms import changed, read
from tests.verifier import run
from tests.verifier.changing import Mutation, first, shift
from tests.verifier.plain import Record
from tests.verifier.plans import plan_bytes
from tests.verifier.screws import check_rows

ROOM = """\
name: leaning corner
units: in
place: {code: none}
base: {kind: none}
walls:
  - name: left
    width: 40
    height: 96
    boards: {reach: 33 3/4}
    supports: {studs: [{profile: wood-2x4, centres: [6 1/4, 22, 31, 39 1/4]}]}
  - name: back
    width: 46
    height: 96
    plumb: {left: 7/16}
    beside: free
    supports:
      studs:
        - {profile: wood-2x4, centres: [3/4, 15, 30, 45 1/4]}
choices: {sheets: [{board: foam-1-2, size: 48x96}]}
"""
PIPE = "fittings:\n  - {name: pipe, wall: back, kind: arm, profile: copper-1-2, across: 2 1/4, up: 80}\nchoices:"


@cache
def _planned(*changes: tuple[str, str]) -> tuple[Room, Plan]:
    """With the search for sheets, which lays one board on each wall."""
    room = read(changed(*changes, text=ROOM))
    with wholly():
        return room, make_plan(room)


def _added(plan: Plan) -> list[tuple[float, float]]:
    """Faces of the studs that take screws for another, from left to right."""
    own = [s for s in plan.supports if s.wall == "back" and s.reason.startswith("takes the screws")]
    return [(round(box(s.outline)[0] / 25.4, 4), round(box(s.outline)[2] / 25.4, 4)) for s in own]


def _columns(plan: Plan, low: float = 60.0, high: float = 96.0) -> list[float]:
    """Where rows stand on the back wall between two heights; by itself up where the corner leaves least."""
    own = [f.point for f in plan.fasteners if f.wall == "back"]
    return sorted({round(u / 25.4, 3) for u, v in own if low < v / 25.4 < high})


def _broken(room: Room, plan: Plan) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = {}
    for one in run_plan_checks(room, plan):
        if one.verdict == "fail":
            found.setdefault(one.rule, []).append(one)
    return found


def test_a_stud_flush_beside_that_in_the_corner_takes_its_row() -> None:
    room, plan = _planned()
    assert _added(plan) == [(1.5, 3.0)]
    assert _columns(plan)[:2] == [2.25, 15.0], "the middle of its face, and nothing on that in the corner"
    edge = next(e for e in plan.edges if e.role == "corner" and e.board.startswith("B-back"))
    assert [box(plan.support(s).outline)[0] for s in edge.support_ids] == [0.0], "which bears the edge as before"
    assert _broken(room, plan) == {}


def test_the_verifier_finds_nothing_wrong_with_it(tmp_path: Path) -> None:
    (tmp_path / "room.yaml").write_text(ROOM, "utf-8")
    assert run.unexplained(json.loads(plan_bytes(tmp_path / "room.yaml"))) == []


@pytest.mark.parametrize(("lean", "added"), [("3/8", []), ("7/16", [(1.5, 3.0)])])
def test_only_where_no_washer_has_a_place(lean: str, added: list[tuple[float, float]]) -> None:
    assert _added(_planned(("left: 7/16", f"left: {lean}"))[1]) == added


def test_a_steel_stud_is_doubled_by_another() -> None:
    """A face of 1 1/4: at a lean of 1/4 it would have to be 0.2497 + 1 1/8 wide."""
    _, plan = _planned(
        ("left: 7/16", "left: 1/4"),
        (
            "profile: wood-2x4, centres: [3/4, 15, 30, 45 1/4]",
            "profile: steel-362s125-18, centres: [5/8, 15, 30, 45 3/8]",
        ),
    )
    assert _added(plan) == [(1.25, 2.5)]
    assert _columns(plan)[0] == 1.875


def test_an_upright_that_is_there_already_takes_them() -> None:
    _, plan = _planned(("centres: [3/4, 15,", "centres: [3/4, 2 1/4, 15,"))
    assert _added(plan) == [] and _columns(plan)[0] == 2.25


def test_of_boards_in_courses_the_lower_one_goes_by_the_upper() -> None:
    """Half way up the corner leaves a place, but one row runs all the way: two so near would lie on each other."""
    _, plan = _planned(("48x96", "48x64"))
    seam = min(box(board.outline)[3] for board in plan.boards if board.wall == "back") / 25.4
    assert 7 / 16 * seam / 96 + 1 / 2 + 5 / 8 < 1.5
    assert _columns(plan, 0.0, seam)[:2] == _columns(plan, seam)[:2] == [2.25, 15.0]


def test_where_a_pipe_leaves_no_room_for_a_stud_the_room_is_refused() -> None:
    with pytest.raises(CannotPlanError, match="a wider upright there"):
        _planned(("choices:", PIPE))


@pytest.mark.parametrize("gone", ["row", "touch"])
def test_a_corner_stud_without_screws_is_excused_by_a_row_that_touches_it_alone(gone: str) -> None:
    room, plan = _planned()
    beside = next(s for s in plan.supports if s.reason.startswith("takes the screws"))
    if gone == "row":
        plan = replace(plan, fasteners=tuple(f for f in plan.fasteners if f.support_id != beside.id))
    else:
        apart = tuple((u + 1.0, v) for u, v in beside.outline)
        plan = replace(plan, supports=tuple(replace(s, outline=apart) if s is beside else s for s in plan.supports))
    broken = _broken(room, plan)["screwed"]
    assert len(broken) == (2 if gone == "row" else 1)
    assert all("S-back-0" in one.subject for one in broken)


def test_a_stud_with_a_place_is_not_excused_by_the_row_beside_it() -> None:
    room, plan = _planned(("left: 7/16", "left: 3/8"), ("centres: [3/4, 15,", "centres: [3/4, 2 1/4, 15,"))
    assert "screwed" not in _broken(room, plan)
    bare = replace(plan, fasteners=tuple(f for f in plan.fasteners if f.support_id != "S-back-01"))
    assert [one.subject for one in _broken(room, bare)["screwed"]] == ["B-back-1 on S-back-01: no screw there"]
    assert any(v.code == "screw-spacing" and "on S-back-01" in v.message for v in check_rows(as_json(room, bare)))


def _beside(plan: Record) -> Record:
    return first(plan["supports"], lambda s: s["reason"].startswith("takes the screws"))


def _row_gone(plan: Record) -> None:
    beside = _beside(plan)
    plan["fasteners"] = [f for f in plan["fasteners"] if f["support_id"] != beside["id"]]


def _set_apart(plan: Record) -> None:
    for points in (_beside(plan)["outline"], _beside(plan)["axis"]):
        shift(points, 3.0, 0.0)


def _row_too_short(plan: Record) -> None:
    beside = _beside(plan)
    plan["fasteners"] = [f for f in plan["fasteners"] if f["support_id"] != beside["id"] or f["point"][1] < 70 * 25.4]


@pytest.mark.parametrize("change", [_row_gone, _set_apart, _row_too_short])
def test_the_verifier_excuses_it_no_further(change: Mutation) -> None:
    plan = as_json(*_planned())
    assert list(check_rows(plan)) == []
    change(plan)
    assert any(v.code == "screw-spacing" and "on S-back-01" in v.message for v in check_rows(plan))
