"""A stud that is added through found blocking is a job to confirm, not a clash."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from generator.checks import run_solid_checks
from generator.model.findings import Finding
from generator.model.geometry import rectangle
from generator.model.plan import Support
from generator.model.room import Room
from generator.reading import read_room
from generator.solids import make_bodies
from tests.worked_plan import worked_plan

ROOM = Path(__file__).parents[2] / "profiles" / "rooms" / "recess.yaml"


def _support(support_id: str, kind: str, origin: str, left: float, low: float, right: float, high: float) -> Support:
    upright = kind == "stud"
    middle_u, middle_v = (left + right) / 2, (low + high) / 2
    return Support(
        id=support_id,
        wall="back",
        kind="stud" if upright else "blocking",
        origin="added" if origin == "added" else "found",
        outline=rectangle(left, low, right, high),
        axis=((middle_u, low), (middle_u, high)) if upright else ((left, middle_v), (right, middle_v)),
        depth=89.0,
        material="wood",
        reason="test",
        cause="found",
        profile_id="wood-2x4",
        room_path="",
    )


def _findings(room: Room, *extra: Support) -> list[Finding]:
    plan = worked_plan(room)
    plan = replace(plan, supports=tuple(sorted((*plan.supports, *extra), key=lambda s: s.id)))
    found = run_solid_checks(room, plan, make_bodies(room, plan))
    return [f for f in found if f.rule == "solid-interference" and f.verdict != "pass" and "S-back-x" in f.subject]


def test_an_added_stud_through_found_blocking_is_to_be_confirmed() -> None:
    stud = _support("S-back-x1", "stud", "added", 900.0, 0.0, 938.0, 2400.0)
    blocking = _support("S-back-x2", "blocking", "found", 810.0, 1000.0, 1150.0, 1038.0)
    assert [(f.verdict, "cut the blocking" in f.subject) for f in _findings(read_room(ROOM), stud, blocking)] == [
        ("confirm", True)
    ]


def test_an_added_stud_through_a_found_stud_fails() -> None:
    first = _support("S-back-x1", "stud", "added", 900.0, 0.0, 938.0, 2400.0)
    second = _support("S-back-x2", "stud", "found", 920.0, 0.0, 958.0, 2400.0)
    assert [f.verdict for f in _findings(read_room(ROOM), first, second)] == ["fail"]
