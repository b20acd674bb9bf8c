"""The kinds of room that can be asked about, and the form of each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from generator.asking.base_questions import base_section
from generator.asking.ends_questions import ends_section
from generator.asking.fitting_questions import fitting_section
from generator.asking.job_questions import job_section
from generator.asking.questions import Form, Question, Section
from generator.asking.wall_questions import wall_section
from generator.model.profiles import Catalogue
from generator.units import Units


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of room: its walls left to right, the wall along the base, what may stand there, its usual fittings."""

    title: str
    walls: tuple[str, ...]
    along: str
    bases: tuple[str, ...]
    fittings: tuple[str, ...]


_TUB, _SHOWER = ("valve", "spout", "arm"), ("valve", "arm")
KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "recess": Kind("recess with three walls", ("left", "back", "right"), "back", ("tub", "shower_base"), _TUB),
        "corner": Kind("corner with two walls", ("left", "right"), "right", ("shower_base", "tub"), _SHOWER),
        "single": Kind("single wall", ("back",), "back", ("tub", "shower_base"), _TUB),
        "tray": Kind("recess with a site-built tray", ("left", "back", "right"), "back", ("tray",), _SHOWER),
    }
)


def form_of(kind: str, units: Units, catalogue: Catalogue) -> Form:
    """The form of one of `KINDS`. Safety comes first and has no questions; then the job, base, walls, pipes, ends."""
    known = KINDS[kind]
    drafts = (
        job_section(known.walls, units, catalogue),
        base_section(known.bases, known.along, known.walls, catalogue),
        *(wall_section(i, known.walls, units, catalogue) for i in range(len(known.walls))),
        fitting_section(known.fittings, known.walls, catalogue),
        ends_section(known.walls, units),
    )
    sections = tuple(_numbered(section, letter) for section, letter in zip(drafts, "ABCDEFGHIJ", strict=False))
    return Form(kind, known.title, units, known.walls, known.along, sections, _given(known, units))


def _numbered(section: Section, letter: str) -> Section:
    """Its letter, and every question's box."""
    questions: tuple[Question, ...] = tuple(replace(q, box=f"{letter}{i}") for i, q in enumerate(section.questions, 1))
    return replace(section, letter=letter, questions=questions)


def _given(kind: Kind, units: Units) -> tuple[tuple[str, str], ...]:
    tray = (("base.kind", "tray"),) if kind.bases == ("tray",) else ()
    ends = [start_of(i, kind.walls) for i in range(len(kind.walls))]
    return (
        ("units", units),
        *tray,
        ("base.along", kind.along),
        *((f"walls.{i}.name", name) for i, name in enumerate(kind.walls)),
        *((f"walls.{i}.supports.from", end) for i, end in enumerate(ends)),
    )


def start_of(index: int, walls: tuple[str, ...]) -> str:
    """The end of a wall that its studs are measured from: its corner; the left one of two, or of none."""
    return "right" if index == 0 and len(walls) > 1 else "left"
