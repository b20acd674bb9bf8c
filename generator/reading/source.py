"""From bytes to plain data: YAML without its traps, and the line of every key.

Every scalar stays the text that the person wrote, so that `010`, `1_000`, `.nan` and dates reach the field
that was to hold them, and the field refuses them in its own words. Anchors, aliases, tags, directives and
several documents have no use in a room file and are refused, as are files and nestings of absurd size.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from generator.errors import InputError, Problem
from generator.reading.issues import Issue, join

LARGEST = 256 * 1024
"""Bytes. A room with a hundred studs needs 10 kB; beyond this the parser takes many seconds."""
DEEPEST = 20
"""Levels of nesting. A room file uses six."""
_NOTHING = frozenset(("", "~", "null"))


@dataclass(frozen=True, slots=True)
class Document:
    """What a file says: texts, lists, mappings and None; lines by path, 1-based; what was wrong on the way."""

    file: str
    raw: bytes
    data: Any
    lines: dict[str, int]
    issues: tuple[Issue, ...]


class _RefusedError(Exception):
    """Reading ends here: nothing after this line can be understood."""

    def __init__(self, line: int, message: str) -> None:
        super().__init__(message)
        self.line = line


@dataclass(slots=True)
class _Tree:
    """The tree while it grows out of the parser's events."""

    events: Iterator[Event]
    lines: dict[str, int] = field(default_factory=dict)
    issues: list[Issue] = field(default_factory=list)

    def next(self) -> Event:
        event = next(self.events)
        _refuse_traps(event)
        return event

    def value(self, event: Event, path: str, depth: int) -> Any:
        """The value that begins with this event."""
        if depth > DEEPEST:
            raise _RefusedError(_line(event), f"nested more than {DEEPEST} levels deep; a room file needs six")
        if isinstance(event, MappingStartEvent):
            return self._mapping(path, depth)
        if isinstance(event, SequenceStartEvent):
            return self._sequence(path, depth)
        return _scalar(event)

    def _sequence(self, path: str, depth: int) -> list[Any]:
        values: list[Any] = []
        while not isinstance(event := self.next(), SequenceEndEvent):
            here = join(path, len(values))
            self.lines[here] = _line(event)
            values.append(self.value(event, here, depth + 1))
        return values

    def _mapping(self, path: str, depth: int) -> dict[str, Any]:
        values: dict[str, Any] = {}
        while not isinstance(event := self.next(), MappingEndEvent):
            key = self._key(event, depth)
            here = join(path, key)
            if key in values:
                self._repeated(path, key, _line(event), depth)
                continue
            self.lines[here] = _line(event)
            values[key] = self.value(self.next(), here, depth + 1)
        return values

    def _key(self, event: Event, depth: int) -> str:
        if not isinstance(event, ScalarEvent):
            self.value(event, "?", depth + 1)
            raise _RefusedError(_line(event), "a key must be a word, not a list or a mapping")
        return str(event.value)

    def _repeated(self, path: str, key: str, line: int, depth: int) -> None:
        """A key for the second time: reported at its own line, its value is read and dropped."""
        first = self.lines[join(path, key)]
        here = join(path, f"{key} again on line {line}")
        self.lines[here] = line
        self.value(self.next(), here, depth + 1)
        self.issues.append(Issue(here, f"`{key}` is given twice, first on line {first}; keep one"))


def _line(event: Event) -> int:
    return int(event.start_mark.line) + 1


def _scalar(event: Any) -> str | None:
    """The text as written; None for a plain empty, `~` or `null`."""
    text, plain = str(event.value), not event.style
    return None if plain and text in _NOTHING else text


def _refuse_traps(event: Event) -> None:
    line = _line(event)
    if isinstance(event, AliasEvent):
        raise _RefusedError(
            line, "a YAML alias (*name); write the value out, or put a text that begins with * in quotes"
        )
    if getattr(event, "anchor", None) is not None:
        raise _RefusedError(
            line, "a YAML anchor (&name); write the value out, or put a text that begins with & in quotes"
        )
    if getattr(event, "tag", None) is not None:
        raise _RefusedError(line, "a YAML tag (!name); leave it out, or put a text that begins with ! in quotes")
    if isinstance(event, DocumentStartEvent) and (event.version or event.tags):
        raise _RefusedError(line, "a YAML directive (%...); leave it out")


def read_document(path: Path, shown: str | None = None) -> Document:
    """The file as plain data with lines. Raises InputError when it cannot be understood at all."""
    file = shown or path.name
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise InputError((Problem(file, 0, f"cannot be read: {error.strerror or error}"),)) from None
    return parse_document(raw, file)


def parse_document(raw: bytes, file: str) -> Document:
    """As `read_document`, from the bytes of a file."""
    try:
        return _parse(raw, _text(raw), file)
    except _RefusedError as error:
        raise InputError((Problem(file, error.line, str(error)),)) from None


def _text(raw: bytes) -> str:
    if len(raw) > LARGEST:
        raise _RefusedError(0, f"larger than {LARGEST // 1024} kB; this is not a room or profile file")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _RefusedError(raw[: error.start].count(b"\n") + 1, "not UTF-8 text; save the file as UTF-8") from None
    for number, line in enumerate(text.split("\n"), 1):
        if "\0" in line:
            raise _RefusedError(number, "a NUL character; this is not a text file, or not saved as UTF-8")
        if line.lstrip(" ").startswith("\t") and line.strip():
            raise _RefusedError(number, "a tab in the indentation; indent with spaces")
    return text


def _parse(raw: bytes, text: str, file: str) -> Document:
    try:
        tree = _Tree(iter(YAML(typ="rt", pure=True).parse(text)))
        data = _root(tree)
    except YAMLError as error:
        raise _RefusedError(*_syntax(error)) from None
    return Document(file, raw, data, tree.lines, tuple(tree.issues))


def _root(tree: _Tree) -> Any:
    """The one document of the stream."""
    data: Any = None
    documents = 0
    for event in iter(tree.next, None):
        if isinstance(event, StreamEndEvent):
            return data
        if isinstance(event, DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise _RefusedError(_line(event), "a second document begins here (---); a file holds one")
            data = tree.value(tree.next(), "", 0)
    return data


def _syntax(error: Exception) -> tuple[int, str]:
    """Line and sentence of a YAML syntax error."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    text = " ".join(str(getattr(error, "problem", None) or error).split())
    line = int(mark.line) + 1 if mark is not None else 0
    return line, f"not valid YAML: {text}; look at this line and the one before it (colons, quotes, indentation)"
