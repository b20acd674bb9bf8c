"""What all elevations of a wall share: their scale and place on the sheet, the panel beside them, the wall itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, cycle

from generator.drafting.ink import Ink, Outline, View
from generator.drafting.inview import InView, Piece
from generator.drafting.layers import Role
from generator.drawings.flow import Block, Box, columns_of, flow
from generator.drawings.leaf import CONTINUED, NO_SCALE, Leaf, area
from generator.drawings.marks import widest
from generator.drawings.scales import Scale, fitting_scale
from generator.drawings.stamp import stamp
from generator.model.ends import height_at
from generator.model.geometry import Point, Ring, box, rectangle
from generator.model.job import Job
from generator.model.plan import PlannedSide
from generator.model.room import Wall

PANEL = 92.0
"""mm: least width of the panel of notes beside a view."""
COLUMN = 92.0
"""mm: least width of one column of notes."""
BETWEEN = 8.0
"""mm between the view's furniture and the panel."""
STEM = 9.5
"""mm from a view's edge through a running dimension's line to the foot of its text."""


@dataclass(frozen=True, slots=True)
class Margins:
    """mm of paper that dimensions and labels need at each side of a view."""

    left: float
    bottom: float
    right: float
    top: float


@dataclass(frozen=True, slots=True)
class Elevation:
    """A wall placed on its sheet: `hull` is its box on paper, `panel` the columns beside it."""

    job: Job
    wall: Wall
    view: View
    scale: Scale
    hull: Box
    panel: tuple[Box, ...]


def strip(texts: Iterable[str]) -> float:
    """Width in mm of a running dimension with these texts, from the view's edge outwards."""
    words = tuple(texts)
    return STEM + 1.0 + widest(words) if words else 0.0


def elevation(job: Job, wall: Wall, around: Margins, also: Sequence[Ring] = ()) -> Elevation:
    """The wall at the largest standard scale that leaves room around it and for the panel.

    `also`: what this elevation shows beside what all show, in the wall frame; it may reach past the wall.
    """
    left, bottom, right, top = area(job, stamp(job, wall.id))
    low_u, low_v, high_u, high_v = box((*rectangle(*wall_box(job, wall)), *chain(*also)))
    size = (high_u - low_u, high_v - low_v)
    space = (
        right - left - around.left - around.right - PANEL - BETWEEN,
        top - bottom - around.top - around.bottom,
    )
    scale = fitting_scale(size, space, job.room.choices.paper_units)
    width, height = size[0] * scale.factor, size[1] * scale.factor
    slack = min(max(0.0, space[1] - height) / 2, 12.0)
    corner = (left + around.left, top - around.top - height - slack)
    hull = (corner[0], corner[1], corner[0] + width, corner[1] + height)
    panel = (hull[2] + around.right + BETWEEN, bottom, right, top)
    return Elevation(job, wall, View(scale.factor, corner, (low_u, low_v)), scale, hull, columns_of(panel, COLUMN))


def wall_box(job: Job, wall: Wall) -> Box:
    """(left, bottom, right, top) in the wall frame of everything that its elevations show."""
    points: list[Point] = list(wall.outline)
    points += [p for b in job.plan.boards if b.wall == wall.id for p in b.outline]
    points += [p for s in job.plan.supports if s.wall == wall.id for p in s.outline]
    points += [p for s in sides_of(job, wall) for p in s.deck]
    return box(points)


def sides_of(job: Job, wall: Wall) -> tuple[PlannedSide, ...]:
    """The stretches of the base along the wall."""
    return tuple(s for s in job.plan.base.sides if s.wall == wall.id)


def wall_ink(wall: Wall) -> tuple[Ink, ...]:
    """The framing's outline, in the wall frame."""
    return (Outline(wall.outline, "visible"),)


def base_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """Deck, flange and body of the base where it stands along the wall, in the wall frame."""
    ink: list[Ink] = []
    for side in sides_of(job, wall):
        ink.append(Outline(_body(side), "base", fill=0.93))
        if side.flange_top > max(v for _, v in side.deck):
            ink.append(over_deck(side, flange_rise(side), (side.start, side.end), "base"))
    return tuple(ink)


def flange_rise(side: PlannedSide) -> float:
    """Height of the flange's top over the deck."""
    return side.flange_top - max(v for _, v in side.deck)


def over_deck(side: PlannedSide, rise: float, span: tuple[float, float], layer: Role) -> Outline:
    """A line so high over the deck, from u to u, that falls as the deck does."""
    us = sorted({*span, *(u for u, _ in side.deck if span[0] < u < span[1])})
    return Outline(tuple((u, height_at(side.deck, u) + rise) for u in us), layer, closed=False)


def _body(side: PlannedSide) -> Ring:
    return (*side.deck, (side.end, 0.0), (side.start, 0.0))


def assembled(
    kind: str,
    title: str,
    seen: Elevation,
    model: tuple[Piece, ...],
    marks: tuple[Ink, ...],
    notes: tuple[Block, ...],
) -> tuple[Leaf, ...]:
    """The elevation's sheet with its notes beside it, and further sheets for the notes that found no room.

    `model` in the wall frame; `marks` on paper.
    """
    warning = stamp(seen.job, seen.wall.id)
    columns = columns_of(area(seen.job, warning), COLUMN)
    filled = flow(notes, chain(seen.panel, cycle(columns)))
    count = len(seen.panel)
    view = InView(seen.view, model, marks)
    first = Leaf(kind, title, seen.scale.text, tuple(chain(*filled[:count])), warning, (view,))
    return (first, *pages_of(kind, f"{title}{CONTINUED}", filled[count:], len(columns), warning))


def pages_of(
    kind: str, title: str, columns: tuple[tuple[Ink, ...], ...], per_page: int, warning: str = ""
) -> tuple[Leaf, ...]:
    """Filled columns as sheets of notes alone, so many to a page."""
    pages = (columns[i : i + per_page] for i in range(0, len(columns), per_page))
    return tuple(Leaf(kind, title, NO_SCALE, tuple(chain(*page)), warning) for page in pages)
