"""How the pages of a template that goes over more than two are put together: a page of its own, not to scale."""

from __future__ import annotations

from generator.drafting.clip import clip
from generator.drafting.ink import Ink, Outline, Text, View
from generator.drawings import template_sheet as sheet
from generator.drawings.template_targets import Bounds
from generator.drawings.template_tiles import Grid
from generator.model.geometry import box, rectangle
from generator.model.job import Job
from generator.units import label

LABEL = 6.0
"""mm: capitals of the names of the pages."""


def plan_words(job: Job, words: sheet.Words, whole: Grid) -> sheet.Words:
    """What stands above a page plan."""
    left, bottom, right, top = sight(whole)
    units = job.room.choices.paper_units
    lines = (
        "PAGE PLAN, not to scale. Trim every page at its crop marks along one side of each joint, lay the targets on"
        " each other, tape them, and measure once more over the joints before cutting.",
        f"All pages together: {label(right - left, units)} wide, {label(top - bottom, units)} high.",
        *words.lines[:1],
    )
    return sheet.Words(words.stamp, words.title, lines)


def sight(whole: Grid) -> Bounds:
    """The box of all windows."""
    return box(point for tile in whole.tiles() for point in tile.ring)


def page_plan_ink(whole: Grid, full_size: tuple[Ink, ...], frame: Bounds) -> tuple[Ink, ...]:
    """Everything in the windows, small, in a frame on paper, with the windows and their names."""
    seen = sight(whole)
    scale = min((frame[2] - frame[0]) / (seen[2] - seen[0]), (frame[3] - frame[1]) / (seen[3] - seen[1]))
    corner = ((frame[0] + frame[2] - (seen[2] - seen[0]) * scale) / 2, frame[3] - (seen[3] - seen[1]) * scale)
    view = View(scale, corner, (seen[0], seen[1]))
    lines = tuple(item for item in full_size if not isinstance(item, Text))
    windows = tuple(Outline(tile.ring, "register") for tile in whole.tiles())
    names = ((tile.label, box(tile.ring)) for tile in whole.tiles())
    texts = (
        Text(view.point(((b[0] + b[2]) / 2, (b[1] + b[3]) / 2)), name, LABEL, "centre", "middle", bold=True, mask=True)
        for name, b in names
    )
    return (*view.place((*clip(lines, rectangle(*seen)), *windows)), *texts)
