"""Every example room through the whole of planning; of the recess of worked-room.md the numbers as well."""

from __future__ import annotations

import pytest

from tests.example_rooms import NAMES, findings_of, solid_findings_of
from tests.worked_room import mm

FAILING = {
    "recess-as-measured": {"collision-body", "collision-pipe", "solid-interference"},
    "recess-600": {"support-spacing"},
}
"""Rooms whose files say that they fail, and what they show."""


@pytest.mark.parametrize("name", NAMES)
def test_an_example_room_fails_where_it_says_so_and_nowhere_else(name: str) -> None:
    fails = {f.rule for f in (*findings_of(name), *solid_findings_of(name)) if f.verdict == "fail"}
    assert fails == FAILING.get(name, set())


def test_as_measured_there_are_these_three_fails_and_no_others() -> None:
    fails = [f for f in findings_of("recess-as-measured") if f.verdict == "fail"]
    assert sorted((f.rule, f.phase, f.subject.split()[0]) for f in fails) == [
        ("collision-body", "found", "valve"),
        ("collision-pipe", "found", "arm"),
        ("collision-pipe", "found", "spout"),
    ]
    assert {f.cure.text for f in fails if f.cure} == {
        'move the stud at 16 1/4" to 12 1/2" from the corner with back; '
        "confirm that the wall is not load-bearing, or head off as the code requires"
    }
    assert all(f.line > 0 for f in fails)


def test_with_the_stud_moved_nothing_fails_or_warns() -> None:
    assert {f.verdict for f in findings_of("recess")} == {"pass", "note", "confirm"}


@pytest.mark.parametrize(
    ("rule", "phase", "wall", "measured", "margin"),
    [
        ("support-spacing", "found", "back", 15.5, 0.5),
        ("support-spacing", "found", "right", 15.5, 0.5),
        ("corner-backing", "found", "back", 1.375, 0.875),
        ("corner-backing", "found", "right", 0.875, 0.375),
        ("bearing-seam-wood", "planned", "right", 0.75, 0.125),
        ("bearing-edge", "planned", "right", 0.875, 0.375),
        ("finish-height", "planned", "back", 95.875, 23.875),
        ("deck-gap", "planned", "back", 0.25, 0.0),
        ("leg-gap", "planned", "left", 0.25, 0.0),
        ("flange-clearance", "planned", "right", 0.125, 0.0),
        ("rabbet-clearance", "planned", "back", 0.0625, 0.0),
    ],
)
def test_passes_carry_the_margins_of_the_table(
    rule: str, phase: str, wall: str, measured: float, margin: float
) -> None:
    """Inches, from the table of worked-room.md and its allowances."""
    found = [f for f in findings_of("recess") if (f.rule, f.phase, f.place.wall) == (rule, phase, wall)]
    assert found
    least = min(found, key=lambda f: f.margin or 0.0)
    assert least.verdict == "pass"
    assert least.measured == pytest.approx(mm(measured))
    assert least.margin == pytest.approx(mm(margin), abs=1e-6)


def test_the_rabbet_takes_just_the_half_of_the_board() -> None:
    shares = [f for f in findings_of("recess") if f.rule == "rabbet-share"]
    assert [(f.verdict, f.measured, f.margin) for f in shares] == [("pass", 0.5, 0.0)] * 3


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_said_twice(name: str) -> None:
    said = [(f.rule, f.phase, f.subject) for f in findings_of(name) if f.verdict in ("fail", "warn", "confirm")]
    assert len(said) == len(set(said))
