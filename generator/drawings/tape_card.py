"""The card of running marks: what a tape passes, in its order, for those who have no printer large enough.

Along a wall from the left corner of its framing, up from its datum; on each board from its own two edges, as the shop
drawings measure.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import Literal

from generator.drafting.ink import Circle, Ink, Line, Outline, Text, View
from generator.drafting.page import Page
from generator.drafting.spot import Block, fit_block
from generator.drafting.table import Column, table
from generator.drawings import template_sheet as sheet
from generator.drawings.marks import Label, leaders, widest, words_beside
from generator.drawings.parts import board_cuts, opening_box
from generator.drawings.shop_notes import slants
from generator.drawings.stamp import NOT_FOR_CUTTING, stamp
from generator.drawings.template_targets import corners, nips_and_rabbets, notches, whole
from generator.model.ends import is_upright
from generator.model.geometry import TOUCH, Ring, box
from generator.model.job import Job
from generator.model.plan import Board, PlannedWall
from generator.planning.shapes import polygon, union
from generator.units import label

Axis = Literal[0, 1]
Mark = tuple[float, str]
SIZE = 3.5
"""mm: capitals of the marks, read at arm's length."""
SKETCH = 75.0
"""mm of paper that the sketch of a wall takes."""
HEIGHTS = (3.0, 2.5, 2.0)
AWAY = 6.0
"""mm from the sketch to a mark that found no room in its board."""
BETWEEN = 6.0
ROOM = 30.0
"""mm: less is not begun with a new table."""


def tape_card(job: Job) -> tuple[Page, ...]:
    """The marks of every wall that has boards, wall by wall from the left, with those of its boards."""
    walls = [w for w in job.plan.walls if w.face == "wall" and _boards(job, w)]
    pages = [page for wall in walls for page in _wall_pages(job, wall)]
    return tuple(
        Page(f"M{i + 1}", title, paper.width, paper.height, "none", (*ink, *_head(paper, words, i, len(pages))))
        for i, (title, paper, words, ink) in enumerate(pages)
    )


_Sheet = tuple[str, sheet.Paper, sheet.Words, tuple[Ink, ...]]


def _head(paper: sheet.Paper, words: sheet.Words, i: int, count: int) -> tuple[Ink, ...]:
    return sheet.header(paper, words, f"M{i + 1}", count)


def _paper(job: Job) -> sheet.Paper:
    return sheet.upright(job.room.choices.papers[0])


def _boards(job: Job, wall: PlannedWall) -> list[Board]:
    return [board for board in job.plan.boards if board.wall == wall.id]


def _stamp(job: Job, wall: PlannedWall) -> str:
    """Of a failed wall; on the cards of the others which walls failed."""
    failed = ", ".join(w.id for w in job.plan.walls if w.id in job.failed)
    elsewhere = f"{NOT_FOR_CUTTING}: boards of {failed}; see the findings." if failed else ""
    return stamp(job, wall.id) or elsewhere


def _wall_pages(job: Job, wall: PlannedWall) -> Iterator[_Sheet]:
    """The sketch, the marks of the wall, below them those of its boards; on as many sheets as they need."""
    paper, words = _paper(job), _words(job, wall)
    left, bottom, right, top = sheet.body(paper, words)
    ink: tuple[Ink, ...] = _sketch(job, wall, (left, top - SKETCH, right, top))
    y, columns = top - SKETCH - BETWEEN, _wall_columns(wall, (right - left - BETWEEN) / 2)
    rows, more = [_rows(job, _across(job, wall)), _rows(job, _up(job, wall))], _boards_rows(job, wall)
    while any(rows) or more:
        starts = (left, (left + right + BETWEEN) / 2)
        tables = [table(c, r, (x, y), bottom, SIZE) for c, r, x in zip(columns, rows, starts, strict=True) if r]
        rows = [list(t.left_over) for t in tables] or rows
        y = min((t.bottom for t in tables), default=y) - BETWEEN
        if not any(rows) and more and y - bottom >= ROOM:
            boards = table(_board_columns(right - left), more, (left, y), bottom, SIZE)
            tables, more = [*tables, boards], list(boards.left_over)
        yield f"Wall {wall.id}", paper, words, (*ink, *(item for t in tables for item in t.ink))
        ink, y = (), top


