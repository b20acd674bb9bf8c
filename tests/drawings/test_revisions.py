"""The list of revisions on the title sheet, and what ISO 7200 has to say of long entries."""

from __future__ import annotations

from dataclasses import replace

from generator.drafting.ink import Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.model.room import Revision
from tests.drawings.set_job import set_job

LISTED = (Revision("A", "2026-11-24", "as measured"), Revision("B", "2026-11-25", "valve moved"))


def _title_sheet(number: str, listed: tuple[Revision, ...]) -> Page:
    job = set_job("tabloid")
    info = replace(job.room.job, number=number, revision="B", revisions=listed)
    return draw_set(replace(job, room=replace(job.room, job=info)))[0]


def _words(page: Page) -> list[str]:
    return [item.text for item in page.ink if isinstance(item, Text)]


def test_the_title_sheet_lists_each_revision_and_the_long_number() -> None:
    page = _title_sheet("R" * 17, LISTED)
    words = _words(page)
    assert {"Revisions", "A", "2026-11-25", "as measured", "valve moved"} <= set(words)
    assert any("17 characters" in word for word in words)
    assert not overlaps(page)


def test_without_a_list_there_is_no_table_and_no_note() -> None:
    words = _words(_title_sheet("R" * 16, ()))
    assert "Revisions" not in words
    assert not any("characters" in word for word in words)
