"""Generated rooms with niches, windows and mounts: in a bay, across studs, in stacks, in walls that lean."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.properties.sweep import sweep

OPENINGS = (
    "niche",
    "wide-niche",
    "niches",
    "window",
    "mounts",
    "attic-niche",
    "leaning-niche",
    "furred-niche",
    "odd-niche",
)


@pytest.mark.parametrize("kind", OPENINGS)
def test_openings_of_this_kind(kind: str, tmp_path: Path) -> None:
    sweep(kind, (1,) if kind in ("leaning-niche", "odd-niche") else (2,), tmp_path)
