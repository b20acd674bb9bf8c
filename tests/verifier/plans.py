"""Plans to verify: what the tool itself makes of a room file, as somebody else would receive it."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from generator.checks import run_plan_checks
from generator.model.findings import Finding, failed_walls
from generator.model.job import Bar, FileRecord, Job
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.reading import read_room
from generator.writers.json import plan_json
from tests.example_rooms import findings_of, planned
from tests.verifier.plain import Record

LAYERS = {"cut": "A-CUT", "opening": "A-OPEN", "pocket": "A-POCK", "mark": "A-MARK", "datum": "A-DATM"}


def plan_bytes(room_file: Path) -> bytes:
    """plan.json of a room file, with the part files that a build would list; errors of reading and planning pass."""
    room = read_room(room_file)
    plan = make_plan(room)
    return _written(room, plan, run_plan_checks(room, plan))


def _written(room: Room, plan: Plan, findings: tuple[Finding, ...]) -> bytes:
    failed = failed_walls(findings, tuple(w.id for w in plan.walls))
    job = Job(room, plan, findings, failed, {}, {})
    parts = [
        FileRecord(f"parts/{b.id}.dxf", "part-dxf", b.id, room.choices.drawing_units, 1.0, True, b.wall in failed)
        for b in plan.boards
    ]
    bars = (Bar(1, (20.0, 20.0), (121.6, 20.0), 101.6), Bar(1, (20.0, 30.0), (120.0, 30.0), 100.0))
    page = FileRecord("templates.pdf", "template-pdf", plan.walls[0].id, "in", 1.0, False, bool(failed), bars)
    return plan_json(job, (*parts, page), LAYERS)


@cache
def example_bytes(name: str) -> bytes:
    return _written(*planned(name), findings_of(name))


def example(name: str) -> Record:
    """A fresh copy of the plan of an example room, free to be changed."""
    plan: Record = json.loads(example_bytes(name))
    return plan
