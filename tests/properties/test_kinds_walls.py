"""Generated rooms whose walls are as they are in old houses: sloped, leaning, furred, of brick, of odd studs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.properties.kinds import KINDS, kind_text
from tests.properties.pipeline import try_room
from tests.properties.sweep import sweep

WALLS = ("chase", "sloped", "leaning", "cornered", "gaps", "masonry", "odd-studs", "tall-or-short")


@pytest.mark.parametrize("kind", WALLS)
def test_walls_of_this_kind(kind: str, tmp_path: Path) -> None:
    sweep(kind, (1,) if kind == "cornered" else (2,), tmp_path)


def test_a_corner_too_narrow_for_a_washer_is_refused_with_what_would_do(tmp_path: Path) -> None:
    """45 degrees: boards of 12.5 mm on both walls end 12.5 (1 + cos 45) / sin 45 = 30.2 mm from the corner, on a 38 mm
    stud: no washer of 32 mm finds room beside them."""
    outcome = try_room(0, tmp_path, "cornered")
    assert outcome.refused.startswith("plan: no washer") and "a wider upright" in outcome.refused


def test_a_kind_and_a_seed_are_a_room() -> None:
    texts = [kind_text(kind, 7) for kind in KINDS]
    assert texts == [kind_text(kind, 7) for kind in KINDS]
    assert len(set(texts)) == len(texts)
