"""A small good room file, and ways to change it, for tests of reading."""

from __future__ import annotations

from pathlib import Path

from generator.errors import InputError
from generator.model.room import Room
from generator.reading.catalogue import load_catalogue
from generator.reading.room import room_of
from generator.reading.source import parse_document

EXAMPLES = Path(__file__).parent.parent.parent / "profiles" / "rooms"
GOOD = (EXAMPLES / "recess.yaml").read_text("utf-8")
SMALL = """\
name: small
units: in
place: {code: none}
base: {kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16}
walls:
  - name: left
    width: 40
    height: 96
    boards: {reach: 34}
    supports:
      from: right
      studs:
        - {profile: wood-2x4, centres: [3/4, 15, 34]}
  - name: back
    width: 60
    height: 96
    supports:
      studs:
        - {profile: wood-2x4, centres: [3/4, 15, 30, 45, 59 1/4]}
fittings:
  - {name: valve, wall: left, kind: valve, profile: trim-5-round, across: 22, from: right, up: 30}
  - {name: spout, wall: left, kind: spout, profile: copper-1-2, across: 22, from: right, up: 22}
"""


def read(text: str | bytes) -> Room:
    raw = text if isinstance(text, bytes) else text.encode()
    return room_of(parse_document(raw, "room.yaml"), load_catalogue())


def changed(*changes: tuple[str, str], text: str = SMALL) -> str:
    """The text with each first part replaced, once, by the second; the first part must be there."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def complaints(text: str | bytes) -> list[tuple[int, str]]:
    """Line and message of every problem; empty when the room can be read."""
    try:
        read(text)
    except InputError as error:
        assert list(error.problems) == sorted(error.problems)
        return [(problem.line, problem.message) for problem in error.problems]
    return []
