"""The title block against ISO 7200:2004 (fields as a table on a CAD help page quotes them from EN ISO 7200)."""

from __future__ import annotations

from dataclasses import fields as fields_of
from dataclasses import replace
from typing import Any

import pytest

from generator.drafting.titleblock import SheetInfo, fields, too_long
from generator.model.room import JobInfo

SHEET = SheetInfo("12", 30, "Board elevation", "Board elevation", "1:10", "recess", 420.0, 297.0)
JOB = JobInfo("Hall bath", "Owner of it", "R-001", "2026-11-24", "Drawer", "Approver", "B")
MANDATORY = {
    "legal owner": ("Owner", "Owner of it"),
    "identification number": ("Number", "R-001"),
    "date of issue": ("Date", "2026-11-24"),
    "sheet number": ("Sheet", "12"),
    "title": ("Job", "Hall bath"),
    "approval person": ("Approved by", "Approver"),
    "creator": ("Drawn by", "Drawer"),
    "document type": ("Kind", "Board elevation"),
}
COUNTED = {"title": 25, "number": 16, "date": 10, "drawn_by": 20, "approved_by": 20, "revision": 2}
"""Characters by field of a job: title, identification number, date of issue, creator, approval person, revision."""


def _entered(entry: str, text: str) -> JobInfo:
    change: dict[str, Any] = {entry: text}
    return replace(JOB, **change)


@pytest.mark.parametrize("mandatory", MANDATORY)
def test_every_mandatory_field_is_there_and_filled(mandatory: str) -> None:
    name, value = MANDATORY[mandatory]
    (field,) = (f for f in fields(JOB, SHEET) if f.name == name)
    assert field.value.split(" (")[0] == value


@pytest.mark.parametrize("entry", COUNTED)
def test_one_character_too_many_is_said_and_the_full_count_is_not(entry: str) -> None:
    assert too_long(_entered(entry, "M" * COUNTED[entry])) == ()
    (note,) = too_long(_entered(entry, "M" * (COUNTED[entry] + 1)))
    assert f"{COUNTED[entry] + 1} characters" in note


def test_the_legal_owner_has_no_count() -> None:
    assert {f.name for f in fields_of(JobInfo)} - set(COUNTED) == {"owner", "revisions"}
    assert too_long(replace(JOB, owner="M" * 90)) == ()
