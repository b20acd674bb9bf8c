"""What is wrong with mounts: unknown walls, names taken, places off the wall, keys that belong to another kind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.model.geometry import TOUCH, box
from generator.reading.draft import Draft, shown
from generator.reading.fittings import slug
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import deck_of, runs_of
from generator.reading.mount_shapes import MountShape
from generator.reading.mounts import mount_at
from generator.reading.partition_sides import sides_of
from generator.reading.room_shapes import WallShape

_BARS_ONLY = ("diameter", "gap")
_SEATS_ONLY = ("out", "drop")


def judge_mounts(draft: Draft) -> Iterator[Issue]:
    """All mounts, as far as they can be read."""
    yield from _judge_names(draft)
    sides = {side.name: side for side in sides_of(draft.walls)}
    for i, shape in enumerate(draft.mounts):
        if shape is None:
            continue
        path = join("mounts", i)
        yield from _judge_keys(path, shape)
        if shape.wall not in sides and draft.unknown_wall(shape.wall):
            yield Issue(join(path, "wall"), _unknown(shape.wall, (*draft.names, *sides)))
        no_deck = shape.above == "deck" and draft.base is not None and shape.wall not in runs_of(draft)
        if no_deck:
            yield Issue(join(path, "above"), "there is no deck to measure from; measure from the floor")
        wall = sides.get(shape.wall) or draft.wall(shape.wall)
        if wall is not None and not no_deck:
            yield from _judge_place(path, shape, wall, draft)


def _unknown(name: str, names: Sequence[str]) -> str:
    """Of a cap the reason as well: its plate is under all of it."""
    if name.endswith("-cap") and name.removesuffix("-cap") in names:
        return "the plate under a cap backs all that stands on it; list what is fastened to a wall or a partition's end"
    return f"unknown wall `{name}`{nearest(name, names)}"


def _judge_names(draft: Draft) -> Iterator[Issue]:
    """Names are ids in the plan, beside those of walls and fittings."""
    seen = {slug(name): "wall" for name in draft.names}
    seen |= {slug(fitting.name): "fitting" for fitting in draft.fittings if fitting is not None}
    for i, shape in enumerate(draft.mounts):
        if shape is not None:
            if slug(shape.name) in seen:
                text = f'there is a {seen[slug(shape.name)]} "{shape.name}" already; choose another name'
                yield Issue(join("mounts", i, "name"), text)
            seen.setdefault(slug(shape.name), "mount")


def _judge_keys(path: str, shape: MountShape) -> Iterator[Issue]:
    for kind, keys in (("grab_bar", _BARS_ONLY), ("seat", _SEATS_ONLY)):
        for key in keys:
            if shape.kind != kind and getattr(shape, key) is not None:
                words = "a grab bar" if kind == "grab_bar" else "a seat"
                yield Issue(join(path, key), f"`{key}` is a size of {words}; `{shape.name}` is a {shape.kind}")
    if shape.kind == "seat" and shape.out is None:
        yield Issue(path, "`out` is missing: how far a seat stands out from the finished wall")
    if shape.kind != "grab_bar" and shape.direction != "level":
        yield Issue(join(path, "direction"), "only a grab bar has a direction; leave it out")


def _judge_place(path: str, shape: MountShape, wall: WallShape, draft: Draft) -> Iterator[Issue]:
    """Inside its wall, and long enough for its two plates."""
    mount = mount_at(path, shape, wall.width.mm, deck_of(draft, wall.name))
    left, low, right, high = box(mount.ring)
    width, height = shown(wall.width, draft.units), shown(wall.height, draft.units)
    if left < -TOUCH or right > wall.width.mm + TOUCH:
        text = f'"{shape.name}" reaches past an end of the {width} wall "{wall.name}"; check `across` and `length`'
        yield Issue(join(path, "across"), text)
    if low < -TOUCH or high > wall.height.mm + TOUCH:
        text = f'"{shape.name}" reaches past the floor or the {height} ceiling of wall "{wall.name}"; check `up`'
        yield Issue(join(path, "up"), text)
    if shape.kind in ("grab_bar", "seat") and shape.length.mm < 2 * mount.plate - TOUCH:
        yield Issue(join(path, "length"), f'"{shape.name}" is shorter than its two plates; check `length` and `plate`')
