"""SVG pages: well-formed, of the paper's size, with every line and word of the page in its place."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from generator.drafting.ink import Arc, Circle, Ink, Line, Outline, Text
from generator.drafting.overlap import flat
from generator.drafting.page import Page
from generator.drawings.cutsheets import cut_sheets
from generator.writers.svg import svg_bytes
from tests.drawings.worked_job import worked_job

SVG = "{http://www.w3.org/2000/svg}"


def _tree(*ink: Ink) -> ET.Element:
    return ET.fromstring(svg_bytes(Page("1", "A & B", 200, 100, "", ink)))


def test_a_real_page_has_all_its_words() -> None:
    page = cut_sheets(worked_job("right"))[3]
    tree = ET.fromstring(svg_bytes(page))
    words = [e.text for e in tree.iter(f"{SVG}text")]
    assert words == [i.text for i in flat(page.ink) if isinstance(i, Text)]
    assert tree.get("width") == f"{page.width:g}mm"


def test_y_is_turned_over_and_angles_with_it() -> None:
    tree = _tree(Line((10, 10), (20, 30), "cut"), Text((50, 20), "<up>", 3, angle=90), Circle((5, 5), 2, "cut"))
    assert tree.findall(f"{SVG}path")[0].get("d") == "M 10 90 L 20 70"
    text = tree.find(f"{SVG}text")
    assert text is not None
    assert text.get("transform") == "translate(50 80) rotate(-90)"
    assert text.text == "<up>"
    circle = tree.find(f"{SVG}circle")
    assert circle is not None
    assert (circle.get("cx"), circle.get("cy"), circle.get("r")) == ("5", "95", "2")


@pytest.mark.parametrize(("end", "large"), [(90, 0), (300, 1)])
def test_arcs_turn_counter_clockwise(end: float, large: int) -> None:
    path = _tree(Arc((50, 50), 10, 0, end, "cut")).find(f"{SVG}path")
    assert path is not None
    assert path.get("d", "").startswith(f"M 60 50 A 10 10 0 {large} 0 ")


def test_fills_are_grey_and_open_outlines_stay_open() -> None:
    filled, open_ = _tree(
        Outline(((0, 0), (9, 0), (9, 9)), "light", fill=0.5, edge=False),
        Outline(((0, 0), (9, 0), (9, 9)), "cut", closed=False),
    ).findall(f"{SVG}path")
    assert (filled.get("fill"), filled.get("stroke")) == ("#808080", None)
    assert not open_.get("d", "").endswith("Z")
