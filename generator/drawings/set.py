"""The drawing set: everything that is printed for one room, in the order in which it is read."""

from __future__ import annotations

from generator.drafting.page import Page
from generator.drawings.boards import board_leaves
from generator.drawings.changes import change_leaves
from generator.drawings.cutsheets import KIND as CUT_SHEET
from generator.drawings.cutsheets import cut_sheet_inks
from generator.drawings.details import detail_leaves
from generator.drawings.exploded import exploded_leaves
from generator.drawings.feature_sealing import feature_sealing_leaves
from generator.drawings.features import feature_leaves
from generator.drawings.flatness import flatness_leaves
from generator.drawings.framing import framing_leaves
from generator.drawings.leaf import Leaf, bound
from generator.drawings.lumber import lumber_leaves
from generator.drawings.schedules import (
    cut_list_leaves,
    front_leaves,
    takeoff_leaves,
)
from generator.drawings.sealing import sealing_leaves
from generator.drawings.shop import shop_leaves
from generator.drawings.title import title_leaves
from generator.model.job import Job


def draw_set(job: Job) -> tuple[Page, ...]:
    """The pages of the set, numbered and framed, each with its bookmark as title."""
    leaves = _after_the_title(job)
    return bound(job, (*title_leaves(job, leaves), *leaves))


def _after_the_title(job: Job) -> tuple[Leaf, ...]:
    return (
        *change_leaves(job),
        *front_leaves(job),
        *framing_leaves(job),
        *lumber_leaves(job),
        *flatness_leaves(job),
        *board_leaves(job),
        *feature_leaves(job),
        *sealing_leaves(job),
        *feature_sealing_leaves(job),
        *detail_leaves(job),
        *exploded_leaves(job),
        *shop_leaves(job),
        *_cut_sheet_leaves(job),
        *cut_list_leaves(job),
        *takeoff_leaves(job),
    )


def _cut_sheet_leaves(job: Job) -> tuple[Leaf, ...]:
    return tuple(Leaf(CUT_SHEET, p.title, p.scale, p.ink, p.stamp, p.views) for p in cut_sheet_inks(job))
