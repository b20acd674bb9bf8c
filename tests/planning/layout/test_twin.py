"""The optimiser against its brute-force twin: the same objective, level by level, on small rooms."""

from __future__ import annotations

import pytest

from generator.errors import CannotPlanError
from generator.planning.layout import choose_layout
from generator.planning.layout.choose import EVERY_LEVEL
from tests.planning.layout import twin
from tests.planning.layout.judge import faults
from tests.planning.layout.rooms import small_task

SEEDS = range(60)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_layout_beats_the_chosen_one(seed: int) -> None:
    task = small_task(seed)
    expected = twin.best(task)
    if expected is None:
        with pytest.raises(CannotPlanError, match="would help"):
            choose_layout(task)
        return
    result = choose_layout(task)
    told = result.objective
    reached = (told.first, told.sheets, told.supports, told.seam_length, told.pieces, told.rips)
    assert faults(task, result) == []
    assert reached == pytest.approx(expected, abs=1e-3)
    assert result.proof.proven and result.proof.scope.endswith(EVERY_LEVEL)
    assert result.proof.bound <= told.first + 1e-6


def test_the_small_rooms_are_not_all_refused() -> None:
    outcomes = [twin.best(small_task(seed)) is None for seed in SEEDS]
    assert outcomes.count(False) > len(SEEDS) / 2
