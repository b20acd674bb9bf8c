"""The section of a shop drawing: the board's edge as it is cut, whatever else of the board hangs lower."""

from __future__ import annotations

import pytest

from generator.drafting.ink import Text
from generator.drawings.section import section_view
from tests.example_rooms import job


@pytest.mark.parametrize("room", ["single-wall", "recess"])
def test_it_shows_the_board_itself(room: str) -> None:
    """Boards of a single wall stand over a thick flange and go down beside it: the cut is over the flange."""
    made = job(room)
    for board in made.plan.boards:
        view = section_view(made, board, made.sections[board.id], (0.0, 0.0, 200.0, 150.0))
        assert board.id in {mark.text for mark in view.marks if isinstance(mark, Text)}


def test_the_gap_is_that_over_the_flange_beside_a_leg_too() -> None:
    """Boards stand 3 mm of sealant over a thick flange, whatever their leg beside it does."""
    made = job("single-wall")
    for board in (made.plan.board("B-back-1"), made.plan.board("B-back-3")):
        view = section_view(made, board, made.sections[board.id], (0.0, 0.0, 200.0, 150.0))
        assert "gap 3" in {mark.text for mark in view.marks if isinstance(mark, Text)}
