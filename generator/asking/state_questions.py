"""The state of a wall's studs: faces off a string line, holes, notches."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Word

STUDS, HOLES, NOTCHES = 5, 2, 1
"""What the form has room for on each wall; more is written into the room file."""
READINGS = 4
_CARRIES = (Word("pipe"), Word("steel_pipe"), Word("cable"), Word("nothing"))
_FACES = (Word("front"), Word("back"))


def state_section(index: int, walls: tuple[str, ...]) -> Section:
    """Of the wall of that number; every stud is named by its middle, as it was measured."""
    path = f"walls.{index}"
    return Section(
        "",
        f"State of the studs, {walls[index]} wall",
        "",
        ("Studs are named by their middle, as it was measured. Leave all blank where studs are straight and whole.",),
        (
            *(q for i in range(STUDS) for q in _line(f"{path}.string_line.{i}", i)),
            *_flange(path),
            *(q for i in range(HOLES) for q in _hole(f"{path}.supports.holes.{i}", i)),
            *(q for i in range(NOTCHES) for q in _notch(f"{path}.supports.notches.{i}", i)),
        ),
        "studs",
    )


def _line(path: str, i: int) -> tuple[Question, ...]:
    """A stud's readings; where one stud was not measured, none is asked after it. One stud alone tells no plane."""
    topic, mark, before = f"String line, stud {i + 1}", f"line-{i}", f"line-{i - 1}" if i else ""
    optional = i != 1
    default = "-" if optional else ""
    off = (f"{path}.off",)
    return (
        Question(mark, topic, "stud", "length", (f"{path}.stud",), optional=optional, default=default, needs=before),
        Question(f"{mark}-at", topic, "heights", "lengths", (f"{path}.at",), needs=mark, boxes=READINGS),
        Question(f"{mark}-off", topic, "off the line", "lengths", off, needs=mark, boxes=READINGS, begins=i == 0),
    )


def _flange(path: str) -> tuple[Question, ...]:
    topic = "From the same line back to the flange"
    return (
        Question("flange", topic, "left end", "length", (f"{path}.flange_off.0",), optional=True, default="-"),
        Question("flange-right", topic, "right end", "length", (f"{path}.flange_off.1",), needs="flange"),
    )


def _hole(path: str, i: int) -> tuple[Question, ...]:
    topic, mark, before = f"Hole {i + 1} through a stud", f"hole-{i}", f"hole-{i - 1}" if i else ""
    return (
        Question(mark, topic, "stud", "length", (f"{path}.stud",), optional=True, default="-", needs=before),
        Question(f"{mark}-at", topic, "height", "length", (f"{path}.at",), needs=mark),
        Question(f"{mark}-wide", topic, "diameter", "length", (f"{path}.diameter",), needs=mark),
        Question(f"{mark}-in", topic, "from face", "length", (f"{path}.from_face",), optional=True, needs=mark),
        _carries(mark, topic, path),
    )


def _notch(path: str, i: int) -> tuple[Question, ...]:
    topic, mark = f"Notch {i + 1} in a stud", f"notch-{i}"
    return (
        Question(mark, topic, "stud", "length", (f"{path}.stud",), optional=True, default="-"),
        Question(f"{mark}-at", topic, "height", "length", (f"{path}.at",), needs=mark),
        Question(f"{mark}-tall", topic, "tall", "length", (f"{path}.height",), needs=mark),
        Question(f"{mark}-deep", topic, "deep", "length", (f"{path}.depth",), needs=mark),
        Question(f"{mark}-face", topic, "face", "word", (f"{path}.face",), default="front", words=_FACES, needs=mark),
        _carries(mark, topic, path),
    )


def _carries(mark: str, topic: str, path: str) -> Question:
    key = (f"{path}.carries",)
    return Question(f"{mark}-for", topic, "carries", "word", key, default="pipe", words=_CARRIES, needs=mark)
