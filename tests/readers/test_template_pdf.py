"""Template files as a printer sees them: rendered by pdfium, measured in pixels, read by pypdf."""

from __future__ import annotations

import io
import math
from itertools import pairwise
from math import dist
from typing import Any

import pypdf
import pypdf.generic
import pypdfium2
import pytest
import shapely
from shapely.affinity import translate

from generator.drafting.ink import Circle
from generator.drafting.page import Page, job_bars
from generator.drawings.cutsheets import cut_sheets
from generator.drawings.templates import Template, templates
from generator.reading import load_catalogue
from generator.writers.pdf import pdf_bytes
from tests.drawings.worked_job import PAPERS, worked_job
from tests.readers.librecad import lines_of
from tests.worked_room import TABLOID

PX = 20.0
"""Pixels in one mm (508 dpi)."""
DARK = 128
FOOT = 40.0
"""mm: both bars lie lower than this."""
ALL = (*PAPERS, TABLOID, *(load_catalogue(()).papers[name] for name in ("a3", "roll-24", "roll-610-mm")))
TOLERANCE = 0.1
"""mm: what issue 2 asks of the bars."""


def _file(paper: Any, *failed: str) -> tuple[Template, bytes]:
    """Notch, then spout and valve (on two pages of the small papers), then arm."""
    template = next(t for t in templates(worked_job(*failed), paper) if (t.board, t.face) == ("B-right-1", "front"))
    return template, pdf_bytes(template.pages, "templates")


def _picture(data: bytes, page: int, lowest: float = 1e9) -> Any:
    """Grey values, row 0 at the top; of the `lowest` mm of the page."""
    found = pypdfium2.PdfDocument(data)[page]
    crop = (0.0, 0.0, 0.0, max(0.0, found.get_height() - lowest * 72 / 25.4))
    return found.render(scale=PX * 25.4 / 72, grayscale=True, crop=crop).to_numpy().squeeze()


def _dark_runs(row: Any) -> list[float]:
    """Middles, in mm, of the dark stretches of a row of pixels."""
    dark = [i for i, value in enumerate(row) if value < DARK]
    starts = [i for k, i in enumerate(dark) if k == 0 or dark[k - 1] != i - 1]
    ends = [i for k, i in enumerate(dark) if k == len(dark) - 1 or dark[k + 1] != i + 1]
    return [(a + b + 1) / 2 / PX for a, b in zip(starts, ends, strict=True)]


@pytest.mark.parametrize("paper", ALL, ids=lambda paper: str(paper.id))
def test_the_bars_of_every_page_are_true(paper: Any) -> None:
    """The end ticks, 1 mm below each bar, are as far apart as the bar says, and where plan.json will say."""
    template, data = _file(paper)
    for number, page in enumerate(template.pages):
        picture = _picture(data, number, FOOT)
        for bar in page.bars:
            row = picture[len(picture) - round((bar.p[1] - 1.0) * PX)]
            ticks = [x for x in _dark_runs(row) if bar.p[0] - 1 < x < bar.q[0] + 1]
            assert len(ticks) == 2
            assert ticks[1] - ticks[0] == pytest.approx(bar.length, abs=TOLERANCE)
            assert ticks[0] == pytest.approx(bar.p[0], abs=TOLERANCE)
    assert {bar.length for bar in job_bars(template.pages)} == {101.6, 100.0}
    assert [bar.page for bar in job_bars(template.pages)] == [n + 1 for n in range(len(template.pages)) for _ in "io"]


