"""The words on everything that comes from a failed wall."""

from __future__ import annotations

from generator.model.findings import Finding
from generator.model.job import Job

NOT_FOR_CUTTING = "NOT FOR CUTTING"


def stamp(job: Job, wall: str) -> str:
    """`NOT FOR CUTTING: why` when the wall failed, else nothing. Why is its first failure and the number of others."""
    if wall not in job.failed:
        return ""
    fails = [f for f in job.findings if f.verdict == "fail" and f.place.wall in ("", wall)]
    return f"{NOT_FOR_CUTTING}: {_why(fails)}"


def stamp_of(job: Job, walls: tuple[str, ...]) -> str:
    """The stamp of something that serves several walls: of the first that failed."""
    return next((text for text in (stamp(job, wall) for wall in walls) if text), "")


def _why(fails: list[Finding]) -> str:
    if not fails:
        return "a check of this wall failed"
    others = len(fails) - 1
    more = f" (and {others} more)" if others else ""
    return f"{fails[0].rule}, {fails[0].subject}{more}"
