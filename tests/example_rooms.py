"""The example rooms, every file of the folder; each is planned and checked once for all tests of a run (see `kept`)."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from generator.checks import run_plan_checks, run_solid_checks
from generator.model.findings import Finding
from generator.model.job import Job
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.reading import read_room
from tests.kept import kept
from tests.properties.light import wholly

ROOMS = Path(__file__).parents[1] / "profiles" / "rooms"
NAMES = tuple(sorted(path.stem for path in ROOMS.glob("*.yaml")))


@cache
def planned(name: str) -> tuple[Room, Plan]:
    room = read_room(ROOMS / f"{name}.yaml")
    with wholly():
        return room, kept(f"plan-{name}", lambda: make_plan(room))


@cache
def made(name: str) -> tuple[Job, bytes]:
    """All that its drawings are made from, and its solids as STEP."""
    from generator.build import job_from

    return kept(f"job-{name}", lambda: job_from(*planned(name), lambda _: None))


def job(name: str) -> Job:
    """All that its drawings are made from."""
    return made(name)[0]


@cache
def files(name: str) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Everything that a build of it writes, by path, and what reads badly on its sheets."""
    from generator.build import files_of

    return kept(f"files-{name}", lambda: files_of(*made(name)))


@cache
def findings_of(name: str) -> tuple[Finding, ...]:
    """Of the framing as found and of the plan."""
    return run_plan_checks(*planned(name))


@cache
def solid_findings_of(name: str) -> tuple[Finding, ...]:
    from generator.solids import make_bodies

    return run_solid_checks(*planned(name), make_bodies(*planned(name)))
