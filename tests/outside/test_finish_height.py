"""Wall-finish rows of the fact table, section 1: IRC R307.2 and IPC 417.4.1."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_plan_checks
from generator.model.findings import Finding
from generator.model.room import Room
from generator.reading import load_catalogue
from tests.checks.changes import change_base
from tests.worked_plan import worked_plan
from tests.worked_room import mm, worked_room


def _room(code: str, drain: float | None = None) -> Room:
    catalogue = load_catalogue()
    room = replace(worked_room(), rules=catalogue.rules, code=catalogue.codes[code])
    return change_base(room, lambda b: replace(b, drain=None if drain is None else mm(drain)))


def _findings(room: Room, top: float, rule: str) -> list[Finding]:
    """Of one rule, with the top of all boards at a height in inches above the datum."""
    plan = worked_plan(room)
    edges = tuple(replace(e, p=(e.p[0], mm(top)), q=(e.q[0], mm(top))) if e.role == "top" else e for e in plan.edges)
    return [f for f in run_plan_checks(room, replace(plan, edges=edges)) if f.rule == rule]


@pytest.mark.parametrize(("top", "verdict"), [(71.5, "fail"), (72.0, "pass")])
def test_72_in_above_the_finished_floor(top: float, verdict: str) -> None:
    """IRC R307.2: "board top 71.5 AFF -> FAIL; 72.0 -> OK"."""
    found = _findings(_room("irc"), top, "finish-height")
    assert len(found) == 3
    assert {f.verdict for f in found} == {verdict}


@pytest.mark.parametrize(("top", "drain_verdict"), [(73.99, "fail"), (74.0, "pass")])
def test_70_in_above_the_drain(top: float, drain_verdict: str) -> None:
    """IPC 417.4.1: "drain at +4 AFF -> need max(72, 74) = 74"."""
    room = _room("ipc", 4)
    assert {f.verdict for f in _findings(room, top, "finish-height-drain")} == {drain_verdict}
    assert {f.verdict for f in _findings(room, top, "finish-height")} == {"pass"}


def test_an_unknown_drain_is_to_be_confirmed_where_the_code_asks_for_it() -> None:
    assert [f.verdict for f in _findings(_room("ipc"), 96, "finish-height-drain")] == ["confirm"]
    assert [f.verdict for f in _findings(_room("irc"), 96, "finish-height-drain")] == ["note"]


def test_a_bare_floor_counts_with_what_will_lie_on_it() -> None:
    room = replace(_room("irc"), datum="bare floor", floor_build_up=mm(0.75))
    assert {f.verdict for f in _findings(room, 72.5, "finish-height")} == {"fail"}
    assert {f.verdict for f in _findings(room, 72.75, "finish-height")} == {"pass"}
    unknown = replace(room, floor_build_up=None)
    assert [f.verdict for f in _findings(unknown, 96, "finish-height")] == ["confirm"]


def test_a_tub_without_a_shower_head_is_not_asked() -> None:
    room = _room("irc")
    room = replace(room, fittings=tuple(f for f in room.fittings if f.kind != "arm"))
    assert [f.verdict for f in _findings(room, 60, "finish-height")] == ["note"]
