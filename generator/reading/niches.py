"""Niches and windows of the room file: from what a tape says to openings in the framing and the faces in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot
from typing import Any, Literal

from generator.model.ends import height_at
from generator.model.features import InBay
from generator.model.geometry import TOUCH, Point, box, rectangle, tidy
from generator.model.placing import placed
from generator.model.profiles import Catalogue, StudProfile
from generator.model.room import FoundSupport, Room, Units, Wall
from generator.reading.base import NO_DECK
from generator.reading.choice_shapes import ChoicesShape
from generator.reading.choices import limit_of, over_defaults
from generator.reading.feature_shapes import NicheShape, WindowShape
from generator.reading.issues import join
from generator.reading.recess import Recess, faces_of, feature_of, folds_of, mouth_of
from generator.reading.room_shapes import RoomShape, WallShape
from generator.reading.walls import from_left, sorted_pair

CLEATS = ("wood-2x2", "wood-1x2")
"""Profiles of the cleats behind a rear board, the deeper first: it is used where the studs are deep enough."""
SILLS = ("wood-1x4", "wood-1x6", "wood-1x8")
"""Profiles of the bevelled strip under a sill, laid flat, the narrower first."""

Opening = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Lining:
    """What the boards of every recess of a room have in common (mm): see `Recess`."""

    thickness: float
    fit: float
    fall: float


def lining_of(choices: ChoicesShape | None, catalogue: Catalogue, units: Units) -> Lining | None:
    """Of a file that may have mistakes; None where its boards are unknown."""
    full: Any = over_defaults(choices or ChoicesShape(), units)
    board = catalogue.boards.get(full.sheets[0].board)
    if board is None:
        return None
    return Lining(board.thickness, *(limit_of(rule, choices, catalogue, units) for rule in ("fit", "drain-fall")))


def in_bays_of(path: str, shape: WallShape) -> tuple[InBay, ...]:
    """What was found between the studs of a wall."""
    found = []
    for i, one in enumerate(shape.in_bays):
        left, right = sorted_pair(*(from_left(at, shape.supports.start, shape.width.mm) for at in (one.start, one.to)))
        low, high = sorted_pair(one.bottom.mm, one.top.mm)
        found.append(InBay(join(path, "in_bays", i), one.kind, rectangle(left, low, right, high)))
    return tuple(found)


def niche_opening(
    shape: NicheShape, width: float, supports: Iterable[FoundSupport], deck: Sequence[Point], thickness: float
) -> Opening | None:
    """The opening in the framing of a wall of this bare width; None where it is to fill a bay and there is none."""
    u = from_left(shape.across, shape.start, width)
    bottom = tidy(shape.up.mm + (height_at(deck, u) if shape.above == "deck" else 0.0) - thickness)
    top = tidy(bottom + shape.height.mm + 2 * thickness)
    if shape.width == "bay":
        sides = bay_at(supports, u, (bottom, top))
        return (sides[0], bottom, sides[1], top) if sides else None
    half = shape.width.mm / 2 + thickness
    return tidy(u - half), bottom, tidy(u + half), top


def window_opening(shape: WindowShape, width: float, lining: Lining, strip: float) -> Opening:
    """The opening that the wall's boards leave: above the bevelled strip, which stands on the rough sill.

    `strip`: its thickness (mm); its front lower edge is its lowest.
    """
    u, half = from_left(shape.across, shape.start, width), shape.width.mm / 2
    bottom = shape.up.mm + strip / hypot(1.0, lining.fall) - lining.thickness * lining.fall
    return tidy(u - half), tidy(bottom), tidy(u + half), tidy(shape.up.mm + shape.height.mm)


def bay_at(supports: Iterable[FoundSupport], u: float, heights: tuple[float, float]) -> tuple[float, float] | None:
    """From stud to stud beside a place, at these heights; None in a stud, or where there is none on one side."""
    faces = [box(s.outline) for s in supports if s.kind in ("stud", "nailer")]
    beside = [f for f in faces if f[1] < heights[1] and f[3] > heights[0]]
    lefts = [f[2] for f in beside if f[0] <= u]
    rights = [f[0] for f in beside if f[2] >= u]
    if not lefts or not rights or max(lefts) > u or min(rights) < u:
        return None
    return max(lefts), min(rights)


def with_recesses(room: Room, shape: RoomShape, catalogue: Catalogue) -> Room:
    """The room with the niches and windows of its file: openings in its walls, faces behind them; the shape is judged.

    The faces come after the walls; the studs to add to each are cleats, a bevelled strip, or as the wall's.
    """
    recesses = tuple(_recesses(room, shape, catalogue))
    studs = {face: stud for one in recesses for face, stud in _studs(room, one, catalogue)}
    told = {one.name: one for one in shape.walls}
    measured = (
        replace(wall, outside=told[wall.id].outside, in_bays=in_bays_of(wall.path, told[wall.id]))
        if wall.id in told
        else wall  # the end or the outside of a partition
        for wall in room.chain
    )
    return replace(
        room,
        walls=(
            *(_opened(wall, recesses) for wall in measured),
            *(wall for wall in room.walls if wall.frame is not None),
            *(face for one in recesses for face in faces_of(one)),
        ),
        features=(*room.features, *(feature_of(one) for one in recesses)),
        folds=(*room.folds, *(fold for one in recesses for fold in folds_of(one))),
        choices=replace(room.choices, added_stud={**room.choices.added_stud, **studs}),
    )


def _opened(wall: Wall, recesses: Iterable[Recess]) -> Wall:
    mouths = (mouth_of(one) for one in recesses if one.wall.id == wall.id)
    return replace(wall, mouths=tuple(sorted(mouths, key=lambda mouth: mouth.ring)))


def _recesses(room: Room, shape: RoomShape, catalogue: Catalogue) -> Iterator[Recess]:
    lining = Lining(room.choices.stocks[0].board.thickness, room.limit("fit"), room.limit("drain-fall"))
    walls, frames = {wall.id: wall for wall in room.chain}, placed(room.chain, room.corners, room.base)
    decks = {side.wall: side.deck for side in room.base.sides}

    def recess(path: str, one: NicheShape | WindowShape, kind: Literal["niche", "window"], opening: Opening) -> Recess:
        at = (walls[one.wall], frames[one.wall], opening, one.depth.mm)
        return Recess(path, one.name, kind, *at, lining.thickness, lining.fit, lining.fall)

    for i, niche in enumerate(shape.niches):
        wall = walls[niche.wall]
        opening = niche_opening(niche, wall.bare_width, wall.supports, decks.get(wall.id, NO_DECK), lining.thickness)
        if opening is not None:
            yield recess(join("niches", i), niche, "niche", opening)
    for i, window in enumerate(shape.windows):
        strip = catalogue.studs[SILLS[0]].depth
        opening = window_opening(window, walls[window.wall].bare_width, lining, strip)
        yield recess(join("windows", i), window, "window", opening)


def _studs(room: Room, recess: Recess, catalogue: Catalogue) -> Iterator[tuple[str, StudProfile]]:
    """What is added to each face."""
    added = room.choices.added_stud[recess.wall.id]
    depth = min((s.profile.depth for s in recess.wall.supports if s.kind == "stud"), default=added.depth)
    wide, thin = (catalogue.studs[cleat] for cleat in CLEATS)
    strips = [catalogue.studs[sill] for sill in SILLS]
    for kind in recess.kinds:
        if kind == "rear":
            stud = wide if depth - recess.depth >= wide.depth - TOUCH else thin
        elif kind == "sill":
            stud = next((s for s in strips if s.face >= recess.depth * recess.stretch), strips[-1])
        else:
            stud = added
        yield recess.face_id(kind), stud
