"""Niches: everything that may be in the way, what a cut stud means, screws that are too long."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_plan_checks
from generator.model.findings import Finding
from generator.model.plan import Plan
from generator.model.room import Duty, Room
from tests.checks.niche_changes import Change, niche, outside, piped
from tests.worked_room import mm


def found(rule: str, change: Change, room: Room, plan: Plan) -> list[Finding]:
    return [f for f in run_plan_checks(*change(room, plan)) if f.rule == rule]


def test_an_outside_wall_has_no_room_for_a_niche(hand_room: Room, hand_plan: Plan) -> None:
    """It takes the insulation's place over all its depth."""
    (finding,) = found("niche-clear", outside(), hand_room, hand_plan)
    assert finding.verdict == "fail"
    assert finding.measured == pytest.approx(mm(-2))
    assert "insulation" in finding.subject


@pytest.mark.parametrize(("at", "wanted", "verdict"), [(47, 0.0, "pass"), (48, -1.0, "fail"), (74, 1.0, "pass")])
def test_a_pipe_through_its_stud_crosses_the_bay(
    at: float, wanted: float, verdict: str, hand_room: Room, hand_plan: Plan
) -> None:
    """A hole of 1 in: its edge half an inch from its middle; the niche's framing is open from 47-1/2 to 72-1/2."""
    (finding,) = found("niche-clear", piped(at), hand_room, hand_plan)
    assert finding.verdict == verdict
    assert finding.measured == pytest.approx(mm(wanted))


@pytest.mark.parametrize(
    ("duty", "verdict", "word"),
    [("bearing", "fail", "engineer"), ("unknown", "confirm", "find out"), ("non_bearing", "note", "no load")],
)
def test_what_a_cut_stud_means_is_told_by_the_wall(
    duty: Duty, verdict: str, word: str, hand_room: Room, hand_plan: Plan
) -> None:
    (finding,) = found("cut-stud", niche(24, 38, duty=duty), hand_room, hand_plan)
    assert (finding.verdict, finding.measured) == (verdict, 1.0)
    assert word in finding.subject


def test_a_sill_that_falls_to_the_wall_fails(hand_room: Room, hand_plan: Plan) -> None:
    (finding,) = found("drain-fall", niche(fall=-1 / 48), hand_room, hand_plan)
    assert finding.verdict == "fail"
    assert finding.measured == pytest.approx(-1 / 48, abs=1e-6)


def test_screws_of_the_rear_board_end_within_the_studs(hand_room: Room, hand_plan: Plan) -> None:
    """2x4 studs, rear board's back 2 in behind their faces: 1-1/2 left; screws of 2-1/4 reach 1-3/4 past a board."""
    room, plan = niche()(hand_room, hand_plan)
    rear = replace(plan.boards[0], id="B-shelf-rear-1", wall="shelf-rear", openings=(), rabbets=())
    screw = replace(
        plan.fasteners[0], id="F-B-shelf-rear-1-001", wall="shelf-rear", board_ids=(rear.id,), length=mm(2.25),
        support_id="S-shelf-rear-01", point=(mm(17.75), mm(60)),
    )  # fmt: skip
    plan = replace(plan, boards=(*plan.boards, rear), fasteners=(*plan.fasteners, screw))
    points = [f for f in found("niche-depth", lambda r, p: (r, p), room, plan) if "screws" in f.subject]
    assert [f.verdict for f in points] == ["warn"]
    assert points[0].measured == pytest.approx(mm(-0.25))
