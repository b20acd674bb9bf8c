"""The boxes of a measuring form: a cell for each question, cells of one topic in a row, rows down the page."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from math import ceil

from generator.asking.questions import NONE, Question
from generator.drafting.ink import Ink, Outline, Text
from generator.drafting.layers import Role
from generator.drafting.page import text_width
from generator.model.geometry import Point, rectangle
from generator.units import Units

COLUMNS = 24
_UNITS = {"text": 8}
_ROOMY, _TIGHT = 4, 3
"""Columns of a length; tight where a topic would not stand in one row otherwise. A word takes two more."""
_BOX, _NAME = 7.6, 4.0
"""mm: height of a box, and of the line of names above it."""
_MOST_BOXES = 10
"""Boxes of a row of lengths that takes the whole width."""
_TOPIC, _PLAIN, _BADGE, _HINT = 2.6, 2.3, 2.8, 2.1
_TICK, _TICK_ROW, _GAP = 3.6, 6.0, 3.0


@dataclass(frozen=True, slots=True)
class Row:
    """A strip of the page: its ink with the upper left corner at (0, 0), and its height in mm."""

    ink: tuple[Ink, ...]
    height: float


@dataclass(frozen=True, slots=True)
class _Group:
    """Questions of one topic, the columns that they take, and those of a length among them."""

    topic: str
    questions: tuple[Question, ...]
    columns: int
    length: int


def rows(questions: tuple[Question, ...], width: float, units: Units) -> tuple[Row, ...]:
    """All boxes of a section in rows of that width: as many topics side by side as fit."""
    column = width / COLUMNS
    lines: list[list[_Group]] = []
    for group in _groups(questions, column):
        free = COLUMNS - sum(one.columns for one in lines[-1]) if lines else 0
        tight = _group(group.topic, group.questions, column, _TIGHT)
        if min(group.columns, tight.columns) <= free:
            lines[-1].append(group if group.columns <= free else tight)
        else:
            lines.append([group])
    return tuple(_row(line, column, units) for line in lines)


def _groups(questions: tuple[Question, ...], column: float) -> list[_Group]:
    """Neighbours of one topic together; a topic that is wider than the page goes on in the next row."""
    found = []
    for topic, grouped in groupby(questions, key=lambda q: q.topic):
        parts: list[tuple[Question, ...]] = [()]
        for question in grouped:
            longer = (*parts[-1], question)
            if parts[-1] and _columns(longer, column, _TIGHT) > COLUMNS:
                parts.append((question,))
            else:
                parts[-1] = longer
        found += [_group(f"{topic} (more)" if i else topic, part, column, _ROOMY) for i, part in enumerate(parts)]
    return found


def _group(topic: str, questions: tuple[Question, ...], column: float, length: int) -> _Group:
    """Of lengths that take `length` columns, tight where they would not stand in one row otherwise."""
    length = length if _columns(questions, column, length) <= COLUMNS else _TIGHT
    wide = ceil((text_width(topic, _TOPIC, bold=True) + _GAP) / column)
    return _Group(topic, questions, min(COLUMNS, max(wide, _columns(questions, column, length))), length)


def _columns(questions: tuple[Question, ...], column: float, length: int) -> int:
    return sum(_own_columns(question, column, length) for question in questions)


def _own_columns(question: Question, column: float, length: int) -> int:
    if question.answer == "choice":
        return min(COLUMNS, ceil(_ticks_width(question) / column))
    if question.answer == "lengths":
        return COLUMNS * question.boxes // _MOST_BOXES
    return {"length": length, "word": length + 2, **_UNITS}[question.answer]


def _ticks_width(question: Question) -> float:
    badge = text_width(question.box, _BADGE, bold=True) + 2.0
    return badge + sum(_tick_width(text) for text in tick_texts(question))


def _tick_width(text: str) -> float:
    return _TICK + 1.5 + text_width(text, _PLAIN) + _GAP


def tick_texts(question: Question) -> tuple[str, ...]:
    """What stands beside the ticks of a choice."""
    return tuple(f"{word.id}: {word.name}" if word.name else word.id for word in question.words)


def _row(line: list[_Group], column: float, units: Units) -> Row:
    ink: list[Ink] = []
    height, left = 0.0, 0.0
    for group in line:
        ink.append(Text((left, -_TOPIC - 1.0), group.topic, _TOPIC, bold=True))
        x = left
        for question in group.questions:
            size = _own_columns(question, column, group.length) * column
            cell = _cell(question, (x, -_TOPIC - 2.6), size, units)
            ink += cell.ink
            height = max(height, cell.height + _TOPIC + 3.7)
            x += size
        left += group.columns * column
    return Row(tuple(ink), height)


def _cell(question: Question, at: Point, width: float, units: Units) -> Row:
    """One question; `at` is its upper left corner."""
    if question.answer == "choice":
        return _ticks(question, at, width)
    if question.answer == "lengths":
        return _boxes(question, at, width)
    x, y = at
    named = (
        *_badge(question, (x, y - 3.2)),
        _name(question, at),
    )
    frame = rectangle(x, y - _NAME - _BOX, x + width - _GAP, y - _NAME)
    hint = Text((x + width - _GAP - 1.0, y - _NAME - _BOX + 1.0), _hint(question, units), _HINT, "right", layer="light")
    return Row((*named, Outline(frame, _pen(question)), *((hint,) if hint.text else ())), _NAME + _BOX)


def _badge(question: Question, at: Point) -> tuple[Ink, ...]:
    return (Text(at, question.box, _BADGE, bold=True),)


def _name(question: Question, at: Point) -> Text:
    """What tells a question from the others of its topic, behind its box's name."""
    return Text((at[0] + text_width(question.box, _BADGE, bold=True) + 1.5, at[1] - 3.2), question.name, _PLAIN)


