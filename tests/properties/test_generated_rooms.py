"""Two hundred rooms that nobody measured are planned, and verified from their plan.json alone.

A room may be refused if it says why. Whatever else the verifier finds wrong must stand among the plan's own findings.
The first rooms get the whole search for layouts and sheets, the others a light choice: their geometry is what is tried.
"""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

import pytest

from generator.errors import CannotPlanError, InputError
from tests.properties.light import lightly
from tests.properties.pipeline import try_room
from tests.properties.rooms import room_text
from tests.verifier.plans import plan_bytes

ROOMS, CHUNK, WHOLE = 200, 20, 20
MOST_REFUSED = CHUNK // 4


@pytest.mark.parametrize("start", range(0, ROOMS, CHUNK))
def test_rooms_are_planned_and_verified(start: int, tmp_path: Path) -> None:
    with lightly() if start >= WHOLE else nullcontext():
        outcomes = [try_room(seed, tmp_path) for seed in range(start, start + CHUNK)]
    wrong = [f"room {o.seed}: {v.code}: {v.message}" for o in outcomes for v in o.violations]
    assert not wrong, "\n".join(wrong)
    refused = [o for o in outcomes if not o.verdict]
    assert all(len(o.refused) > len("input: ") for o in refused), "a refusal must say why"
    assert len(refused) <= MOST_REFUSED, "\n".join(f"room {o.seed}: {o.refused}" for o in refused)


def test_a_seed_is_a_room() -> None:
    assert room_text(7) == room_text(7) != room_text(8)


def test_rooms_are_of_all_kinds() -> None:
    texts = [room_text(seed) for seed in range(ROOMS)]
    for word in ("kind: tub", "shower_base", "tray-boards-first", "tray-tray-first", "kind: none", "steel-", "wood-"):
        assert sum(word in text for text in texts) >= 20, word
    for word in (
        "units: in",
        "units: mm",
        "angle: 135",
        "beside: free",
        "plates:",
        "blocking:",
        "kind: valve",
        "reach: [",
    ):
        assert sum(word in text for text in texts) >= 5, word
    assert {text.count("- name: w") for text in texts} == {1, 2, 3, 4, 5, 6}


@pytest.mark.parametrize("seed", [11])
def test_same_room_same_bytes(seed: int, tmp_path: Path) -> None:
    file = tmp_path / "room.yaml"
    file.write_text(room_text(seed), "utf-8")
    try:
        assert plan_bytes(file) == plan_bytes(file)
    except (CannotPlanError, InputError) as error:
        pytest.fail(f"room {seed} is refused ({error}): take another seed")
