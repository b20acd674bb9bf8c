"""The JSON Schema of the room file, for editors that complete and check while a person types."""

from __future__ import annotations

from typing import Any

from generator.reading.room_shapes import RoomShape


def room_schema() -> dict[str, object]:
    """JSON Schema (draft 2020-12) of a room file. What it accepts may still be wrong: see `read_room`."""
    schema: dict[str, Any] = RoomShape.model_json_schema(by_alias=True, mode="validation")
    described = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "boardwright room file"}
    return {**schema, **described}
