"""A sheet of the set before it knows its number, and the space that it may draw in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import chain

from generator.drafting.dimension import strokes
from generator.drafting.ink import Ink, Running, Text
from generator.drafting.inview import InView, Sheet
from generator.drafting.page import Page
from generator.drafting.practice import drawn_height, practised, practised_view
from generator.drafting.titleblock import (
    MARGIN,
    STRIP,
    SheetInfo,
    drawing_area,
    empty_block,
    fields,
    sheet_frame,
    warnings,
)
from generator.drawings.flow import Box
from generator.drawings.said import lengths_in
from generator.drawings.stamp import NOT_FOR_CUTTING
from generator.model.job import Job
from generator.model.profiles import PracticeProfile


@dataclass(frozen=True, slots=True)
class Leaf:
    """`kind` of drawing, its `title`, the scale as printed, its ink, and the stamp of a failed wall or "".

    `views`: what it shows of the model at a scale, with its marks; `ink`: all the rest. Writing comes out on top.
    """

    kind: str
    title: str
    scale: str
    ink: tuple[Ink, ...]
    stamp: str = ""
    views: tuple[InView, ...] = ()


NO_SCALE = "none"
CONTINUED = ", continued"
"""Behind the title of a sheet that goes on with the one before."""


def paper(job: Job) -> tuple[float, float]:
    """Width and height in mm of the set's paper, lying."""
    profile = job.room.choices.sheet_paper
    return max(profile.width, profile.height), min(profile.width, profile.height)


def area(job: Job, stamp: str = "") -> Box:
    """The space that a leaf of the set may draw in."""
    return drawing_area(_info(job, Leaf("", "", "", (), stamp), "0", 0))


def bound(job: Job, leaves: tuple[Leaf, ...]) -> tuple[Page, ...]:
    """The leaves as pages: numbered, framed, with their title blocks."""
    drawn = (_practised(leaf, job.room.choices.practice) for leaf in leaves)
    return tuple(_page(job, leaf, str(i + 1), len(leaves)) for i, leaf in enumerate(drawn))


def _practised(leaf: Leaf, practice: PracticeProfile | None) -> Leaf:
    views = tuple(practised_view(view, practice) for view in leaf.views)
    return replace(leaf, ink=practised(leaf.ink, practice), views=views)


def _info(job: Job, leaf: Leaf, number: str, of: int) -> SheetInfo:
    width, height = paper(job)
    said, practice = lengths_in(job.room.choices.paper_units), job.room.choices.practice
    return SheetInfo(
        number=number,
        of=of,
        title=leaf.title,
        kind=leaf.kind,
        scale=leaf.scale,
        room=job.room.name,
        width=width,
        height=height,
        stamp=leaf.stamp,
        lengths=said,
        projection=practice.projection if practice else None,
    )


def _page(job: Job, leaf: Leaf, number: str, of: int) -> Page:
    info, practice = _info(job, leaf, number, of), job.room.choices.practice
    around = practised((*_elsewhere(job, leaf, info), *sheet_frame(job.room.job, info)), practice)
    ink, sheet = (*_printed(leaf), *around), _sheet(job, leaf, info)
    return Page(number, leaf.title, info.width, info.height, leaf.scale, ink, sheet=sheet, practice=practice)


def _printed(leaf: Leaf) -> tuple[Ink, ...]:
    """Views and all the rest; beside a view whose writing stands on lines, all writing gets its patch."""
    bare = chain(*(view.on_paper for view in leaf.views if not view.patched))
    patched = tuple(chain(*(view.on_paper for view in leaf.views if view.patched)))
    return (*bare, *(writing_last((*patched, *leaf.ink)) if patched else leaf.ink))


def _sheet(job: Job, leaf: Leaf, info: SheetInfo) -> Sheet:
    """A file by itself: one of a wall says nothing of other walls, which have files of their own."""
    practice, elsewhere = job.room.choices.practice, () if leaf.views else _elsewhere(job, leaf, info)
    beside = (*leaf.ink, *practised((*warnings(info), *elsewhere), practice))
    block = practised(empty_block(job.room.job, info), practice)
    values = (replace(f, height=drawn_height(f.height, practice)) for f in fields(job.room.job, info))
    return Sheet(leaf.views, beside, block, tuple(values), leaf.stamp)


def writing_last(ink: tuple[Ink, ...]) -> tuple[Ink, ...]:
    """The same ink with all writing on top, each word on its own cleared patch of paper."""
    pieces = tuple(chain(*(strokes(item) if isinstance(item, Running) else (item,) for item in ink)))
    words = tuple(replace(item, mask=True) for item in pieces if isinstance(item, Text))
    return (*(item for item in pieces if not isinstance(item, Text)), *words)


def _elsewhere(job: Job, leaf: Leaf, info: SheetInfo) -> tuple[Ink, ...]:
    """On the sheets of sound walls: which walls failed, so that no page of a failed set goes without the words."""
    if leaf.stamp or not job.failed:
        return ()
    walls = ", ".join(w.id for w in job.plan.walls if w.id in job.failed)
    text = f"{NOT_FOR_CUTTING}: boards of {walls}; see the findings."
    return (Text((info.width - MARGIN - 2.0, MARGIN + STRIP + 1.8), text, 2.5, "right", bold=True),)
