"""Small boards from leftovers: truly cut, and never dearer than a sheet of their own needs to be."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.geometry import rectangle
from generator.model.plan import Region
from generator.planning.layout import choose_layout
from generator.planning.layout.task import LayoutTask, StockSize, WallTask
from tests.planning.layout.judge import faults
from tests.planning.layout.rooms import IN

STOCKS = (StockSize("36x60", 36 * IN, 60 * IN, 41.0, 0), StockSize("48x96", 48 * IN, 96 * IN, 84.0, 0))


def _wall(name: str, width: float, height: float, minor: bool) -> WallTask:
    region = Region(rectangle(0, 0, width * IN, height * IN), ())
    return WallTask(name, region, (), (), (), (), minor=minor)


def _task(small: list[tuple[float, float]]) -> LayoutTask:
    faces = tuple(_wall(f"face-{i}", w, h, True) for i, (w, h) in enumerate(small))
    return LayoutTask((_wall("back", 30, 60, False), *faces), STOCKS, 0.125 * IN, 6 * IN, 4 * IN, None)


SIZES = st.lists(st.tuples(st.integers(2, 30), st.integers(2, 59)), min_size=1, max_size=12)


@settings(max_examples=60, deadline=None, derandomize=True, database=None)
@given(SIZES)
def test_small_boards_are_truly_cut(small: list[tuple[float, float]]) -> None:
    task = _task(small)
    result = choose_layout(task)
    assert faults(task, result) == []
    bought = sum(next(s.price or 0.0 for s in STOCKS if s.id == sheet.stock_id) for sheet in result.sheets)
    assert result.objective.first == pytest.approx(bought)
    assert 41.0 - 1e-9 <= result.proof.bound <= result.proof.value + 1e-9


def test_a_strip_left_over_holds_the_faces_of_a_niche() -> None:
    """A 30 in wide board leaves 6 in - 1/8 of a 36 in sheet: two faces of 2-3/4 in side by side."""
    result = choose_layout(_task([(2.75, 20), (2.75, 20), (2.75, 14), (2.75, 14)]))
    assert [sheet.stock_id for sheet in result.sheets] == ["36x60"]
    assert (result.objective.first, result.proof.proven) == (41.0, True)


def test_what_does_not_fit_is_bought_as_cheaply_as_one_sheet_can_be() -> None:
    result = choose_layout(_task([(30, 58)]))
    assert sorted(sheet.stock_id for sheet in result.sheets) == ["36x60", "36x60"]
    assert (result.objective.first, result.proof.bound, result.proof.proven) == (82.0, 41.0, False)


def test_sheets_in_the_van_come_first_and_cost_nothing() -> None:
    task = _task([(30, 58)])
    result = choose_layout(replace(task, stocks=(replace(STOCKS[0], have=2), STOCKS[1])))
    assert [sheet.owned for sheet in result.sheets] == [True, True]
    assert result.objective.first == 0.0


def test_where_no_one_sheet_holds_all_each_gets_what_holds_it() -> None:
    long, wide = StockSize("long", 10 * IN, 96 * IN, 20.0, 0), StockSize("wide", 40 * IN, 60 * IN, 41.0, 0)
    task = replace(_task([(9, 90), (38, 50)]), stocks=(long, wide))
    result = choose_layout(task)
    assert faults(task, result) == []
    assert sorted(sheet.stock_id for sheet in result.sheets) == ["long", "wide", "wide"]
