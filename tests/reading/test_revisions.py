"""The list of revisions in a room file."""

from __future__ import annotations

from generator.model.room import Revision
from tests.reading.rooms import SMALL, changed, complaints, read

LISTED = """\
job:
  title: Hall bath
  revisions:
    - {mark: A, date: 2026-11-24, what: as measured}
    - {mark: B, what: valve moved}
units: in
"""


def _job(text: str) -> str:
    return changed(("units: in\n", text))


def test_the_last_of_the_list_is_the_current_revision() -> None:
    job = read(_job(LISTED)).job
    assert (job.title, job.revision) == ("Hall bath", "B")
    assert job.revisions == (Revision("A", "2026-11-24", "as measured"), Revision("B", "", "valve moved"))


def test_without_a_list_the_revision_is_as_entered_or_the_first() -> None:
    assert read(_job('job: {revision: "7"}\nunits: in\n')).job.revision == "7"
    assert read(SMALL).job.revision == "0"


def test_a_revision_that_agrees_may_be_entered_too() -> None:
    assert complaints(_job(LISTED.replace("  revisions", "  revision: B\n  revisions"))) == []


def test_a_contradiction_is_told_on_its_line() -> None:
    ((line, message),) = complaints(_job(LISTED.replace("  revisions", "  revision: A\n  revisions")))
    assert line == 4
    assert "`A` is not the last of `revisions`, `B`" in message


def test_two_revisions_never_share_a_mark() -> None:
    ((line, message),) = complaints(_job(LISTED.replace("mark: B", "mark: A")))
    assert line == 4
    assert "`A` is listed twice" in message


def test_a_revision_says_what_changed() -> None:
    ((line, message),) = complaints(_job(LISTED.replace("what: valve moved", 'what: ""')))
    assert line == 6
    assert "nothing is written here" in message
