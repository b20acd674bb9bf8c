"""The kinds of room that can be asked about, and the form of each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from string import ascii_uppercase
from types import MappingProxyType

from generator.asking.base_questions import base_section
from generator.asking.ends_questions import ends_section
from generator.asking.feature_questions import built_section, mouth_section
from generator.asking.fitting_questions import fitting_section
from generator.asking.job_questions import job_section
from generator.asking.questions import Form, Question, Section
from generator.asking.state_questions import state_section
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
    neo: bool = False
    """True for a neo-angle base."""
    partition: bool = False
    """True where its last wall stands free."""
    bench: bool = False
    curb: bool = False


_TUB, _SHOWER = ("valve", "spout", "arm"), ("valve", "arm")
KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "recess": Kind("recess with three walls", ("left", "back", "right"), "back", ("tub", "shower_base"), _TUB),
        "corner": Kind(
            "corner with two walls", ("left", "right"), "right", ("shower_base", "tub"), _SHOWER, bench=True
        ),
        "single": Kind("single wall", ("back",), "back", ("tub", "shower_base"), _TUB),
        "tray": Kind(
            "recess with a site-built tray",
            ("left", "back", "right"),
            "back",
            ("tray",),
            _SHOWER,
            bench=True,
            curb=True,
        ),
        "neo-angle": Kind(
            "neo-angle shower in a corner", ("left", "right"), "right", ("shower_base",), _SHOWER, neo=True
        ),
        "walk-in": Kind(
            "walk-in shower with a partition",
            ("left", "back", "partition"),
            "back",
            ("shower_base",),
            _SHOWER,
            partition=True,
            bench=True,
        ),
    }
)


def form_of(kind: str, units: Units, catalogue: Catalogue) -> Form:
    """The form of one of `KINDS`. Safety comes first and has no questions."""
    known = KINDS[kind]
    drafts = (
        job_section(known.walls, units, catalogue),
        base_section(known.bases, known.neo, known.along, known.walls, catalogue),
        *(section for i in range(len(known.walls)) for section in _wall_sections(known, i, units, catalogue)),
        fitting_section(known.fittings, known.walls, catalogue),
        mouth_section(known.walls),
        built_section(known.walls, known.along, known.bench, known.curb),
        ends_section(known.walls, known.partition, units),
    )
    sections = tuple(_numbered(section, letter) for section, letter in zip(drafts, ascii_uppercase, strict=False))
    return Form(kind, known.title, units, known.walls, known.along, sections, _given(known, units))


def _wall_sections(kind: Kind, i: int, units: Units, catalogue: Catalogue) -> tuple[Section, Section]:
    """A wall, then the state of its studs while the tape is still there."""
    partition = kind.partition and i == len(kind.walls) - 1
    return wall_section(i, kind.walls, partition, units, catalogue), state_section(i, kind.walls)


def _numbered(section: Section, letter: str) -> Section:
    """Its letter, and every question's box."""
    questions: tuple[Question, ...] = tuple(replace(q, box=f"{letter}{i}") for i, q in enumerate(section.questions, 1))
    return replace(section, letter=letter, questions=questions)


def _given(kind: Kind, units: Units) -> tuple[tuple[str, str], ...]:
    tray = (("base.kind", "tray"),) if kind.bases == ("tray",) else ()
    neo = (("base.shape", "neo_angle"),) if kind.neo else ()
    ends = [start_of(i, kind.walls) for i in range(len(kind.walls))]
    return (
        ("units", units),
        *tray,
        *neo,
        ("base.along", kind.along),
        *((f"walls.{i}.name", name) for i, name in enumerate(kind.walls)),
        *((f"walls.{i}.supports.from", end) for i, end in enumerate(ends)),
    )


def start_of(index: int, walls: tuple[str, ...]) -> str:
    """The end of a wall that its studs are measured from: its corner; the left one of two, or of none."""
    return "right" if index == 0 and len(walls) > 1 else "left"
