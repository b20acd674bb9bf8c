"""Furring made wrong, in a recess furred clear of the flange: each wrong thing is named."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest

from tests.planning.test_flange_gaps import FURRED
from tests.reading.test_gaps import recess
from tests.verifier.changing import Mutation, first, shift
from tests.verifier.furring import check_furring
from tests.verifier.plain import Record
from tests.verifier.plans import plan_bytes


@cache
def _bytes(path: Path) -> bytes:
    path.write_text(recess(FURRED), "utf-8")
    return plan_bytes(path)


@pytest.fixture
def plan(tmp_path_factory: pytest.TempPathFactory) -> Record:
    made: Record = json.loads(_bytes(tmp_path_factory.getbasetemp() / "furred.yaml"))
    return made


def too_thin(plan: Record) -> None:
    plan["furring"][0]["thickness"] -= 1.0


def beside_its_stud(plan: Record) -> None:
    shift(plan["furring"][0]["ring"], 10.0, 0.0)


def on_each_other(plan: Record) -> None:
    plan["furring"][1].update(wall=plan["furring"][0]["wall"], ring=plan["furring"][0]["ring"])


def not_bought(plan: Record) -> None:
    first(plan["takeoff"], lambda row: row["kind"] == "furring")["quantity"] -= 1


def down_to_the_deck(plan: Record) -> None:
    """A strip over the base, on a wall where the flange stands behind the strips' faces."""
    side = first(plan["base"]["sides"], lambda s: s["gap"] < 0)
    strip = first(
        plan["furring"], lambda f: f["wall"] == side["wall"] and side["from"] < f["ring"][0][0] < side["to"] - 50.0
    )
    low = strip["ring"][0][1]
    strip["ring"] = [[u, side["deck"][0][1] if v == low else v] for u, v in strip["ring"]]


def gone(plan: Record) -> None:
    plan["furring"].pop(2)


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("furring-plane", too_thin),
    ("furring-place", beside_its_stud),
    ("furring-overlap", on_each_other),
    ("furring-count", not_bought),
    ("furring-flange", down_to_the_deck),
    ("furring-screw", gone),
)


def test_the_room_as_planned_breaks_nothing(plan: Record) -> None:
    assert plan["furring"]
    assert list(check_furring(plan)) == []


@pytest.mark.parametrize(("code", "change"), MUTATIONS)
def test_each_wrong_strip_is_named(plan: Record, code: str, change: Mutation) -> None:
    change(plan)
    assert code in {violation.code for violation in check_furring(plan)}
