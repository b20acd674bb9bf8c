"""Answers as the data of a room file: which text stands at which key, and which boxes it came from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.asking.questions import NONE, Form, Question
from generator.units import LengthError, Units, parse_length

Answers = Mapping[str, str]
"""Text by box, as entered. An optional question that has none: `-`."""
Value = str | list[str]


@dataclass(frozen=True, slots=True)
class Entry:
    """What one key of the room file says: the text as entered, and all readings of it with their boxes."""

    key: str
    value: Value
    readings: tuple[tuple[Question, str], ...]


def answered(question: Question, answers: Answers) -> str:
    """The answer's text, "" where there is none (yet)."""
    text = answers.get(question.box, "").strip()
    return "" if text == NONE else text


def is_asked(form: Form, question: Question, answers: Answers) -> bool:
    """False where the question hangs on another that was answered with none, or falls away with an answer."""
    section = form.section_of(question)
    lead, instead = (section.marked(mark) if mark else None for mark in (question.needs, question.unless))
    return (lead is None or bool(answered(lead, answers))) and (instead is None or not answered(instead, answers))


def entries(form: Form, answers: Answers) -> tuple[Entry, ...]:
    """Every key that is given or answered; a list has no holes where a slot of the form stayed empty."""
    readings: dict[str, list[tuple[Question, str]]] = {}
    plain: dict[str, str] = dict(form.given)
    for question in form.questions:
        text = answered(question, answers) if is_asked(form, question, answers) else ""
        if text:
            for key in question.keys:
                readings.setdefault(key, []).append((question, text))
            plain |= question.also
    found = [
        *(Entry(key, text, ()) for key, text in plain.items()),
        *(Entry(key, _picked(read, form.units), tuple(read)) for key, read in readings.items()),
    ]
    keys = closed_up(tuple(entry.key for entry in found))
    return tuple(Entry(keys[entry.key], entry.value, entry.readings) for entry in found)


def closed_up(keys: tuple[str, ...]) -> dict[str, str]:
    """The keys with the numbers of list items counted anew from 0 in each list."""
    items: dict[str, dict[int, int]] = {}
    for key in keys:
        for match in re.finditer(r"\.([0-9]+)(?=\.|$)", key):
            items.setdefault(key[: match.start()], {})[int(match[1])] = 0
    for numbers in items.values():
        numbers |= {number: i for i, number in enumerate(sorted(numbers))}

    def anew(key: str) -> str:
        return re.sub(r"\.([0-9]+)(?=\.|$)", lambda match: f".{items[key[: match.start()]][int(match[1])]}", key)

    return {key: anew(key) for key in keys}


def texts_of(text: str) -> list[str]:
    """A row of lengths, parted by commas; by semicolons where there is one."""
    parts = text.strip("[] ").split(";" if ";" in text else ",")
    return [part.strip() for part in parts if part.strip()]


def _picked(readings: list[tuple[Question, str]], units: Units) -> Value:
    """The reading that the room file holds."""
    question, text = readings[0]
    if question.answer == "lengths":
        return texts_of(text)
    if len(readings) == 1:
        return text
    choose = min if question.pick == "least" else max
    return choose(readings, key=lambda reading: _size(reading[1], units))[1]


def _size(text: str, units: Units) -> Fraction:
    try:
        return parse_length(text, units).exact
    except LengthError:
        return Fraction(0)


def tree(found: tuple[Entry, ...]) -> dict[str, Any]:
    """The entries as nested mappings and lists, as a room file would be read."""
    root: dict[str, Any] = {}
    for entry in found:
        here, parts = root, entry.key.split(".")
        for part in parts[:-1]:
            here = here.setdefault(part, {})
        here[parts[-1]] = entry.value
    return {key: _listed(value) for key, value in root.items()}


def _listed(value: Any) -> Any:
    """A mapping of numbers becomes a list."""
    if not isinstance(value, dict):
        return value
    if value and all(key.isdecimal() for key in value):
        return [_listed(value[key]) for key in sorted(value, key=int)]
    return {key: _listed(item) for key, item in value.items()}
