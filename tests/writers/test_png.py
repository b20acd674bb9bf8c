"""Pictures of pages: read back with Pillow and measured in pixels against the ink."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from generator.drafting.ink import Ink, Outline, Text
from generator.drafting.page import Page, text_box
from generator.model.geometry import box, rectangle
from generator.writers.pdf import pdf_bytes
from generator.writers.png import DPI, png_pages

PX = DPI / 25.4
"""Pixels in one mm."""


def _picture(*ink: Ink) -> Image.Image:
    return Image.open(io.BytesIO(png_pages(pdf_bytes((Page("1", "", 100, 60, "none", ink),)))[0]))


def _dark(image: Image.Image) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) of what is darker than half, in mm of the page."""
    found = image.convert("L").point([255 if grey < 128 else 0 for grey in range(256)]).getbbox()
    assert found is not None
    left, top, right, bottom = found
    return left / PX, 60 - bottom / PX, right / PX, 60 - top / PX


def test_ink_lies_where_the_page_has_it() -> None:
    image = _picture(Outline(rectangle(20, 10, 70, 40), "cut", fill=0.0, edge=False))
    assert image.size == (394, 237)  # 100 x 60 mm at 100 dots an inch, begun dots counted
    assert _dark(image) == pytest.approx((20, 10, 70, 40), abs=1.5 / PX)


@pytest.mark.parametrize("words", ["NOT FOR CUTTING: valve and stud", 'MMMM 35 3/8" x 95 5/8"', "illicit filings"])
@pytest.mark.parametrize("bold", [False, True])
def test_letters_are_as_wide_as_the_drawings_think(words: str, bold: bool) -> None:
    """What `overlaps` proves of the boxes holds for the picture: the ink stays in its box and fills it."""
    text = Text((5, 30), words, 3.0, bold=bold)
    left, bottom, right, top = box(text_box(text))
    seen = _dark(_picture(text))
    assert seen[0] >= left - 1 / PX and seen[2] <= right + 1 / PX
    assert seen[1] >= bottom - 1 / PX and seen[3] <= top + 1 / PX
    assert seen[2] - seen[0] >= right - left - 1.0


def test_sixteen_greys_in_four_bits() -> None:
    data = png_pages(pdf_bytes((Page("1", "", 50, 50, "none", (Text((5, 5), "grey", 8.0),)),)))[0]
    assert data[24:26] == bytes((4, 3))  # IHDR (PNG specification): bit depth 4, colour type 3, a palette
    assert len(Image.open(io.BytesIO(data)).convert("L").getcolors() or ()) <= 16


def test_every_page_has_its_picture_and_always_the_same() -> None:
    pages = tuple(Page(str(i), "", 40 + i, 30, "none", (Text((2, 5), f"page {i}", 4.0),)) for i in range(3))
    pictures = png_pages(pdf_bytes(pages))
    assert [Image.open(io.BytesIO(p)).width for p in pictures] == [158, 162, 166]
    assert len(set(pictures)) == 3
    assert png_pages(pdf_bytes(pages)) == pictures
