"""Soffits on drawings of the walls that they are framed to, and from above, where they hang over what is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.drafting.ink import Outline, Text, View
from generator.drafting.spot import Block, fit_block
from generator.drawings.said import said
from generator.model.features import Feature
from generator.model.geometry import TOUCH, Point, Ring, box, rectangle, tidy
from generator.model.job import Job
from generator.model.room import Wall

_NAME = (2.5,)


@dataclass(frozen=True, slots=True)
class Hung:
    """The framing of a soffit where it meets a wall: `ring` in the wall's frame."""

    feature: Feature
    ring: Ring


def hung_on(job: Job, wall: Wall) -> tuple[Hung, ...]:
    """The soffits that are framed to a wall, in the order of the room file."""
    frame, ceiling = job.plan.wall(wall.id).frame, box(wall.outline)[3]
    found = []
    for feature, corners in _undersides(job):
        points = [frame.of(corner) for corner in corners]
        if wall.allowances and min(abs(w) for _, _, w in points) <= TOUCH:
            us, low = [u for u, _, _ in points], min(v for _, v, _ in points)
            found.append(Hung(feature, rectangle(min(us), low, max(us), ceiling)))
    return tuple(found)


def _undersides(job: Job) -> Iterator[tuple[Feature, list[tuple[float, float, float]]]]:
    """Each soffit with the room points of its framing's lower corners."""
    for feature in (one for one in job.room.features if one.kind == "soffit"):
        face = job.plan.wall(feature.faces[0])
        yield feature, [face.frame.at(u, v) for u, v in face.outline]


def hung_ink(job: Job, wall: Wall) -> tuple[Outline, ...]:
    """Their outlines on the framing of a wall, in the wall's frame."""
    return tuple(Outline(one.ring, "hidden") for one in hung_on(job, wall))


def hung_stops(job: Job, wall: Wall) -> list[tuple[float, str]]:
    """The heights at which ledgers and rails are fixed to a wall."""
    return [
        (tidy(box(one.ring)[1]), f"{one.feature.id} {said(job, box(one.ring)[1], (f'{one.feature.path}.height',))}")
        for one in hung_on(job, wall)
    ]


def hung_names(job: Job, wall: Wall, view: View) -> tuple[Text, ...]:
    """Their names, in the middle of where they take the place of the wall's boards."""
    rings = (tuple(view.point(p) for p in one.ring) for one in hung_on(job, wall))
    names = (Block((one.feature.id,), mask=True) for one in hung_on(job, wall))
    return tuple(text for name, ring in zip(names, rings, strict=True) for text in fit_block(name, ring, (), _NAME))


def rings_above(job: Job) -> tuple[tuple[Feature, tuple[Point, ...]], ...]:
    """Each soffit from above, in the room's x and y."""
    return tuple((feature, tuple((x, y) for x, y, _ in corners)) for feature, corners in _undersides(job))
