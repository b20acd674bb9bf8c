"""Labels as a telephone and a person read them: codes by an independent decoder, words from the printed page."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader

from generator.drafting.code import code_ink
from generator.drafting.ink import Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.labels import label_pages, part_labels
from generator.model.geometry import box
from generator.model.job import Job
from generator.writers.pdf import pdf_bytes
from tests.drawings.worked_job import A4, worked_job
from tests.planning.finished import finished_worked
from tests.worked_room import LETTER, worked_room

DPI = 300
MODULE = 0.4
"""mm: the least square of a code."""
PAPERS = {"letter": LETTER, "a4": A4}


@cache
def _job(paper: str, failed: bool) -> Job:
    job = worked_job(*(("right",) if failed else ()))
    choices = replace(job.room.choices, papers=(PAPERS[paper],))
    return replace(job, room=replace(job.room, choices=choices))


def _decoded(pages: tuple[Page, ...]) -> list[str]:
    document = pypdfium2.PdfDocument(pdf_bytes(pages))
    found: list[str] = []
    for page in document:
        image: Any = page.render(scale=DPI / 72, grayscale=True).to_pil()
        found += [code.text for code in zxingcpp.read_barcodes(image)]
    return found


@pytest.mark.parametrize("failed", [False, True])
@pytest.mark.parametrize("paper", PAPERS)
def test_every_code_says_what_its_label_says(paper: str, failed: bool) -> None:
    """Each code's lines are printed beside it, whole; there is one label for each board."""
    job = _job(paper, failed)
    pages = label_pages(job)
    texts = _decoded(pages)
    assert sorted(texts) == sorted(label.text for label in part_labels(job))
    assert len(texts) == len(job.plan.boards)
    printed = " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf_bytes(pages))).pages)
    for text in texts:
        for line in text.splitlines():
            assert " ".join(line.split()) in printed


def test_a_label_says_mark_room_wall_sheet_size_material_and_side() -> None:
    """Sizes of worked-room.md: the right board is 35 3/8 in wide and 95 5/8 in high."""
    label = next(one for one in part_labels(_job("letter", False)) if one.mark == "B-right-1")
    for words in ("R-001 worked recess", "wall right, sheet SH-04", '35 3/8" x 95 5/8"', '1/2" thick', "arrow up"):
        assert words in label.text
    assert label.up == "UP"


def test_a_failed_walls_labels_begin_with_the_stamp_and_say_why() -> None:
    labels = {label.mark: label for label in part_labels(_job("letter", True))}
    assert labels["B-right-1"].text.startswith("NOT FOR CUTTING: collision-body, valve body against stud")
    assert not any("NOT FOR" in labels[mark].text for mark in labels if not mark.startswith("B-right"))


@pytest.mark.parametrize("failed", [False, True])
def test_every_page_of_a_failed_room_says_so_and_no_page_of_a_sound_one(failed: bool) -> None:
    job = _job("letter", failed)
    boards = tuple(replace(b, id=f"{b.id}{i}") for b in job.plan.boards for i in range(3))
    pages = label_pages(replace(job, plan=replace(job.plan, boards=boards)))
    assert len(pages) == 2
    for page in PdfReader(io.BytesIO(pdf_bytes(pages))).pages:
        assert ("NOT FOR CUTTING" in page.extract_text()) == failed


def test_the_label_goes_on_the_back_unless_mortar_must_hold_that() -> None:
    """Boards without a screw are bonded."""
    job = _job("letter", False)
    bonded = replace(job, plan=replace(job.plan, fasteners=()))
    assert all("Stick on FRONT" in one.text and "peel off" in one.text for one in part_labels(bonded))
    screwed = replace(job, plan=finished_worked(worked_room()))
    assert all("Stick on BACK" in one.text for one in part_labels(screwed))


def test_a_part_that_leans_over_shows_the_top_of_its_drawing() -> None:
    job = _job("letter", False)
    walls = tuple(
        replace(w, v_axis=(0.0, 1.0, 0.0), feature_id="shelf", face="sill") if w.id == "left" else w
        for w in job.plan.walls
    )
    label = next(one for one in part_labels(replace(job, plan=replace(job.plan, walls=walls))) if "left" in one.mark)
    assert label.up == "TOP"
    assert "shelf, sill" in label.text
    assert "arrow to the top of its drawing" in label.text


@pytest.mark.parametrize("failed", [False, True])
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_is_in_the_way_and_all_is_inside_the_printers_margin(paper: str, failed: bool) -> None:
    for page in label_pages(_job(paper, failed)):
        assert overlaps(page) == ()
        margin = PAPERS[paper].margin
        assert (page.width, page.height) == (PAPERS[paper].width, PAPERS[paper].height)
        for item in page.ink:
            if isinstance(item, Text):
                assert item.height >= 2.5
            if isinstance(item, Outline):
                left, bottom, right, top = box(item.ring)
                assert left >= margin and bottom >= margin
                assert right <= page.width - margin and top <= page.height - margin


def test_the_longest_words_still_fit() -> None:
    """A failed wall with a long story, a long name, mirror images, bonded boards: all at once."""
    job = _job("letter", True)
    finding = replace(job.findings[0], subject="the bay between two studs is too wide for the board " * 4)
    room = replace(job.room, name="bathroom on the second floor of the house with the garden " * 2)
    right = next(b for b in job.plan.boards if b.id == "B-right-1")
    twin = replace(right, id="B-half-outside-10", outline=tuple((5000 - x, y) for x, y in reversed(right.outline)))
    twin = replace(twin, openings=tuple(replace(o, centre=(5000 - o.centre[0], o.centre[1])) for o in right.openings))
    twin = replace(twin, rabbets=tuple(replace(r, ring=tuple((5000 - x, y) for x, y in r.ring)) for r in right.rabbets))
    plan = replace(job.plan, fasteners=(), boards=(right, twin))
    full = replace(job, room=room, findings=(finding, finding), plan=plan)
    assert all("mirror image" in one.text and "peel off" in one.text for one in part_labels(full))
    (page,) = label_pages(full)
    assert overlaps(page) == ()
    assert sorted(_decoded((page,))) == sorted(one.text for one in part_labels(full))


@pytest.mark.parametrize("letters", [40, 200, 430])
def test_squares_are_large_enough_and_the_quiet_zone_is_white(letters: int) -> None:
    """Four squares stay white all round (ISO/IEC 18004), and no square is below 0.4 mm."""
    text = "B-right-1 NOT FOR CUTTING" + "x" * (letters - 25)
    ink = code_ink(text, 36.0, MODULE)
    left, bottom, right, top = box(p for item in ink for p in item.ring)
    module = min(x - n for item in ink for n, _, x, _ in [box(item.ring)])
    assert module >= MODULE - 1e-9
    for space in (left, bottom, 36.0 - right, 36.0 - top):
        assert space == pytest.approx(4 * module, abs=1e-4)
    assert _decoded((Page("1", "", 36.0, 36.0, "none", ink),)) == [text]


def test_words_in_any_script_survive_the_code() -> None:
    text = 'Łazienka 浴室, 35 3/8"\n135°'
    assert _decoded((Page("1", "", 36.0, 36.0, "none", code_ink(text, 36.0, MODULE)),)) == [text]


def test_the_same_job_gives_the_same_bytes() -> None:
    assert pdf_bytes(label_pages(_job("a4", True))) == pdf_bytes(label_pages(_job("a4", True)))
