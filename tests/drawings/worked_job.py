"""The worked room as a Job, sound or with a failed wall; and the same board with other openings."""

from __future__ import annotations

from dataclasses import replace

from generator.model.findings import Finding, Place
from generator.model.job import Job
from generator.model.plan import Board, Opening, Plan
from generator.model.profiles import PaperProfile
from tests.worked_plan import worked_plan, worked_room
from tests.worked_room import LETTER, ORIGIN

A4 = PaperProfile("a4", "A4", ORIGIN, {}, 210.0, 297.0, 10.0)
PAPERS = (LETTER, A4)
WHY = "valve body against stud S-right-02"


def worked_job(*failed: str) -> Job:
    """The worked room and its plan by hand; walls named have one failed finding each."""
    room = worked_room()
    findings = tuple(
        Finding("collision-body", "found", "fail", WHY, -10.0, 0.0, -10.0, Place(wall, ()), None, "", 0)
        for wall in failed
    )
    return Job(room, worked_plan(room), findings, frozenset(failed), {}, {})


def with_board(job: Job, board: Board) -> Job:
    """The job with that board in the place of the one of its id."""
    boards = tuple(board if b.id == board.id else b for b in job.plan.boards)
    plan: Plan = replace(job.plan, boards=boards)
    return replace(job, plan=plan)


def with_openings(job: Job, mark: str, *openings: Opening) -> Job:
    """The job with these openings in one board and none elsewhere."""
    boards = tuple(replace(b, openings=openings if b.id == mark else ()) for b in job.plan.boards)
    return replace(job, plan=replace(job.plan, boards=boards))


def hole(name: str, u: float, v: float, diameter: float) -> Opening:
    """A round opening without a fitting."""
    return Opening(f"O-{name}", None, name, (u, v), diameter, ())
