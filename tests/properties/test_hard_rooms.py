"""Generated rooms that were once planned wrong: what the sweep of `tests/bench/bench_rooms.py` found stays mended."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.properties.light import lightly
from tests.properties.pipeline import try_room

ROOMS = (
    ("brick-and-seat", 0, "bands on a seat that lapped short of the rule"),
    ("corner-seat", 0, "the same, where they meet aslant"),
    ("furred-niche", 0, "a nip beside a corner taken for a step of the ceiling"),
    ("leaning", 6, "a corner of a band lost where two points all but touched"),
    ("leaning-gaps", 45, "a crash: a sliver of board behind the base of a wall that leans out"),
    ("leaning-gaps", 303, "refused for a corner with no place for its screws"),
    ("odd-niche", 2, "a shim on the side of a stud that a niche sees"),
    ("odd-niche", 5, "a screw at the end of a board on the stub of a cut stud"),
    ("window-and-mounts", 0, "bands on a window's returns, narrower than a lap"),
)


@pytest.mark.parametrize(("kind", "seed"), [room[:2] for room in ROOMS], ids=[f"{k}-{s}" for k, s, _ in ROOMS])
def test_it_is_planned_and_the_verifier_agrees(kind: str, seed: int, tmp_path: Path) -> None:
    with lightly():
        outcome = try_room(seed, tmp_path, kind)
    assert outcome.refused == ""
    assert outcome.wrong == []
