"""What is built in the room, made wrong: lumber beside a sloping face, no screws in a seat, a band cut short."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.verifier import folded, screws, walls
from tests.verifier.plain import Record
from tests.verifier.plans import example
from tests.verifier.run import Check


def _seen(plan: Record) -> Record:
    """The upper side of a knee stud, as the seat sees it."""
    return next(s for s in plan["supports"] if s["wall"] == "seat-seat" and s["same_as"])


def beside_its_stud(plan: Record) -> None:
    seen = _seen(plan)
    for points in (seen["outline"], seen["axis"]):
        for point in points:
            point[0] += 60.0


def of_another_height(plan: Record) -> None:
    stud = next(s for s in plan["supports"] if s["id"] == _seen(plan)["same_as"])
    stud["outline"] = [[u, min(v, 100.0)] for u, v in stud["outline"]]


def without_its_screws(plan: Record) -> None:
    plan["fasteners"] = [f for f in plan["fasteners"] if f["wall"] != "seat-seat"]


def band_that_ends_early(plan: Record) -> None:
    """Beside the seat's front, where no other band lies: at the curb its wide ones cover what this one leaves bare."""
    band = next(b for b in plan["bands"] if b["id"] == "T-right-seat-front-corner-001")
    ring = next(r for r in band["rings"] if r["wall"] == "right")
    top = max(v for _, v in ring["ring"])
    ring["ring"] = [[u, v - 150.0 if v == top else v] for u, v in ring["ring"]]


@pytest.mark.parametrize(
    ("code", "change", "check"),
    [
        ("same-as", beside_its_stud, walls.check_lent),
        ("same-as", of_another_height, walls.check_lent),
        ("screw-spacing", without_its_screws, screws.check_rows),
        ("band-cover", band_that_ends_early, folded.check_folds_banded),
    ],
)
def test_what_is_built_and_wrong_is_named(code: str, change: Callable[[Record], None], check: Check) -> None:
    plan = example("seat-and-curb")
    change(plan)
    assert code in {violation.code for violation in check(plan)}


def test_nothing_holds_the_top_of_a_curb_but_its_bed() -> None:
    """Its top and inside need no screws, its outside does."""
    plan = example("seat-and-curb")
    assert {f["wall"] for f in plan["fasteners"] if f["wall"].startswith("curb")} == {"curb-outside"}
    plan["fasteners"] = [f for f in plan["fasteners"] if f["wall"] != "curb-outside"]
    assert "curb-outside" in " ".join(v.message for v in screws.check_rows(plan) if v.code == "screw-spacing")
