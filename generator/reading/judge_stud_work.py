"""What is wrong with readings, holes and notches: no such stud, a height off the stud, a size beyond it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.model.geometry import TOUCH
from generator.model.profiles import Catalogue
from generator.model.room import FoundSupport
from generator.reading.draft import Draft, shown
from generator.reading.issues import Issue, join
from generator.reading.room_shapes import WallShape
from generator.reading.stud_shapes import HoleShape, NotchShape, StringLineShape
from generator.reading.stud_work import named_stud
from generator.reading.walls import supports_of
from generator.units import Length, Units


def judge_stud_work(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Every wall, as far as it can be read."""
    for i, wall in enumerate(draft.walls):
        if wall is not None:
            path = join("walls", i)
            supports = tuple(supports_of(path, wall, catalogue))
            yield from _judge_string_line(path, wall, supports, draft)
            yield from _judge_damage(join(path, "supports"), wall, supports, draft.units)


def _judge_string_line(path: str, wall: WallShape, supports: Sequence[FoundSupport], draft: Draft) -> Iterator[Issue]:
    here, lines = join(path, "string_line"), wall.string_line
    for i, line in enumerate(lines):
        yield from _judge_line(join(here, i), line)
        yield from _judge_stud(join(here, i), wall, supports, line.stud, line.at, draft.units)
    if lines and not _spans(lines):
        text = "readings in one line tell no plane; measure at least two studs, one of them at two heights"
        yield Issue(here, text)
    if wall.flange_off is not None and not lines:
        yield Issue(join(path, "flange_off"), "measured from which line? write the stud faces under `string_line`")
    if wall.flange_off is not None and draft.base is not None and draft.base.kind == "none":
        yield Issue(join(path, "flange_off"), "there is no base in this room, so there is no flange")


def _judge_line(path: str, line: StringLineShape) -> Iterator[Issue]:
    if len(line.at) != len(line.off):
        count = f"{len(line.at)} heights and {len(line.off)} readings"
        yield Issue(join(path, "off"), f"{count}; every height in `at` has one reading in `off`")
    heights = [at.mm for at in line.at]
    if any(abs(a - b) <= TOUCH for i, a in enumerate(heights) for b in heights[:i]):
        yield Issue(join(path, "at"), "one height is given twice; keep one")


def _spans(lines: Sequence[StringLineShape]) -> bool:
    return len({line.stud.exact for line in lines}) > 1 and any(len(line.at) > 1 for line in lines)


def _judge_stud(
    path: str,
    wall: WallShape,
    supports: Sequence[FoundSupport],
    centre: Length,
    heights: Sequence[Length],
    units: Units,
) -> Iterator[Issue]:
    """The stud is there, and so tall."""
    stud = named_stud(supports, wall, centre)
    if stud is None:
        place = f"{shown(centre, units)} from the {wall.supports.start} end"
        text = f'no stud of wall "{wall.name}" has its middle {place}; write it as it is listed under `supports`'
        yield Issue(join(path, "stud"), text)
        return
    low, high = stud.axis[0][1], stud.axis[1][1]
    for height in heights:
        if not low - TOUCH <= height.mm <= high + TOUCH:
            yield Issue(join(path, "at"), f"{shown(height, units)} is below or above that stud")


def _judge_damage(path: str, wall: WallShape, supports: Sequence[FoundSupport], units: Units) -> Iterator[Issue]:
    for i, hole in enumerate(wall.supports.holes):
        here = join(path, "holes", i)
        yield from _judge_stud(here, wall, supports, hole.stud, (hole.at,), units)
        yield from _judge_hole(here, hole, named_stud(supports, wall, hole.stud))
    for i, notch in enumerate(wall.supports.notches):
        here = join(path, "notches", i)
        yield from _judge_stud(here, wall, supports, notch.stud, (notch.at,), units)
        yield from _judge_notch(here, notch, named_stud(supports, wall, notch.stud))


def _judge_hole(path: str, hole: HoleShape, stud: FoundSupport | None) -> Iterator[Issue]:
    if stud is None:
        return
    middle, half = hole.from_face.mm if hole.from_face else stud.profile.depth / 2, hole.diameter.mm / 2
    if middle - half < -TOUCH or middle + half > stud.profile.depth + TOUCH:
        yield Issue(path, "the hole breaks out of the stud; write it as a notch, or check `diameter` and `from_face`")


def _judge_notch(path: str, notch: NotchShape, stud: FoundSupport | None) -> Iterator[Issue]:
    if stud is not None and notch.depth.mm > stud.profile.depth + TOUCH:
        yield Issue(join(path, "depth"), "deeper than the stud; write the depth of the cut, not of the stud")
