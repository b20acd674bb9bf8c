"""Runs the checks, compares each measure with its rule, and words nothing: a finding is a value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from generator.checks.measuring import Check, margin, unmeasured
from generator.checks.rules import SOLID_RULES, plan_rules
from generator.model.findings import Finding, Measure, Phase, Verdict
from generator.model.geometry import tidy
from generator.model.plan import Plan
from generator.model.profiles import Rule
from generator.model.room import Room
from generator.reading.issues import line_of

if TYPE_CHECKING:
    from generator.solids.records import Bodies

NOT_YET = "not measured by check; build measures it"


def run_plan_checks(room: Room, plan: Plan, solids_follow: bool = False) -> tuple[Finding, ...]:
    """Every plan rule judged, in the order of `plan_rules`.

    Unless the solids are judged as well (`solids_follow`), each solid rule is listed as not measured.
    """
    findings = [f for rule_id, phase, check in plan_rules(room) for f in _judged(room, plan, rule_id, phase, check)]
    later = () if solids_follow else SOLID_RULES
    findings += [judge(room, rule_id, phase, unmeasured(NOT_YET)) for rule_id, phase, _ in later]
    return tuple(findings)


def run_solid_checks(room: Room, plan: Plan, bodies: Bodies) -> tuple[Finding, ...]:
    """Every solid rule judged on the bodies, in the order of SOLID_RULES."""
    measured = ((rule_id, phase, check(room, plan, bodies)) for rule_id, phase, check in SOLID_RULES)
    return tuple(f for rule_id, phase, measures in measured for f in _all(room, rule_id, phase, measures))


def _judged(room: Room, plan: Plan, rule_id: str, phase: Phase, check: Check) -> Iterator[Finding]:
    return _all(room, rule_id, phase, check(room, plan))


def _all(room: Room, rule_id: str, phase: Phase, measures: Iterable[Measure]) -> Iterator[Finding]:
    """The findings of one rule; a check that yields nothing still leaves a trace."""
    found = tuple(measures) or (unmeasured("nothing here to measure"),)
    return (judge(room, rule_id, phase, measure) for measure in found)


def judge(room: Room, rule_id: str, phase: Phase, measure: Measure) -> Finding:
    """The finding of one measure; KeyError where the room has no such rule."""
    rule = room.rules[rule_id]
    measured = None if measure.value is None else tidy(measure.value)
    spare = None if measured is None else margin(rule, measured)
    verdict = _verdict(measure, spare)
    return Finding(
        rule=rule_id,
        phase=phase,
        verdict=verdict,
        subject=measure.subject,
        measured=measured,
        limit=None if measured is None else rule.limit,
        margin=spare,
        place=measure.place,
        cure=measure.cure if verdict != "pass" else None,
        room_path=measure.room_path,
        line=line_of(measure.room_path, room.lines),
    )


def _verdict(measure: Measure, spare: float | None) -> Verdict:
    if spare is None:
        return measure.on_hold if measure.on_hold in ("note", "confirm") else "note"
    return measure.on_hold if spare >= 0 else measure.on_break


def rules_used(room: Room) -> tuple[Rule, ...]:
    """The rules that the checks speak of, in their order."""
    ids = dict.fromkeys(entry[0] for entry in (*plan_rules(room), *SOLID_RULES))
    return tuple(room.rules[rule_id] for rule_id in ids)
