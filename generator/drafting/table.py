"""Tables of writing: schedules, lists and notes, broken to the widths of their columns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drafting.ink import Align, Ink, Line, Text
from generator.drafting.page import wrap
from generator.model.geometry import Point

_PAD = 1.2
_PITCH = 1.6


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading and its width in mm."""

    heading: str
    width: float
    align: Align = "left"


@dataclass(frozen=True, slots=True)
class Table:
    """The ink of a table, the y of its lower end, and the rows that no longer fitted above `bottom`."""

    ink: tuple[Ink, ...]
    bottom: float
    left_over: tuple[tuple[str, ...], ...]


def table(
    columns: Sequence[Column], rows: Sequence[tuple[str, ...]], at: Point, bottom: float, height: float = 2.2
) -> Table:
    """A table whose upper left corner is `at`, filled down to `bottom`; continue with `left_over` on the next page."""
    headings = tuple(column.heading for column in columns)
    y = at[1] - _row_height(columns, headings, height, True)
    ink: list[Ink] = [*_row(columns, headings, at, height, True), _rule(columns, at[0], y)]
    for i, row in enumerate(rows):
        size = _row_height(columns, row, height)
        if y - size < bottom:
            return Table(tuple(ink), y, tuple(rows[i:]))
        ink.extend(_row(columns, row, (at[0], y), height))
        y -= size
        ink.append(Line((at[0], y), (at[0] + sum(c.width for c in columns), y), "light"))
    return Table(tuple(ink), y, ())


def _cells(columns: Sequence[Column], row: Sequence[str], height: float, bold: bool) -> list[tuple[str, ...]]:
    return [wrap(text, height, c.width - 2 * _PAD, bold) for c, text in zip(columns, row, strict=True)]


def _row_height(columns: Sequence[Column], row: Sequence[str], height: float, bold: bool = False) -> float:
    most = max(len(lines) for lines in _cells(columns, row, height, bold))
    return max(most, 1) * _PITCH * height + 1.6


def _rule(columns: Sequence[Column], left: float, y: float) -> Line:
    return Line((left, y), (left + sum(c.width for c in columns), y), "visible")


def _row(
    columns: Sequence[Column], row: Sequence[str], at: Point, height: float, bold: bool = False
) -> tuple[Text, ...]:
    texts: list[Text] = []
    left = at[0]
    for column, lines in zip(columns, _cells(columns, row, height, bold), strict=True):
        x = {"left": left + _PAD, "centre": left + column.width / 2, "right": left + column.width - _PAD}[column.align]
        for i, line in enumerate(lines):
            y = at[1] - 1.2 - height - i * _PITCH * height
            texts.append(Text((x, y), line, height, column.align, bold=bold))
        left += column.width
    return tuple(texts)
