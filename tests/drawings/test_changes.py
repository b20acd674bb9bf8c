"""The sheet of what has changed since an earlier build, from that build's plan.json."""

from __future__ import annotations

import json
from typing import Any

from generator.comparing.changes import compared
from generator.comparing.record import record_of
from generator.drafting.ink import Text
from generator.drafting.overlap import overlaps
from generator.drawings.changes import TITLE
from generator.drawings.set import draw_set
from generator.model.job import Job
from tests.example_rooms import files, job

ROOM = "single-wall"


def _against(plan: dict[str, Any]) -> Job:
    return compared(job(ROOM), record_of(plan))


def _plan() -> dict[str, Any]:
    plan: dict[str, Any] = json.loads(files(ROOM)[0]["plan.json"])
    return plan


def test_a_build_against_itself_has_changed_nothing() -> None:
    """The plan before it was written is what is read back from the file."""
    assert _against(_plan()).changes == ()


def test_a_set_lists_what_is_different_from_the_build_before_and_else_has_no_such_sheet() -> None:
    """A stud stood 10 mm further left, and a board was 5 mm higher; the room is in mm."""
    before = _plan()
    stud, board = before["supports"][0], before["boards"][0]
    for ring in (stud["outline"], stud["axis"]):
        for point in ring:
            point[0] -= 10.0
    high = max(v for _, v in board["outline"])
    board["outline"] = [[u, v + 5.0 * (v == high)] for u, v in board["outline"]]
    pages = draw_set(_against(before))
    page = next(page for page in pages if page.title == TITLE)
    words = [ink.text for ink in page.ink if isinstance(ink, Text)]
    assert stud["id"] in words
    assert "middle moved 10 mm right" in words
    assert any(word.startswith("size ") for word in words)
    assert board["id"] in words
    assert overlaps(page) == ()
    index = [ink.text for ink in pages[0].ink if isinstance(ink, Text)]
    assert TITLE in index
    assert TITLE not in [page.title for page in draw_set(job(ROOM))]
