"""What is wrong with soffits: where they hang, what they are framed to, what they would stand before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from generator.model.ends import Side, height_at, lean, top_line
from generator.model.geometry import TOUCH, Ring, box
from generator.model.profiles import Catalogue, StudProfile
from generator.reading.choice_shapes import ChoicesShape
from generator.reading.choices import limit_of, over_defaults, square_of
from generator.reading.draft import Draft, shown
from generator.reading.fittings import slug
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import deck_of, said_length
from generator.reading.measured import judge_measured, outline_of
from generator.reading.room_shapes import WallShape
from generator.reading.soffit_before import standing
from generator.reading.soffit_edges import End, judge_edge
from generator.reading.soffit_shapes import SoffitShape
from generator.reading.soffits import soffit_span
from generator.reading.walls import reach_of, supports_of

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Section:
    """A soffit where it meets a wall: u from, u to, in that wall's frame."""

    wall: WallShape
    index: int
    outline: Ring
    across: Span

    @property
    def ceilings(self) -> set[float]:
        """Heights of the ceiling over it; one where that is level."""
        left, right = self.across[0] + TOUCH, self.across[1] - TOUCH
        line = top_line(self.outline)
        over = [height_at(line, left), height_at(line, right), *(v for u, v in line if left < u < right)]
        return {round(v / TOUCH) * TOUCH for v in over}


@dataclass(frozen=True, slots=True)
class _Hung:
    """A soffit with its sections: the first on its own wall, then on the neighbours that it runs up to."""

    path: str
    shape: SoffitShape
    sections: tuple[_Section, ...]


