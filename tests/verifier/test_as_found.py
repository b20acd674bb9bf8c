"""The verifier reads studs that lean and walls of masonry, and names what is wrong with them."""

from __future__ import annotations

import pytest

from tests.verifier import edges, found, framing, screws, walls
from tests.verifier.plain import Record, by_id
from tests.verifier.plans import example

CHECKS = (walls.check_supports, edges.check_bearing, edges.check_centres, framing.check_spacing, screws.check_each)


def _codes(plan: Record) -> set[str]:
    return {violation.code for check in (*CHECKS, found.check_collisions) for violation in check(plan)}


def _stud(plan: Record, words: str) -> Record:
    return next(s for s in by_id(plan, "supports").values() if s["wall"] == "left" and words in s["reason"])


def _lean(support: Record, aside: float, *, axis: bool = True) -> None:
    """Its upper end moved aside."""
    top = max(v for _, v in support["outline"])
    support["outline"] = [[u + aside * (v == top), v] for u, v in support["outline"]]
    if axis:
        support["axis"] = [[u + aside * (v == top), v] for u, v in support["axis"]]


def test_the_room_as_planned_breaks_nothing() -> None:
    assert _codes(example("brick-and-frame")) == set()


@pytest.mark.parametrize(("words", "aside", "code"), [
    ("doubled", 20.0, "bearing"),
    ("doubled", 20.0, "seam-on-axis"),
    ("crooked", 60.0, "screw-place"),
    ("crooked", 60.0, "support-spacing"),
])  # fmt: skip
def test_a_stud_that_leans_more_is_noticed_at_its_upper_end(words: str, aside: float, code: str) -> None:
    plan = example("brick-and-frame")
    _lean(_stud(plan, words), -aside if words == "crooked" else aside)
    assert code in _codes(plan)


def test_an_axis_that_does_not_follow_its_stud_is_noticed() -> None:
    plan = example("brick-and-frame")
    _lean(_stud(plan, "crooked"), 5.0, axis=False)
    assert "support-axis" in _codes(plan)


def test_a_short_plug_is_noticed() -> None:
    plan = example("brick-and-frame")
    for screw in plan["fasteners"]:
        screw["length"] = 45.0 if screw["wall"] == "back" else screw["length"]
    assert "plug-depth" in _codes(plan)
