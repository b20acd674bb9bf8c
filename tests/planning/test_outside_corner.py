"""A chase that stands out of a wall, worked by hand: the front is wider, so its boards go up first."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.checks import run_plan_checks
from generator.model.geometry import box
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.reading import read_room

IN = 25.4
CHASE = """
name: chase
units: in
place: {code: none}
floor: {datum: finished}
base: {kind: none}
walls:
  - name: back
    width: 40
    height: 84
    duty: non_bearing
    beside: free
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 14, 27, 39 1/4]}]}
  - name: side
    width: 14
    height: 84
    duty: non_bearing
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 13 1/4]}]}
  - name: front
    width: 30
    height: 84
    duty: non_bearing
    beside: free
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 15, 29 1/4]}]}
corners:
  - {between: [side, front], angle: 270}
choices:
  sheets:
    - {board: foam-1-2, size: 36x60}
    - {board: foam-1-2, size: 48x96}
"""


@pytest.fixture(scope="module", name="chase")
def _chase(tmp_path_factory: pytest.TempPathFactory) -> tuple[Room, Plan]:
    path: Path = tmp_path_factory.mktemp("chase") / "chase.yaml"
    path.write_text(CHASE, "utf-8")
    room = read_room(path)
    return room, make_plan(room)


def test_the_first_wall_ends_with_its_framing_and_the_other_laps_its_edge(chase: tuple[Room, Plan]) -> None:
    """Boards 1/2 in, fit 1/8 in: the side starts a board and the fit from the back, and passes 14 in by 1/2 in."""
    _, plan = chase
    side = [p for b in plan.boards if b.wall == "side" for p in b.outline]
    front = [p for b in plan.boards if b.wall == "front" for p in b.outline]
    assert [u / IN for u in box(side)[::2]] == pytest.approx([0.625, 14.5])
    assert [u / IN for u in box(front)[::2]] == pytest.approx([0.0, 30.0])
    assert max(v for _, v in side) / IN == pytest.approx(83.875)


def test_the_lapping_edge_bears_from_the_end_of_the_framing(chase: tuple[Room, Plan]) -> None:
    _, plan = chase
    walls = {b.id: b.wall for b in plan.boards}
    laps = [e for e in plan.edges if walls[e.board] == "side" and abs(e.p[0] - 14.5 * IN) < 0.01 and e.bearing]
    ends = [e for e in plan.edges if walls[e.board] == "front" and max(e.p[0], e.q[0]) < 0.01 and e.bearing]
    assert {e.role for e in (*laps, *ends)} == {"corner"}
    assert [e.bearing / IN for e in (*laps, *ends) if e.bearing] == pytest.approx([1.5] * len((*laps, *ends)))


def test_the_band_folds_round_it_on_the_line_where_the_faces_meet(chase: tuple[Room, Plan]) -> None:
    """The faces meet at 14-1/2 in on the side and at -1/2 in on the front; half a 5 in band on either."""
    _, plan = chase
    folded = [b for b in plan.bands if b.kind == "corner" and {r.wall for r in b.rings} == {"side", "front"}]
    assert folded
    for band in folded:
        across = {r.wall: [u / IN for u in box(r.ring)[::2]] for r in band.rings}
        assert across["side"] == pytest.approx([12.0, 14.5])
        assert across["front"] == pytest.approx([-0.5, 2.0])


def test_every_rule_holds(chase: tuple[Room, Plan]) -> None:
    findings = run_plan_checks(*chase, solids_follow=True)
    assert [f for f in findings if f.verdict in ("fail", "warn")] == []