def judge_soffits(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """All soffits; those that can be placed are compared with what is on their walls, and with each other."""
    yield from _judge_names(draft)
    hung: list[_Hung] = []
    for i, shape in enumerate(draft.soffits):
        if shape is None:
            continue
        path = join("soffits", i)
        if draft.unknown_wall(shape.along):
            yield Issue(join(path, "along"), f"unknown wall `{shape.along}`{nearest(shape.along, draft.names)}")
        wall = draft.wall(shape.along)
        wrong = [] if wall is None else list(_judge_span(path, shape, wall, draft, catalogue))
        yield from wrong
        if wall is not None and not wrong:
            sections = tuple(_sections(shape, wall, draft, catalogue))
            wrong = list(_judge_walls(path, shape, sections, draft, catalogue))
            yield from wrong
            if not wrong:
                one = _Hung(path, shape, sections)
                yield from _judge_size(one, draft, catalogue)
                yield from _judge_before(one, draft, catalogue)
                for end in _ends(one):
                    yield from judge_edge(path, end, draft, catalogue)
                hung.append(one)
    yield from _judge_pairs(hung, draft, catalogue)


def _judge_names(draft: Draft) -> Iterator[Issue]:
    """Names are ids in the plan, beside those of all else that has one."""
    seen = {slug(name): "wall" for name in draft.names}
    listed = (draft.fittings, draft.mounts, draft.niches, draft.windows, draft.benches, draft.curbs)
    words = ("fitting", "mount", "niche", "window", "bench", "curb")
    for what, shapes in zip(words, listed, strict=True):
        seen |= {slug(one.name): what for one in shapes if one is not None}
    for i, shape in enumerate(draft.soffits):
        if shape is not None:
            if shape.name in seen:
                text = f'there is a {seen[shape.name]} "{shape.name}" already; choose another name'
                yield Issue(join("soffits", i, "name"), text)
            seen.setdefault(shape.name, "soffit")


def _least(draft: Draft, catalogue: Catalogue) -> float:
    return limit_of("least-rip", draft.choices, catalogue, draft.units)


def _judge_span(path: str, shape: SoffitShape, wall: WallShape, draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Along the wall, from its start to its end, and no gap in a corner that no board fits into."""
    (start, end), units = soffit_span(shape, wall.width.mm), draft.units
    least, index = _least(draft, catalogue), draft.names.index(wall.name)
    if end > wall.width.mm + TOUCH:
        width = shown(wall.width, units)
        yield Issue(
            join(path, "length"), f'it ends at {said_length(end, units)}, beyond the {width} wall "{wall.name}"'
        )
    elif end - start < least:
        yield Issue(join(path, "length"), f"it is {said_length(max(0.0, end - start), units)} long; measure again")
    for gap, corner, key in zip(
        (start, wall.width.mm - end), draft.corner_ends(index), ("from", "length"), strict=True
    ):
        if corner and TOUCH < gap < 2 * least:
            text = f"it leaves a gap of {said_length(gap, units)} in the corner; let it run to the wall"
            yield Issue(join(path, key), text)
    if wall.partition is not None:
        yield Issue(join(path, "along"), "a soffit along a partition cannot be planned; write it along the wall beside")


def _sections(shape: SoffitShape, wall: WallShape, draft: Draft, catalogue: Catalogue) -> Iterator[_Section]:
    index, (start, end) = draft.names.index(wall.name), soffit_span(shape, wall.width.mm)
    if (own := _outline(wall, index, draft, catalogue)) is None:
        return
    yield _Section(wall, index, own, (start, end))
    for reached, at, side in ((start <= TOUCH, index - 1, "right"), (end >= wall.width.mm - TOUCH, index + 1, "left")):
        other = draft.walls[at] if reached and 0 <= at < len(draft.walls) else None
        outline = _outline(other, at, draft, catalogue) if other is not None else None
        if other is not None and outline is not None:
            width, depth = other.width.mm, shape.depth.mm
            yield _Section(other, at, outline, (width - depth, width) if side == "right" else (0.0, depth))


def _outline(wall: WallShape, index: int, draft: Draft, catalogue: Catalogue) -> Ring | None:
    """None of a wall whose measurements contradict each other, which is told elsewhere."""
    fit = limit_of("fit", draft.choices, catalogue, draft.units)
    if any(True for _ in judge_measured(join("walls", index), wall, fit, draft.units)):
        return None
    return outline_of(wall, square_of(draft.choices, catalogue, draft.units))


def _judge_walls(
    path: str, shape: SoffitShape, sections: tuple[_Section, ...], draft: Draft, catalogue: Catalogue
) -> Iterator[Issue]:
    """Framed walls, plumb and square where it meets them, under one level ceiling, with boards up to that."""
    units = draft.units
    for own in sections:
        name = f'wall "{own.wall.name}"'
        if own.wall.supports.masonry:
            yield Issue(join(path, "along"), f"{name} is of masonry, and a soffit is framed to studs; frame it first")
        if len(own.ceilings) > 1:
            text = f"the ceiling of {name} slopes or steps over it; let it end where that is level"
            yield Issue(path, text)
        elif own.wall.boards.top != "ceiling":
            text = f"boards of {name} end below the ceiling; beside a soffit they go up to it: leave `top` out"
            yield Issue(join("walls", own.index, "boards.top"), text)
    yield from _judge_open_ends(path, sections, draft, catalogue)
    levels = {v for own in sections for v in own.ceilings}
    if all(len(own.ceilings) == 1 for own in sections) and max(levels) - min(levels) > 2 * TOUCH:
        low, high = (said_length(v, units) for v in (min(levels), max(levels)))
        yield Issue(path, f"the ceilings of its walls are at {low} and {high}; it is planned under one level ceiling")
    for other in sections[1:]:
        yield from _judge_corner(path, shape, sections[0], other, draft, catalogue)


def _judge_open_ends(path: str, sections: tuple[_Section, ...], draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Beside an end that stands free its wall has boards up to the ceiling."""
    own, beyond = sections[0], {one.index for one in sections[1:]}
    reach = reach_of(own.wall, draft.corner_ends(own.index))
    least = _least(draft, catalogue) + limit_of("fit", draft.choices, catalogue, draft.units)
    left = ("from", "left", own.index - 1, own.across[0] - reach[0])
    right = ("length", "right", own.index + 1, reach[1] - own.across[1])
    for key, side, neighbour, past in (left, right):
        if neighbour not in beyond and past < least - TOUCH:
            there, wanted = (said_length(mm, draft.units) for mm in (max(past, 0.0), least))
            text = f'boards of wall "{own.wall.name}" go on past its {side} end by {there}'
            yield Issue(join(path, key), f"{text}; they go on by {wanted} or more")


def _judge_corner(
    path: str, shape: SoffitShape, own: _Section, other: _Section, draft: Draft, catalogue: Catalogue
) -> Iterator[Issue]:
    """Where it runs up to a neighbour, the corner is square and plumb, and boards go on beside its front."""
    at_left, units = other.index < own.index, draft.units
    end: Side = "left" if at_left else "right"
    between = (other.wall.name, own.wall.name) if at_left else (own.wall.name, other.wall.name)
    angle = next((c.angle for c in draft.corners if c is not None and c.between == between), 90.0)
    if abs(angle - 90.0) > 1e-6 or abs(lean(own.outline, end)) > 1e-9:
        word = "square" if abs(angle - 90.0) > 1e-6 else "plumb"
        text = f'a soffit runs up to a {word} neighbour only, and "{other.wall.name}" is not; end it before the corner'
        yield Issue(path, text)
    reach = reach_of(other.wall, draft.corner_ends(other.index))
    boards = other.wall.width.mm - reach[0] if at_left else reach[1]
    least = _least(draft, catalogue) + limit_of("fit", draft.choices, catalogue, units)
    if boards < shape.depth.mm + least - TOUCH:
        text = (
            f'boards of wall "{other.wall.name}" reach {said_length(boards, units)} from the corner; beside a soffit '
            f"{shown(shape.depth, units)} deep they reach {said_length(shape.depth.mm + least, units)} or farther"
        )
        yield Issue(join(path, "depth"), text)


def _stud(wall: WallShape, index: int, draft: Draft, catalogue: Catalogue) -> StudProfile:
    """What it is framed of: the studs of its wall, as in `choices.added_stud`."""
    chosen = over_defaults(draft.choices or ChoicesShape(), draft.units).added_stud
    listed = supports_of(join("walls", index), wall, catalogue)
    own = next((s.profile for s in listed if s.kind == "stud" and s.plies == 1), None)
    told = draft.choices is not None and draft.choices.added_stud is not None
    return own if own is not None and not told else catalogue.studs[str(chosen)]


def _judge_size(one: _Hung, draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Below the ceiling, above the base, and no smaller than its own lumber."""
    shape, own, units = one.shape, one.sections[0], draft.units
    stud, ceiling = _stud(own.wall, own.index, draft, catalogue), max(own.ceilings)
    drop, height = ceiling - shape.height.mm, join(one.path, "height")
    if drop <= TOUCH:
        text = f'its underside hangs below the {said_length(ceiling, units)} ceiling of wall "{own.wall.name}"'
        yield Issue(height, f"{text}; measure from the floor")
    elif drop < (least := stud.depth + 2 * stud.face) - TOUCH:
        text = f"it hangs {said_length(drop, units)} below the ceiling; framed of {stud.id} it takes"
        yield Issue(height, f"{text} {said_length(least, units)} or more")
    floor = max(v for section in one.sections for _, v in deck_of(draft, section.wall.name))
    if shape.height.mm < floor + _least(draft, catalogue):
        text = f"its underside leaves no boards above the deck or the floor at {said_length(floor, units)}"
        yield Issue(height, f"{text}; measure from the floor")
    if shape.depth.mm < (deep := 2 * stud.depth + stud.face) - TOUCH:
        text = (
            f"it is {shown(shape.depth, units)} deep; framed of {stud.id} it takes {said_length(deep, units)} or more"
        )
        yield Issue(join(one.path, "depth"), text)


def _ends(one: _Hung) -> Iterator[End]:
    """Where boards of its walls end beside it: its free ends on its own wall, its front on the neighbours."""
    own, beyond = one.sections[0], {section.index for section in one.sections[1:]}
    if own.index - 1 not in beyond:
        yield End(own.wall, own.index, own.across[0], -1.0, "from", "farther left", "farther right")
    if own.index + 1 not in beyond:
        yield End(own.wall, own.index, own.across[1], 1.0, "length", "farther right", "farther left")
    for other in one.sections[1:]:
        at_left = other.index < own.index
        u, way = (other.across[0], -1.0) if at_left else (other.across[1], 1.0)
        yield End(other.wall, other.index, u, way, "depth", "farther out", "farther back")


def _judge_before(one: _Hung, draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Nothing comes out of a wall, and nothing is fastened to it, where the soffit is."""
    low = one.shape.height.mm
    for section in one.sections:
        for path, what, ring in standing(section.wall, draft, catalogue):
            left, _, right, high = box(ring)
            if high > low + TOUCH and min(right, section.across[1]) - max(left, section.across[0]) > TOUCH:
                yield Issue(path, f'{what} is behind or in the soffit "{one.shape.name}"; move it, or end that before')
    for i, bench in enumerate(draft.benches):
        if bench is not None and bench.height is not None and bench.height.mm >= low - TOUCH:
            yield Issue(join("benches", i, "height"), f'"{bench.name}" is as high as the soffit "{one.shape.name}"')


def _judge_pairs(hung: list[_Hung], draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Two on one wall leave room for boards between them; two at one corner would run into each other."""
    least = 2 * _least(draft, catalogue)
    for one, other in combinations(hung, 2):
        pairs = [(a.across, b.across) for a in one.sections for b in other.sections if a.index == b.index]
        apart = min((max(a[0] - b[1], b[0] - a[1]) for a, b in pairs), default=least)
        if apart < least - TOUCH or _meet_in_a_corner(one, other):
            text = f'it meets the soffit "{one.shape.name}", or leaves no board room between them; draw the two as one'
            yield Issue(other.path, text)


def _meet_in_a_corner(one: _Hung, other: _Hung) -> bool:
    """True where two along neighbouring walls each begin within the other's depth."""
    a, b = sorted((one, other), key=lambda hung: hung.sections[0].index)
    here, there = a.sections[0], b.sections[0]
    if there.index - here.index != 1:
        return False
    return here.wall.width.mm - here.across[1] < b.shape.depth.mm and there.across[0] < a.shape.depth.mm
