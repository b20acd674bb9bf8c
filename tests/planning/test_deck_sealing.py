"""Bands where a deck at a tub's head stands before the wall, level with the tub or higher."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.checks import run_plan_checks
from generator.planning.pipeline import make_plan
from generator.reading import read_room
from tests.example_rooms import ROOMS


@pytest.mark.parametrize("height", ["18", "18 1/2", "19 1/2", "20 1/2", "23"])
def test_the_band_beside_the_tub_laps_the_one_over_the_deck_or_ends_below_it(height: str, tmp_path: Path) -> None:
    """The band on the leg beside the tub's end runs up behind the deck; the one in the fold goes on over its end."""
    text = (ROOMS / "tub-deck.yaml").read_text("utf-8")
    file = tmp_path / "room.yaml"
    file.write_text(text.replace("depth: 30, height: 18}", f"depth: 30, height: {height}}}"), "utf-8")
    room = read_room(file)
    findings = [f for f in run_plan_checks(room, make_plan(room)) if f.rule == "band-lap"]
    assert findings
    assert [f.subject for f in findings if f.verdict != "pass"] == []
