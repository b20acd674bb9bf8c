"""Rooms that once failed a rule of ours without a fault of theirs: planned, made solid and judged whole."""

from __future__ import annotations

from pathlib import Path

from generator.checks import run_plan_checks, run_solid_checks
from generator.planning.pipeline import make_plan
from generator.reading import read_room
from generator.solids import make_bodies

BOARDS_FIRST = """\
name: tray boards first
units: in
place: {code: none}
floor: {datum: finished}
base: {kind: tray, profile: tray-boards-first, along: back, length: 32, width: 36, deck: 2, threshold: 4}
walls:
  - name: back
    width: 32
    height: 96
    boards: {reach: [0, 32], top: 84}
    beside: free
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 16, 31 1/4]}]}
choices: {sheets: [{board: foam-1-2, size: 48x96}]}
"""
WIDE_ANGLE = """\
name: wide angle
units: in
place: {code: none}
floor: {datum: finished}
base: {kind: none}
walls:
  - name: left
    width: 16
    height: 60
    boards: {reach: 16}
    beside: free
    supports: {from: right, studs: [{profile: wood-2x4, centres: [3/4, 15 1/4]}]}
  - name: middle
    width: 16
    height: 60
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 15 1/4]}]}
  - name: right
    width: 16
    height: 60
    boards: {reach: 16}
    beside: free
    supports: {from: left, studs: [{profile: wood-2x4, centres: [3/4, 15 1/4]}]}
corners:
  - {between: [left, middle], angle: 135, first: middle}
  - {between: [middle, right], angle: 135, first: middle}
choices: {sheets: [{board: foam-1-2, size: 48x64}]}
"""


def _fails(text: str, folder: Path) -> list[tuple[str, str]]:
    path = folder / "room.yaml"
    path.write_text(text)
    room = read_room(path)
    plan = make_plan(room)
    findings = (*run_plan_checks(room, plan), *run_solid_checks(room, plan, make_bodies(room, plan)))
    return [(f.rule, f.subject) for f in findings if f.verdict == "fail"]


def test_boards_that_run_down_behind_a_tray_meet_no_deck(tmp_path: Path) -> None:
    assert _fails(BOARDS_FIRST, tmp_path) == []


def test_boxes_of_no_round_size_keep_the_kerf_on_their_sheet(tmp_path: Path) -> None:
    assert _fails(WIDE_ANGLE, tmp_path) == []
