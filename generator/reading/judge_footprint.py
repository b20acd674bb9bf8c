"""What is wrong with the base as it is seen from above, and with the heights of its deck around it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from generator.model.ends import STEEPEST
from generator.model.geometry import TOUCH, Point
from generator.model.room import Units
from generator.reading.base import NO_DECK, corner_walls, deck_ends, deck_line
from generator.reading.draft import Draft
from generator.reading.footprint import Chain, Run, Stand, stand_of
from generator.reading.issues import Issue, join, nearest
from generator.reading.room_shapes import BaseShape
from generator.units import label

_UNREAD = 1e4
"""mm: the width of a wall that could not be read, longer than any base."""
_NEO_KEYS = ("returns", "front")
_SHARPEST, _BLUNTEST = 40.0, 140.0
"""Degrees between two walls, on the side where that is less than 180."""


def can_be_planned(angle: float) -> bool:
    """True of the angle of a corner, in degrees inside the room, that the planning of corners can do."""
    return _SHARPEST <= min(angle, 360.0 - angle) <= _BLUNTEST


def chain_of(draft: Draft) -> Chain:
    """The walls as far as they could be read: corners that could not be planned count as square."""
    angles = {corner.between: corner.angle for corner in draft.corners if corner is not None}
    found = (angles.get(pair, 90.0) for pair in pairwise(draft.names))
    return Chain(
        draft.names,
        tuple(wall.width.mm if wall is not None else _UNREAD for wall in draft.walls),
        tuple(angle if can_be_planned(angle) else 90.0 for angle in found),
    )


def runs_of(draft: Draft) -> dict[str, Run]:
    """Where the base runs along each wall, by name; empty where that cannot be told."""
    base = draft.base
    if base is None or base.kind == "none" or base.length is None or draft.wall(base.along) is None:
        return {}
    chain = chain_of(draft)
    return {chain.names[run.index]: run for run in stand_of(base, chain).runs}


def deck_of(draft: Draft, wall: str) -> tuple[Point, ...]:
    """The deck along a wall as (u, v) points, the floor where there is none or it cannot be told."""
    run = runs_of(draft).get(wall)
    return deck_line(draft.base, wall, run, 0.0) if draft.base is not None and run else NO_DECK


def said_length(mm: float, units: Units) -> str:
    """A length that was worked out, for a message."""
    return label(mm, units) + (" mm" if units == "mm" else "")


def judge_footprint(draft: Draft, base: BaseShape, chain: Chain, stand: Stand, square: float) -> Iterator[Issue]:
    """The neo-angle's own measurements, a front that would be no front, and decks that disagree."""
    if base.shape == "neo_angle":
        yield from _judge_neo(draft, base, chain, stand, square)
    else:
        for key in (key for key in _NEO_KEYS if getattr(base, key)):
            yield Issue(
                join("base", key), f"`{key}` belongs to a neo-angle base; write `shape: neo_angle` or leave it out"
            )
        yield from _judge_front(base, stand)
    yield from _judge_decks(draft, base, stand, square)


def _judge_front(base: BaseShape, stand: Stand) -> Iterator[Issue]:
    (left, _), (right, _) = stand.footprint[3], stand.footprint[2]
    if base.length and base.width and right - left < TOUCH:
        yield Issue("base.width", "the walls beside the base meet before its front; measure it and the corners again")


def _judge_neo(draft: Draft, base: BaseShape, chain: Chain, stand: Stand, square: float) -> Iterator[Issue]:
    """Where its corner is, and that it is square; then whether the measurements agree."""
    missing = f"`returns` is missing: {BaseShape.model_fields['returns'].description}"
    if base.kind == "tub":
        yield Issue("base.shape", "a tub is no neo-angle base; write `kind: shower_base` or `tray`")
    if not base.returns:
        yield from () if "returns" in draft.base_keys else (Issue("base", missing),)
        return
    for name in (name for name in base.returns if draft.unknown_wall(name)):
        yield Issue(join("base.returns", name), f"unknown wall `{name}`{nearest(name, draft.names)}")
    walls = corner_walls(stand, draft.names)
    if set(base.returns) != set(walls):
        beside = [draft.names[i] for i in (stand.index - 1, stand.index + 1) if 0 <= i < len(draft.names)]
        text = f'a return each for wall "{base.along}" and the neighbour that makes the corner with it is expected here'
        yield Issue("base.returns", f"{text}: {' or '.join(beside) or 'there is no neighbour'}")
        return
    angle = chain.angles[stand.index - (1 if stand.neo == "left" else 0)]
    if abs(angle - 90.0) > 1e-6:
        text = f"a neo-angle base stands in a corner of 90 degrees; this one has {angle:g}"
        yield Issue("base.shape", f"{text}. Write its footprint as a base with four sides, or correct the corner")
    elif base.length is not None and base.width is not None:
        yield from _judge_neo_size(draft, base, walls, square)


