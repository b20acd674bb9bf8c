"""Drawings in both units: the lengths in brackets are the same lengths, read back from DXF and PDF."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

import ezdxf
import pypdf
import pytest

from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.units import Units, paper_step
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_bytes
from tests.drawings.set_job import set_job

INCH = 25.4
CASES: list[tuple[str, Units, Units]] = [("tabloid", "in", "mm"), ("a3", "mm", "in")]
SAID = re.compile(r'(?:^| )((?:\d+[ -])?[\d/.]+"?)(\*?) \[([^\]]+)\](?: add)?$')
"""The length at the end of a dimension's words, the mark of one that is as entered, and the length in brackets."""


@cache
def _pages(paper: str, units: Units, other: Units) -> tuple[Page, ...]:
    job = set_job(paper, units)
    return draw_set(replace(job, room=replace(job.room, choices=replace(job.room.choices, other_units=other))))


def _mm(text: str) -> float:
    """Inches bear their mark, millimetres nothing; read by other means than the project's own."""
    parts = re.split("[ -]", text.removesuffix('"'))
    return float(sum(Fraction(part) for part in parts)) * (INCH if text.endswith('"') else 1.0)


@pytest.mark.parametrize(("paper", "units", "other"), CASES)
def test_dimensions_say_what_they_measure_in_both_units(paper: str, units: Units, other: Units) -> None:
    unit, said = INCH if units == "in" else 1.0, 0
    for page in _pages(paper, units, other):
        assert page.sheet
        document = ezdxf.read(io.StringIO(sheet_bytes(page, page.sheet, units, "ncs").decode()))
        for dim in document.modelspace().query("DIMENSION"):
            found = SAID.search(dim.dxf.text)
            assert found, dim.dxf.text
            main, entered, bracket = found.groups()
            assert main.endswith('"') != bracket.endswith('"'), "one length in either unit"
            for text in (main, bracket):
                step = paper_step("in" if text.endswith('"') else "mm")
                assert _mm(text) == pytest.approx(dim.dxf.actual_measurement * unit, abs=step / 2 + 1e-4)
            assert entered or main.endswith('"') == (units == "in"), "the main unit first, but for what was entered"
            said += 1
    assert said > 60


@pytest.mark.parametrize(("paper", "units", "other"), CASES)
def test_every_sheet_says_which_unit_stands_in_brackets(paper: str, units: Units, other: Units) -> None:
    words = {"in": "inches", "mm": "millimetres"}
    for page in pypdf.PdfReader(io.BytesIO(pdf_bytes(_pages(paper, units, other)))).pages:
        assert f"Lengths in {words[units]} [{words[other]}]." in page.extract_text()
