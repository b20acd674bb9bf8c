"""Asking: one question after the other until each has an answer that holds; or all at once from a file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from generator.asking.entries import is_asked
from generator.asking.judging import misfit, why_not
from generator.asking.questions import NONE, Form, Question
from generator.errors import InputError, Problem
from generator.model.profiles import Catalogue
from generator.reading.issues import line_of, nearest
from generator.reading.source import Document, read_document

BACK, HELP = "back", "?"
Reply = Callable[[Question, str], str]
"""Puts a question, with the answer that an empty line stands for; gives the line that was typed."""
Tell = Callable[[str], None]


def interview(form: Form, catalogue: Catalogue, reply: Reply, tell: Tell) -> dict[str, str]:
    """The answers of a person, by box. `back` goes to the question before; a bad answer is asked again with why."""
    given: dict[str, str] = {}
    i, questions = 0, form.questions
    while i < len(questions):
        question = questions[i]
        before = _before(form, i, given)
        if not is_asked(form, question, before):
            i += 1
            continue
        usual = given.get(question.box, question.default)
        text = reply(question, usual).strip() or usual
        if text == BACK and all(word.id != BACK for word in question.words):  # a wall may be called that
            i = _previous(form, i, given)
        elif text == HELP:
            tell(help_on(question))
        elif reason := why_not(form, question, text, before, catalogue):
            tell(f"  {reason}")
        else:
            given[question.box] = text
            i += 1
    return _before(form, len(questions), given)


def _before(form: Form, i: int, given: dict[str, str]) -> dict[str, str]:
    """The answers to the questions before number i that are asked."""
    kept: dict[str, str] = {}
    for question in form.questions[:i]:
        if question.box in given and is_asked(form, question, kept):
            kept[question.box] = given[question.box]
    return kept


def _previous(form: Form, i: int, given: dict[str, str]) -> int:
    """The number of the question before, of those that are asked."""
    asked = _before(form, i, given)
    return max((j for j in range(i) if form.questions[j].box in asked), default=0)


def help_on(question: Question) -> str:
    """What may be answered."""
    if question.words:
        return "\n".join(f"  {word.id:<18}{word.name}" for word in question.words)
    sample = {"length": "a length, such as 60 1/4 or 1530 mm", "lengths": "lengths with commas: 3/4, 16, 32"}
    none = "; - where there is none or it cannot be measured" if question.optional else ""
    return f"  {sample.get(question.answer, 'a line of text')}{none}; back for the question before"


def answers_of(form: Form, path: Path, catalogue: Catalogue) -> dict[str, str]:
    """The answers of a file, `box: text` a line. InputError with every box that is unknown, missing or wrong."""
    document = read_document(path)
    if not isinstance(document.data, dict):
        raise InputError((Problem(document.file, 1, "an answers file has a line for every box, such as B3: 60 1/4"),))
    boxes = [question.box for question in form.questions]
    found = [
        Problem(document.file, line_of(key, document.lines), f"there is no box {key}{nearest(key, boxes)}")
        for key in document.data
        if key not in boxes
    ]
    answers: dict[str, str] = {}
    for question in form.questions:
        if is_asked(form, question, answers):
            text = _text(document.data.get(question.box), question)
            answers[question.box] = text
            found += _wrong(form, question, answers, document, catalogue)
    if found or document.issues:
        said = (Problem(document.file, line_of(one.path, document.lines), one.message) for one in document.issues)
        raise InputError(tuple(sorted({*found, *said})))
    return answers


def _wrong(
    form: Form, question: Question, answers: dict[str, str], document: Document, catalogue: Catalogue
) -> list[Problem]:
    """The problem that shows with one answer, which is then taken out again so that it is told once."""
    text = answers.pop(question.box)
    wrong, reason = misfit(form, question, text, answers, catalogue)
    if reason:
        line = document.lines.get(wrong.box, 0)
        return [Problem(document.file, line, f"box {wrong.box} ({wrong.prompt}): {reason}")]
    answers[question.box] = text
    return []


def _text(value: Any, question: Question) -> str:
    """An empty box holds the default, else nothing."""
    if isinstance(value, list):
        return ", ".join(str(part) for part in value)
    return str(value) if value is not None else question.default or (NONE if question.optional else "")