def _judge_neo_size(draft: Draft, base: BaseShape, walls: tuple[str, ...], square: float) -> Iterator[Issue]:
    """At 135 degrees both wall sides are as much longer than the other wall's return; the front follows."""
    assert base.length is not None and base.width is not None
    other = next(name for name in walls if name != base.along)
    across, out = base.length.mm - base.returns[other].mm, base.width.mm - base.returns[base.along].mm
    units = draft.units
    if min(across, out) < TOUCH:
        text = "a return is shorter than the side that it is parallel to"
        yield Issue("base.returns", f"{text}; here no front is left. Measure returns and sides again")
    elif abs(across - out) > square + TOUCH:
        one, two = (said_length(mm, units) for mm in (across, out))
        text = f"length less the return at {other} is {one}, width less the return at {base.along} is {two}"
        off = said_length(abs(across - out), units)
        yield Issue("base.returns", f"{text}: off by {off}, and a front at 135 degrees makes them equal; measure again")
    elif base.front is not None and abs(base.front.mm - hypot(across, out)) > square + TOUCH:
        off, made = (said_length(mm, units) for mm in (abs(base.front.mm - hypot(across, out)), hypot(across, out)))
        yield Issue("base.front", f"the front is {off} off what sides and returns make it ({made}); measure again")


def _judge_decks(draft: Draft, base: BaseShape, stand: Stand, square: float) -> Iterator[Issue]:
    """Heights at walls where it stands, all there, none steeper than a slip of the tape, and corners that agree."""
    touched = [draft.names[run.index] for run in stand.runs]
    for name in base.decks:
        here = join("base.decks", name)
        if draft.unknown_wall(name):
            yield Issue(here, f"unknown wall `{name}`{nearest(name, draft.names)}")
        elif name not in touched:
            yield Issue(here, f'the base does not stand against wall "{name}"; it does at {", ".join(touched)}')
    unread = {"deck", "decks"} & draft.base_keys - base.model_fields_set
    bare = [name for name in touched if deck_ends(base, name) is None]
    if bare and not unread:
        where = f" (at {', '.join(bare)}, which `decks` leaves out)" if base.decks else ""
        yield Issue("base", f"`deck` is missing: {BaseShape.model_fields['deck'].description}{where}")
    for run in stand.runs:
        yield from _judge_slope(base, draft.names[run.index], run)
    for one, other in pairwise(stand.runs):
        if other.index == one.index + 1 and base.decks:
            yield from _judge_corner(draft, base, (draft.names[one.index], draft.names[other.index]), square)


def _judge_slope(base: BaseShape, name: str, run: Run) -> Iterator[Issue]:
    left, right = deck_ends(base, name) or (0.0, 0.0)
    if abs(right - left) > STEEPEST * (run.end - run.start):
        yield Issue(
            join("base.decks", name), "the deck falls more than 1 in 10 along this wall; measure both ends again"
        )


def _judge_corner(draft: Draft, base: BaseShape, walls: tuple[str, str], square: float) -> Iterator[Issue]:
    """Two sides meet at one point of the deck."""
    left, right = (deck_ends(base, name) for name in walls)
    if left is None or right is None or abs(left[1] - right[0]) <= square + TOUCH:
        return
    high, low, off = (said_length(mm, draft.units) for mm in (left[1], right[0], abs(left[1] - right[0])))
    text = f'the deck is {high} high at the right end of "{walls[0]}" and {low} at the left end of "{walls[1]}"'
    named = walls[1] if walls[1] in base.decks else walls[0]
    yield Issue(join("base.decks", named), f"{text}, the same corner: off by {off}; measure both again")
