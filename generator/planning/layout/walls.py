"""Every layout of one wall that could be best: columns of courses, and courses of columns.

Layouts that need the same boards differ only in supports, seams and rips, so the best of them stands for all.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from generator.errors import CannotPlanError
from generator.model.geometry import NOISE, TOUCH
from generator.planning.layout.courses import Cuts, divisions
from generator.planning.layout.ground import Cell, Clip, Ground, Span, make_ground
from generator.planning.layout.sizes import Size, size_of
from generator.planning.layout.task import AddedSupport, LayoutTask, WallTask

SPARE_BOARDS = 2
"""A wall may have this many boards more than the fewest that its layouts can do with."""

MOST_ADDED = 1
"""Supports added on one wall, where it can be boarded with so few."""

MOST_ON_A_SHEET = 8
"""Collections of more boards from one sheet are not tried: the ways to cut them grow threefold with each."""

SCOPE = (
    "each wall in columns of courses or courses of columns; upright seams on found or offered supports; course heights "
    "as the sheets' sides give them, one rest, or equal, narrow rests brought up to the least rip; per wall at most "
    f"{SPARE_BOARDS} boards more than its fewest; at most {MOST_ADDED} added support and no narrow rip on a wall that "
    f"such layouts board; at most {MOST_ON_A_SHEET} boards from one sheet"
)

Sizes = tuple[Size, ...]
Score = tuple[int, float, int, int]
"""Supports added, seam length, boards, narrow rips."""


@dataclass(frozen=True, slots=True, order=True)
class Layout:
    """One way to board one wall; ordered by score, then by place."""

    score: Score
    cells: tuple[Cell, ...]
    sizes: Sizes
    added: tuple[AddedSupport, ...]


@dataclass(frozen=True, slots=True)
class _Strip:
    """One column or one course: its cells, and the cuts inside it."""

    cuts: Cuts
    cells: tuple[Cell, ...]
    sizes: Sizes
    seams: float
    rips: int
    added: frozenset[AddedSupport]


@dataclass(frozen=True, slots=True)
class _Limits:
    """The most boards, added supports and narrow rips that one wall may have."""

    boards: int
    supports: int = 1000
    rips: int = 1000

    def but(self, boards: int) -> _Limits:
        """The same with so many boards kept for what comes after."""
        return replace(self, boards=self.boards - boards)

    def allow(self, score: Score) -> bool:
        return score[0] <= self.supports and score[2] <= self.boards and score[3] <= self.rips


_Partial = dict[tuple[Cuts, Sizes, frozenset[AddedSupport]], tuple[Score, tuple[Cell, ...]]]
"""Walls boarded up to some line: what the next strip must know -> the best way there."""


def wall_layouts(wall: WallTask, task: LayoutTask) -> tuple[Layout, ...]:
    """The best layout for each collection of boards, best score first; CannotPlanError when there is none."""
    ground = make_ground(wall)
    for fewest in range(1, _most_boards(wall, task) + 1):
        if next(iter(_found(ground, task, _Limits(fewest))), None) is not None:
            plain = _best_of_each(_found(ground, task, _Limits(fewest + SPARE_BOARDS, MOST_ADDED, 0)))
            return tuple(sorted(plain or _best_of_each(_found(ground, task, _Limits(fewest + SPARE_BOARDS)))))
    raise CannotPlanError(_why_none(wall, ground, task))


def _most_boards(wall: WallTask, task: LayoutTask) -> int:
    """More boards than this are not looked at: every upright used and five courses."""
    return min(5 * (len({s.u for s in wall.seams}) + 1), 24) if task.stocks else 0


def _best_of_each(layouts: Iterator[Layout]) -> list[Layout]:
    best: dict[Sizes, Layout] = {}
    for layout in layouts:
        if layout.sizes not in best or layout < best[layout.sizes]:
            best[layout.sizes] = layout
    return list(best.values())


def _found(ground: Ground, task: LayoutTask, limits: _Limits) -> Iterator[Layout]:
    yield from _columns(ground, task, limits)
    yield from _courses(ground, task, limits)


# columns of courses ---------------------------------------------------------------------------------------------


def _columns(ground: Ground, task: LayoutTask, limits: _Limits) -> Iterator[Layout]:
    """Left to right: `reached[u]` holds the ways to board the wall up to the seam at u."""
    left, bottom, right, top = ground.extent
    places = [left, *_places(ground), right]
    reached: dict[float, _Partial] = {left: {((), (), frozenset()): ((0, 0.0, 0, 0), ())}}
    for i, end in enumerate(places[1:], start=1):
        spans = ground.upright(end, bottom, top) if end < right else ()
        if spans is None:
            continue
        for start in places[:i]:
            strips = _column_strips(ground, task, start, end) if start in reached else []
            line, left_over = _Line(ground, start, "u"), limits.but(0 if end == right else 1)
            _extend(reached.setdefault(end, {}), reached.get(start, {}), strips, line, task, left_over)
    yield from _layouts(reached.get(right, {}))


@dataclass(frozen=True, slots=True)
class _Line:
    """A seam between two strips."""

    ground: Ground
    at: float
    axis: str

    def spans(self) -> tuple[Span, ...]:
        left, bottom, right, top = self.ground.extent
        if self.axis == "u":
            return self.ground.upright(self.at, bottom, top) or () if self.at > left else ()
        return self.ground.level(self.at, left, right) or () if self.at > bottom else ()

    def added(self, spans: tuple[Span, ...]) -> frozenset[AddedSupport]:
        if self.axis == "v" or not spans or not self.ground.adds(self.at, spans):
            return frozenset()
        return frozenset({AddedSupport(self.ground.wall.id, self.at, spans[0][0], spans[-1][1])})


def _extend(
    into: _Partial, ways: _Partial, strips: list[_Strip], line: _Line, task: LayoutTask, limits: _Limits
) -> None:
    """Puts one more strip behind each way, where counts, stagger and the rules allow; keeps the best of equals."""
    spans = line.spans()
    own = line.added(spans)
    length = sum(b - a for a, b in spans)
    few = {n: [s for s in strips if len(s.cells) <= n] for n in range(limits.boards + 1)}
    for (cuts, sizes, added), (score, cells) in ways.items():
        for strip in few.get(limits.boards - len(sizes), ()):
            supports = _merged(added | own | strip.added)
            total = _total(score, strip, length, len(supports))
            if not limits.allow(total) or not _staggered(cuts, strip.cuts, spans, task.stagger):
                continue
            key = (strip.cuts, tuple(sorted(sizes + strip.sizes)), supports)
            entry = (total, cells + strip.cells)
            if key not in into or entry < into[key]:
                into[key] = entry


def _total(score: Score, strip: _Strip, seam: float, supports: int) -> Score:
    return supports, round(score[1] + seam + strip.seams, 6), score[2] + len(strip.sizes), score[3] + strip.rips


def _merged(supports: frozenset[AddedSupport]) -> frozenset[AddedSupport]:
    """One support per place, as high as all its seams together."""
    if len(supports) < 2:
        return supports
    merged: dict[float, AddedSupport] = {}
    for s in sorted(supports, key=lambda s: (s.u, s.from_v, s.to_v)):
        old = merged.get(s.u, s)
        merged[s.u] = AddedSupport(s.wall, s.u, min(s.from_v, old.from_v), max(s.to_v, old.to_v))
    return frozenset(merged.values())


def _staggered(before: Cuts, after: Cuts, spans: tuple[Span, ...], stagger: float) -> bool:
    """True when no two seams end on opposite sides of the line nearer than the stagger, and none crosses it."""
    least = max(stagger - NOISE, TOUCH)
    return not any(
        abs(a - b) < least and any(low - TOUCH < min(a, b) and max(a, b) < high + TOUCH for low, high in spans)
        for a in before
        for b in after
    )


def _column_strips(ground: Ground, task: LayoutTask, start: float, end: float) -> list[_Strip]:
    whole = ground.clip((start, ground.extent[1], end, ground.extent[3]))
    if whole is None:
        return []
    _, low, _, high = whole.box
    options = divisions(low, high, whole.width, task.stocks, task.least_rip)
    strips = (_column_strip(ground, task, start, end, cuts) for cuts in options)
    return [s for s in strips if s is not None]


def _column_strip(ground: Ground, task: LayoutTask, start: float, end: float, cuts: Cuts) -> _Strip | None:
    seams = [ground.level(v, start, end) for v in cuts]
    if any(not spans for spans in seams):
        return None
    lines = (ground.extent[1], *cuts, ground.extent[3])
    cells = tuple((start, low, end, high) for low, high in pairwise(lines))
    return _strip(ground, task, cuts, cells, [s for s in seams if s], frozenset())


def _strip(
    ground: Ground,
    task: LayoutTask,
    cuts: Cuts,
    cells: tuple[Cell, ...],
    seams: list[tuple[Span, ...]],
    added: frozenset[AddedSupport],
) -> _Strip | None:
    """The strip, None when a cell holds no board or no sheet holds its board."""
    clips = [ground.clip(cell) for cell in cells]
    boards = [clip for clip in clips if clip is not None]
    sizes = [size_of(clip.width, clip.height) for clip in boards]
    if len(boards) < len(cells) or not all(any(s.fits(stock) for stock in task.stocks) for s in sizes):
        return None
    length = sum(b - a for spans in seams for a, b in spans)
    rips = sum(_is_rip(clip, ground, task.least_rip) for clip in boards)
    return _Strip(cuts, cells, tuple(sorted(sizes)), length, rips, added)


def _is_rip(clip: Clip, ground: Ground, least: float) -> bool:
    """Narrower than the least rip where the region itself is not; a leg is none."""
    left, bottom, right, top = ground.extent
    narrow = clip.width < least - TOUCH <= right - left or clip.height < least - TOUCH <= top - bottom
    return narrow and not any(
        clip.box[1] < leg.top - TOUCH and clip.box[0] > leg.from_u - TOUCH and clip.box[2] < leg.to_u + TOUCH
        for leg in ground.wall.legs
    )


# courses of columns ---------------------------------------------------------------------------------------------


def _courses(ground: Ground, task: LayoutTask, limits: _Limits) -> Iterator[Layout]:
    left, bottom, right, top = ground.extent
    remembered: dict[tuple[float, float, int], list[_Strip]] = {}
    for cuts in divisions(bottom, top, 0.0, task.stocks, task.least_rip):
        if not cuts or len(cuts) >= limits.boards or any(not ground.level(v, left, right) for v in cuts):
            continue
        ways: _Partial = {((), (), frozenset()): ((0, 0.0, 0, 0), ())}
        lines = (bottom, *cuts, top)
        within = limits.but(len(cuts))
        for n, (low, high) in enumerate(pairwise(lines)):
            if (low, high, within.boards) not in remembered:
                remembered[low, high, within.boards] = list(_course_strips(ground, task, low, high, within))
            onward: _Partial = {}
            line, strips = _Line(ground, low, "v"), remembered[low, high, within.boards]
            _extend(onward, ways, strips, line, task, limits.but(len(cuts) - n))
            ways = onward
        yield from _layouts(ways)


def _course_strips(ground: Ground, task: LayoutTask, low: float, high: float, limits: _Limits) -> Iterator[_Strip]:
    left, _, right, _ = ground.extent
    usable = [u for u in _places(ground) if ground.upright(u, low, high)]
    for count in range(limits.boards):
        for chosen in combinations(usable, count):
            lines = (left, *chosen, right)
            cells = tuple((a, low, b, high) for a, b in pairwise(lines))
            seams = [ground.upright(u, low, high) or () for u in chosen]
            added = [_Line(ground, u, "u").added(s) for u, s in zip(chosen, seams, strict=True)]
            own = frozenset[AddedSupport]().union(*added)
            strip = _strip(ground, task, chosen, cells, seams, own) if len(own) <= limits.supports else None
            if strip is not None and strip.rips <= limits.rips:
                yield strip


def _places(ground: Ground) -> list[float]:
    left, _, right, _ = ground.extent
    return sorted({s.u for s in ground.wall.seams if left + TOUCH < s.u < right - TOUCH})


def _layouts(ways: _Partial) -> Iterator[Layout]:
    for (_, sizes, added), (score, cells) in ways.items():
        yield Layout(score, cells, sizes, tuple(sorted(added, key=lambda s: s.u)))


def _why_none(wall: WallTask, ground: Ground, task: LayoutTask) -> str:
    left, bottom, right, top = ground.extent
    largest = max(((s.height, s.width) for s in task.stocks), default=(0.0, 0.0))
    return (
        f"wall {wall.id}: no boards from the sheets that may be used cover {right - left:.0f} x {top - bottom:.0f} mm "
        f"with {len(_places(ground))} places for upright seams (largest sheet {largest[1]:.0f} x {largest[0]:.0f} mm); "
        "a larger sheet, or a stud where two boards can meet, would help"
    )
