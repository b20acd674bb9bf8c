"""The space between a base's flange and the stud faces: what was measured, what follows, and what contradicts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.geometry import TOUCH, tidy
from generator.model.profiles import Catalogue
from generator.reading.base import corner_walls, is_flanged
from generator.reading.choices import limit_of
from generator.reading.draft import Draft, shown
from generator.reading.footprint import Stand
from generator.reading.issues import Issue, join, nearest
from generator.reading.judge_footprint import said_length
from generator.reading.room_shapes import BaseShape, WallShape
from generator.units import Length


@dataclass(frozen=True, slots=True)
class _Recess:
    """A base between the ends of its wall: lengths as entered, the neighbours that it is set in against, or ""."""

    base: BaseShape
    wall: WallShape
    left: str
    right: str
    flanged: bool

    @property
    def slack(self) -> float:
        """mm by which the wall is longer than the base."""
        return self.wall.width.mm - (self.base.length.mm if self.base.length else 0.0)

    def gap(self, end: str) -> Length | None:
        """As measured at an end."""
        return self.base.gaps.get(end) if end else None


def judge_gaps(draft: Draft, base: BaseShape, wall: WallShape, stand: Stand, catalogue: Catalogue) -> Iterator[Issue]:
    """Gaps and treatments of walls where there is a flange; gaps that agree with the lengths beside them."""
    touched = [draft.names[run.index] for run in stand.runs]
    corner = corner_walls(stand, draft.names)
    flanged = tuple(name for name in touched if is_flanged(base, name, corner))
    yield from _judge_names(draft, base, flanged)
    yield from _judge_treatments(draft, base, catalogue)
    fit = limit_of("fit", draft.choices, catalogue, draft.units)
    left = draft.names[stand.index - 1] if stand.left else ""
    right = draft.names[stand.index + 1] if stand.right else ""
    recess = _Recess(base, wall, left, right, bool({left, right} & set(flanged)))
    yield from _judge_ends(draft, recess, fit)
    yield from _judge_lines(draft, base, catalogue, fit)


def _judge_names(draft: Draft, base: BaseShape, flanged: tuple[str, ...]) -> Iterator[Issue]:
    for key, names in (("gaps", tuple(base.gaps)), ("at_flange", tuple(name for name in base.at_flange if name))):
        for name in names:
            path = join("base", key, name)
            if draft.unknown_wall(name):
                yield Issue(path, f"unknown wall `{name}`{nearest(name, draft.names)}")
            elif name not in flanged:
                there = f"it has one at {', '.join(flanged)}" if flanged else "it has none at all"
                yield Issue(path, f'the base has no flange at wall "{name}"; {there}')


def _judge_treatments(draft: Draft, base: BaseShape, catalogue: Catalogue) -> Iterator[Issue]:
    """No notch for a thick flange, and no furring where there are no studs."""
    flange = catalogue.flanges.get(base.profile)
    for name, treatment in base.at_flange.items():
        path, wall = join("base.at_flange", name), draft.wall(name)
        if treatment == "rabbet" and flange is not None and flange.kind == "thick":
            text = "boards stand above a thick flange and are not notched for it; write `fur` or a thickness of furring"
            yield Issue(path, text)
        elif treatment != "rabbet" and wall is not None and wall.supports.masonry is not None:
            yield Issue(path, f'wall "{name}" is masonry and has no studs to fur; write `rabbet`')


def _judge_ends(draft: Draft, recess: _Recess, fit: float) -> Iterator[Issue]:
    """The gaps at the two ends make up what the recess is longer than the base; one end alone is not longer."""
    base, units = recess.base, draft.units
    first, last = recess.gap(recess.left), recess.gap(recess.right)
    if first is not None and base.start is not None and abs(off := base.start.mm - first.mm) > fit + TOUCH:
        same = f'`start` and the gap at wall "{recess.left}" ({shown(first, units)}) are one space'
        text = f"{same}, and {said_length(abs(off), units)} apart; measure it again"
        yield from _both("base.start", join("base.gaps", recess.left), text)
    before = first or base.start
    if recess.left and recess.right and before is last is None:
        if recess.flanged and recess.slack > TOUCH:
            yield Issue("base.length", _unmeasured(recess, said_length(recess.slack, units)))
    elif recess.right and (last is not None or recess.left):
        over = (before.mm if before else 0.0) + (last.mm if last else 0.0) - recess.slack
        if over > fit + TOUCH or (before and last and -over > fit + TOUCH):
            yield from _contradiction(draft, recess, over)


def _unmeasured(recess: _Recess, slack: str) -> str:
    return (
        f"the base is {slack} shorter than its recess; measure the space between the back of its flange and the stud "
        f"faces and write it, as in `gaps: {{{recess.left}: {slack.split()[0]}}}`; the other end follows"
    )


def _contradiction(draft: Draft, recess: _Recess, over: float) -> Iterator[Issue]:
    """On the line of a gap and on that of the wall's width."""
    units, name = draft.units, recess.wall.name
    given = next((end for end in (recess.right, recess.left) if end in recess.base.gaps), "")
    text = (
        f'the gaps at the ends of the base make {said_length(recess.slack + over, units)}, and wall "{name}" is '
        f"{said_length(recess.slack, units)} longer than the base: {said_length(abs(over), units)} apart; "
        "measure gaps, base and wall again"
    )
    here = join("base.gaps", given) if given else "base.start"
    yield from _both(here, join("walls", draft.names.index(name), "width"), text)


def _both(path: str, other: str, text: str) -> Iterator[Issue]:
    yield Issue(path, text)
    yield Issue(other, text)


def _judge_lines(draft: Draft, base: BaseShape, catalogue: Catalogue, fit: float) -> Iterator[Issue]:
    """Stud faces and the flange's back off one string line tell the gap as well."""
    flange = catalogue.flanges.get(base.profile)
    for i, wall in enumerate(draft.walls):
        if wall is None or wall.flange_off is None or wall.name not in base.gaps or base.deck is None:
            continue
        gap, height = base.gaps[wall.name], base.deck.mm + (flange.top if flange else 0.0)
        ends = zip(("left", "right"), wall.flange_off, _faces_at(wall, height), strict=True)
        for end, off, face in ends:
            found = None if face is None else tidy(face - off.mm)
            if found is not None and abs(found - gap.mm) > fit + TOUCH:
                text = (
                    f"off the string line the flange's back stands {said_length(found, draft.units)} before the stud "
                    f"at its {end} end, and `gaps` says {shown(gap, draft.units)}: "
                    f"{said_length(abs(found - gap.mm), draft.units)} apart; measure both again"
                )
                yield from _both(join("walls", i, "flange_off"), join("base.gaps", wall.name), text)


def _faces_at(wall: WallShape, height: float) -> tuple[float | None, float | None]:
    """Readings of the outermost studs, left and right, that were taken nearest to a height."""
    lines = sorted(wall.string_line, key=lambda line: line.stud.mm, reverse=wall.supports.start == "right")
    found = [
        min(zip(line.at, line.off, strict=False), key=lambda pair: abs(pair[0].mm - height))[1].mm
        for line in lines
        if line.at and line.off
    ]
    return (found[0], found[-1]) if found else (None, None)
