"""What is wrong with walls and with what they list: names, reach, heights, supports in places that cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import TOUCH, box
from generator.model.profiles import Catalogue
from generator.model.room import FoundSupport, Units
from generator.reading.choices import limit_of, square_of
from generator.reading.draft import Draft, lengths, shown
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_pieces import judge_pieces, share_a_place
from generator.reading.measured import judge_measured, judge_open_ends, outline_of
from generator.reading.room_shapes import WallShape
from generator.reading.support_shapes import BackingShape, StudsShape, SupportsShape
from generator.reading.walls import SHORTEST, between_plates, level_plates, reach_of, supports_of
from generator.units import Length, label


def judge_walls(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """All walls; each is judged as far as it can be read."""
    for i, name in enumerate(draft.names):
        if name and name in draft.names[:i]:
            yield Issue(f"walls.{i}.name", f'a second wall "{name}"; every wall has a name of its own')
    fit = limit_of("fit", draft.choices, catalogue, draft.units)
    square = square_of(draft.choices, catalogue, draft.units)
    for i, wall in enumerate(draft.walls):
        if wall is not None:
            path = join("walls", i)
            found = tuple(judge_measured(path, wall, fit, draft.units))
            yield from found or _judge_open_ends(path, wall, draft.corner_ends(i), square, draft.units)
            yield from _judge_extent(path, wall, draft.corner_ends(i), draft.units)
            yield from _judge_profiles(path, wall.supports, catalogue)
            yield from _judge_supports(path, wall, catalogue, draft.units)


def _judge_open_ends(
    path: str, wall: WallShape, corners: tuple[bool, bool], square: float, units: Units
) -> Iterator[Issue]:
    """Ends that lean, and have no corner for boards to follow them into."""
    yield from judge_open_ends(path, corners, outline_of(wall, square), reach_of(wall, corners), units)


def _judge_extent(path: str, wall: WallShape, corners: tuple[bool, bool], units: Units) -> Iterator[Issue]:
    """Reach and top of the boards."""
    top, reach = wall.boards.top, wall.boards.reach
    if isinstance(top, Length) and top.mm > wall.height.mm + TOUCH:
        height = shown(wall.height, units)
        yield Issue(
            join(path, "boards.top"), f"boards up to {shown(top, units)} on a wall {height} high; write `ceiling`"
        )
    if isinstance(top, Length) and top.mm < SHORTEST:
        yield Issue(join(path, "boards.top"), "boards of no height; write a height above the floor")
    here = join(path, "boards.reach")
    if isinstance(reach, Length):
        if sum(corners) != 1:
            ends = "two corners" if all(corners) else "no corner"
            yield Issue(here, f'wall "{wall.name}" has {ends}; write the reach as [from, to], from its left end')
        yield from _judge_reach(here, wall, (reach,), units)
    elif reach is not None:
        yield from _judge_reach(here, wall, reach, units)
        if reach[1].mm - reach[0].mm < SHORTEST:
            yield Issue(here, "a reach runs from left to right; write the smaller length first")


def _judge_reach(path: str, wall: WallShape, ends: tuple[Length, ...], units: Units) -> Iterator[Issue]:
    for end in ends:
        if end.mm > wall.width.mm + TOUCH:
            width = shown(wall.width, units)
            yield Issue(path, f'boards reach to {shown(end, units)}, beyond the {width} wall "{wall.name}"')
    if len(ends) == 1 and ends[0].mm < SHORTEST:
        yield Issue(path, "a reach of nothing; leave it out for the whole wall")


def _judge_profiles(path: str, supports: SupportsShape, catalogue: Catalogue) -> Iterator[Issue]:
    """Every profile that the supports name."""
    here = join(path, "supports")
    named = [
        *((join(here, "studs", i), one.profile) for i, one in enumerate(supports.studs)),
        *((join(here, "blocking", i), one.profile) for i, one in enumerate(supports.blocking)),
        *((join(here, "backing", i), one.profile) for i, one in enumerate(supports.backing)),
        *(((join(here, "plates"), supports.plates.profile),) if supports.plates else ()),
    ]
    for where, wanted in named:
        if wanted not in catalogue.studs:
            message = f"unknown profile `{wanted}` of studs{nearest(wanted, catalogue.studs)}"
            yield Issue(join(where, "profile"), message)
        elif catalogue.studs[wanted].material == "masonry":
            yield Issue(join(where, "profile"), f"`{wanted}` is no stud; of a bare wall write `masonry: {{kind: ...}}`")


def _judge_supports(path: str, wall: WallShape, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    yield from _judge_ends(join(path, "supports"), wall, catalogue, units)
    yield from judge_pieces(join(path, "supports"), wall.supports, catalogue, units)
    supports = list(supports_of(path, wall, catalogue))
    texts = {where: shown(length, units) for where, length in lengths(wall, path)}
    inside = []
    for support in supports:
        found = list(_judge_place(support, wall, texts, units))
        yield from found
        inside += [] if found else [support]
    yield from _judge_overlaps(inside, texts)


def _judge_ends(path: str, wall: WallShape, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    """Lower and upper ends of uprights, left and right ends of blocking."""
    lowest, highest = between_plates(level_plates(wall), wall.height.mm, catalogue)
    listed: tuple[tuple[str, tuple[StudsShape | BackingShape, ...]], ...] = (
        ("studs", wall.supports.studs),
        ("backing", wall.supports.backing),
    )
    for key, uprights in listed:
        for i, upright in enumerate(uprights):
            bottom = upright.bottom.mm if upright.bottom else lowest
            top = upright.top.mm if upright.top else highest
            if top - bottom < SHORTEST:
                yield Issue(join(path, key, i), "`top`, its higher end, is not above `bottom`, its lower end")
            if top > wall.height.mm + TOUCH:
                yield Issue(join(path, key, i, "top"), f"it ends above the {shown(wall.height, units)} ceiling")
    for i, block in enumerate(wall.supports.blocking):
        if abs(block.to.mm - block.start.mm) < SHORTEST:
            yield Issue(join(path, "blocking", i), "blocking of no length; `from` and `to` are its two ends")


def what(support: FoundSupport, texts: dict[str, str]) -> str:
    """A support as a message names it: `stud at 16 1/4 in`."""
    at = texts.get(support.path) or texts.get(join(support.path, "centre"))
    return f"{support.kind} at {at}" if at else support.kind


def _judge_place(support: FoundSupport, wall: WallShape, texts: dict[str, str], units: Units) -> Iterator[Issue]:
    """Inside its wall, face and all."""
    left, bottom, right, top = box(support.outline)
    name, width, height = what(support, texts), wall.width.mm, wall.height.mm
    middle = (left + right) / 2
    if not -TOUCH <= middle <= width + TOUCH:
        yield Issue(support.path, f'{name} lies outside the {shown(wall.width, units)} wall "{wall.name}"')
    elif left < -TOUCH or right > width + TOUCH:
        if support.kind in ("stud", "nailer"):
            least = label(support.profile.face / 2, units) + (" mm" if units == "mm" else "")
            cure = f"its centre is at least {least} from the end"
        else:
            cure = f"the wall is {shown(wall.width, units)} wide"
        yield Issue(support.path, f'{name} reaches past an end of wall "{wall.name}"; {cure}')
    if bottom < -TOUCH or (top > height + TOUCH and support.kind in ("blocking", "plate")):
        yield Issue(support.path, f'{name} reaches past the floor or the ceiling of wall "{wall.name}"')


def _judge_overlaps(supports: list[FoundSupport], texts: dict[str, str]) -> Iterator[Issue]:
    """Two supports in one place; each is reported once, the one listed later against the one listed before."""
    boxes = sorted((box(one.outline), i) for i, one in enumerate(supports))
    for at, (here, i) in enumerate(boxes):
        for there, j in boxes[at + 1 :]:
            if there[0] > here[2] - TOUCH:
                break
            first, second = supports[min(i, j)], supports[max(i, j)]
            if min(here[3], there[3]) - max(here[1], there[1]) > TOUCH and share_a_place(first, second):
                level = "blocking" in (first.kind, second.kind)
                hint = "; blocking runs from face to face of its neighbours" if level else ""
                yield Issue(second.path, f"{what(second, texts)} overlaps the {what(first, texts)}{hint}")
                break
