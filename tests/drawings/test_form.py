"""The blank form: a box for every question, nothing over anything, the same bytes, true check bars."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from generator.asking.job_questions import SAFETY
from generator.asking.kinds import KINDS, form_of
from generator.asking.questions import Form
from generator.drafting.dimension import strokes
from generator.drafting.ink import Dimension, Outline, Text
from generator.drafting.layers import pen
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.form import form_pages
from generator.reading import load_catalogue
from generator.units import Units
from generator.writers.pdf import pdf_bytes

CASES = [(kind, paper, units) for kind in KINDS for paper, units in (("letter", "in"), ("a4", "mm"))]


def _form(kind: str, units: Units) -> Form:
    return form_of(kind, units, load_catalogue())


def _pages(kind: str, paper: str, units: Units) -> tuple[Page, ...]:
    return form_pages(_form(kind, units), load_catalogue().papers[paper])


def _words(page: Page) -> list[str]:
    flat = [part for item in page.ink for part in (strokes(item) if isinstance(item, Dimension) else (item,))]
    return [item.text for item in flat if isinstance(item, Text)]


@pytest.mark.parametrize(("kind", "paper", "units"), CASES)
def test_nothing_gets_in_the_way_of_the_writing(kind: str, paper: str, units: Units) -> None:
    assert [(page.name, overlaps(page)) for page in _pages(kind, paper, units) if overlaps(page)] == []


@pytest.mark.parametrize(("kind", "paper", "units"), CASES)
def test_every_question_has_its_box_and_every_label_is_a_box(kind: str, paper: str, units: Units) -> None:
    words = [word for page in _pages(kind, paper, units) for word in _words(page)]
    boxes = {question.box for question in _form(kind, units).questions}
    assert boxes <= set(words)
    labels = {part for word in words for part in re.findall(r"\b[A-L][0-9]+\b", word)} - {"A4"}
    assert labels <= boxes | {"A4"}


@pytest.mark.parametrize("kind", KINDS)
def test_every_length_of_a_wall_and_of_the_base_is_on_a_sketch(kind: str) -> None:
    """Its box's name stands twice: at the box and in the sketch (blocking and nailers share a label)."""
    pages = _pages(kind, "letter", "in")
    words = [word for page in pages for word in _words(page)]
    form = _form(kind, "in")
    drawn = {"length", "width", "bottom", "middle", "top", "height-left", "height-right", "rising", "falling"}
    drawn |= {"deck", "plumb-left", "plumb-right", "marks", "line-0-off", "hole-0-at", "hole-0-wide", "notch-0-deep"}
    drawn |= {"niche-1-across", "niche-1-up", "niche-1-width", "niche-1-height", "niche-1-depth", "window-1-depth"}
    drawn |= {"mount-1-across", "mount-1-up", "mount-1-length", "bench-depth", "bench-height", "curb", "curb-height"}
    drawn |= {"soffit-depth", "soffit-height"}
    drawn |= {q.mark for q in form.questions if q.mark.startswith(("gap-", "deck-", "return-"))} | {"front"}
    for section in form.sections[:-1]:
        for question in section.questions:
            if question.mark in drawn:
                assert words.count(question.box) == 2, question.prompt


def test_safety_comes_first_and_is_ticked() -> None:
    first = _words(_pages("recess", "letter", "in")[0])
    assert first.index(SAFETY[0]) < first.index("A1")


@pytest.mark.parametrize(("kind", "paper", "units"), CASES)
def test_check_bars_are_true_and_all_boxes_lie_inside_the_margins(kind: str, paper: str, units: Units) -> None:
    margin = load_catalogue().papers[paper].margin
    for page in _pages(kind, paper, units):
        assert [round(bar.q[0] - bar.p[0], 6) for bar in page.bars] == [101.6, 100.0]
        for item in page.ink:
            if isinstance(item, Outline):
                assert all(margin - 0.01 <= x <= page.width - margin + 0.01 for x, _ in item.ring)


def test_printed_black_the_pale_frames_are_still_there() -> None:
    assert pen("light").grey <= 0.5


def test_the_same_form_gives_the_same_bytes_and_can_be_searched() -> None:
    data = pdf_bytes(_pages("corner", "a4", "mm"))
    assert data == pdf_bytes(_pages("corner", "a4", "mm"))
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
    assert "600 mm" in text
    assert "lead and asbestos" in text
