"""What is wrong with the base and the corners: what is missing, unknown, or does not fit where it is to stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from generator.model.geometry import TOUCH
from generator.model.profiles import Catalogue
from generator.reading.base import deck_ends
from generator.reading.choices import square_of
from generator.reading.draft import Draft, shown
from generator.reading.footprint import Stand, stand_of
from generator.reading.gaps import judge_gaps
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import can_be_planned, chain_of, judge_footprint, said_length
from generator.reading.room_shapes import BaseShape, CornerShape, WallShape

_NEEDED = ("profile", "along", "length", "width")


def judge_base(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """The base, and how it stands against the walls."""
    base = draft.base
    if base is None:
        return
    if base.kind == "none":
        yield from _judge_no_base(base)
        return
    for key in _NEEDED:
        value = getattr(base, key)
        if value == "" or (value is None and key not in draft.base_keys):
            yield Issue("base", f"`{key}` is missing: {BaseShape.model_fields[key].description}")
    yield from _judge_profile(base, catalogue)
    if base.along and draft.unknown_wall(base.along):
        yield Issue("base.along", f"unknown wall `{base.along}`{nearest(base.along, draft.names)}")
    wall, chain = draft.wall(base.along), chain_of(draft)
    unread = base.start is None and "start" in draft.base_keys
    if wall is not None and base.length is not None and not unread:
        stand = stand_of(base, chain)
        fits = stand.end <= wall.width.mm + TOUCH
        yield from _judge_stand(draft, base, wall, stand)
        yield from judge_gaps(draft, base, wall, stand, catalogue) if fits else ()
        yield from judge_footprint(draft, base, chain, stand, square_of(draft.choices, catalogue, draft.units))
        yield from _judge_sides(draft, base, stand, catalogue)


def _judge_no_base(base: BaseShape) -> Iterator[Issue]:
    for key in sorted(base.model_fields_set - {"kind"}):
        yield Issue(join("base", key), f"`{key}` has no place where the kind of base is `none`")


def _judge_profile(base: BaseShape, catalogue: Catalogue) -> Iterator[Issue]:
    kind = "trays" if base.kind == "tray" else "flanges"
    table: Mapping[str, Any] = getattr(catalogue, kind)
    if base.profile and base.profile not in table:
        yield Issue("base.profile", f"unknown profile `{base.profile}` of {kind}{nearest(base.profile, table)}")


def _judge_stand(draft: Draft, base: BaseShape, wall: WallShape, stand: Stand) -> Iterator[Issue]:
    """Longer than its recess, or flanged where it does not stand."""
    if base.length and stand.end > wall.width.mm + TOUCH:
        start = f" that starts at {shown(base.start, draft.units)}" if base.start and base.start.exact else ""
        yield Issue(
            "base.length",
            f"a base {shown(base.length, draft.units)} long{start} does not fit the "
            f'{shown(wall.width, draft.units)} of wall "{wall.name}"; measure both again',
        )
    touched = [draft.names[run.index] for run in stand.runs]
    for i, name in enumerate(base.flanged or ()):
        if draft.unknown_wall(name):
            yield Issue(join("base.flanged", i), f"unknown wall `{name}`{nearest(name, draft.names)}")
        elif name not in touched:
            yield Issue(
                join("base.flanged", i),
                f'the base does not stand against wall "{name}"; it does at {", ".join(touched)}',
            )


def _judge_sides(draft: Draft, base: BaseShape, stand: Stand, catalogue: Catalogue) -> Iterator[Issue]:
    """Room for boards above it."""
    flange = catalogue.flanges.get(base.profile)
    upstand = flange.top if flange and base.kind != "tray" else 0.0
    for run in stand.runs:
        wall, ends = draft.walls[run.index], deck_ends(base, draft.names[run.index])
        if wall is not None and ends is not None:
            yield from _judge_height(join("walls", run.index, "boards.top"), wall, max(ends), upstand, draft)


def _judge_height(path: str, wall: WallShape, deck: float, upstand: float, draft: Draft) -> Iterator[Issue]:
    top = wall.height if wall.boards.top == "ceiling" else wall.boards.top
    if deck >= min(top.mm, wall.height.mm):
        entered = draft.base.deck if draft.base and not draft.base.decks else None
        at = shown(entered, draft.units) if entered else said_length(deck, draft.units)
        yield Issue("base.deck", f'the deck at {at} is above the boards of wall "{wall.name}"')
    elif deck + upstand >= top.mm:
        yield Issue(path, f'the boards of wall "{wall.name}" end below the top of the base\'s flange')


def judge_corners(draft: Draft) -> Iterator[Issue]:
    """Corners join neighbours, left to right, at angles that can be planned."""
    seen: dict[tuple[str, ...], int] = {}
    for i, corner in enumerate(draft.corners):
        if corner is None:
            continue
        path = join("corners", i)
        yield from _judge_between(path, corner, draft)
        yield from _judge_angle(path, corner)
        if corner.between in seen:
            yield Issue(path, f"this corner is listed twice, first as number {seen[corner.between] + 1}; keep one")
        seen.setdefault(corner.between, i)
        if corner.first and corner.first not in corner.between:
            yield Issue(join(path, "first"), f"`first` is one of the corner's two walls: {' or '.join(corner.between)}")


def _judge_between(path: str, corner: CornerShape, draft: Draft) -> Iterator[Issue]:
    here, (left, right) = join(path, "between"), corner.between
    unknown = [name for name in (left, right) if draft.unknown_wall(name)]
    for name in unknown:
        yield Issue(here, f"unknown wall `{name}`{nearest(name, draft.names)}")
    neighbours = list(pairwise(draft.names))
    if not unknown and "" not in draft.names and (left, right) not in neighbours:
        turned = (right, left) in neighbours
        cure = f"write [{right}, {left}], left to right" if turned else "a corner joins a wall and the next one listed"
        yield Issue(here, f'walls "{left}" and "{right}" are not neighbours in this order; {cure}')


def _judge_angle(path: str, corner: CornerShape) -> Iterator[Issue]:
    if not can_be_planned(corner.angle):
        yield Issue(
            join(path, "angle"),
            "corners can be planned from 40 to 140 degrees, outside corners from 220 to 320, measured inside the room",
        )
