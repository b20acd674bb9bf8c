"""Who measured what, where the room is, and whether its corners are square."""

from __future__ import annotations

from itertools import pairwise

from generator.asking.questions import Question, Section, Word
from generator.model.profiles import Catalogue
from generator.units import Units

_MARKS = {"in": ("24 in", "32 in"), "mm": ("600 mm", "800 mm")}
"""Marks on the two walls of a corner; where it is square, 40 in or 1000 mm lie between them (3-4-5)."""
SAFETY = (
    "Power to every circuit in these walls is off, locked off, and tested dead",
    "Water is off and drained; no gas pipe runs in these walls, or it is marked",
    "Paint, plaster and flooring from before 1980: asked about lead and asbestos before anything was broken",
    "Rough plumbing tested and framing inspected by those who must, or the date is set",
    "Pipes and cables photographed with a tape in view",
)
"""Ticked before anything is measured; nothing of it goes into the room file. Common practice, no source."""


def job_section(walls: tuple[str, ...], units: Units, catalogue: Catalogue) -> Section:
    """The job, the place, the floor, and the corners of the room."""
    codes = tuple(Word(profile.id, profile.name) for profile in catalogue.codes.values())
    job = "The job"
    return Section(
        "",
        "The job and the room",
        "",
        ("Walls are named as you see them from inside the room, left to right.",),
        (
            Question("name", job, "short name of the room", "text", ("name",)),
            Question("title", job, "title for the drawings", "text", ("job.title",), optional=True),
            Question("number", job, "number", "text", ("job.number",), optional=True),
            Question("by", job, "measured by", "text", optional=True),
            Question("date", job, "date", "text", ("job.date",), optional=True),
            Question("code", "Code rules to measure", "", "choice", ("place.code",), default="irc", words=codes),
            Question(
                "datum",
                "Heights are measured from the floor",
                "",
                "choice",
                ("floor.datum",),
                default="finished",
                words=(Word("finished", "finished floor"), Word("bare", "subfloor, still bare")),
            ),
            *_corners(walls, units),
        ),
        "corners",
    )


def _corners(walls: tuple[str, ...], units: Units) -> tuple[Question, ...]:
    """The angle of every corner: square where the marks make 3-4-5."""
    marks = _MARKS[units]
    topic = f"Corners: mark {marks[0]} out on the left wall, {marks[1]} on the right one; straight across"
    return tuple(
        Question(
            f"square-{i}",
            topic,
            f"{pair[0]} and {pair[1]}",
            "length",
            (f"corners.{i}.diagonal",),
            optional=True,
            also=tuple(
                (f"corners.{i}.{key}.{j}", text)
                for key, texts in (("between", pair), ("marks", marks))
                for j, text in enumerate(texts)
            ),
        )
        for i, pair in enumerate(pairwise(walls))
    )
