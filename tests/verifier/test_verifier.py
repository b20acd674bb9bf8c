"""The verifier accepts what the tool makes of the example rooms, and names each thing that is then made wrong."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.example_rooms import NAMES
from tests.verifier import (
    mutate_built,
    mutate_flatness,
    mutate_lists,
    mutate_lumber,
    mutate_parts,
    mutate_room,
    mutate_slopes,
    test_furring,
    test_seats,
    test_soffits,
)
from tests.verifier.changing import Mutation
from tests.verifier.plans import example
from tests.verifier.run import unexplained, verify

HERE = Path(__file__).parent
VERIFIER = (
    "bands",
    "base",
    "doubled",
    "edges",
    "flatness",
    "folded",
    "form",
    "found",
    "framing",
    "furring",
    "lists",
    "lumber",
    "openings",
    "plain",
    "run",
    "screws",
    "seats",
    "sheets",
    "soffits",
    "walls",
)
MUTATIONS = (*mutate_room.MUTATIONS, *mutate_parts.MUTATIONS, *mutate_lists.MUTATIONS, *mutate_lumber.MUTATIONS)


def test_verifier_imports_nothing_of_the_tool() -> None:
    names: set[str] = set()
    for module in VERIFIER:
        for node in ast.walk(ast.parse((HERE / f"{module}.py").read_text("utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom):
                names.add(node.module or "")
    ours = {n for n in names if n.startswith(("generator", "tests"))}
    assert ours <= {"tests.verifier", *(f"tests.verifier.{m}" for m in VERIFIER)}


@pytest.mark.parametrize("name", NAMES)
def test_example_rooms_verify(name: str) -> None:
    assert unexplained(example(name)) == []


@pytest.mark.parametrize("name", ["recess", "recess-600-cured"])
def test_passing_rooms_break_no_rule(name: str) -> None:
    assert list(verify(example(name))) == []


BROKEN = [
    (room, code, mutation)
    for room, mutations in (
        ("recess", MUTATIONS),
        ("crooked-studs", mutate_flatness.MUTATIONS),
        ("walk-in", mutate_built.MUTATIONS),
    )
    for code, mutation in mutations
]


@pytest.mark.parametrize(("room", "code", "mutation"), BROKEN, ids=lambda value: getattr(value, "__name__", value))
def test_each_wrong_thing_is_named(room: str, code: str, mutation: Mutation) -> None:
    plan = example(room)
    mutation(plan)
    assert any(violation.code == code for violation in verify(plan))


def test_every_rule_of_the_verifier_has_a_mutation() -> None:
    written = set()
    for module in VERIFIER:
        text = (HERE / f"{module}.py").read_text("utf-8")
        written |= set(re.findall(r'(?:Violation|broken)\(\s*"([a-z-]+)"', text))
    mutated = (*MUTATIONS, *mutate_flatness.MUTATIONS, *mutate_built.MUTATIONS, *test_furring.MUTATIONS)
    of_one_room = (*test_seats.MUTATIONS, *test_soffits.MUTATIONS)
    assert written - {code for code, _ in mutated} - {code for code, *_ in of_one_room} == set()


@pytest.mark.parametrize(
    ("code", "mutation"), mutate_slopes.MUTATIONS, ids=lambda value: getattr(value, "__name__", value)
)
def test_each_wrong_thing_along_a_sloping_deck_is_named(code: str, mutation: Mutation) -> None:
    plan = example("recess-out-of-square")
    mutation(plan)
    assert any(violation.code == code for violation in verify(plan))
