"""The runner compares, words nothing, and never loses a rule."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_plan_checks
from generator.checks.rules import PLAN_RULES, SOLID_RULES
from generator.checks.runner import judge
from generator.model.findings import RANK, Measure, Place, Verdict
from generator.model.plan import Plan
from generator.model.room import Room
from tests.checks.changes import add_stud, drop_support

PLACE = Place("left", ((0.0, 0.0),))


def _measure(value: float | None, on_break: Verdict = "fail", on_hold: Verdict = "pass") -> Measure:
    return Measure("a thing", value, PLACE, "walls.1.height", None, on_break, on_hold)


@pytest.mark.parametrize(
    ("rule", "value", "verdict", "margin"),
    [
        ("support-spacing", 406.4, "pass", 0.0),
        ("support-spacing", 406.4 + 0.9e-6, "pass", 0.0),
        ("support-spacing", 406.4 + 2e-6, "fail", -2e-6),
        ("support-spacing", 400.0, "pass", 6.4),
        ("bearing-edge", 12.7 - 0.9e-6, "pass", 0.0),
        ("bearing-edge", 12.69, "fail", -0.01),
        ("rabbet-share", 0.6, "fail", -0.1),
    ],
)
def test_margin_and_verdict(hand_room: Room, rule: str, value: float, verdict: str, margin: float) -> None:
    finding = judge(hand_room, rule, "planned", _measure(value))
    assert (finding.verdict, finding.limit) == (verdict, hand_room.limit(rule))
    assert finding.margin == pytest.approx(margin, abs=1e-9)
    assert finding.measured == pytest.approx(value, abs=5e-7)


def test_a_broken_limit_takes_the_verdict_that_the_check_names(hand_room: Room) -> None:
    assert judge(hand_room, "least-rip", "planned", _measure(10.0, "warn")).verdict == "warn"
    assert judge(hand_room, "least-rip", "planned", _measure(500.0, "warn", "confirm")).verdict == "confirm"


@pytest.mark.parametrize(("on_hold", "verdict"), [("pass", "note"), ("note", "note"), ("confirm", "confirm")])
def test_what_is_not_measured_has_no_numbers(hand_room: Room, on_hold: Verdict, verdict: str) -> None:
    finding = judge(hand_room, "deck-gap", "planned", _measure(None, on_hold=on_hold))
    assert (finding.verdict, finding.measured, finding.limit, finding.margin) == (verdict, None, None, None)


def test_the_line_is_that_of_the_key_or_of_the_nearest_above(hand_room: Room) -> None:
    room = replace(hand_room, lines={"walls": 12, "walls.1": 20})
    assert judge(room, "fit", "planned", _measure(1.0)).line == 20
    assert judge(replace(room, lines={"walls": 12}), "fit", "planned", _measure(1.0)).line == 12
    assert judge(replace(room, lines={}), "fit", "planned", _measure(1.0)).line == 0


def test_every_rule_leaves_a_finding(hand_room: Room, hand_plan: Plan) -> None:
    findings = run_plan_checks(hand_room, hand_plan)
    listed = {(rule, phase) for rule, phase, _ in (*PLAN_RULES, *SOLID_RULES)}
    assert {(f.rule, f.phase) for f in findings} == listed


def test_solid_rules_are_listed_as_not_measured_until_the_solids_follow(hand_room: Room, hand_plan: Plan) -> None:
    listed = [f for f in run_plan_checks(hand_room, hand_plan) if f.phase == "solid"]
    assert [(f.rule, f.verdict, f.measured) for f in listed] == [(r, "note", None) for r, _, _ in SOLID_RULES]
    assert all(f.phase != "solid" for f in run_plan_checks(hand_room, hand_plan, solids_follow=True))


def test_findings_keep_the_contract(hand_room: Room, hand_plan: Plan) -> None:
    broken = drop_support(hand_plan, "S-back-03")
    for f in (*run_plan_checks(hand_room, hand_plan), *run_plan_checks(hand_room, broken)):
        assert f.verdict in RANK
        assert (f.measured is None) == (f.limit is None) == (f.margin is None)
        if f.margin is None:
            assert f.verdict in ("note", "confirm") and f.subject
        elif f.verdict == "pass":
            assert f.margin >= 0
        elif f.verdict in ("warn", "fail"):
            assert f.margin < 0
        assert f.limit in (None, hand_room.limit(f.rule))
        assert f.place.wall in ("", *(w.id for w in hand_plan.walls))


def test_a_stud_added_for_a_seam_alone_is_to_be_confirmed(hand_room: Room, hand_plan: Plan) -> None:
    plan = add_stud(drop_support(hand_plan, "S-back-03"), "S-back-02", 31 - 15.875)
    seams = [f for f in run_plan_checks(hand_room, plan) if f.rule == "seam-on-axis" and f.place.wall == "back"]
    assert [(f.verdict, f.measured, f.margin) for f in seams] == [("confirm", 0.0, hand_room.limit("seam-on-axis"))]
    assert seams[0].cure is not None
    assert seams[0].cure.text == 'add a stud at 31" from the corner with left'


def test_the_hand_made_plan_has_no_fail_and_no_warning(hand_room: Room, hand_plan: Plan) -> None:
    assert [f for f in run_plan_checks(hand_room, hand_plan) if f.verdict in ("fail", "warn")] == []


def test_the_same_plan_gives_the_same_findings(hand_room: Room, hand_plan: Plan) -> None:
    assert run_plan_checks(hand_room, hand_plan) == run_plan_checks(hand_room, hand_plan)
