"""Brute-force twins: on random tilings of a grid the checks say what counting cells says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.checks.layout import coverage, overlap
from generator.checks.stagger import Meeting, meetings
from generator.model.geometry import rectangle
from generator.model.plan import Board, Plan, Region
from generator.model.room import Room

Rect = tuple[int, int, int, int]
"""Left, low, right, high in cells."""
CELL = 10.0
"""mm."""


@st.composite
def tilings(draw: st.DrawFn, width: int = 9, height: int = 9) -> tuple[Rect, ...]:
    """A rectangle cut edge to edge into boards."""
    parts: list[Rect] = [(0, 0, width, height)]
    for _ in range(draw(st.integers(1, 8))):
        left, low, right, high = parts.pop(draw(st.integers(0, len(parts) - 1)))
        if draw(st.booleans()) and right - left > 1:
            at = draw(st.integers(left + 1, right - 1))
            parts += [(left, low, at, high), (at, low, right, high)]
        elif high - low > 1:
            at = draw(st.integers(low + 1, high - 1))
            parts += [(left, low, right, at), (left, at, right, high)]
        else:
            parts.append((left, low, right, high))
    return tuple(sorted(parts))


def upright_seams(parts: tuple[Rect, ...]) -> list[tuple[float, float, float]]:
    """(u, from, to) of every stretch that two boards share."""
    shared = ((a[2], max(a[1], b[1]), min(a[3], b[3])) for a, b in product(parts, parts) if a[2] == b[0])
    return [(float(u), float(low), float(high)) for u, low, high in shared if high > low]


def turned(parts: tuple[Rect, ...]) -> tuple[Rect, ...]:
    return tuple((low, left, high, right) for left, low, right, high in parts)


def cells(rect: Rect) -> set[tuple[int, int]]:
    return set(product(range(rect[0], rect[2]), range(rect[1], rect[3])))


def label(parts: tuple[Rect, ...], x: int, y: int) -> int:
    return next((i for i, r in enumerate(parts) if r[0] <= x < r[2] and r[1] <= y < r[3]), -1)


def least_stagger_by_cells(parts: tuple[Rect, ...], width: int, height: int) -> int | None:
    """Walk every level line cell by cell: the least distance of a seam below from one above, on one level seam."""
    found = []
    for y in range(1, height):
        cut = [label(parts, x, y - 1) != label(parts, x, y) for x in range(width)]
        for start, end in runs(cut):
            below = {x for x in range(1, width) if label(parts, x - 1, y - 1) != label(parts, x, y - 1)}
            above = {x for x in range(1, width) if label(parts, x - 1, y) != label(parts, x, y)}
            ended_on = {x for x in (start, end) if x in below and x in above}
            here = set(range(start, end + 1)) - ended_on
            found += [abs(a - b) for a, b in product(below & here, above & here)]
    return min(found, default=None)


def runs(cut: list[bool]) -> Iterator[tuple[int, int]]:
    """From, to of each run of true cells."""
    start = None
    for x, on in enumerate([*cut, False]):
        if on and start is None:
            start = x
        if not on and start is not None:
            yield start, x
            start = None


def test_a_seam_that_ends_on_another_is_no_crossing() -> None:
    parts = ((0, 0, 4, 4), (4, 0, 9, 4), (0, 4, 9, 9))
    assert least_stagger_by_cells(parts, 9, 9) is None
    for own in (parts, turned(parts)):
        assert list(meetings(upright_seams(turned(own)), upright_seams(own))) == []


def test_four_boards_at_one_corner_are_no_distance_apart() -> None:
    parts = ((0, 0, 4, 4), (0, 4, 4, 9), (4, 0, 9, 4), (4, 4, 9, 9))
    assert [m.apart for m in meetings(upright_seams(turned(parts)), upright_seams(parts))] == [0.0]


@given(tilings())
@settings(max_examples=150, deadline=None)
def test_stagger_is_what_walking_the_cells_says(parts: tuple[Rect, ...]) -> None:
    for own in (parts, turned(parts)):
        level = upright_seams(turned(own))
        found: list[Meeting] = list(meetings(level, upright_seams(own)))
        assert min((m.apart for m in found), default=None) == least_stagger_by_cells(own, 9, 9)


def wall_of(plan: Plan, parts: Iterator[Rect] | tuple[Rect, ...], wet: Rect) -> Plan:
    """The plan with one wall whose wet region and boards are these rectangles."""
    wall = replace(plan.walls[0], wet_region=(Region(_ring(wet), ()),))
    like = next(b for b in plan.boards if b.wall == wall.id)
    boards = tuple(_board(like, i, rect) for i, rect in enumerate(parts))
    return replace(plan, walls=(wall,), boards=boards)


def _ring(rect: Rect) -> tuple[tuple[float, float], ...]:
    return rectangle(*(CELL * x for x in rect))


def _board(like: Board, index: int, rect: Rect) -> Board:
    return replace(like, id=f"B-{index}", outline=_ring(rect), openings=(), rabbets=())


rects = st.tuples(st.integers(0, 5), st.integers(0, 5), st.integers(1, 6), st.integers(1, 6)).map(
    lambda r: (r[0], r[1], r[0] + r[2], r[1] + r[3])
)


@given(st.lists(rects, min_size=1, max_size=5))
@settings(max_examples=80, deadline=None)
def test_coverage_is_what_counting_cells_says(parts: list[Rect]) -> None:
    wet: Rect = (0, 0, 8, 8)
    laid: set[tuple[int, int]] = set().union(*(cells(r) for r in parts))
    wrong = len(laid ^ cells(wet)) * CELL**2
    (measure,) = coverage(ROOM, wall_of(PLAN, tuple(parts), wet))
    assert measure.value == pytest.approx(wrong, abs=1e-3)


@given(st.lists(rects, min_size=2, max_size=5))
@settings(max_examples=80, deadline=None)
def test_overlap_is_what_counting_cells_says(parts: list[Rect]) -> None:
    worst = max(len(cells(a) & cells(b)) for a, b in combinations(parts, 2)) * CELL**2
    measures = overlap(ROOM, wall_of(PLAN, tuple(parts), (0, 0, 8, 8)))
    assert max(m.value or 0.0 for m in measures) == pytest.approx(worst, abs=1e-3)


def _pair() -> tuple[Room, Plan]:
    from generator.reading import load_catalogue
    from tests.worked_plan import worked_plan
    from tests.worked_room import worked_room

    room = replace(worked_room(), rules=load_catalogue().rules)
    return room, worked_plan(room)


ROOM, PLAN = _pair()
