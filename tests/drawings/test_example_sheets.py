"""Every printed page of every example room reads well; what does not is told, and changes no exit code."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from typer.testing import CliRunner

import generator.build
from generator.build import Built
from generator.cli import app
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.labels import label_pages
from generator.drawings.set import draw_set
from generator.drawings.tape_card import tape_card
from generator.drawings.templates import templates
from generator.model.job import Job
from generator.reading import load_catalogue
from generator.units import Units
from tests.example_rooms import NAMES, files, findings_of, planned
from tests.example_rooms import job as example_job


def _printed(job: Job) -> Iterator[Page]:
    yield from draw_set(job)
    yield from label_pages(job)
    yield from tape_card(job)
    choices = job.room.choices
    for paper in (*choices.papers, *((choices.plotter,) if choices.plotter else ())):
        for template in templates(job, paper):
            yield from template.pages


@pytest.mark.parametrize("name", NAMES)
def test_nothing_gets_in_the_way_of_the_writing(name: str) -> None:
    """As the build itself finds it, on every page of every PDF."""
    assert files(name)[1] == ()


@pytest.mark.parametrize(("name", "code"), [("recess", 0), ("recess-as-measured", 1)])
def test_a_fault_of_a_sheet_is_told_and_changes_no_exit_code(
    name: str, code: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    built = Built(*planned(name), findings_of(name), {}, ("drawings.pdf, sheet 7, Cut list: 'a' over 'b'",))
    monkeypatch.setattr(generator.build, "build_room", lambda *_: built)
    done = CliRunner().invoke(app, ["build", "room.yaml", "-o", "out"])
    assert done.exit_code == code
    assert "drawing fault: drawings.pdf, sheet 7, Cut list: 'a' over 'b'" in done.stderr
    assert "Traceback" not in done.output


@pytest.mark.parametrize(("name", "practice", "other"), [("recess", "iso", "mm"), ("recess-600-cured", "us", "in")])
def test_nor_does_it_in_both_units_and_the_other_practice(name: str, practice: str, other: Units) -> None:
    job = example_job(name)
    assert job.room.choices.practice != load_catalogue().practices[practice], "the other one is usual in this room"
    choices = replace(job.room.choices, other_units=other, practice=load_catalogue().practices[practice])
    pages = _printed(replace(job, room=replace(job.room, choices=choices)))
    assert [(page.title, found) for page in pages for found in overlaps(page)] == []
