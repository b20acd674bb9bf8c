"""Both practices of drawing, read back from PDF, SVG and DXF by other programs."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import ezdxf
import pypdf
import pytest

from generator.drafting.page import Page
from generator.drawings.parts import part_drawings
from generator.drawings.set import draw_set
from generator.model.job import Job
from generator.reading import load_catalogue
from generator.units import Units
from generator.writers.dxf import dxf_bytes
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_bytes
from generator.writers.svg import svg_bytes
from tests.drawings.set_job import set_job

INCH = 25.4
PAPER: dict[Units, str] = {"in": "tabloid", "mm": "a3"}
ISO_128, ISO_3098 = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7}, {2.5, 3.5, 5.0, 7.0}
"""mm: part of the series of widths and of heights (facts.md, section 7)."""
ASME = {0.3, 0.6}
"""mm: thin and thick line (ASME Y14.2-2008, 2.1: 0.3 mm and 0.6 mm at least, in a ratio of two to one)."""
OFFICE = {3 / 32 * INCH, 1 / 8 * INCH, 3 / 16 * INCH, 1 / 4 * INCH}
"""mm: heights usual in US offices, 3/32 in the least."""
WIDTHS = {"iso": ISO_128, "us": ASME}
HEIGHTS = {"iso": ISO_3098, "us": OFFICE}
CASES: list[tuple[str, Units]] = [("iso", "mm"), ("iso", "in"), ("us", "in"), ("us", "mm")]
CAPITAL = 0.718
"""Height of a capital of Helvetica in em (its published metrics)."""
BLANK = 12 * CAPITAL
"""What a page's content begins with, before any writing."""


@cache
def _job(practice: str, units: Units) -> Job:
    job = set_job(PAPER[units], units, failed=True)
    choices = replace(job.room.choices, practice=load_catalogue().practices[practice])
    return replace(job, room=replace(job.room, choices=choices))


@cache
def _pages(practice: str, units: Units) -> tuple[Page, ...]:
    return draw_set(_job(practice, units))


def _near(value: float, wanted: set[float]) -> bool:
    return any(value == pytest.approx(one, abs=0.001) for one in wanted)


@pytest.mark.parametrize(("practice", "units"), CASES)
def test_lines_and_writing_of_the_pdf_have_the_published_sizes(practice: str, units: Units) -> None:
    """Operators w and Tf of the pages' content; the page's own matrix makes their numbers millimetres."""
    widths, heights = set(), set()
    for page in pypdf.PdfReader(io.BytesIO(pdf_bytes(_pages(practice, units)))).pages:
        stream = page.get_contents()
        assert stream is not None
        content = stream.get_data().decode("latin-1")
        widths |= {float(n) for n in re.findall(r"^([\d.]+) w\b", content, re.MULTILINE)}
        heights |= {float(n) * CAPITAL for n in re.findall(r"/F\d+ ([\d.]+) Tf", content)}
    assert [w for w in widths if not _near(w, {*WIDTHS[practice], 1.0})] == [], "1: reportlab's own, before any line"
    assert all(_near(w, widths) for w in WIDTHS[practice] - {0.13})
    heights -= {BLANK}
    assert [h for h in heights if not _near(h, HEIGHTS[practice])] == []
    assert all(_near(h, heights) for h in HEIGHTS[practice])


@pytest.mark.parametrize(("practice", "units"), CASES)
def test_lines_of_the_svg_have_them_too(practice: str, units: Units) -> None:
    for page in _pages(practice, units):
        widths = {float(n) for n in re.findall(r'stroke-width="([\d.]+)"', svg_bytes(page).decode())}
        assert widths <= WIDTHS[practice], page.title


@pytest.mark.parametrize(("practice", "units"), CASES)
def test_layers_and_dimension_styles_of_sheets_have_the_published_sizes(practice: str, units: Units) -> None:
    page = next(p for p in _pages(practice, units) if p.title == "Board elevation, back wall")
    assert page.sheet
    document = ezdxf.read(io.StringIO(sheet_bytes(page, page.sheet, units, "ncs").decode()))
    weights = {layer.dxf.name: layer.dxf.lineweight / 100 for layer in document.layers if layer.dxf.name != "0"}
    assert set(weights.values()) - {-0.03} <= WIDTHS[practice]
    thin, thick = (0.18, 0.5) if practice == "iso" else (0.3, 0.6)
    assert (weights["A-ANNO-DIMS"], weights["A-WALL-BORD"]) == (thin, thick)
    unit = INCH if units == "in" else 1.0
    wanted = 2.5 if practice == "iso" else 3 / 32 * INCH
    styles = [style for style in document.dimstyles if style.dxf.name.startswith(("SIZE", "RUNNING"))]
    assert styles
    for style in styles:
        assert style.dxf.dimtxt * unit == pytest.approx(wanted, abs=1e-6)
        assert style.dxf.dimtad == (1 if style.dxf.name.startswith("SIZE") else 0), "above the line, or beyond its end"
        assert chr(style.dxf.dimdsep) == ("," if practice == "iso" else "."), "ISO 129-1:2018 writes a comma"
        assert style.dxf.dimblk2 == ("_OBLIQUE" if practice == "iso" else "_ARCHTICK")
    assert document.header["$DIMTXT"] * unit == pytest.approx(wanted, abs=1e-6)
    dimensions = document.modelspace().query("DIMENSION")
    for dim in dimensions:
        (text,) = dim.get_geometry_block().query("TEXT MTEXT")
        height = text.dxf.char_height if text.dxftype() == "MTEXT" else text.dxf.height
        scale = document.dimstyles.get(dim.dxf.dimstyle).dxf.dimscale
        assert height * unit / scale == pytest.approx(wanted, abs=1e-4)
    assert len(dimensions) > 4


@pytest.mark.parametrize(("practice", "units"), CASES[::2])
def test_layers_of_parts_have_the_published_widths(practice: str, units: Units) -> None:
    job = _job(practice, units)
    for part in part_drawings(job)[:2]:
        data = dxf_bytes(part.ink, units, "ncs", job.room.choices.practice)
        layers = ezdxf.read(io.StringIO(data.decode())).layers
        weights = {layer.dxf.lineweight / 100 for layer in layers if layer.dxf.name not in ("0", "Defpoints")}
        assert weights and weights <= WIDTHS[practice]


@pytest.mark.parametrize(("practice", "first"), [("iso", "side"), ("us", "end")])
def test_the_symbol_of_projection_has_its_views_in_the_order_of_its_angle(practice: str, first: str) -> None:
    """First angle: side, then end; third angle: end, then side (ISO 5456-2, from memory). The left end is small."""
    svg = svg_bytes(_pages(practice, "in")[0]).decode()
    circles = [(float(x), float(r)) for x, r in re.findall(r'<circle cx="([\d.]+)" cy="[\d.]+" r="([\d.]+)"', svg)]
    ends = [x for x, r in circles if r == 2.5]
    assert len(ends) == 1
    height = 11 * INCH - 10 - 9 / 2
    rings = re.findall(r'<path d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) L ([\d.]+) [\d.]+ L [\d.]+ [\d.]+ Z"', svg)
    cones = [[float(n) for n in ring] for ring in rings if float(ring[1]) == pytest.approx(height + 1.25, abs=0.01)]
    ((left, low, right, lower, _),) = cones
    assert low < lower, "y counts downwards: the right end is the larger one"
    assert ((left + right) / 2 < ends[0]) == (first == "side")
