"""One wall: its size, taken so that errors show, and everything that a screw can hold in."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Word
from generator.model.profiles import Catalogue
from generator.units import Units

_USUAL = {"in": "wood-2x4", "mm": "wood-38x89"}
BLOCKS = 2
"""Pieces of level blocking that the form has room for; more are written into the room file."""
STUD_BOXES = 10
_DUTIES = (Word("bearing"), Word("non_bearing"), Word("unknown"))


def corner_of(index: int, walls: tuple[str, ...]) -> str:
    """What the studs of a wall are measured from, in words."""
    if len(walls) == 1:
        return "its left end"
    if len(walls) == 2:
        return "the corner"
    return ("the back left corner", "the back left corner", "the back right corner")[index]


def wall_section(index: int, walls: tuple[str, ...], units: Units, catalogue: Catalogue) -> Section:
    """A wall of the room, as seen from inside."""
    name, path = walls[index], f"walls.{index}"
    return Section(
        "",
        f"The {name} wall",
        name,
        (
            f"Seen from inside. Bare framing to bare framing; studs from {corner_of(index, walls)}.",
            "Diagonals: from a level mark at the height of the deck up to the ceiling at the other end.",
        ),
        (
            *_size(path),
            Question(
                "duty",
                "Does it carry load from above?",
                "",
                "choice",
                (f"{path}.duty",),
                default="unknown",
                words=_DUTIES,
            ),
            *_studs(f"{path}.supports", corner_of(index, walls), units, catalogue),
        ),
    )


def _size(path: str) -> tuple[Question, ...]:
    width, height, diagonal = "Width between the framing", "Height, floor to ceiling", "Diagonals, deck to ceiling"
    wide, high = (f"{path}.width",), (f"{path}.height",)
    return (
        Question("bottom", width, "bottom", "length", wide),
        Question("middle", width, "middle", "length", wide, optional=True),
        Question("top", width, "top", "length", wide, optional=True),
        Question("height-left", height, "left end", "length", high),
        Question("height-right", height, "right end", "length", high, optional=True),
        Question("rising", diagonal, "up to the right", "length", twice="diagonal", about=path, optional=True),
        Question("falling", diagonal, "up to the left", "length", twice="diagonal", about=path, optional=True),
    )


def _studs(path: str, corner: str, units: Units, catalogue: Catalogue) -> tuple[Question, ...]:
    words, usual = stud_words(catalogue), _USUAL[units]
    plates, nailer = "Plates at floor and ceiling", "Nailer that is no stud"
    stud, nail, plate = f"{path}.studs.0", f"{path}.backing.0", f"{path}.plates"
    return (
        Question("stud", "Studs", "what they are", "word", (f"{stud}.profile",), default=usual, words=words),
        Question("studs", f"Middle of every stud, from {corner}", "", "lengths", (f"{stud}.centres",)),
        Question("plates", plates, "what", "word", (f"{plate}.profile",), optional=True, default="-", words=words),
        Question("nailer", nailer, "its middle", "length", (f"{nail}.centre",), optional=True, default="-"),
        Question(
            "nailer-of", nailer, "what it is", "word", (f"{nail}.profile",), default=usual, words=words, needs="nailer"
        ),
        *(q for i in range(BLOCKS) for q in _block(f"{path}.blocking.{i}", i, usual, words)),
    )


def _block(path: str, i: int, usual: str, words: tuple[Word, ...]) -> tuple[Question, ...]:
    """A level piece between two studs; wood 2x4 or its metric sister on edge."""
    topic, mark = f"Level blocking {i + 1}, face to face of two studs; height of its middle", f"block-{i}"
    return (
        Question(mark, topic, "begins at", "length", (f"{path}.from",), optional=True, default="-"),
        Question(f"{mark}-to", topic, "ends at", "length", (f"{path}.to",), needs=mark),
        Question(f"{mark}-height", topic, "height", "length", (f"{path}.centre",), needs=mark),
        Question(
            f"{mark}-of", topic, "what it is", "word", (f"{path}.profile",), default=usual, words=words, needs=mark
        ),
    )


def stud_words(catalogue: Catalogue) -> tuple[Word, ...]:
    """The studs that profiles know."""
    return tuple(Word(profile.id, profile.name) for profile in catalogue.studs.values())
