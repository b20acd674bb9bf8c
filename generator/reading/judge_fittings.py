"""What is wrong with fittings: unknown walls and profiles, places that cannot be, two in one place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import hypot

from generator.model.geometry import TOUCH, box
from generator.model.profiles import Catalogue
from generator.model.room import Fitting
from generator.reading.draft import Draft, shown
from generator.reading.fittings import fitting_at, slug
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import deck_of, runs_of
from generator.reading.room_shapes import FittingShape, WallShape


@dataclass(frozen=True, slots=True)
class _Placed:
    """A fitting that could be placed: its middle and half its opening's size."""

    fitting: Fitting
    half: tuple[float, float]


def judge_fittings(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """All fittings; those that can be placed are compared with their wall and with each other."""
    yield from _judge_names(draft)
    placed: list[_Placed] = []
    for i, shape in enumerate(draft.fittings):
        if shape is None:
            continue
        path = join("fittings", i)
        wrong = list(_judge_references(path, shape, draft, catalogue))
        yield from wrong
        wall = draft.wall(shape.wall)
        if not wrong and wall is not None:
            one = _place(path, shape, wall, draft, catalogue)
            outside = list(_judge_place(path, shape, one, wall, draft))
            yield from outside
            placed += [] if outside else [one]
    yield from _judge_overlaps(placed)


def _judge_names(draft: Draft) -> Iterator[Issue]:
    """Names are ids in the plan, where walls and fittings stand side by side."""
    seen = {slug(name): "wall" for name in draft.names}
    for i, shape in enumerate(draft.fittings):
        if shape is not None:
            if slug(shape.name) in seen:
                other = seen[slug(shape.name)]
                yield Issue(f"fittings.{i}.name", f'there is a {other} "{shape.name}" already; choose another name')
            seen.setdefault(slug(shape.name), "fitting")


def _judge_references(path: str, shape: FittingShape, draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    if draft.unknown_wall(shape.wall):
        yield Issue(join(path, "wall"), f"unknown wall `{shape.wall}`{nearest(shape.wall, draft.names)}")
    known = [*catalogue.pipes, *catalogue.cutouts]
    if shape.profile not in known:
        message = f"unknown profile `{shape.profile}` of pipes and cutouts{nearest(shape.profile, known)}"
        yield Issue(join(path, "profile"), message)
    if shape.above == "deck" and draft.base is not None:
        yield from _judge_deck(path, shape, draft)


def _judge_deck(path: str, shape: FittingShape, draft: Draft) -> Iterator[Issue]:
    """A height above the deck needs a deck at that wall."""
    base, here = draft.base, join(path, "above")
    if base is None or base.kind == "none":
        yield Issue(here, "there is no deck to measure from; measure from the floor")
    elif (runs := runs_of(draft)) and shape.wall not in runs:
        yield Issue(here, f'the base does not stand against wall "{shape.wall}"; measure from the floor')


def _place(path: str, shape: FittingShape, wall: WallShape, draft: Draft, catalogue: Catalogue) -> _Placed:
    fitting = fitting_at(path, shape, wall.width.mm, deck_of(draft, wall.name), catalogue)
    if fitting.ring:
        left, bottom, right, top = box(fitting.ring)
        return _Placed(fitting, ((right - left) / 2, (top - bottom) / 2))
    return _Placed(fitting, (fitting.diameter / 2, fitting.diameter / 2))


def _judge_place(path: str, shape: FittingShape, one: _Placed, wall: WallShape, draft: Draft) -> Iterator[Issue]:
    """Inside its wall, opening and all."""
    (u, v), (half_u, half_v) = one.fitting.centre, one.half
    up, width, height = shown(shape.up, draft.units), shown(wall.width, draft.units), shown(wall.height, draft.units)
    if not 0 <= u <= wall.width.mm:
        across = shown(shape.across, draft.units)
        yield Issue(join(path, "across"), f'"{shape.name}" at {across} lies outside the {width} wall "{wall.name}"')
    elif u < half_u - TOUCH or u > wall.width.mm - half_u + TOUCH:
        yield Issue(join(path, "across"), f'the opening of "{shape.name}" reaches past an end of wall "{wall.name}"')
    if v > wall.height.mm:
        message = (
            f'"{shape.name}" at {up} above the {shape.above} lies above the {height} ceiling of wall "{wall.name}"'
        )
        yield Issue(join(path, "up"), message)
    elif v < half_v - TOUCH or v > wall.height.mm - half_v + TOUCH:
        message = f'the opening of "{shape.name}" reaches past the floor or the ceiling of wall "{wall.name}"'
        yield Issue(join(path, "up"), message)


def _judge_overlaps(placed: list[_Placed]) -> Iterator[Issue]:
    for one, other in combinations(placed, 2):
        if one.fitting.wall == other.fitting.wall and _overlap(one, other):
            message = f'the openings of "{other.fitting.name}" and "{one.fitting.name}" overlap; measure both again'
            yield Issue(other.fitting.path, message)


def _overlap(one: _Placed, other: _Placed) -> bool:
    du = abs(one.fitting.centre[0] - other.fitting.centre[0])
    dv = abs(one.fitting.centre[1] - other.fitting.centre[1])
    if one.fitting.ring or other.fitting.ring:
        return du < one.half[0] + other.half[0] - TOUCH and dv < one.half[1] + other.half[1] - TOUCH
    return hypot(du, dv) < one.half[0] + other.half[0] - TOUCH
