"""Rooms of every kind, by seed: a bare room and what is drawn onto it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tests.properties import features, shapes
from tests.properties.bare import Drawing, bare_room, room_file

ALL, CORNER, ONE = ("left", "back", "right"), ("left", "back"), ("back",)


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of room: its walls, its base, and what is drawn onto it, in that order."""

    walls: tuple[str, ...]
    base: str
    drawn: tuple[Callable[[Drawing], None], ...]


KINDS = {
    "niche": Kind(CORNER, "shower_base", (features.niche_in_bay,)),
    "wide-niche": Kind(ONE, "shower_base", (features.niche_across_studs,)),
    "niches": Kind(ONE, "none", (features.niches_in_a_stack,)),
    "window": Kind(CORNER, "tub", (features.window,)),
    "bench": Kind(ALL, "tray", (features.bench,)),
    "bench-and-curb": Kind(ALL, "tray", (features.curb, features.bench)),
    "corner-seat": Kind(CORNER, "none", (features.corner_seat,)),
    "five-sided-seat": Kind(CORNER, "none", (features.five_sided_seat,)),
    "curb": Kind(ALL, "tray", (features.curb,)),
    "partition": Kind(CORNER, "none", (features.partition,)),
    "half-wall": Kind(CORNER, "none", (features.half_wall,)),
    "raked-half-wall": Kind(CORNER, "none", (features.raked_half_wall,)),
    "walk-in": Kind(ALL, "shower_base", (features.partition,)),
    "neo-angle": Kind(CORNER, "shower_base", (features.neo_angle,)),
    "tub-deck": Kind(ALL, "tub", (features.deck_of_tub,)),
    "soffit": Kind(ALL, "tub", (features.soffit,)),
    "soffit-on-two": Kind(CORNER, "shower_base", (features.soffit,)),
    "soffit-on-one": Kind(ONE, "none", (features.soffit,)),
    "mounts": Kind(CORNER, "shower_base", (features.mounts,)),
    "chase": Kind(CORNER, "none", (shapes.chased,)),
    "sloped": Kind(CORNER, "shower_base", (shapes.sloped,)),
    "leaning": Kind(CORNER, "tub", (shapes.leaning,)),
    "cornered": Kind(ALL, "none", (shapes.cornered,)),
    "gaps": Kind(CORNER, "tub", (shapes.off_the_studs,)),
    "masonry": Kind(CORNER, "tray", (shapes.masonry,)),
    "odd-studs": Kind(CORNER, "shower_base", (shapes.odd_studs,)),
    "tall-or-short": Kind(ONE, "shower_base", (shapes.tall_or_short,)),
    "attic-niche": Kind(ONE, "none", (shapes.sloped, features.niche_in_bay)),
    "leaning-niche": Kind(CORNER, "shower_base", (shapes.leaning, features.niche_in_bay)),
    "furred-niche": Kind(CORNER, "tub", (shapes.off_the_studs, features.niche_in_bay)),
    "leaning-gaps": Kind(CORNER, "tub", (shapes.leaning, shapes.off_the_studs)),
    "odd-niche": Kind(ONE, "none", (shapes.odd_studs, features.niche_in_bay)),
    "brick-and-seat": Kind(CORNER, "none", (shapes.masonry, features.corner_seat)),
    "window-and-mounts": Kind(CORNER, "tub", (features.window, features.mounts)),
}


def kind_text(kind: str, seed: int) -> str:
    """The room file of a kind and a seed; the same two give the same text."""
    one = KINDS[kind]
    drawing = bare_room(seed, kind, one.walls, one.base)
    for draw in one.drawn:
        draw(drawing)
    return room_file(drawing)
