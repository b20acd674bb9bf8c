"""What the schema of the room file says of a key: its place among its neighbours, and its meaning."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from generator.reading.schema import room_schema


@cache
def _root() -> Mapping[str, Any]:
    return room_schema()


def in_order(data: dict[str, Any]) -> dict[str, Any]:
    """The same data with its keys in the order of the schema, at every level."""
    ordered: dict[str, Any] = _ordered(data, _root())
    return ordered


def meaning(path: str) -> str:
    """What the key at this path means, "" where the schema does not say."""
    schema, text = _root(), ""
    for part in path.split("."):
        found = schema.get("items", {}) if part.isdecimal() else schema.get("properties", {}).get(part, {})
        text = "" if part.isdecimal() else str(found.get("description", ""))
        schema = _resolved(found)
    return text


def _ordered(data: Any, schema: Mapping[str, Any]) -> Any:
    if isinstance(data, list):
        return [_ordered(item, _resolved(schema.get("items", {}))) for item in data]
    if not isinstance(data, dict):
        return data
    properties = schema.get("properties", {})
    keys = [*(key for key in properties if key in data), *(key for key in data if key not in properties)]
    return {key: _ordered(data[key], _resolved(properties.get(key, {}))) for key in keys}


def _resolved(schema: Mapping[str, Any]) -> Mapping[str, Any]:
    """The schema that a reference or a choice with null points to."""
    if "$ref" in schema:
        return _resolved(_root()["$defs"][schema["$ref"].rpartition("/")[2]])
    for part in schema.get("anyOf", ()):
        if part.get("type") != "null":
            return _resolved(part)
    return schema
