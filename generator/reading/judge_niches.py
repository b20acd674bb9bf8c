"""What is wrong with niches and windows: places off the boards, sides in a stud, two in one place, over a fitting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from generator.model.geometry import TOUCH, box
from generator.model.profiles import Catalogue
from generator.model.room import FoundSupport
from generator.reading.draft import Draft, shown
from generator.reading.feature_shapes import NicheShape, WindowShape
from generator.reading.fittings import fitting_at, slug
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import deck_of, runs_of, said_length
from generator.reading.niches import SILLS, Lining, Opening, lining_of, niche_opening, window_opening
from generator.reading.recess import BOARDED
from generator.reading.room_shapes import WallShape
from generator.reading.walls import reach_of, supports_of

RecessShape = NicheShape | WindowShape


@dataclass(frozen=True, slots=True)
class PlacedRecess:
    """A niche or window that could be placed; `face`: width of the studs that frame it."""

    path: str
    shape: RecessShape
    wall: WallShape
    opening: Opening
    studs: tuple[FoundSupport, ...]
    face: float

    @property
    def what(self) -> str:
        return f'{"niche" if isinstance(self.shape, NicheShape) else "window"} "{self.shape.name}"'


def judge_niches(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """All of them; those that can be placed are compared with their wall, its studs and fittings, and each other."""
    yield from _judge_names(draft)
    lining = lining_of(draft.choices, catalogue, draft.units)
    placed: list[PlacedRecess] = []
    for path, shape in _shapes(draft):
        wrong = list(_judge_references(path, shape, draft))
        yield from wrong
        wall = draft.wall(shape.wall)
        if wrong or wall is None or lining is None:
            continue
        one = _place(path, shape, wall, draft, catalogue, lining)
        if one is None:
            text = "no bay here: between two studs, write a place that is in none; else write the width"
            yield Issue(join(path, "across"), text)
            continue
        yield from _judge_place(one, draft, lining, catalogue)
        yield from _judge_studs(one, draft)
        placed.append(one)
    yield from _judge_pairs(placed, draft, catalogue.studs[SILLS[0]].depth)
    yield from _judge_fittings(placed, draft, catalogue)


def placed_recesses(draft: Draft, catalogue: Catalogue) -> Iterator[PlacedRecess]:
    """Those that can be placed."""
    lining = lining_of(draft.choices, catalogue, draft.units)
    for path, shape in _shapes(draft):
        wall = draft.wall(shape.wall)
        if wall is not None and lining is not None and not any(_judge_references(path, shape, draft)):
            one = _place(path, shape, wall, draft, catalogue, lining)
            if one is not None:
                yield one


def _shapes(draft: Draft) -> Iterator[tuple[str, RecessShape]]:
    for i, niche in enumerate(draft.niches):
        if niche is not None:
            yield join("niches", i), niche
    for i, window in enumerate(draft.windows):
        if window is not None:
            yield join("windows", i), window


def _judge_names(draft: Draft) -> Iterator[Issue]:
    """Names are ids in the plan, beside those of walls, fittings and mounts; so are the names of faces."""
    seen = {slug(name): "wall" for name in draft.names}
    seen |= {slug(one.name): "fitting" for one in draft.fittings if one is not None}
    seen |= {slug(one.name): "mount" for one in draft.mounts if one is not None}
    for path, shape in _shapes(draft):
        taken = next((i for i in (shape.name, *(f"{shape.name}-{kind}" for kind in BOARDED)) if i in seen), None)
        if taken is not None:
            text = f'there is a {seen[taken]} "{taken}" already; choose another name'
            yield Issue(join(path, "name"), text)
        seen.setdefault(shape.name, "niche" if isinstance(shape, NicheShape) else "window")


def _judge_references(path: str, shape: RecessShape, draft: Draft) -> Iterator[Issue]:
    if draft.unknown_wall(shape.wall):
        yield Issue(join(path, "wall"), f"unknown wall `{shape.wall}`{nearest(shape.wall, draft.names)}")
    wall = draft.wall(shape.wall)
    if wall is not None and wall.supports.masonry:
        yield Issue(join(path, "wall"), "a niche or window in a bare wall of masonry cannot be planned; frame it first")
    on_deck = isinstance(shape, NicheShape) and shape.above == "deck"
    if on_deck and draft.base is not None and shape.wall not in runs_of(draft):
        yield Issue(join(path, "above"), "there is no deck at this wall to measure from; measure from the floor")


def _place(
    path: str, shape: RecessShape, wall: WallShape, draft: Draft, catalogue: Catalogue, lining: Lining
) -> PlacedRecess | None:
    index = draft.names.index(wall.name)
    supports = tuple(supports_of(join("walls", index), wall, catalogue))
    studs = tuple(s for s in supports if s.kind in ("stud", "nailer"))
    if isinstance(shape, NicheShape):
        opening = niche_opening(shape, wall.width.mm, supports, deck_of(draft, wall.name), lining.thickness)
    else:
        opening = window_opening(shape, wall.width.mm, lining, catalogue.studs[SILLS[0]].depth)
    face = next((s.profile.face for s in studs if s.kind == "stud"), catalogue.studs["wood-2x4"].face)
    return None if opening is None else PlacedRecess(path, shape, wall, opening, studs, face)


def _judge_place(one: PlacedRecess, draft: Draft, lining: Lining, catalogue: Catalogue) -> Iterator[Issue]:
    """Within the boards of its wall, with room for header and sill, and deep enough to have sides."""
    left, bottom, right, top = one.opening
    wall, units = one.wall, draft.units
    reach = reach_of(wall, draft.corner_ends(draft.names.index(wall.name)))
    if left < reach[0] - TOUCH or right > reach[1] + TOUCH:
        ends = f"{said_length(left, units)} to {said_length(right, units)}"
        limits = f"{said_length(reach[0], units)} to {said_length(reach[1], units)}"
        text = f'{one.what}, its framing from {ends}, reaches past the boards of wall "{wall.name}", {limits}'
        yield Issue(join(one.path, "across"), text)
    strip = catalogue.studs[SILLS[0]].depth
    low, high = bottom - strip - one.face, top + one.face
    deck = max(v for _, v in deck_of(draft, wall.name))
    if low < deck - TOUCH:
        text = f"{one.what} and the framing under it begin at {said_length(max(low, 0.0), units)}, too low for its wall"
        yield Issue(join(one.path, "up"), text)
    if high > wall.height.mm + TOUCH:
        height = shown(wall.height, units)
        text = f"{one.what} and its header end at {said_length(high, units)}, above the {height} ceiling"
        yield Issue(join(one.path, "up"), text)
    if one.shape.depth.mm < lining.thickness + TOUCH:
        text = f"{one.what} is no deeper than a board, {said_length(lining.thickness, units)}; measure its depth again"
        yield Issue(join(one.path, "depth"), text)


def _judge_studs(one: PlacedRecess, draft: Draft) -> Iterator[Issue]:
    """Its sides stand clear of studs; a niche may cut a stud between them, a window is there and has none."""
    left, bottom, right, top = one.opening
    where = join(one.path, "across")
    for stud in one.studs:
        face = box(stud.outline)
        if min(face[3], top) - max(face[1], bottom) <= TOUCH:
            continue
        at = said_length((face[0] + face[2]) / 2, draft.units)
        named = f"the {stud.kind} {at} from the left end of the wall"
        if any(face[0] + TOUCH < side < face[2] - TOUCH for side in (left, right)):
            text = f"a side of {one.what} runs through {named}; move it clear, or write `width: bay`"
            yield Issue(where, text if isinstance(one.shape, NicheShape) else text.partition(",")[0])
        elif min(face[2], right) - max(face[0], left) > TOUCH:
            if isinstance(one.shape, WindowShape):
                text = f"{named} stands in {one.what}; list it with its `bottom` or `top`, as it is"
                yield Issue(where, text)
            elif face[1] > bottom - 2 * one.face and face[3] < top + one.face:
                yield Issue(where, f"nothing is left of {named} where {one.what} is; take it out of the list")


def _judge_pairs(placed: list[PlacedRecess], draft: Draft, strip: float) -> Iterator[Issue]:
    """Two in one wall leave room for the framing between them."""
    for one, other in combinations(placed, 2):
        if one.wall.name != other.wall.name:
            continue
        a, b = one.opening, other.opening
        across, up = max(a[0] - b[2], b[0] - a[2]), max(a[1] - b[3], b[1] - a[3])
        beside, above = max(one.face, other.face), 2 * max(one.face, other.face) + strip
        if max(across, up) < -TOUCH:
            yield Issue(other.path, f"{other.what} overlaps {one.what}; measure both again")
        elif across < beside - TOUCH and up < above - TOUCH:
            sides = f"{said_length(beside, draft.units)} beside or {said_length(above, draft.units)} above each other"
            text = f"no room for the framing between {other.what} and {one.what}: openings in it stand at least {sides}"
            yield Issue(other.path, text)


def _judge_fittings(placed: list[PlacedRecess], draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """No pipe or valve comes out where there is no board."""
    for fitting in draft.fittings:
        wall = draft.wall(fitting.wall) if fitting is not None else None
        if fitting is None or wall is None or fitting.profile not in {**catalogue.pipes, **catalogue.cutouts}:
            continue
        found = fitting_at("", fitting, wall.width.mm, deck_of(draft, wall.name), catalogue)
        (u, v), half = found.centre, found.diameter / 2
        left, low, right, high = box(found.ring) if found.ring else (-half, -half, half, half)
        for one in (p for p in placed if p.wall.name == fitting.wall):
            a = one.opening
            if a[0] < u + right and u + left < a[2] and a[1] < v + high and v + low < a[3]:
                yield Issue(one.path, f'{one.what} lies over "{fitting.name}"; move it, or have that moved')
