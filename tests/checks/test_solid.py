"""Solid rules: the bodies of the hand-made plan agree with it; a body made from another plan does not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import run_solid_checks
from generator.checks.rules import SOLID_RULES
from generator.model.findings import Finding
from generator.model.plan import Board, Plan
from generator.model.room import Room
from generator.solids import make_bodies
from tests.checks import changes as ch
from tests.checks.cases import Change, on_plan
from tests.worked_room import mm


def _of(findings: tuple[Finding, ...], rule: str) -> list[Finding]:
    return [f for f in findings if f.rule == rule]


def test_the_bodies_agree_with_the_plan(hand_room: Room, hand_plan: Plan) -> None:
    findings = run_solid_checks(hand_room, hand_plan, make_bodies(hand_room, hand_plan))
    assert {f.rule for f in findings} == {rule for rule, _, _ in SOLID_RULES}
    assert {f.verdict for f in findings} == {"pass"}
    assert {f.phase for f in findings} == {"solid"}


def _deeper(plan: Plan) -> Plan:
    def cut(board: Board) -> Board:
        return replace(board, rabbets=(replace(board.rabbets[0], depth=mm(0.25) - 0.05),))

    return ch.change_board(plan, "B-right-1", cut)


def _lower(plan: Plan) -> Plan:
    return ch.reshape(plan, "B-right-1", lambda p: (p[0], p[1] - 0.05 if abs(p[1] - mm(18.75)) < 1 else p[1]))


@pytest.mark.parametrize(
    ("rule", "change", "expected"),
    [
        ("solid-bearing", on_plan(lambda p: ch.move_support(p, "S-back-03", 0.05 / 25.4)), 0.05),
        ("solid-deck-gap", on_plan(_lower), 0.05),
        ("solid-flange-clearance", on_plan(_deeper), 0.05),
        ("solid-volume", on_plan(_deeper), None),
    ],
)
def test_bodies_of_another_plan_disagree(
    rule: str, change: Change, expected: float | None, hand_room: Room, hand_plan: Plan
) -> None:
    _, other = change(hand_room, hand_plan)
    found = _of(run_solid_checks(hand_room, hand_plan, make_bodies(hand_room, other)), rule)
    failed = [f for f in found if f.verdict == "fail"]
    assert failed
    assert expected is None or failed[0].measured == pytest.approx(expected, abs=1e-6)


def test_two_boards_in_one_place_fail(hand_room: Room, hand_plan: Plan) -> None:
    plan = ch.reshape(hand_plan, "B-left-2", lambda p: (p[0], mm(59) if abs(p[1] - mm(60)) < 1 else p[1]))
    (found,) = _of(run_solid_checks(hand_room, plan, make_bodies(hand_room, plan)), "solid-interference")
    assert (found.verdict, found.place.wall) == ("fail", "left")
    assert found.measured == pytest.approx(35.375 * 0.5 * 25.4**3, rel=1e-9)


def test_a_stud_in_the_valves_way_is_judged_once_as_found(hand_room: Room, hand_plan: Plan) -> None:
    plan = ch.move_support(hand_plan, "S-right-02", 3.75)
    found = _of(run_solid_checks(hand_room, plan, make_bodies(hand_room, plan)), "solid-interference")
    assert len(found) == 3
    assert {f.verdict for f in found} == {"note"}
    assert all("as found" in f.subject for f in found)


def test_bodies_that_meet_where_the_plan_sees_them_apart_fail(hand_room: Room, hand_plan: Plan) -> None:
    other = ch.move_support(hand_plan, "S-right-02", 3.75)
    found = _of(run_solid_checks(hand_room, hand_plan, make_bodies(hand_room, other)), "solid-interference")
    assert {f.verdict for f in found} == {"fail"}
