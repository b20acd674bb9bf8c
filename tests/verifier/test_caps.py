"""A cap and the wall that it runs up to: the fold between them, and the corner where three faces meet, made wrong."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.verifier import folded, walls
from tests.verifier.mutate_built import cap_without_a_fold
from tests.verifier.plain import Record
from tests.verifier.plans import example
from tests.verifier.run import Check


def band_left_out(plan: Record) -> None:
    plan["bands"] = [b for b in plan["bands"] if b["id"] != "T-back-half-cap-corner-001"]


def corner_band_ends_with_its_boards(plan: Record) -> None:
    """The band in the corner under the cap stops at the boards' upper edge, a board below the finished cap."""
    band = next(b for b in plan["bands"] if b["id"] == "T-back-half-corner-001")
    ring = next(r["ring"] for r in band["rings"] if r["wall"] == "back")
    top = max(v for b in plan["boards"] if b["wall"] == "half" for _, v in b["outline"])
    for point in ring:
        point[1] = min(point[1], top)


def cap_stands_out(plan: Record) -> None:
    """By 1 mm more than the finished face of the outside."""
    cap = next(w for w in plan["walls"] if w["id"] == "half-cap")
    left = min(u for u, _ in cap["extent"])
    for point in cap["extent"]:
        point[0] -= 1.0 if point[0] == left else 0.0


@pytest.mark.parametrize("room", ["walk-in", "raked-half-wall"])
@pytest.mark.parametrize(
    ("code", "change", "check"),
    [
        ("cap-fold", cap_without_a_fold, folded.check_caps),
        ("band-cover", band_left_out, folded.check_folds_banded),
        ("band-cover", corner_band_ends_with_its_boards, folded.check_caps),
        ("lap", cap_stands_out, walls.check_laps),
    ],
)
def test_a_cap_that_is_not_closed_to_its_wall_is_named(
    room: str, code: str, change: Callable[[Record], None], check: Check
) -> None:
    plan = example(room)
    assert not list(check(plan))
    change(plan)
    assert code in {violation.code for violation in check(plan)}
