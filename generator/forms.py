"""From a kind of room to its blank form on paper, and from answers to a room file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from generator.errors import InputError, Problem
from generator.units import Units

if TYPE_CHECKING:
    from generator.asking.dialogue import Reply, Tell
    from generator.asking.questions import Form

PAPERS = ("letter", "a4")


def blank_form(kind: str, units: Units, profile_dirs: tuple[Path, ...]) -> Form:
    """The questions of a kind of room. InputError where there is no such kind, or for a profile in error."""
    from generator.asking.kinds import KINDS, form_of
    from generator.reading import load_catalogue
    from generator.reading.issues import nearest

    if kind not in KINDS:
        raise InputError((Problem(kind, 0, f"there is no form for this kind of room{nearest(kind, KINDS)}"),))
    return form_of(kind, units, load_catalogue(profile_dirs))


def form_pdf(form: Form, paper: str, profile_dirs: tuple[Path, ...]) -> bytes:
    """The blank form on one of `PAPERS`. InputError where the paper is another."""
    from generator.drawings.form import form_pages
    from generator.reading import load_catalogue
    from generator.writers.pdf import pdf_bytes

    if paper not in PAPERS:
        raise InputError((Problem(paper, 0, f"the form is printed on {' or '.join(PAPERS)}"),))
    pages = form_pages(form, load_catalogue(profile_dirs).papers[paper])
    return pdf_bytes(pages, f"Measuring form: {form.title}", "blank measuring form")


def asked_room(form: Form, profile_dirs: tuple[Path, ...], reply: Reply, tell: Tell) -> bytes:
    """The room file of a person's answers. InputError where they do not make a room after all."""
    from generator.asking.dialogue import interview
    from generator.reading import load_catalogue

    catalogue = load_catalogue(profile_dirs)
    return _room_file(form, interview(form, catalogue, reply, tell), profile_dirs)


def filled_room(form: Form, answers: Path, profile_dirs: tuple[Path, ...]) -> bytes:
    """The room file of an answers file. InputError with every answer that will not do."""
    from generator.asking.dialogue import answers_of
    from generator.reading import load_catalogue

    return _room_file(form, answers_of(form, answers, load_catalogue(profile_dirs)), profile_dirs)


def _room_file(form: Form, answers: dict[str, str], profile_dirs: tuple[Path, ...]) -> bytes:
    """The text, read back once: what is written can be read."""
    from generator.asking.room_file import room_text
    from generator.reading import load_catalogue
    from generator.reading.room import room_of
    from generator.reading.source import parse_document

    data = room_text(form, answers).encode()
    room_of(parse_document(data, "the room file"), load_catalogue(profile_dirs))
    return data
