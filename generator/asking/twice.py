"""The same thing measured in two ways: do the two agree?

Two tapes of one thing agree within the fit allowance of the boards (rule `fit`): what is out by more does not fit.
Widths, plumb, diagonals and corners stand in the room file, and the reader itself holds them against each other.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.asking.entries import Answers, answered
from generator.asking.questions import Form, Question
from generator.units import LengthError, label, parse_length

_AGAIN = "measure both again"


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
    judges = {"": _reading, "other end": _other_end, "above the deck": _deck}
    return judges[question.twice](question, tape, size)


def _reading(question: Question, tape: Tape, size: float) -> str:
    """Against the other readings of the same key."""
    for other in tape.form.questions:
        before = tape.length(other) if other.box != question.box and set(question.keys) & set(other.keys) else None
        if before is not None and question.answer == "length" and abs(before - size) > tape.fit + 1e-6:
            misfit = tape.said(abs(before - size))
            return f"{misfit} off the {tape.said(before)} of box {other.box} ({other.name}); {_AGAIN}"
    return ""


def _other_end(question: Question, tape: Tape, size: float) -> str:
    across = tape.key(f"{question.about}.across")
    wall = answered_at(tape, f"{question.about}.wall")
    width = tape.key(f"walls.{tape.form.walls.index(wall)}.widths.0.is") if wall in tape.form.walls else None
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


def answered_at(tape: Tape, key: str) -> str:
    """The text that was answered for a key."""
    return next((answered(q, tape.answers) for q in tape.form.questions if key in q.keys), "")
