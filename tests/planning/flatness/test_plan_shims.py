"""The schedule of whole rooms: what may be planed, what corners leave, and which step it keeps to."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from generator.checks import flatness
from generator.checks.runner import judge
from generator.model.room import Room
from generator.planning.flatness.faces import faces_of
from generator.planning.flatness.plan import StudWork, plan_shims
from generator.planning.framing import plan_supports
from generator.planning.regions import plan_walls
from tests.planning.flatness.fields import STEP
from tests.reading.rooms import changed, read
from tests.worked_plan import worked_plan
from tests.worked_room import mm

TEXT = (Path(__file__).parents[3] / "profiles" / "rooms" / "crooked-studs.yaml").read_text("utf-8")


def work_of(room: Room) -> StudWork:
    return plan_shims(room, plan_supports(room, plan_walls(room)))


@cache
def crooked(*changes: tuple[str, str]) -> Room:
    return read(changed(*changes, text=TEXT))


def test_the_example_room_is_planed_at_its_proud_stud_and_shimmed_at_its_hollow_one() -> None:
    work = work_of(crooked())
    assert {(s.support_id, s.work) for s in work.shims} >= {("S-back-02", "shim"), ("S-back-03", "plane")}
    assert all(abs(s.thickness / STEP - round(s.thickness / STEP)) < 1e-6 for s in work.shims)
    assert max(s.thickness for s in work.shims if s.work == "plane") <= mm(1 / 8) + 1e-6
    assert [p.proven for p in work.planes] == [True]


@pytest.mark.parametrize(
    "change",
    [
        ("wood-2x4, centres: [3/4, 16, 32, 46", "steel-362s125-18, centres: [3/4, 16, 32, 46"),
        ("  prices:", "  allowances: {planing: 0}\n  prices:"),
    ],
)
def test_steel_is_never_planed_nor_wood_where_the_room_allows_none(change: tuple[str, str]) -> None:
    work = work_of(crooked(change))
    assert work.shims
    assert {s.work for s in work.shims} == {"shim"}


def test_a_bored_stretch_is_not_planed() -> None:
    """A hole at 24 in lies in the lowest stretch of its stud; the stretches above it may be planed."""
    room = crooked()
    faces = [f for f in faces_of(room, room.walls[0]) if f.u == pytest.approx(mm(32))]
    assert [f.most_plane for f in faces] == [0, 2, 2, 2]


def test_metric_rooms_are_shimmed_in_whole_millimetres() -> None:
    studs = "{profile: wood-38x89, centres: [19, 400, 800]}"
    text = f"""\
name: metric
units: mm
place: {{code: none}}
base: {{kind: none}}
walls:
  - name: only
    width: 1000
    height: 2400
    beside: free
    supports: {{studs: [{studs}]}}
    string_line:
      - {{stud: 19, at: [300, 2100], off: [10, 10]}}
      - {{stud: 400, at: [300, 2100], off: [15, 15]}}
      - {{stud: 800, at: [300, 2100], off: [10, 10]}}
"""
    work = work_of(read(text))
    assert {s.thickness for s in work.shims} == {4.0}
    assert {s.u for s in work.faces if s.off == 15} == {400.0}


def test_a_room_whose_tile_nobody_named_is_judged_as_for_large_tile() -> None:
    room = crooked((", longest: 24}", "}"))
    (found,) = (judge(room, "flatness", "found", m) for m in flatness.flatness_found(room, worked_plan()))
    assert found.verdict == "warn"
    assert "not known, judged as large" in found.subject
