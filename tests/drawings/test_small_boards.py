"""Small boards share sheets: none is lost, none leaves its paper, and each says what it measures."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from generator.drafting.ink import Text
from generator.drafting.overlap import flat, overlaps
from generator.drafting.page import Page
from generator.drawings.leaf import bound
from generator.drawings.shop import shop_leaves
from generator.model.geometry import rectangle
from generator.model.job import Job
from generator.model.plan import Board
from generator.units import Units
from tests.drawings.set_job import set_job

SIZES = ((600, 90), (90, 600), (360, 45), (300, 300), (45, 45), (150, 800), (90, 420))
"""Width and height in mm of sides, caps and rears; the smallest has no room for its own mark."""


def _small(board: Board, number: int, width: float, height: float) -> Board:
    ring = rectangle(100.0, 200.0, 100.0 + width, 200.0 + height)
    return replace(board, id=f"B-small-{number}", outline=ring, openings=(), rabbets=(), factory_edges=())


@cache
def _job(paper: str, units: Units) -> Job:
    """The worked room with small boards beside its own, drawn from the plan alone."""
    job = set_job(paper, units)
    first = job.plan.boards[0]
    small = tuple(_small(first, i, *size) for i, size in enumerate(SIZES, 1))
    return replace(job, plan=replace(job.plan, boards=(*job.plan.boards, *small)), projections={}, sections={})


def _pages(paper: str, units: Units) -> tuple[Page, ...]:
    job = _job(paper, units)
    return bound(job, shop_leaves(job))


CASES = [("letter", "in"), ("letter", "mm"), ("tabloid", "in"), ("a3", "mm")]


@pytest.mark.parametrize(("paper", "units"), CASES)
def test_every_board_is_drawn_once_and_small_ones_share(paper: str, units: Units) -> None:
    job, pages = _job(paper, units), _pages(paper, units)
    heads = [
        t.text.removeprefix("Board ")
        for page in pages
        for t in flat(page.ink)
        if isinstance(t, Text) and t.text.startswith("Board B-") and t.height > 2.5
    ]
    assert sorted(heads) == sorted(b.id for b in job.plan.boards)
    shared = [page for page in pages if "B-small" in page.title]
    assert len(shared) < len(SIZES) - 1


@pytest.mark.parametrize(("paper", "units"), CASES)
def test_shared_sheets_read_well(paper: str, units: Units) -> None:
    assert [(page.title, overlaps(page)) for page in _pages(paper, units) if overlaps(page)] == []


def test_a_small_board_keeps_front_back_scale_and_its_measures() -> None:
    """600 x 90 mm, as entered above."""
    page = next(page for page in _pages("a3", "mm") if "B-small-1" in page.title)
    words = [t.text for t in flat(page.ink) if isinstance(t, Text)]
    drawn = page.title.count("B-small")
    assert words.count("FRONT") == words.count("BACK, mirrored") == drawn
    assert sum(word.startswith("Views at 1:") for word in words) == drawn
    assert {"600", "90"} <= set(words)
    assert any(word.startswith("600 x 90") for word in words)


def test_a_shared_sheet_has_two_views_of_each_board_for_cad() -> None:
    page = next(page for page in _pages("a3", "mm") if "B-small-1" in page.title)
    assert page.sheet is not None
    assert len(page.sheet.views) == 2 * page.title.count("B-small")


def test_a_slanting_side_is_told_from_end_to_end() -> None:
    """A niche's sides fall by a pencil's line: too little to be seen, so left and right must be told apart in words."""
    job = _job("letter", "in")
    inch = 25.4
    sides = {"B-low-left": (0.0, 1 / 16), "B-low-right": (1 / 16, 0.0)}
    rings = {
        name: ((0.0, a * inch), (2 * inch, b * inch), (2 * inch, 12 * inch), (0.0, 12 * inch))
        for name, (a, b) in sides.items()
    }
    first = _small(job.plan.boards[0], 0, 50.8, 304.8)
    boards = tuple(replace(first, id=name, outline=ring) for name, ring in rings.items())
    alone = replace(job, plan=replace(job.plan, boards=boards, edges=()))
    words = {t.text for page in bound(alone, shop_leaves(alone)) for t in flat(page.ink) if isinstance(t, Text)}
    assert {'0", 0" to 2", 1/16"', '0", 1/16" to 2", 0"'} <= words
