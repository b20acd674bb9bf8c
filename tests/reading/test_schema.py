"""The JSON Schema of the room file, held against another YAML reader and another validator."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from generator.reading import room_schema
from tests.reading.rooms import EXAMPLES, SMALL, changed

VALIDATOR = Draft202012Validator(room_schema())


def plain(text: str) -> Any:
    """The file as an editor sees it: numbers as numbers, dates as their text."""
    loader = YAML(typ="safe", pure=True)
    loader.constructor.yaml_constructors.pop("tag:yaml.org,2002:timestamp", None)
    loader.constructor.add_constructor("tag:yaml.org,2002:timestamp", lambda _, node: node.value)
    return loader.load(text)


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(room_schema())


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_examples_validate(path: Path) -> None:
    assert list(VALIDATOR.iter_errors(plain(path.read_text("utf-8")))) == []


@pytest.mark.parametrize(
    "change",
    [
        ("name: small", "nam: small"),
        ("units: in", "units: feet"),
        ("    width: 40\n", ""),
        ("kind: tub", "kind: bath"),
        ("reach: 34", "reach: [1, 2, 3]"),
        ("from: right\n", "from: middle\n"),
        ("wall: left, kind: valve", "wal: left, kind: valve"),
        ("- name: left", "- name: left wall"),
    ],
)
def test_it_refuses_what_the_reader_refuses(change: tuple[str, str]) -> None:
    assert list(VALIDATOR.iter_errors(plain(changed(change))))


def test_keys_are_explained() -> None:
    """An editor shows what a key means: most keys of walls, base and fittings carry a description."""
    definitions: Any = room_schema()["$defs"]
    for name in ("WallShape", "BaseShape", "FittingShape"):
        described = [("description" in field) for field in definitions[name]["properties"].values()]
        assert sum(described) >= 0.8 * len(described)
    assert "from" in definitions["FittingShape"]["properties"]
    assert SMALL
