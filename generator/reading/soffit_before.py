"""What is on a wall of a file that may have mistakes, as rings on it: nothing of it may lie where a soffit is."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import Ring, box, rectangle
from generator.model.profiles import Catalogue
from generator.reading.draft import Draft
from generator.reading.fittings import fitting_at
from generator.reading.issues import join
from generator.reading.judge_footprint import deck_of
from generator.reading.judge_niches import placed_recesses
from generator.reading.mounts import mount_at
from generator.reading.room_shapes import WallShape

Standing = tuple[str, str, Ring]
"""Path, what it is, ring."""


def standing(wall: WallShape, draft: Draft, catalogue: Catalogue) -> Iterator[Standing]:
    """Fittings, mounts, niches and windows of a wall, the last two with their headers."""
    deck = deck_of(draft, wall.name)
    known = {**catalogue.pipes, **catalogue.cutouts}
    for i, fitting in enumerate(draft.fittings):
        if fitting is not None and fitting.wall == wall.name and fitting.profile in known:
            path = join("fittings", i)
            found = fitting_at(path, fitting, wall.width.mm, deck, catalogue)
            (u, v), half = found.centre, found.diameter / 2
            left, low, right, high = box(found.ring) if found.ring else (-half, -half, half, half)
            yield path, f'"{fitting.name}"', rectangle(u + left, v + low, u + right, v + high)
    for i, mount in enumerate(draft.mounts):
        if mount is not None and mount.wall == wall.name:
            yield join("mounts", i), f'"{mount.name}"', mount_at("", mount, wall.width.mm, deck).ring
    for one in placed_recesses(draft, catalogue):
        if one.wall.name == wall.name:
            left, low, right, high = one.opening
            yield one.path, one.what, rectangle(left, low, right, high + one.face)
