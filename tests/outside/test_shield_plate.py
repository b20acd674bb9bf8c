"""Screw penetration row of the fact table, section 1, derived from IRC P2603.2.1 / IPC 305 (1-1/4 in, recent editions).

"1-5/8 in 1/2 board -> 1.125 OK; 2 in -> 1.500 WARN; 2 in 3/4 board -> 1.250 limit".
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_plan_checks
from generator.reading import load_catalogue
from tests.worked_plan import worked_plan
from tests.worked_room import mm, worked_room


@pytest.mark.parametrize(
    ("screw", "board", "reach", "verdict"),
    [(1.625, 0.5, 1.125, "pass"), (2.0, 0.5, 1.5, "warn"), (2.0, 0.75, 1.25, "pass")],
)
def test_screws_that_reach_the_pipe_zone(screw: float, board: float, reach: float, verdict: str) -> None:
    catalogue = load_catalogue()
    room = replace(worked_room(), rules=catalogue.rules, code=catalogue.codes["irc"])
    plan = worked_plan(room)
    boards = tuple(replace(b, thickness=mm(board)) for b in plan.boards)
    screws = tuple(replace(f, length=mm(screw)) for f in plan.fasteners)
    found = [f for f in run_plan_checks(room, replace(plan, boards=boards, fasteners=screws)) if f.rule == "pipe-zone"]
    assert {f.verdict for f in found} == {verdict}
    assert [f.measured for f in found] == [pytest.approx(mm(reach), abs=1e-6)] * len(found)
    assert all(f.limit == pytest.approx(mm(1.25)) for f in found)
    if verdict == "warn":
        assert all(f.cure and "shield plates" in f.cure.text for f in found)