def _words(job: Job, wall: PlannedWall) -> sheet.Words:
    lines = (
        f"Running marks for a tape. {job.room.job.number} {job.room.name}".strip(),
        "ALONG: hook the tape on the bare framing in the left corner, keep it level. "
        f"UP: from the {wall.datum_name}, plumb. Leave the hook where it is from mark to mark.",
        "BOARDS, before they go up: from A, a plumb line at the leftmost point seen from the front, and from B, a "
        "level line at the lowest point. A board that lies on its face has A at your right.",
    )
    return sheet.Words(_stamp(job, wall), f"Wall {wall.id}", lines)


def _wall_columns(wall: PlannedWall, width: float) -> tuple[tuple[Column, Column], tuple[Column, Column]]:
    def pair(way: str, start: str) -> tuple[Column, Column]:
        return Column(way, 0.25 * width, "right"), Column(start, 0.75 * width)

    return pair("ALONG", "from the left corner"), pair("UP", f"from the {wall.datum_name}")


def _board_columns(width: float) -> tuple[Column, ...]:
    shares = (("BOARD", 0.2), ("from A", 0.14), ("from B", 0.14), ("is", 0.52))
    return tuple(Column(name, share * width) for name, share in shares)


def _rows(job: Job, marks: Iterable[Mark]) -> list[tuple[str, ...]]:
    """Each length once, in the order of the tape, with all that is there."""
    said: dict[str, list[str]] = {}
    for at, what in sorted(marks, key=lambda mark: (round(mark[0], 3), mark[1])):
        names = said.setdefault(label(at, job.room.choices.paper_units), [])
        what += ", beyond the hook" if at < -TOUCH else ""
        if what not in names:
            names.append(what)
    return [(length, "; ".join(names)) for length, names in said.items()]


def _across(job: Job, wall: PlannedWall) -> Iterator[Mark]:
    for s in job.plan.supports:
        if s.wall == wall.id and s.kind == "stud" and is_upright(*s.axis):
            yield s.axis[0][0], "stud TO ADD, centre" if s.origin == "added" else "stud, centre"
    yield from _shared(job, wall, 0)


def _up(job: Job, wall: PlannedWall) -> Iterator[Mark]:
    for at, what in _shared(job, wall, 1):
        yield at - wall.datum_v, what


def _shared(job: Job, wall: PlannedWall, k: Axis) -> Iterator[Mark]:
    """Edges of boards, seams, centres of openings and edges of mouths along one axis of the wall."""
    low, high = (("left", "right"), ("lower", "upper"))[k]
    for board in _boards(job, wall):
        ends = box(board.outline)
        for at, side in ((ends[k], low), (ends[k + 2], high)):
            if not any(abs(at - seam) <= TOUCH for seam in _seams(job, wall, k)):
                yield at, f"boards' {side} edge"
        yield from ((o.centre[k], f"{o.fitting_id or o.id}, centre") for o in board.openings if not o.ring)
        yield from _slant_ends(job, board, wall, k)
    yield from ((at, "seam") for at in _seams(job, wall, k))
    for mouth in wall.mouths:
        ends = box(mouth.ring)
        yield from ((ends[k], f"{low} edge of {mouth.feature_id}"), (ends[k + 2], f"{high} edge of {mouth.feature_id}"))


def _slant_ends(job: Job, board: Board, wall: PlannedWall, k: Axis) -> Iterator[Mark]:
    """Both ends of every side that a tape finds neither plumb nor level, each with its place on the other tape."""
    units = job.room.choices.paper_units
    for ends in slants(board):
        if all(label(ends[0][i], units) != label(ends[1][i], units) for i in (0, 1)):
            for u, v in ends:
                other = (f"{label(v - wall.datum_v, units)} up", f"{label(u, units)} along")[k]
                yield (u, v)[k], f"{board.id}, corner {other}"


