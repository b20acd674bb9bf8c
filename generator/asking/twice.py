"""The same thing measured in two ways: do the two agree?

Two tapes of one thing agree within the fit allowance of the boards (rule `fit`): what is out by more does not fit.
Where a distance is computed from others, one step of the tape (1/16 in or 1 mm) is added: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from generator.asking.entries import Answers, answered
from generator.asking.job_questions import SQUARE
from generator.asking.questions import Form, Question
from generator.units import LengthError, label, paper_step, parse_length

_AGAIN = "measure both again; a wall that is out by more than the fit allowance cannot be planned as a rectangle"


@dataclass(frozen=True, slots=True)
class Tape:
    """The answers so far as lengths in mm; `fit` is the limit of that rule in mm."""

    form: Form
    answers: Answers
    fit: float

    def length(self, question: Question | None) -> float | None:
        """What the question was answered with; None where it was not, or with no length."""
        text = answered(question, self.answers) if question else ""
        try:
            return parse_length(text, self.form.units).mm if text else None
        except LengthError:
            return None

    def key(self, key: str) -> float | None:
        """The length at a key of the room file: the first reading of it."""
        return next((self.length(q) for q in self.form.questions if key in q.keys and self.length(q) is not None), None)

    def said(self, mm: float) -> str:
        """A length in a sentence."""
        return label(mm, self.form.units) + (" mm" if self.form.units == "mm" else "")


def disagreement(question: Question, tape: Tape) -> str:
    """Why this answer does not go with those before it; "" where it does, or nothing can be said."""
    size = tape.length(question)
    if size is None:
        return ""
    if question.twice == "square":
        return _square(tape, size)
    judges = {"": _reading, "diagonal": _diagonal, "other end": _other_end, "above the deck": _deck}
    return judges[question.twice](question, tape, size)


def _reading(question: Question, tape: Tape, size: float) -> str:
    """Against the other readings of the same key."""
    for other in tape.form.questions:
        before = tape.length(other) if other.box != question.box and set(question.keys) & set(other.keys) else None
        if before is not None and question.answer == "length" and abs(before - size) > tape.fit + 1e-6:
            misfit = tape.said(abs(before - size))
            return f"{misfit} off the {tape.said(before)} of box {other.box} ({other.name}); {_AGAIN}"
    return ""


def _diagonal(question: Question, tape: Tape, size: float) -> str:
    """Between the diagonals of walls that lean by the fit allowance to either side, from deck to ceiling."""
    width, high, deck = (tape.key(key) for key in (f"{question.about}.width", f"{question.about}.height", "base.deck"))
    if width is None or high is None:
        return ""
    height = high - (deck or 0.0)
    step = paper_step(tape.form.units)
    least, most = hypot(width - tape.fit, height) - step, hypot(width + tape.fit, height) + step
    if least <= size <= most:
        return ""
    true = tape.said(hypot(width, height))
    return f"{tape.said(width)} by {tape.said(height)} has a diagonal of {true}, not {tape.said(size)}; {_AGAIN}"


def _other_end(question: Question, tape: Tape, size: float) -> str:
    across = tape.key(f"{question.about}.across")
    wall = answered_at(tape, f"{question.about}.wall")
    width = tape.key(f"walls.{tape.form.walls.index(wall)}.width") if wall in tape.form.walls else None
    if across is None or width is None or abs(across + size - width) <= tape.fit + 1e-6:
        return ""
    sum_text = tape.said(across + size)
    return (
        f"{tape.said(across)} and {tape.said(size)} make {sum_text}, and the {wall} wall is {tape.said(width)}; "
        "measure both again"
    )


def _deck(question: Question, tape: Tape, size: float) -> str:
    up, deck = tape.key(f"{question.about}.up"), tape.key("base.deck")
    if up is None or deck is None or abs(up - deck - size) <= tape.fit + 1e-6:
        return ""
    return (
        f"{tape.said(up)} above the floor and {tape.said(size)} above the deck leave {tape.said(abs(up - size))} for a "
        f"deck of {tape.said(deck)}; measure both again"
    )


def _square(tape: Tape, size: float) -> str:
    """3-4-5: a corner that is out by the fit allowance over the longer side moves the diagonal by 3/5 of it."""
    short, long, true = SQUARE[tape.form.units]
    slack = short / true * tape.fit + paper_step(tape.form.units)
    if abs(size - true) <= slack:
        return ""
    out = tape.said(abs(size - true))
    return (
        f"between {tape.said(short)} and {tape.said(long)} a square corner has {tape.said(true)}, this is {out} off; "
        "measure again; a corner that is not square cannot be planned yet where a base stands in it"
    )


def answered_at(tape: Tape, key: str) -> str:
    """The text that was answered for a key."""
    return next((answered(q, tape.answers) for q in tape.form.questions if key in q.keys), "")
