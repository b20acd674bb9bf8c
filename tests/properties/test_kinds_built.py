"""Generated rooms with what is built in them: benches, curbs, partitions, soffits, neo-angle bases, decks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.properties.sweep import sweep

BUILT = (
    "bench",
    "bench-and-curb",
    "corner-seat",
    "five-sided-seat",
    "curb",
    "partition",
    "half-wall",
    "raked-half-wall",
    "walk-in",
    "neo-angle",
    "tub-deck",
    "soffit",
    "soffit-on-two",
    "soffit-on-one",
)


@pytest.mark.parametrize("kind", BUILT)
def test_what_is_built_of_this_kind(kind: str, tmp_path: Path) -> None:
    sweep(kind, (2,), tmp_path)
