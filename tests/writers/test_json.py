"""plan.json: the contract's keys in its order, numbers on their grid, the same bytes for the same job."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import jsonschema
import pytest

from generator.model.findings import Cure, Finding, Place
from generator.model.job import Bar, FileRecord, Job
from generator.writers.json import plan_json, plan_schema
from tests.worked_plan import worked_plan, worked_room

LAYERS = {"cut": "A-CUT", "opening": "A-OPEN", "pocket": "A-POCK", "mark": "A-MARK", "datum": "A-DATM"}
CONTRACT = [
    "schema",
    "units",
    "room",
    "verdicts",
    "rules",
    "stocks",
    "walls",
    "corners",
    "base",
    "supports",
    "boards",
    "edges",
    "fittings",
    "fasteners",
    "bands",
    "sheets",
    "takeoff",
    "findings",
    "layers",
    "files",
]


def _finding(rule: str, verdict: str, measured: float | None, wall: str) -> Finding:
    unmeasured = measured is None
    cure = Cure("add a stud at 47 3/4 in", "add_support", "back", "walls.1", 1212.85)
    place = Place(wall, ((787.4, 0.0), (1181.1, 0.0)))
    limit, margin = (None, None) if unmeasured else (406.4, 406.4 - (measured or 0.0))
    return Finding(rule, "found", verdict, "a bay", measured, limit, margin, place, cure, "walls.1", 7)  # type: ignore[arg-type]


def _job() -> Job:
    room = worked_room()
    findings = (
        _finding("support-spacing", "fail", 500.0 + 1 / 3, "back"),
        replace(_finding("finish-height", "confirm", None, ""), phase="planned"),
    )
    return Job(room, worked_plan(room), findings, frozenset({"back"}), {}, {})


def _files() -> tuple[FileRecord, ...]:
    bars = (Bar(1, (20.0, 20.0), (120.0, 20.0), 100.0),)
    return (
        FileRecord("templates/valve.pdf", "template-pdf", "right", "in", 1.0, False, False, bars),
        FileRecord("parts/B-back-1.dxf", "part-dxf", "B-back-1", "in", 1.0, True, True),
    )


def _read() -> dict[str, Any]:
    plan: dict[str, Any] = json.loads(plan_json(_job(), _files(), LAYERS))
    return plan


def test_holds_what_the_contract_says_in_its_order() -> None:
    plan = _read()
    assert list(plan)[: len(CONTRACT)] == CONTRACT
    beside = {"proof", "sequence", "furring", "stud_faces", "shims", "planes", "shield_plates", "folds"}
    beside |= {"lumber", "lumber_proof", "mounts"}
    assert set(plan) - set(CONTRACT) == beside


def test_schema_is_sound_and_accepts_the_worked_room() -> None:
    jsonschema.Draft202012Validator.check_schema(plan_schema())
    jsonschema.validate(_read(), plan_schema(), jsonschema.Draft202012Validator)


@pytest.mark.parametrize("kind", ["walls", "supports", "boards", "edges", "fasteners", "bands", "sheets", "findings"])
def test_schema_refuses_a_missing_and_an_unknown_key(kind: str) -> None:
    validator = jsonschema.Draft202012Validator(plan_schema())
    for key in list(_read()[kind][0]):
        plan = _read()
        plan[kind][0][f"{key}-x"] = plan[kind][0].pop(key)
        assert not validator.is_valid(plan)


def test_same_job_same_bytes_and_a_record_a_line() -> None:
    once, again = plan_json(_job(), _files(), LAYERS), plan_json(_job(), _files()[::-1], dict(sorted(LAYERS.items())))
    assert once == again
    assert sum(line.startswith('  {"id": "F-') for line in once.decode().splitlines()) == len(_job().plan.fasteners)


def test_numbers_lie_on_their_grid() -> None:
    plan = _read()
    assert plan["findings"][0]["measured"] == 500.333333
    assert plan["findings"][1]["measured"] is plan["findings"][1]["limit"] is plan["findings"][1]["margin"] is None
    board = plan["boards"][0]
    assert board["outline"][0] == [6.35, 476.25]
    assert board["rabbets"][0]["depth"] == 6.35


def test_unit_vectors_keep_twelve_decimals_and_no_negative_zero() -> None:
    job = _job()
    axis = (2**-0.5, -(2**-0.5), -0.0)
    walls = (replace(job.plan.walls[0], u_axis=axis), *job.plan.walls[1:])
    text = plan_json(replace(job, plan=replace(job.plan, walls=walls)), (), LAYERS).decode()
    assert '"u_axis": [0.707106781187, -0.707106781187, 0.0]' in text
    assert "-0.0," not in text and "-0.0]" not in text


def test_head_says_the_worst_of_each_phase() -> None:
    plan = _read()
    assert plan["verdicts"] == {"as_found": "fail", "as_planned": "confirm"}
    assert plan["room"]["sha256"] == "0" * 64
    assert plan["findings"][0]["place"]["wall"] == "back"
    assert plan["findings"][1]["place"]["wall"] is None


def test_a_circle_stays_a_circle_and_a_pipe_has_no_cutout() -> None:
    plan = _read()
    openings = {o["fitting_id"]: o for b in plan["boards"] for o in b["openings"]}
    assert openings["valve"]["shape"] == "circle" and openings["valve"]["diameter"] == 127.0
    fittings = {f["id"]: f for f in plan["fittings"]}
    assert fittings["valve"]["cutout"] == {"shape": "circle", "diameter": 127.0}
    assert fittings["valve"]["outside_diameter"] is None
    assert fittings["spout"]["cutout"] is None and fittings["spout"]["outside_diameter"] == 15.875


def test_infinite_numbers_are_refused() -> None:
    job = _job()
    boards = (replace(job.plan.boards[0], weight_kg=float("inf")), *job.plan.boards[1:])
    with pytest.raises(ValueError, match="not JSON compliant"):
        plan_json(replace(job, plan=replace(job.plan, boards=boards)), (), LAYERS)
