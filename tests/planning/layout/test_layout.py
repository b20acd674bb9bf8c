"""Rooms as they are: rules kept, sheets truly cut, same answer whatever the order of a set, refusals with a cure."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import CannotPlanError
from generator.model.geometry import rectangle
from generator.model.plan import Region
from generator.model.purchase import CutNode
from generator.planning.layout import choose_layout
from generator.planning.layout.choose import EVERY_LEVEL
from generator.planning.layout.task import LayoutTask, SeamPlace, StockSize, WallTask
from tests.planning.layout.judge import faults, tree_faults
from tests.planning.layout.rooms import IN, real_room


@settings(max_examples=5, deadline=None, derandomize=True, database=None)
@given(st.integers(0, 10_000))
def test_every_room_is_covered_carried_staggered_and_cut_edge_to_edge(seed: int) -> None:
    task = real_room(seed, count=2)
    try:
        result = choose_layout(task)
    except CannotPlanError as refused:
        assert "would help" in str(refused)
        return
    assert faults(task, result) == []
    assert result.proof.bound <= result.proof.value + 1e-6


def _plain(width: float, sheets: tuple[StockSize, ...]) -> LayoutTask:
    wall = WallTask("back", Region(rectangle(0, 0, width, 60 * IN), ()), (), (), (), ())
    return LayoutTask((wall,), sheets, 0.125 * IN, 6 * IN, 4 * IN, None)


def test_a_board_as_large_as_its_sheet_is_not_cut() -> None:
    result = choose_layout(_plain(36 * IN, (StockSize("s", 36 * IN, 60 * IN, 40.0, 0),)))
    (sheet,) = result.sheets
    assert sheet.cut_tree == CutNode(0.0, 0.0, 36 * IN, 60 * IN, None, 0.0, (), "B-back-1")
    assert (result.objective.first, result.proof.bound, result.proof.proven) == (40.0, 40.0, True)


def _recess_back(width: float, tall_price: float) -> LayoutTask:
    studs = tuple(SeamPlace(u * IN, 0.0, 96 * IN, False) for u in (0.75, 16, 32) if u < width - 1)
    stocks = (StockSize("36x60", 36 * IN, 60 * IN, 41.0, 0), StockSize("48x96", 48 * IN, 96 * IN, tall_price, 0))
    back = WallTask("back", Region(rectangle(0, 0, width * IN, 78 * IN), ()), studs, (), (), ())
    return LayoutTask((back,), stocks, 0.125 * IN, 6 * IN, 4 * IN, 9.0)


@pytest.mark.parametrize("width", [32, 36, 48])
def test_a_recess_no_wider_than_a_sheet_stands_its_board_where_that_costs_no_more(width: int) -> None:
    """Short recesses stand their boards: common practice, no source. Two sheets of the other size cost 82."""
    result = choose_layout(_recess_back(width, 82.0))
    (piece,) = result.pieces
    assert (result.objective.seam_length, len(piece.outline)) == (0.0, 4)
    assert result.proof.proven and result.proof.scope.endswith(EVERY_LEVEL)


def test_cost_comes_before_the_standing_board() -> None:
    result = choose_layout(_recess_back(36, 84.0))
    assert (result.objective.first, result.objective.pieces) == (82.0, 2)


def test_a_sheet_that_is_there_is_used_before_one_is_bought() -> None:
    owned = StockSize("there", 48 * IN, 96 * IN, 90.0, 1)
    result = choose_layout(_plain(36 * IN, (owned, StockSize("shop", 36 * IN, 60 * IN, 40.0, 0))))
    assert [(s.stock_id, s.owned) for s in result.sheets] == [("there", True)]
    assert result.objective.first == 0.0


def test_a_wall_that_no_sheet_covers_is_refused_with_what_would_help() -> None:
    with pytest.raises(CannotPlanError, match="a stud where two boards can meet, would help"):
        choose_layout(_plain(70 * IN, (StockSize("s", 36 * IN, 60 * IN, 40.0, 0),)))


def test_no_sheets_at_all_is_refused() -> None:
    with pytest.raises(CannotPlanError, match="no sheets"):
        choose_layout(_plain(36 * IN, ()))


def test_the_judge_of_cuts_sees_a_kerf_that_is_missing() -> None:
    result = choose_layout(_plain(30 * IN, (StockSize("s", 36 * IN, 60 * IN, 40.0, 0),)))
    tree = result.sheets[0].cut_tree
    assert list(tree_faults(tree, 0.125 * IN)) == []
    assert list(tree_faults(replace(tree, at=tree.at + 1.0), 0.125 * IN))
    assert list(tree_faults(tree, 0.25 * IN))


def test_the_answer_does_not_depend_on_the_hash_seed() -> None:
    code = "from tests.planning.layout.rooms import real_room; from generator.planning.layout import choose_layout;"
    code += "print(choose_layout(real_room(2)))"
    answers = {
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    }
    assert len(answers) == 1
    assert b"LayoutResult" in answers.pop()[:20]