def _pen(question: Question) -> Role:
    """A heavy frame for what is needed."""
    return "light" if question.optional or question.needs or question.default else "outline"


def _hint(question: Question, units: Units) -> str:
    """What a blank box stands for, else the unit of a bare number."""
    if question.default and question.default != NONE:
        return f"blank: {question.default}"
    return units if question.answer == "length" else ""


def _boxes(question: Question, at: Point, width: float) -> Row:
    """A row of boxes for a list of lengths, numbered unless they have a name."""
    x, y = at
    size = (width - _GAP) / question.boxes
    ink: list[Ink] = list(_badge(question, (x, y - 3.2)))
    if question.name:
        ink.append(_name(question, at))
    for i in range(question.boxes):
        left = x + i * size
        ink.append(Outline(rectangle(left, y - _NAME - _BOX, left + size, y - _NAME), _pen(question)))
        if not question.name:
            ink.append(Text((left + size - 1.0, y - 3.2), str(i + 1), _PLAIN, "right"))
    return Row(tuple(ink), _NAME + _BOX)


def _ticks(question: Question, at: Point, width: float) -> Row:
    """Little squares to tick, side by side where they fit, else one below the other."""
    indent = text_width(question.box, _BADGE, bold=True) + 2.0
    beside = _ticks_width(question) <= width + 0.01
    x, y = at[0] + indent, at[1] - 0.6
    ink: list[Ink] = list(_badge(question, (at[0], y - 3.2)))
    for text in tick_texts(question):
        ink.append(Outline(rectangle(x, y - _TICK, x + _TICK, y), _pen(question)))
        ink.append(Text((x + _TICK + 1.5, y - 3.1), text, _PLAIN))
        x, y = (x + _tick_width(text), y) if beside else (x, y - _TICK_ROW)
    return Row(tuple(ink), at[1] - y + (_TICK_ROW if beside else 0.0))


def check_rows(lines: tuple[str, ...]) -> tuple[Row, ...]:
    """Statements to tick, one a row."""
    square = rectangle(0.0, -_TICK - 1.0, _TICK, -1.0)
    return tuple(
        Row((Outline(square, "outline"), Text((_TICK + 2.0, -_TICK - 0.4), line, 2.6)), _TICK_ROW) for line in lines
    )
