"""A question about a room: what it fills in the room file, and how it stands on the paper form.

One list of questions serves the form and the dialogue, so that neither can ask what the other does not. A
question's box (`C4`) is its name on paper, in the dialogue, in an answers file and in the room file's comments.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.units import Units

Answer = Literal["text", "length", "lengths", "choice", "word"]
"""`choice`: ticked on paper. `word`: one of the `words`, written on paper; anything short where there are none."""
Twice = Literal["", "other end", "above the deck"]
"""What a second measurement is held against: see `asking.twice`."""
Sketch = Literal["", "corners", "base", "wall", "studs", "fitting", "niche", "built", "reach"]
"""What is drawn over the boxes of a section."""
NONE = "-"
"""The answer to an optional question that has none."""


@dataclass(frozen=True, slots=True)
class Word:
    """One of the answers that a question takes: the id, and what it stands for where that is not plain."""

    id: str
    name: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """`topic` is shared by questions that stand together in one row of the form; `name` tells them apart.

    `keys`: the paths in the room file that the answer fills; several questions of one key are readings of one thing,
    of which `pick` takes the least or the most. `also`: paths and texts that are filled along with it. `about`: the
    part of the room file that a second measurement or a remark belongs to. `needs`: mark of the question, in the same
    section, without whose answer this one is not asked; `unless`: of the one with whose answer it is not. `mark` is the
    question's name within its section. `boxes`: how many a row of lengths has on paper. `begins`: it is judged by
    itself, as it tells nothing without the answers that follow.
    """

    mark: str
    topic: str
    name: str
    answer: Answer
    keys: tuple[str, ...] = ()
    pick: Literal["least", "most"] = "least"
    twice: Twice = ""
    about: str = ""
    optional: bool = False
    default: str = ""
    words: tuple[Word, ...] = ()
    needs: str = ""
    unless: str = ""
    also: tuple[tuple[str, str], ...] = ()
    box: str = ""
    boxes: int = 10
    begins: bool = False

    @property
    def prompt(self) -> str:
        """The whole question in words."""
        return f"{self.topic}, {self.name}" if self.name else self.topic


@dataclass(frozen=True, slots=True)
class Section:
    """A stop on the walk through the room. `wall`: the wall it is at, "" elsewhere; `hints` stand below its title."""

    letter: str
    title: str
    wall: str
    hints: tuple[str, ...]
    questions: tuple[Question, ...]
    sketch: Sketch = ""

    def marked(self, mark: str) -> Question | None:
        """The question of that mark, where the section has it."""
        return next((q for q in self.questions if q.mark == mark), None)


@dataclass(frozen=True, slots=True)
class Form:
    """All that is asked about a kind of room, in the order of the walk; `given` is what the kind settles by itself.

    `walls`: their names, left to right; `along`: the wall that the length of the base stands against.
    """

    kind: str
    title: str
    units: Units
    walls: tuple[str, ...]
    along: str
    sections: tuple[Section, ...]
    given: tuple[tuple[str, str], ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        """Every question, in order."""
        return tuple(q for section in self.sections for q in section.questions)

    def section_of(self, question: Question) -> Section:
        """The section that a question stands in."""
        return next(section for section in self.sections if section.letter == question.box[:1])
