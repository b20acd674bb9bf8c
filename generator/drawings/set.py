"""The drawing set: everything that is printed for one room, in the order in which it is read."""

from __future__ import annotations

from generator.drafting.page import Page
from generator.drawings.framing import framing_leaves
from generator.drawings.leaf import bound
from generator.model.job import Job


def draw_set(job: Job) -> tuple[Page, ...]:
    """The pages of the set, numbered and framed, each with its bookmark as title."""
    return bound(job, framing_leaves(job))
