"""Each rule notices its own change, with the value and the place that a hand gives, and nothing else moves it."""

from __future__ import annotations

import pytest

from generator.checks import run_plan_checks
from generator.checks.rules import ACCESS_RULES, PLAN_RULES, SOLID_RULES
from generator.model.findings import RANK, Finding
from generator.model.plan import Plan
from generator.model.room import Room
from generator.reading import load_catalogue
from tests.checks.access_cases import ACCESS_CASES
from tests.checks.cases import CASES, Case, Pair
from tests.checks.seat_cases import SEAT_CASES

ALL = (*CASES, *SEAT_CASES, *ACCESS_CASES)

_PLANNED = (*PLAN_RULES, *ACCESS_RULES)
ALWAYS_OPEN = {"masonry-ready", "foam-listing"}
"""Rules that nothing in a room file can answer: only a person confirms them."""


def findings_of(case: Case, pair: Pair) -> list[Finding]:
    return [f for f in run_plan_checks(*pair) if (f.rule, f.phase) == (case.rule, case.phase)]


@pytest.mark.parametrize("case", ALL, ids=lambda c: f"{c.rule}-{c.phase}")
def test_a_plan_that_holds_the_rule_passes(case: Case, hand_room: Room, hand_plan: Plan) -> None:
    findings = findings_of(case, case.good(hand_room, hand_plan))
    assert findings
    assert {f.verdict for f in findings} == {"pass"}
    assert all(f.margin is not None and f.margin >= 0 for f in findings)


@pytest.mark.parametrize("case", ALL, ids=lambda c: f"{c.rule}-{c.phase}")
def test_its_change_is_found_with_value_and_place(case: Case, hand_room: Room, hand_plan: Plan) -> None:
    findings = findings_of(case, case.bad(hand_room, hand_plan))
    worst = max(findings, key=lambda f: (RANK[f.verdict], -(f.margin or 0.0)))
    assert (worst.verdict, worst.place.wall) == (case.verdict, case.wall)
    assert worst.measured == pytest.approx(case.measured, abs=2e-6 if case.measured < 1e4 else 0.1)
    assert worst.margin is not None and worst.margin < 0


def test_every_plan_rule_is_claimed_by_a_case() -> None:
    claimed = {(c.rule, c.phase) for c in ALL}
    assert {(rule, phase) for rule, phase, *_ in _PLANNED if rule not in ALWAYS_OPEN} == claimed


def test_every_rule_is_in_the_profiles_with_reason_source_and_confidence() -> None:
    rules = load_catalogue().rules
    told = {r[0]: r[2] for r in PLAN_RULES} | {r[0]: r[2] for r in ACCESS_RULES} | {r[0]: r[2] for r in SOLID_RULES}
    for rule_id, check in told.items():
        rule = rules[rule_id]
        assert rule.statement and rule.reason and rule.origin.source and rule.origin.confidence
        assert check.__doc__ and "\n" not in check.__doc__.split("\n\n")[0].strip()


def test_no_check_is_listed_twice() -> None:
    entries = [(rule, phase) for rule, phase, *_ in (*_PLANNED, *SOLID_RULES)]
    assert len(entries) == len(set(entries))
    functions = [check for _, _, check, *_ in _PLANNED]
    assert len(functions) == len(set(functions))


def test_listing_of_foam_plastic_is_always_to_be_confirmed(hand_room: Room, hand_plan: Plan) -> None:
    found = [f for f in run_plan_checks(hand_room, hand_plan) if f.rule == "foam-listing"]
    assert [f.verdict for f in found] == ["confirm"]
    assert "authority" in found[0].subject
