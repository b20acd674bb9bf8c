"""Generated rooms whose walls are as they are in old houses: sloped, leaning, furred, of brick, of odd studs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.properties.kinds import KINDS, kind_text
from tests.properties.light import lightly
from tests.properties.pipeline import try_room
from tests.properties.sweep import sweep

WALLS = ("chase", "sloped", "leaning", "cornered", "gaps", "masonry", "odd-studs", "tall-or-short")


@pytest.mark.parametrize("kind", WALLS)
def test_walls_of_this_kind(kind: str, tmp_path: Path) -> None:
    sweep(kind, (1,) if kind == "cornered" else (2,), tmp_path)


def test_a_corner_too_narrow_for_a_washer_is_planned_with_a_stud_that_takes_the_screws(tmp_path: Path) -> None:
    """45 degrees: boards of 12.5 mm on both walls end 12.5 (1 + cos 45) / sin 45 = 30.2 mm from the corner, on a 38 mm
    stud: no washer of 32 mm finds room beside them."""
    with lightly():
        outcome = try_room(0, tmp_path, "cornered")
    assert outcome.refused == "" and outcome.wrong == []


def test_a_kind_and_a_seed_are_a_room() -> None:
    texts = [kind_text(kind, 7) for kind in KINDS]
    assert texts == [kind_text(kind, 7) for kind in KINDS]
    assert len(set(texts)) == len(texts)
