"""What is wrong with benches, decks and curbs: what is missing, unknown, or stands where it cannot."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees

from generator.model.geometry import TOUCH
from generator.model.profiles import Catalogue
from generator.reading.bench_shapes import BenchShape, CurbShape
from generator.reading.benches import span_of
from generator.reading.choices import limit_of
from generator.reading.curbs import curb_span
from generator.reading.draft import Draft, shown
from generator.reading.fittings import slug
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import runs_of, said_length
from generator.reading.room_shapes import WallShape

SHARPEST = 25.0
"""Degrees between a corner seat's front and a wall: a 2x4 turned flat and cut to less is a feather. Common practice,
no source."""
_NEEDED = {
    "bench": ("along", "depth", "height"),
    "deck": ("along", "depth", "height"),
    "corner": ("between", "legs", "height"),
}
_STRANGE = {
    "bench": ("between", "legs", "returns"),
    "deck": ("between", "legs", "returns"),
    "corner": ("along", "start", "length", "depth"),
}


def judge_benches(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """All benches, decks and curbs."""
    yield from _judge_names(draft)
    least = limit_of("least-rip", draft.choices, catalogue, draft.units)
    for i, bench in enumerate(draft.benches):
        if bench is not None:
            path, keys = join("benches", i), tuple(_judge_keys(join("benches", i), bench))
            yield from keys
            if not keys:
                judge = _judge_corner_seat if bench.kind == "corner" else _judge_bench
                yield from judge(path, bench, draft, least)
    for i, curb in enumerate(draft.curbs):
        if curb is not None:
            yield from _judge_curb(join("curbs", i), curb, draft, least)


def _judge_names(draft: Draft) -> Iterator[Issue]:
    """Names are ids in the plan, beside those of walls, fittings, niches and windows."""
    taken = [(name, "wall") for name in draft.names]
    taken += [(one.name, "fitting") for one in draft.fittings if one is not None]
    taken += [(one.name, "niche or window") for one in (*draft.niches, *draft.windows) if one is not None]
    seen = {slug(name): what for name, what in taken}
    for key, listed in (("benches", draft.benches), ("curbs", draft.curbs)):
        for i, one in enumerate(listed):
            if one is not None and slug(one.name) in seen:
                text = f'there is a {seen[slug(one.name)]} "{one.name}" already; choose another name'
                yield Issue(join(key, i, "name"), text)
            if one is not None:
                seen.setdefault(slug(one.name), "bench or curb")


def _judge_keys(path: str, shape: BenchShape) -> Iterator[Issue]:
    """What its kind must say, and what it cannot."""
    for key in _NEEDED[shape.kind]:
        if not getattr(shape, key):
            yield Issue(path, f"`{key}` is missing: {BenchShape.model_fields[key].description}")
    for key in _STRANGE[shape.kind]:
        if getattr(shape, key):
            alias = BenchShape.model_fields[key].alias or key
            yield Issue(join(path, alias), f"`{alias}` has no place where the kind is `{shape.kind}`")
    for key, what in (("between", "walls"), ("legs", "lengths")):
        if shape.kind == "corner" and len(getattr(shape, key)) == 1:
            yield Issue(join(path, key), f"two {what} are expected here, the left wall's first")


def _wall_of(path: str, name: str, draft: Draft) -> Iterator[Issue]:
    if draft.unknown_wall(name):
        yield Issue(path, f"unknown wall `{name}`{nearest(name, draft.names)}")


def _judge_bench(path: str, shape: BenchShape, draft: Draft, least: float) -> Iterator[Issue]:
    yield from _wall_of(join(path, "along"), shape.along, draft)
    wall = draft.wall(shape.along)
    if wall is None or shape.height is None:
        return
    span = span_of(shape, wall.width.mm)
    yield from _judge_span(path, span, wall, draft, least)
    yield from _judge_height(join(path, "height"), shape, wall, draft)
    run, base = runs_of(draft).get(shape.along), draft.base
    if shape.kind == "deck":
        touches = run is not None and (abs(span[1] - run.start) <= TOUCH or abs(span[0] - run.end) <= TOUCH)
        if base is None or base.kind != "tub" or base.along != shape.along or not touches:
            text = "a deck runs from an end of the tub to the wall beside it, along the tub's own wall"
            yield Issue(path, text)
    elif run is not None and base is not None and _stands_on(span, (run.start, run.end)) and base.kind != "tray":
        text = f"it would stand on the {base.kind.replace('_', ' ')}; benches stand on the floor or on a tray"
        yield Issue(path, text)


def _stands_on(span: tuple[float, float], base: tuple[float, float]) -> bool:
    return span[0] < base[1] - TOUCH and span[1] > base[0] + TOUCH


def _judge_span(path: str, span: tuple[float, float], wall: WallShape, draft: Draft, least: float) -> Iterator[Issue]:
    """Along the wall, from its start to its end, and no gap in a corner that no board fits into."""
    start, end = span
    width = shown(wall.width, draft.units)
    if end > wall.width.mm + TOUCH:
        yield Issue(
            join(path, "length"), f'it ends at {said_length(end, draft.units)}, beyond the {width} wall "{wall.name}"'
        )
    elif end - start < least:
        yield Issue(
            join(path, "length"), f"it is {said_length(max(0.0, end - start), draft.units)} long; measure again"
        )
    index = draft.names.index(wall.name)
    gaps = ((start, index > 0, "from"), (wall.width.mm - end, index < len(draft.names) - 1, "length"))
    for gap, corner, key in gaps:
        if corner and TOUCH < gap < least:
            text = f"it leaves a gap of {said_length(gap, draft.units)} in the corner; let it run to the wall"
            yield Issue(join(path, key), text)


def _judge_height(path: str, shape: BenchShape, wall: WallShape, draft: Draft) -> Iterator[Issue]:
    if shape.height is not None and shape.height.mm >= wall.height.mm - TOUCH:
        height = shown(wall.height, draft.units)
        yield Issue(path, f'as high as the {height} wall "{wall.name}"; measure from the floor')


def _judge_corner_seat(path: str, shape: BenchShape, draft: Draft, least: float) -> Iterator[Issue]:
    for i, name in enumerate(shape.between):
        yield from _wall_of(join(path, "between", i), name, draft)
    walls = [draft.wall(name) for name in shape.between]
    pairs = list(zip(draft.names, draft.names[1:], strict=False))
    if all(walls) and shape.between not in pairs:
        yield Issue(
            join(path, "between"), "these walls have no corner in common; write the left one, then the right one"
        )
    yield from _judge_angles(path, shape)
    for i, (leg, wall) in enumerate(zip(shape.legs, walls, strict=True)):
        here = join(path, "legs", i)
        if wall is not None and leg.mm > wall.width.mm + TOUCH:
            yield Issue(here, f'it goes farther than the {shown(wall.width, draft.units)} wall "{wall.name}"')
        if shape.returns is not None and shape.returns.mm > leg.mm - least:
            yield Issue(join(path, "returns"), "its ends stand out as far as the seat itself; that is a bench")
        if wall is not None:
            yield from _judge_height(join(path, "height"), shape, wall, draft)


def _judge_angles(path: str, shape: BenchShape) -> Iterator[Issue]:
    """Of the triangle between corner and front: two legs and the angle between them give the angles at the walls.

    A front more acute than the limit has no room for a stud that is cut to it. Where the corner was not measured it
    is taken as square; the legs are what counts.
    """
    a, b = (leg.mm for leg in shape.legs)
    sharp = degrees(atan2(min(a, b), max(a, b)))
    if sharp < SHARPEST:
        text = f"its front meets a wall at {sharp:.0f} degrees, too acute to frame; make the shorter leg longer"
        yield Issue(join(path, "legs", 0 if a < b else 1), f"{text}: at least {SHARPEST:.0f} degrees")


def _judge_curb(path: str, shape: CurbShape, draft: Draft, least: float) -> Iterator[Issue]:
    yield from _wall_of(join(path, "along"), shape.along, draft)
    base, wall = draft.base, draft.wall(shape.along)
    if base is not None and base.kind != "tray":
        text = "a curb belongs to a site-built tray; a tub or a shower base has its own threshold"
        yield Issue(path, text if base.kind != "none" else "a curb belongs to a site-built tray; write it as the base")
    elif base is not None and shape.out is None and (base.along != shape.along or base.width is None):
        yield Issue(path, f"`out` is missing: {CurbShape.model_fields['out'].description}")
    if wall is not None:
        yield from _judge_span(path, curb_span(shape, wall.width.mm), wall, draft, least)
