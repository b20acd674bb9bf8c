"""Two plans compared: a plan in plain numbers, changed by hand in one place, and what is then said."""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from generator.cli import app
from generator.comparing.changes import SAME, changes, changes_table
from generator.comparing.record import record_of
from generator.model.job import FileRecord
from generator.units import Units
from generator.writers.json import plan_record
from tests.drawings.worked_job import worked_job

Plan = dict[str, Any]
Change = Callable[[Plan], None]


def _plan(units: Units = "in") -> Plan:
    part = FileRecord("parts/one.dxf", "part-dxf", "B-back-1", units, 1.0, False, False, ())
    plan: Plan = json.loads(json.dumps(plan_record(worked_job(), (part,), {})))
    return plan


def _said(change: Change, units: Units = "in") -> list[str]:
    """The lines of the table, spaces run together, without the last ones of the details."""
    old = _plan(units)
    new = deepcopy(old)
    change(new)
    table = changes_table(changes(record_of(old), record_of(new)))
    return [" ".join(line.split()) for line in table.split("\nDetail\n")[0].split("\n")]


def _named(plan: Plan, part: str, name: str) -> Any:
    return next(one for one in plan[part] if one["id"] == name)


def _valve(plan: Plan) -> Any:
    return next(one for board in plan["boards"] for one in board["openings"] if one["fitting_id"] == "valve")


def _leave(_: Plan) -> None:
    """Changes nothing."""


def _move_valve(plan: Plan) -> None:
    _valve(plan)["centre"][0] += 25.4 * 0.75
    _valve(plan)["centre"][1] -= 25.4 * 2


def _add_first_stud(plan: Plan) -> None:
    """A stud in front of all others takes the first number; what stood there is numbered on."""
    studs = [one for one in plan["supports"] if one["wall"] == "back"]
    fresh = deepcopy(studs[0]) | {"outline": [[200.0, 0.0], [238.1, 0.0], [238.1, 2438.4], [200.0, 2438.4]]}
    ids = [one["id"] for one in studs] + ["S-back-99"]
    plan["supports"] = [one for one in plan["supports"] if one["wall"] != "back"]
    plan["supports"] += [one | {"id": name} for one, name in zip([fresh, *studs], ids, strict=True)]


def _grow_board(plan: Plan) -> None:
    board = _named(plan, "boards", "B-back-1")
    top = max(p[1] for p in board["outline"])
    board["outline"] = [[u, v + 12.7 if v == top else v] for u, v in board["outline"]]


def _move_screw(plan: Plan) -> None:
    plan["fasteners"][0]["point"][1] += 5.0


def _shift_lines(plan: Plan) -> None:
    plan["room"]["sha256"] = "0" * 64
    for finding in plan["findings"]:
        finding["line"] += 3


def test_a_plan_is_the_same_as_itself() -> None:
    assert _said(_leave) == [SAME]


def test_a_comment_in_the_room_file_is_no_change() -> None:
    assert _said(_shift_lines) == [SAME]


@pytest.mark.parametrize(("units", "moved"), [("in", '3/4" right and 2" down'), ("mm", "19 mm right and 51 mm down")])
def test_an_opening_that_moved_says_how_far_in_the_units_of_the_room(units: Units, moved: str) -> None:
    assert _said(_move_valve, units) == ["Opening", f"changed O-valve middle moved {moved}"]


def test_one_stud_more_is_one_stud_more_whatever_it_is_called() -> None:
    heading, line = _said(_add_first_stud)
    assert heading == "Support"
    assert line.startswith("added S-back-")
    assert 'middle at 8 5/8", 48" up' in line


def test_a_stud_that_moved_says_how_far() -> None:
    def move(plan: Plan) -> None:
        stud = _named(plan, "supports", "S-back-03")
        stud["outline"] = [[u - 50.8, v] for u, v in stud["outline"]]

    assert _said(move) == ["Support", 'changed S-back-03 middle moved 2" left']


def test_another_kind_under_the_same_number_is_another_piece() -> None:
    def swap(plan: Plan) -> None:
        _named(plan, "supports", "S-back-03")["kind"] = "nailer"

    heading, gone, come = _said(swap)
    assert heading == "Support"
    assert gone.startswith("removed S-back-03 wall back; kind stud, ")
    assert come.startswith("added S-back-03 wall back; kind nailer, ")


def test_a_board_that_grew_is_said_with_both_sizes() -> None:
    heading, line = _said(_grow_board)
    assert heading == "Board"
    assert line.startswith("changed B-back-1 size ")
    before, after = (float(part.split(" x ")[1].split('"')[0].split()[0]) for part in line.split(" -> "))
    assert after - before in (0.0, 1.0)


def test_a_board_that_is_gone_is_said_so() -> None:
    lines = _said(lambda plan: plan["boards"].remove(_named(plan, "boards", "B-back-1")))
    assert lines[0] == "Board"
    assert lines[1].startswith("removed B-back-1 stock ")


@pytest.mark.parametrize(
    ("part", "heading", "what"),
    [("fasteners", "Screws", "number"), ("bands", "Bands", "number"), ("sheets", "Sheet", "removed")],
)
def test_one_piece_less_changes_its_count(part: str, heading: str, what: str) -> None:
    said = _said(lambda plan: plan[part].pop())
    assert said[0] == heading
    assert what in said[1]


def test_findings_come_and_go() -> None:
    def fail(plan: Plan) -> None:
        plan["findings"].append(
            {"rule": "seam-on-axis", "phase": "planned", "subject": "seam at 31", "verdict": "fail", "line": 1}
        )

    assert _said(fail) == ["Finding", "added seam-on-axis, planned: seam at 31 verdict fail"]


def test_what_no_topic_tells_is_named_still() -> None:
    old, new = _plan(), _plan()
    _move_screw(new)
    (only,) = changes(record_of(old), record_of(new))
    assert (only.topic, only.text) == ("detail", "differs in: fasteners")


def test_the_command_says_by_its_exit_code_what_it_found(tmp_path: Path) -> None:
    old, new, broken = tmp_path / "old", tmp_path / "new.json", tmp_path / "broken.json"
    old.mkdir()
    plan = _plan()
    (old / "plan.json").write_text(json.dumps(plan), "utf-8")
    _move_valve(plan)
    new.write_text(json.dumps(plan), "utf-8")
    broken.write_text("{}", "utf-8")
    codes = [
        CliRunner().invoke(app, ["compare", str(old), str(other)]).exit_code
        for other in (old, new, broken, tmp_path / "none")
    ]
    assert codes == [0, 1, 2, 2]


def test_a_build_since_nothing_is_told_before_anything_is_planned(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        app, ["build", str(tmp_path / "room.yaml"), "-o", str(tmp_path / "out"), "--since", str(tmp_path / "old")]
    )
    assert done.exit_code == 2
    assert "old: cannot be read (No such file or directory); name a build folder" in done.stderr.replace("\n", " ")
    assert not (tmp_path / "out").exists()
