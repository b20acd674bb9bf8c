"""One wall: its size, taken so that errors show, and everything that a screw can hold in."""

from __future__ import annotations

from dataclasses import replace

from generator.asking.questions import Question, Section, Word
from generator.model.profiles import Catalogue
from generator.units import Units

_USUAL = {"in": "wood-2x4", "mm": "wood-38x89"}
BLOCKS = 2
"""Pieces of level blocking that the form has room for; more are written into the room file."""
_DUTIES = (Word("bearing"), Word("non_bearing"), Word("unknown"))
_MASONRY = (Word("concrete"), Word("block"), Word("brick"))


def corner_of(index: int, walls: tuple[str, ...]) -> str:
    """What the studs of a wall are measured from, in words."""
    if len(walls) == 1:
        return "its left end"
    if len(walls) == 2:
        return "the corner"
    return ("the back left corner", "the back left corner", "the back right corner")[index]


def wall_section(index: int, walls: tuple[str, ...], partition: bool, units: Units, catalogue: Catalogue) -> Section:
    """A wall of the room, as seen from inside; `partition`: it stands free, and boards go round its end."""
    name, path = walls[index], f"walls.{index}"
    duty = Question(
        "duty", "Does it carry load from above?", "", "choice", (f"{path}.duty",), default="unknown", words=_DUTIES
    )
    return Section(
        "",
        f"The {name} wall",
        name,
        (f"Bare framing; heights from the floor; studs from {corner_of(index, walls)}; a lean outwards: -.",),
        (
            *(_partition(path) if partition else _size(path)),
            duty,
            *(() if partition else (_bare(path),)),
            *(
                replace(question, unless="" if partition else "masonry")
                for question in _studs(f"{path}.supports", corner_of(index, walls), units, catalogue)
            ),
        ),
        "wall",
    )


def _size(path: str) -> tuple[Question, ...]:
    """Plumb of both ends, widths from the floor upwards, heights from the left end, diagonals from level marks."""
    width, height = "Widths between the framing, each with its height", "Floor to ceiling: left end, then places"
    plumb, diagonal = "Its top leans into the room by", "Diagonals from level marks above the base up to the ceiling"
    return (
        _entry("plumb-left", plumb, "left end", f"{path}.plumb.left", optional=True),
        _entry("plumb-right", plumb, "right end", f"{path}.plumb.right", optional=True),
        _entry("bottom", width, "at the floor", f"{path}.widths.0.is", also=((f"{path}.widths.0.at", "0"),)),
        *_pair("middle", width, "middle", f"{path}.widths.1"),
        *_pair("top", width, "top", f"{path}.widths.2"),
        _entry("height-left", height, "left end", f"{path}.heights.0.is", also=((f"{path}.heights.0.at", "0"),)),
        *_pair("height-right", height, "to the right", f"{path}.heights.1"),
        *_pair("height-more", height, "farther", f"{path}.heights.2", needs="height-right"),
        _entry("marks", diagonal, "marks up", f"{path}.diagonals.at", optional=True),
        _entry("rising", diagonal, "to the right", f"{path}.diagonals.rising", optional=True, needs="marks"),
        _entry("falling", diagonal, "to the left", f"{path}.diagonals.falling", optional=True, needs="marks"),
    )


def _entry(
    mark: str,
    topic: str,
    name: str,
    key: str,
    optional: bool = False,
    needs: str = "",
    also: tuple[tuple[str, str], ...] = (),
) -> Question:
    return Question(mark, topic, name, "length", (key,), optional=optional, needs=needs, also=also)


def _pair(mark: str, topic: str, name: str, path: str, needs: str = "") -> tuple[Question, Question]:
    """A measurement and where it was taken."""
    return (
        _entry(mark, topic, name, f"{path}.is", optional=True, needs=needs),
        _entry(f"{mark}-at", topic, "taken at", f"{path}.at", needs=mark),
    )


def _partition(path: str) -> tuple[Question, ...]:
    """Of a wall that stands free: boards go round its end. It is planned plumb, so one width and one height say all."""
    here = f"{path}.partition"
    cap = (Word("true", "yes, capped"), Word("false", "no, up to the ceiling"))
    sides = (Word("both", "both sides"), Word("inside", "the shower's side only"))
    return (
        _entry("bottom", "Width of the framing", "width", f"{path}.width"),
        _entry("height-left", "Height", "floor to top", f"{path}.height"),
        Question("thickness", "Framing, face to face", "thickness", "length", (f"{here}.thickness",)),
        Question("cap", "Is it a half wall?", "", "choice", (f"{here}.cap",), default="false", words=cap),
        Question("faces", "Boards on", "", "choice", (f"{here}.faces",), default="both", words=sides),
    )


def _bare(path: str) -> Question:
    """What stands there instead of framing; then nothing more is asked of studs."""
    key = (f"{path}.supports.masonry.kind",)
    return Question("masonry", "No framing, bare", "", "choice", key, optional=True, default="-", words=_MASONRY)


def _studs(path: str, corner: str, units: Units, catalogue: Catalogue) -> tuple[Question, ...]:
    words, usual = stud_words(catalogue), _USUAL[units]
    plates, nailer = "Plates at floor and ceiling", "Nailer that is no stud"
    stud, nail, plate = f"{path}.studs.0", f"{path}.backing.0", f"{path}.plates"
    return (
        Question("stud", "Studs", "what they are", "word", (f"{stud}.profile",), default=usual, words=words),
        Question("plates", plates, "what", "word", (f"{plate}.profile",), optional=True, default="-", words=words),
        Question("studs", f"Middle of every stud, from {corner}", "", "lengths", (f"{stud}.centres",)),
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
    framing = (profile for profile in catalogue.studs.values() if profile.material != "masonry")
    return tuple(Word(profile.id, profile.name) for profile in framing)