def test_the_valve_is_cut_at_its_true_size() -> None:
    """Valve opening 5 in round: along eight rays from its centre, the heavy line is met at 63.5 mm."""
    template, data = _file(PAPERS[0])
    page = template.pages[2]
    centre = next(i.centre for i in page.ink if getattr(i, "layer", "") == "opening" and hasattr(i, "centre"))
    picture = _picture(data, 2)
    for turn in (30, 60, 120, 150, 210, 240, 300, 330):
        way = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
        steps = [r / 40 for r in range(40 * 60, 40 * 67)]
        spots = [(centre[0] + r * way[0], page.height - centre[1] - r * way[1]) for r in steps]
        dark = [r for r, (x, y) in zip(steps, spots, strict=True) if picture[int(y * PX), int(x * PX)] < DARK]
        assert (dark[0] + dark[-1]) / 2 == pytest.approx(63.5, abs=TOLERANCE)


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_are_of_the_paper_and_searchable(paper: Any) -> None:
    template, data = _file(paper, "right")
    document = pypdfium2.PdfDocument(data)
    assert len(document) == len(template.pages)
    for page, drawn in zip(document, template.pages, strict=True):
        assert [side * 25.4 / 72 for side in page.get_size()] == pytest.approx([drawn.width, drawn.height], abs=1e-3)
        text = page.get_textpage().get_text_bounded()
        assert "NOT FOR CUTTING" in text
        assert "Measure both bars before cutting" in text
        assert "B-right-1" in text


def test_centres_are_where_the_plan_has_them_when_the_pages_are_put_together() -> None:
    """Spout 4-1/4 and valve 9-1/4 above the board's lower edge on one plumb line (worked room): what pdfium reads of
    two pages laid on each other by their targets covers circles drawn there.
    """
    template, _ = _file(PAPERS[0])
    low, high = (lines_of(pdf_bytes((template.pages[n],))) for n in (1, 2))
    (x, y), (a, b) = (min(_targets(template.pages[n])) for n in (1, 2))
    printed = shapely.union_all([low, translate(high, x - a, y - b)]).buffer(TOLERANCE)
    level = {p[1] for p, q in _long(low) if abs(p[1] - q[1]) < 0.01}
    plumb = {p[0] for p, q in _long(low) if abs(p[0] - q[0]) < 0.01}
    assert any(
        printed.covers(_round(u, v + 4.25 * 25.4, 0.875 * 25.4)) and printed.covers(_round(u, v + 9.25 * 25.4, 127.0))
        for u in plumb
        for v in level
    )


def _targets(page: Page) -> list[tuple[float, float]]:
    return [i.centre for i in page.ink if isinstance(i, Circle) and i.layer == "register"]


def _long(lines: shapely.MultiLineString) -> list[Any]:
    strokes = (stroke for line in lines.geoms for stroke in pairwise(line.coords))
    return [(p, q) for p, q in strokes if dist(p, q) > 50.0]


def _round(x: float, y: float, diameter: float) -> Any:
    return shapely.Point(x, y).buffer(diameter / 2, quad_segs=32).exterior


def test_no_page_of_a_sound_wall_is_stamped() -> None:
    _, data = _file(PAPERS[0], "left", "back")
    for page in pypdfium2.PdfDocument(data):
        assert "NOT FOR CUTTING" not in page.get_textpage().get_text_bounded()


def test_the_viewer_is_asked_not_to_scale_and_pages_have_labels_and_bookmarks() -> None:
    template, data = _file(PAPERS[0])
    reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
    root: Any = reader.root_object
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.page_labels == [page.name for page in template.pages]
    titles = [entry.title for entry in reader.outline if isinstance(entry, pypdf.generic.Destination)]
    assert titles == [f"{page.name}  {page.title}" for page in template.pages]


def test_writing_is_as_wide_as_drafting_believes() -> None:
    """pdfium's own measure of the words at the head of a cut sheet's list against `text_width`."""
    from generator.drafting.ink import Text
    from generator.drafting.page import text_box

    page = cut_sheets(worked_job())[0]
    drawn = next(i for i in page.ink if isinstance(i, Text) and i.text.startswith("foam-core board"))
    textpage = pypdfium2.PdfDocument(pdf_bytes((page,)))[0].get_textpage()
    found = textpage.search(drawn.text).get_next()
    assert found is not None
    boxes = [textpage.get_charbox(found[0] + i, loose=True) for i in range(found[1])]
    width = (max(b[2] for b in boxes) - min(b[0] for b in boxes)) * 25.4 / 72
    corners = text_box(drawn)
    assert width == pytest.approx(corners[1][0] - corners[0][0], rel=0.02)
