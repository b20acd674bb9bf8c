"""Generated rooms whose inner walls lean at an end and slope at the top are planned, or refused with the reason.

The rooms are those of `rooms.py`; every wall with a corner at its left end gets a lean there, every other one a slope.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from random import Random

import pytest

from generator.errors import CannotPlanError, InputError
from tests.properties.light import lightly
from tests.properties.rooms import room_text
from tests.verifier.plans import plan_bytes
from tests.verifier.run import unexplained

SEEDS = (10, 23, 31, 35, 46)
STEP = {"in": 1 / 16, "mm": 1.0}


def skewed_text(seed: int) -> str:
    """The room of a seed with leans of up to 3/8 in and slopes of up to 1 in 4; without top plates."""
    rng, text = Random(seed), room_text(seed)
    unit = "mm" if "units: mm" in text else "in"
    for index, (width, height) in enumerate(re.findall(r"    width: (.+)\n    height: (.+)\n", text)):
        kept = f"    width: {width}\n    height: {height}\n"
        lean = rng.choice((-4, 4, 6)) * STEP[unit] * (1.0 if unit == "in" else 1.5)
        sloped = (
            f"    width: {width}\n    heights: [{{at: 0, is: {height}}}, {{at: {width}, is: {_lower(height, rng)}}}]\n"
        )
        text = text.replace(
            kept, sloped if index % 2 else kept + (f'    plumb: {{left: "{lean}"}}\n' if index else ""), 1
        )
    return re.sub(r"(plates: \{profile: [^}]+)\}", r"\1, top: false}", text)


def _lower(height: str, rng: Random) -> str:
    whole = int(height.split()[0].split("/")[0])
    return str(whole - max(1, round(whole * rng.uniform(0.02, 0.12))))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_skewed_room_is_planned_and_verified(seed: int, tmp_path: Path) -> None:
    file = tmp_path / "room.yaml"
    file.write_text(skewed_text(seed), "utf-8")
    try:
        with lightly():
            plan = json.loads(plan_bytes(file))
    except (InputError, CannotPlanError) as error:
        assert str(error), "a refusal must say why"
        return
    assert not [f"{v.code}: {v.message}" for v in unexplained(plan)]
