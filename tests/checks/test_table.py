"""Findings as text: 80 columns, no colour, nothing that was found left out."""

from __future__ import annotations

from dataclasses import replace

from generator.checks import explain, findings_table, rules_used, run_plan_checks
from generator.checks.explain import both_units, quantity
from generator.model.plan import Plan
from generator.model.room import Room
from tests.checks.changes import move_support


def _table(room: Room, plan: Plan) -> str:
    return findings_table(run_plan_checks(room, plan), room)


def test_no_line_is_longer_than_80_columns(hand_room: Room, hand_plan: Plan) -> None:
    for units in ("in", "mm"):
        room = replace(hand_room, units=units)
        assert max(len(line) for line in _table(room, move_support(hand_plan, "S-right-02", 3.75)).splitlines()) <= 80


def test_it_is_plain_text(hand_room: Room, hand_plan: Plan) -> None:
    text = _table(hand_room, hand_plan)
    assert text.isascii() and "\x1b" not in text and "[" not in text


def test_every_open_finding_is_told_and_every_pass_counted(hand_room: Room, hand_plan: Plan) -> None:
    findings = run_plan_checks(hand_room, move_support(hand_plan, "S-right-02", 3.75))
    text = findings_table(findings, hand_room)
    flat = " ".join(text.split())
    for finding in findings:
        if finding.verdict != "pass":
            assert " ".join(finding.subject.split()) in flat
    passes = sum(int(line.split()[-1]) for line in text.splitlines() if line.startswith("pass"))
    assert passes == sum(f.verdict == "pass" for f in findings)
    assert text.splitlines()[-1].endswith(f"{passes} pass")


def test_the_worst_comes_first_in_each_phase(hand_room: Room, hand_plan: Plan) -> None:
    lines = _table(hand_room, move_support(hand_plan, "S-right-02", 3.75)).splitlines()
    heads = [line.split()[0] for line in lines if line and line[0].isalpha()]
    order = ["FAIL", "WARN", "CONFIRM", "NOTE", "pass"]
    first = [order.index(h) for h in heads[heads.index("verdict") + 1 :] if h in order]
    assert first[: first.index(4) + 1] == sorted(first[: first.index(4) + 1])
    assert 'cure: move the stud at 16 1/4" to 12 1/2"' in "\n".join(lines)


def test_a_small_difference_never_reads_as_nothing() -> None:
    assert quantity(0.02, "mm", "in") == "0.02 mm"
    assert quantity(-0.02, "mm", "mm") == "-0.02 mm"
    assert quantity(0.0, "mm", "in") == '0"'
    assert quantity(15.5 * 25.4, "mm", "in") == '15 1/2"'
    assert quantity(900 * 25.4**2, "mm2", "in") == "900.0 in2"


def test_explain_gives_statement_reason_source_confidence_and_limit_in_both_units(hand_room: Room) -> None:
    for rule in rules_used(hand_room):
        text = explain(rule)
        assert max(len(line) for line in text.splitlines()) <= 80
        flat = " ".join(text.split())
        for part in (rule.id, rule.statement, rule.reason, rule.origin.source, both_units(rule.limit, rule.unit)):
            assert " ".join(part.split()) in flat
    assert 'at most 16" (406.4 mm)' in explain(hand_room.rules["support-spacing"])
    assert "common practice, no source" in explain(hand_room.rules["support-spacing"])
    assert "900 in2 (0.5806 m2)" in explain(hand_room.rules["shower-area"])
    assert "from memory" in explain(hand_room.rules["lining-clear"])
