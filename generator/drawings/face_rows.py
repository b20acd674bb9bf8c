"""Sheets of a built-in: its faces side by side in rows, at the largest scale at which they fit, notes beside them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import chain, cycle

from generator.drafting.ink import View
from generator.drafting.inview import InView
from generator.drawings.boards import boards_of
from generator.drawings.elevation import BETWEEN, COLUMN, PANEL, pages_of
from generator.drawings.flow import Block, Box, columns_of, flow
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.scales import Scale, standard_scales
from generator.drawings.stamp import stamp_of
from generator.model.features import Feature
from generator.model.geometry import Point
from generator.model.job import Job
from generator.model.room import Wall
from generator.units import PaperUnits

TITLE = 7.0
"""mm above a view for its title."""

Sizes = Callable[[float], Sequence[tuple[float, float]]]
"""Width and height on paper of each view with its furniture, at a scale's factor."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A face on paper, with the box of what it shows."""

    face: Wall
    view: View
    hull: Box


@dataclass(frozen=True, slots=True)
class FaceSheet:
    """What one kind of sheet draws of a built-in: `size` and `draw` of a face at a scale's factor, notes at a scale."""

    kind: str
    title: str
    size: Callable[[Wall, float], tuple[float, float]]
    draw: Callable[[Wall, float, Point], InView]
    notes: Callable[[Scale], tuple[Block, ...]]


def feature_name(feature: Feature) -> str:
    """Kind and name; the name alone where it says the kind."""
    kind = feature.kind.replace("_", " ")
    return kind if kind == feature.id else f"{kind} {feature.id}"


def faces_of(job: Job, feature: Feature) -> tuple[Wall, ...]:
    """The boarded faces of a feature that belong to no chain of walls."""
    return tuple(w for w in job.room.walls if w.id in feature.faces and w.frame is not None and boards_of(job, w))


def face_title(face: Wall) -> str:
    """Above its view: its own part of its name, so that the top of a deck is no seat."""
    own = face.id.removeprefix(f"{face.feature}-")
    return (face.face if own == face.id else own).upper()


def face_leaves(job: Job, feature: Feature, faces: Sequence[Wall], sheet: FaceSheet) -> tuple[Leaf, ...]:
    """All faces on one sheet with the notes beside them, and further sheets for notes that found no room."""
    warning = stamp_of(job, feature.faces)
    left, bottom, right, top = area(job, warning)
    space = (left, bottom, right - PANEL - BETWEEN, top)
    units = job.room.choices.paper_units
    scale, places = arranged(lambda k: [sheet.size(face, k) for face in faces], space, units)
    views = tuple(sheet.draw(face, scale.factor, at) for face, at in zip(faces, places, strict=True))
    columns = columns_of((left, bottom, right, top), COLUMN)
    filled = flow(sheet.notes(scale), chain([(right - PANEL, bottom, right, top)], cycle(columns)))
    first = Leaf(sheet.kind, sheet.title, scale.text, filled[0], warning, views)
    return (first, *pages_of(sheet.kind, f"{sheet.title}{CONTINUED}", filled[1:], len(columns), warning))


def arranged(sizes: Sizes, space: Box, units: PaperUnits) -> tuple[Scale, tuple[Point, ...]]:
    """The largest standard scale at which all views fit in rows, and the upper left corner of each."""
    scales = standard_scales(units)
    for scale in scales:
        places = _rows(sizes(scale.factor), space)
        if places is not None:
            return scale, places
    return scales[-1], tuple((space[0], space[3]) for _ in sizes(scales[-1].factor))


def _rows(sizes: Sequence[tuple[float, float]], space: Box) -> tuple[Point, ...] | None:
    left, bottom, right, top = space
    places: list[Point] = []
    x, y, tall = left, top, 0.0
    for width, height in sizes:
        if x > left and x + width > right:
            x, y, tall = left, y - tall - BETWEEN, 0.0
        if x + width > right or y - height < bottom:
            return None
        places.append((x, y))
        x, tall = x + width + BETWEEN, max(tall, height)
    return tuple(places)