def _seams(job: Job, wall: PlannedWall, k: Axis) -> list[float]:
    boards = {board.id for board in _boards(job, wall)}
    seams = (edge for edge in job.plan.edges if edge.board in boards and edge.role == "seam")
    return [edge.p[k] for edge in seams if abs(edge.p[k] - edge.q[k]) <= TOUCH]


def _sketch(job: Job, wall: PlannedWall, frame: tuple[float, float, float, float]) -> tuple[Ink, ...]:
    """The wall's boards and studs, small, with the two ways of the tape."""
    left, bottom, right, top = frame
    a, low, b, high = box(wall.outline)
    boards = _boards(job, wall)
    aside = 2 * (widest([board.id for board in boards], HEIGHTS[-1]) + AWAY)
    scale = min((right - left - 12.0 - aside) / (b - a), (top - bottom - 8.0) / (high - low))
    view = View(scale, ((left + right - (b - a) * scale) / 2, bottom + 8.0), (a, low))
    ink: list[Ink] = [Outline(wall.outline, "light"), *(i for b in boards for i in board_cuts(b, (0.0, 0.0)))]
    ink += [Line(*s.axis, "centre") for s in job.plan.supports if s.wall == wall.id and s.kind == "stud"]
    (x, y), far = view.point((a, low)), view.point((b, high))
    loose = [_outside(board, view) for board in boards if not _mark(board, view)]
    beside = words_beside(loose, far[0] + AWAY, y, far[1], HEIGHTS[-1])
    marks = (_mark(board, view, leaders(beside)) or _mark(board, view) for board in boards)
    tape = (*_arrow((x, y - 4.0), (far[0], y - 4.0)), *_arrow((x - 5.0, y), (x - 5.0, far[1])))
    return (*view.place(tuple(ink)), *tape, *chain.from_iterable(marks), *beside)


def _mark(board: Board, view: View, off: Sequence[Ring] = ()) -> tuple[Text, ...]:
    ring = tuple(view.point(p) for p in board.outline)
    taken = [*(tuple(view.point(p) for p in opening_box(o)) for o in board.openings), *off]
    return fit_block(Block((board.id,), bold=True, mask=True), ring, taken, HEIGHTS, clear=0.5)


def _outside(board: Board, view: View) -> Label:
    """The mark of a board too narrow for it, to stand beside the wall."""
    holes = (polygon(opening_box(opening)) for opening in board.openings)
    spot = polygon(board.outline).difference(union(holes)).representative_point()
    return Label(view.point((spot.x, spot.y)), board.id, bold=True)


def _arrow(start: tuple[float, float], end: tuple[float, float]) -> tuple[Ink, ...]:
    """A dot at the tape's hook, a head at its far end."""
    (x, y), along = end, 0 if start[1] == end[1] else 1
    barbs = ((x - 2.5, y + 1.0), (x - 2.5, y - 1.0)) if along == 0 else ((x + 1.0, y - 2.5), (x - 1.0, y - 2.5))
    return (Line(start, end, "visible"), Circle(start, 0.8, "visible", 0.0), *(Line(end, b, "visible") for b in barbs))


def _boards_rows(job: Job, wall: PlannedWall) -> list[tuple[str, ...]]:
    return [row for board in _boards(job, wall) for row in _board_rows(job, board, wall)]


def _board_rows(job: Job, board: Board, wall: PlannedWall) -> Iterator[tuple[str, ...]]:
    units = job.room.choices.paper_units
    left, bottom, _, _ = box(board.outline)
    cut = (t for o in board.openings for t in (corners(job, o) if o.ring else (whole(job, o),)))
    for targets in ((*cut, *notches(board, wall)), nips_and_rabbets(job, board, wall)):
        for target in sorted(targets, key=lambda t: (round(t.at[1], 3), round(t.at[0], 3), t.id)):
            what = f"{target.name}{', centre' if target.opening else ''}: {target.size}"
            yield board.id, label(target.at[0] - left, units), label(target.at[1] - bottom, units), what
