"""What has changed since an earlier build, for whoever has its sheets in hand."""

from __future__ import annotations

from generator.drawings.flow import Block, Column, heading, prose, table
from generator.drawings.leaf import Leaf
from generator.drawings.schedules import listed, width_of
from generator.model.changes import DETAIL, Change
from generator.model.job import Job

TITLE = "Changes since the last build"


def change_leaves(job: Job) -> tuple[Leaf, ...]:
    """The table; no sheet where no earlier build was named."""
    if job.changes is None:
        return ()
    width = width_of(job)
    how = f"Revision {job.room.job.revision or 'without a mark'}, against the build before it. {_state(job)}"
    return listed(job, "Changes", TITLE, (heading(TITLE, width, 5.0), prose(how, width), *_table(job, width)))


def _state(job: Job) -> str:
    if not job.changes:
        return "Nothing has changed: its sheets still hold."
    if not _told(job):
        return "Nothing that this list tells has changed, but small things have: take the new sheets."
    return "Sheets of that build that show what is listed here are out of date."


def _told(job: Job) -> tuple[Change, ...]:
    """Without the names of parts of plan.json, which are for programs."""
    return tuple(one for one in job.changes or () if one.topic != DETAIL)


def _table(job: Job, width: float) -> tuple[Block, ...]:
    columns = (Column("Of", 24), Column("Name", 44), Column("Is", 24), Column("What", 158))
    rows = [(one.topic, one.name, one.kind, one.text) for one in _told(job)]
    return table(columns, rows, width) if rows else ()
