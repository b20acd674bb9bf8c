"""A wall of the room file, in the wall frame: where its boards go and what is there to screw to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import hypot
from typing import Literal

from generator.model.ends import highest, top_line
from generator.model.geometry import TOUCH, Point, canonical, rectangle, tidy
from generator.model.profiles import Catalogue, StudProfile
from generator.model.room import Beside, FoundSupport, Side, Wall
from generator.reading.issues import join
from generator.reading.measured import ceiling_of, outline_of
from generator.reading.room_shapes import WallShape
from generator.reading.support_shapes import PlatesShape, StudsShape
from generator.units import Length

SHORTEST = 1.0
"""mm: what is shorter is no piece of wood, and a slip in the file."""


def from_left(length: Length, end: Side, width: float) -> float:
    """The u of a length that was measured from this end of a wall of this width."""
    return tidy(length.mm if end == "left" else width - length.mm)


def wall_at(path: str, shape: WallShape, corners: tuple[bool, bool], catalogue: Catalogue, square: float) -> Wall:
    """The wall; `corners`: whether its left and its right end is a corner; what is out by `square` mm is true."""
    outline = outline_of(shape, square)
    tops = [v for _, v in top_line(outline)]
    height = max(tops)
    reach = reach_of(shape, corners)
    top = height if shape.boards.top == "ceiling" else shape.boards.top.mm
    return Wall(
        path=path,
        id=shape.name,
        outline=outline,
        reach=reach,
        top=min(top, height),
        to_ceiling=top > min(tops) - TOUCH,
        ceiling=shape.ceiling,
        duty=shape.duty,
        beside=_ends(shape, corners, reach),
        supports=tuple(supports_of(path, shape, catalogue)),
        masonry=masonry_of(shape, catalogue),
        rake=rake_of(path, shape, catalogue),
    )


def level_plates(shape: WallShape) -> PlatesShape | None:
    """The plates of a wall but for one along a rake."""
    plates = shape.supports.plates
    return plates.model_copy(update={"top": False}) if plates and is_raked(shape) else plates


def is_raked(shape: WallShape) -> bool:
    """True of a half wall whose top falls along its length."""
    capped = shape.partition is not None and shape.partition.cap
    return capped and len({one.height.mm for one in shape.heights}) > 1


def rake_of(path: str, shape: WallShape, catalogue: Catalogue) -> FoundSupport | None:
    """The top plate along the rake, all its plies as one, square to the rake as thick as they are."""
    plates = shape.supports.plates
    profile = catalogue.studs.get(plates.profile) if plates else None
    if plates is None or profile is None or not plates.top or not is_raked(shape):
        return None
    whole = replace(profile, face=plates.top_plies * profile.face)
    line = ceiling_of(shape)
    (u0, v0), (u1, v1) = line[0], line[-1]
    down = whole.face * hypot(1.0, (v1 - v0) / (u1 - u0))
    ring = canonical(((u0, v0 - down), (u1, v1 - down), (u1, v1), (u0, v0)))
    axis = (u0, tidy(v0 - down / 2)), (u1, tidy(v1 - down / 2))
    return FoundSupport(join(path, "supports.plates.top"), "plate", whole, ring, axis, plates.top_plies)


def masonry_of(shape: WallShape, catalogue: Catalogue) -> StudProfile | None:
    """The profile of the strips of a wall without framing; None where it is framed."""
    masonry = shape.supports.masonry
    return catalogue.studs[f"masonry-{masonry.kind}"] if masonry else None


def reach_of(shape: WallShape, corners: tuple[bool, bool]) -> tuple[float, float]:
    """u from and u to of the boards; a single length runs from the only corner."""
    width, reach = shape.width.mm, shape.boards.reach
    if reach is None:
        return 0.0, width
    if isinstance(reach, Length):
        return (0.0, reach.mm) if corners[0] else (tidy(width - reach.mm), width)
    return reach[0].mm, reach[1].mm


def _ends(shape: WallShape, corners: tuple[bool, bool], reach: tuple[float, float]) -> tuple[Beside, Beside]:
    left: Beside = "corner" if corners[0] and reach[0] <= TOUCH else shape.beside[0]
    right: Beside = "corner" if corners[1] and reach[1] >= shape.width.mm - TOUCH else shape.beside[1]
    return left, right


def supports_of(path: str, shape: WallShape, catalogue: Catalogue) -> Iterator[FoundSupport]:
    """Every support that the wall lists; those of an unknown profile are left out (they are reported).

    Uprights that do not say where they end run up to the ceiling; under a slope, as high as their higher side.
    """
    here, listed, plates = join(path, "supports"), shape.supports, level_plates(shape)
    ceiling = ceiling_of(shape)
    for i, studs in enumerate(listed.studs):
        profile = stud_as_built(studs, catalogue)
        for j, centre in enumerate(studs.centres):
            u, over = (from_left(end, listed.start, shape.width.mm) for end in (centre, top_of(studs, j)))
            bottom, top = between_plates(plates, _height_over(ceiling, u, profile), catalogue)
            ends = (_or(studs.bottom, bottom), _or(studs.top, top))
            for stud in _upright("stud", join(here, "studs", i, "centres", j), profile, u, ends, over):
                yield replace(stud, plies=2 if studs.doubled else 1, state=_state(studs))
    for i, nailer in enumerate(listed.backing):
        backer = _turned(catalogue.studs.get(nailer.profile), nailer.flat)
        u = from_left(nailer.centre, listed.start, shape.width.mm)
        bottom, top = between_plates(plates, _height_over(ceiling, u, backer), catalogue)
        ends = (_or(nailer.bottom, bottom), _or(nailer.top, top))
        yield from _upright("nailer", join(here, "backing", i), backer, u, ends)
    for i, block in enumerate(listed.blocking):
        ends = sorted_pair(*(from_left(end, listed.start, shape.width.mm) for end in (block.start, block.to)))
        laid = _turned(catalogue.studs.get(block.profile), block.flat)
        for piece in _level("blocking", join(here, "blocking", i), laid, block.centre.mm, ends):
            yield replace(piece, state="as found: a fire block, leave it where it is" if block.fire else "as found")
    yield from _plates(join(here, "plates"), plates, shape, catalogue)


def stud_as_built(studs: StudsShape, catalogue: Catalogue) -> StudProfile | None:
    """Its profile as it stands there: turned, and of two pieces the face of both."""
    turned = _turned(catalogue.studs.get(studs.profile), studs.flat)
    return replace(turned, face=2 * turned.face) if turned and studs.doubled else turned


def top_of(studs: StudsShape, index: int) -> Length:
    """Where the upper end of a stud has its middle, as entered: over its lower end unless it is crooked."""
    tops = studs.centres_top
    return tops[index] if tops is not None and index < len(tops) else studs.centres[index]


def _state(studs: StudsShape) -> str:
    told = (("doubled", studs.doubled), ("flat", studs.flat), ("crooked", studs.centres_top is not None))
    return ", ".join(("as found", *(word for word, true in told if true)))


def _height_over(ceiling: Sequence[Point], u: float, profile: StudProfile | None) -> float:
    """Height of the ceiling over an upright, at the higher side of its face."""
    half = profile.face / 2 if profile else 0.0
    return highest(ceiling, u - half, u + half)


def sorted_pair(a: float, b: float) -> tuple[float, float]:
    """The two, the smaller first."""
    return (a, b) if a <= b else (b, a)


def _or(length: Length | None, default: float) -> float:
    return default if length is None else length.mm


def _turned(profile: StudProfile | None, flat: bool) -> StudProfile | None:
    """A profile laid flat: its depth becomes the face that is seen."""
    return replace(profile, face=profile.depth, depth=profile.face) if profile and flat else profile


def between_plates(plates: PlatesShape | None, height: float, catalogue: Catalogue) -> tuple[float, float]:
    """Where studs begin and end when they do not say."""
    profile = catalogue.studs.get(plates.profile) if plates else None
    if plates is None or profile is None:
        return 0.0, height
    middles, half = [v for _, v in _plate_middles(plates, profile.face, height)], profile.face / 2
    low = max((v + half for v in middles if v < height / 2), default=0.0)
    return low, min((v - half for v in middles if v >= height / 2), default=height)


def _plate_middles(plates: PlatesShape, face: float, height: float) -> Iterator[tuple[str, float]]:
    """Key and height of the middle of every plate: those on one another at the floor and the ceiling, and the rest."""
    for ply in range(plates.bottom_plies if plates.bottom else 0):
        yield "bottom", face * (ply + 0.5)
    for ply in range(plates.top_plies if plates.top else 0):
        yield "top", height - face * (ply + 0.5)
    for i, centre in enumerate(plates.centres):
        yield join("centres", i), centre.mm


def _plates(path: str, plates: PlatesShape | None, shape: WallShape, catalogue: Catalogue) -> Iterator[FoundSupport]:
    profile = catalogue.studs.get(plates.profile) if plates else None
    if plates is None or profile is None:
        return
    for key, middle in _plate_middles(plates, profile.face, shape.height.mm):
        yield from _level("plate", join(path, key), profile, middle, (0.0, shape.width.mm))


def _upright(
    kind: Literal["stud", "nailer"],
    path: str,
    profile: StudProfile | None,
    u: float,
    ends: tuple[float, float],
    over: float | None = None,
) -> Iterator[FoundSupport]:
    """One that stands at u; `over`: the u of its upper end where it is crooked. Its face is measured level."""
    if profile is not None and ends[1] - ends[0] >= SHORTEST:
        (low, high), half, top = ends, profile.face / 2, u if over is None else over
        outline = canonical(((u - half, low), (u + half, low), (top + half, high), (top - half, high)))
        yield FoundSupport(path, kind, profile, outline, ((u, low), (top, high)))


def _level(
    kind: Literal["blocking", "plate"], path: str, profile: StudProfile | None, v: float, ends: tuple[float, float]
) -> Iterator[FoundSupport]:
    if profile is not None and ends[1] - ends[0] >= SHORTEST:
        outline = rectangle(ends[0], v - profile.face / 2, ends[1], v + profile.face / 2)
        yield FoundSupport(path, kind, profile, outline, ((ends[0], v), (ends[1], v)))
