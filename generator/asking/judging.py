"""Is an answer one that the room file can hold? Judged by the reader itself, and against what was measured twice."""

from __future__ import annotations

from collections.abc import Iterator

from generator.asking.entries import Answers, Entry, entries, tree
from generator.asking.questions import NONE, Form, Question
from generator.asking.twice import Tape, disagreement
from generator.model.profiles import Catalogue
from generator.reading.issues import Issue, nearest
from generator.reading.room import wrong_so_far
from generator.units import LengthError, parse_length

_MISSING = "` is missing: "
"""In the reader's words for a key that is still to come."""


def why_not(form: Form, question: Question, text: str, before: Answers, catalogue: Catalogue) -> str:
    """Why `text` cannot be the answer, given those before it; "" where it can. An earlier box at fault is named."""
    wrong, reason = misfit(form, question, text, before, catalogue)
    return f"box {wrong.box} ({wrong.prompt}): {reason}" if reason and wrong != question else reason


def misfit(form: Form, question: Question, text: str, before: Answers, catalogue: Catalogue) -> tuple[Question, str]:
    """The question that is at fault and why: an earlier one, where its mistake shows only with this answer."""
    plain = text.strip()
    if plain == NONE:
        return question, "" if question.optional else "this one is needed; measure it before you go on"
    if not plain:
        return question, _nothing(question)
    after = {**before, question.box: plain}
    if own := next(_own(form, question, plain), ""):
        return question, own
    if issue := next(_reader(form, question, before, after, catalogue), None):
        return _spoken_of(issue.path, form, question, after), issue.message
    return question, disagreement(question, Tape(form, after, catalogue.rules["fit"].limit))


def _nothing(question: Question) -> str:
    return f"nothing is written here{'; write - where it could not be measured' if question.optional else ''}"


def _own(form: Form, question: Question, text: str) -> Iterator[str]:
    """What can be said without the rest of the room."""
    if question.words and text not in {word.id for word in question.words}:
        yield f"`{text}` is not one of the words known here{nearest(text, [word.id for word in question.words])}"
    if question.answer == "length":
        try:
            parse_length(text, form.units)
        except LengthError as error:
            yield str(error)


def _reader(form: Form, question: Question, before: Answers, after: Answers, catalogue: Catalogue) -> Iterator[Issue]:
    """What the reader of room files finds wrong in this answer's keys, then what it finds only since this answer."""
    own = _paths(form, question, after)
    in_keys, between = _wrong(form, after, catalogue)
    _, known = _wrong(form, before, catalogue)
    for issue in in_keys:
        if any(issue.path == path or issue.path.startswith(f"{path}.") for path in own):
            yield issue
    if not question.begins:
        yield from (issue for issue in between if issue not in known and _MISSING not in issue.message)


def _spoken_of(path: str, form: Form, question: Question, answers: Answers) -> Question:
    """The question whose answer stands at a path of the room file: this one if it is among several, else the first."""
    there = (e for e in entries(form, answers) if e.key == path or e.key.startswith(f"{path}."))
    found = [asked for entry in there for asked, _ in entry.readings]
    return question if question in found else next(iter(found), question)


def _wrong(form: Form, answers: Answers, catalogue: Catalogue) -> tuple[tuple[Issue, ...], tuple[Issue, ...]]:
    return wrong_so_far(tree(entries(form, answers)), form.units, catalogue)


def _paths(form: Form, question: Question, answers: Answers) -> tuple[str, ...]:
    """The answer's keys as they are counted in the room file."""
    return tuple(entry.key for entry in entries(form, answers) if _comes_from(entry, question))


def _comes_from(entry: Entry, question: Question) -> bool:
    return any(asked.box == question.box for asked, _ in entry.readings)
