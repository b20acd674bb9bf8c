"""Views, turns, clipping and free spots, each against plain arithmetic or shapely."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from generator.drafting.clip import clip
from generator.drafting.ink import Circle, Dimension, Ink, Line, Outline, Text, View, turn
from generator.drafting.page import shortened, text_box, text_width, wrap
from generator.drafting.spot import Block, fit_block, place_block
from generator.model.geometry import area, rectangle

INK: tuple[Ink, ...] = (
    Line((1, 2), (3, 4), "cut"),
    Circle((5, 6), 2, "opening"),
    Outline(((0, 0), (8, 0), (8, 3), (2, 9)), "cut"),
    Text((3, 3), "x", 2, angle=90),
)


def test_a_view_scales_geometry_and_leaves_text_its_height() -> None:
    line, circle, outline, text = View(0.5, (100, 200), (1, 2)).place(INK)
    assert isinstance(line, Line)
    assert (line.start, line.end) == ((100, 200), (101, 201))
    assert isinstance(circle, Circle)
    assert (circle.centre, circle.radius) == ((102, 202), 1)
    assert isinstance(text, Text)
    assert (text.at, text.height) == ((101, 200.5), 2)
    assert isinstance(outline, Outline)
    assert outline.ring[1] == (103.5, 199)


def test_four_quarter_turns_are_none() -> None:
    ink = INK
    for i in range(4):
        ink = turn(ink, 90, (10, 20) if i % 2 == 0 else (20, 10))
    assert ink == INK


def test_a_half_turn_is_two_quarter_turns_and_keeps_the_area() -> None:
    twice = turn(turn(INK, 90, (10, 20)), 90, (20, 10))
    assert twice == turn(INK, 180, (10, 20))
    before, after = INK[2], twice[2]
    assert isinstance(before, Outline)
    assert isinstance(after, Outline)
    assert area(after.ring) == area(before.ring), "turned, never mirrored"


def test_a_quarter_turn_is_counter_clockwise() -> None:
    (line,) = turn((Line((0, 0), (10, 0), "cut"),), 90, (10, 20))
    assert isinstance(line, Line)
    assert (line.start, line.end) == ((20, 0), (20, 10))


def test_dimensions_are_not_turned() -> None:
    with pytest.raises(TypeError):
        turn((Dimension((0, 0), (1, 0), "x", 1, "1", 1),), 90, (1, 1))


@settings(deadline=None)
@given(st.floats(-50, 150), st.floats(-50, 150), st.floats(1, 80))
def test_clipping_keeps_just_what_is_inside(x: float, y: float, r: float) -> None:
    window = rectangle(0, 0, 100, 60)
    pieces = clip((Circle((x, y), r, "cut"),), window)
    inside = Polygon(window).intersection(Point(x, y).buffer(r, quad_segs=2000).exterior).length
    length = sum(
        2 * math.pi * p.radius if isinstance(p, Circle) else LineString(p.ring).length
        for p in pieces
        if isinstance(p, Circle | Outline)
    )
    assert length == pytest.approx(inside, abs=0.01 * r + 1e-6)


def test_a_text_is_kept_whole_or_left_out() -> None:
    window = rectangle(0, 0, 30, 10)
    inside, across = Text((1, 1), "in", 3), Text((25, 1), "across", 3)
    assert clip((inside, across), window) == (inside,)


@settings(deadline=None)
@given(st.lists(st.text("abcdefgh", min_size=1, max_size=12), min_size=1, max_size=30), st.floats(20, 120))
def test_wrapped_lines_fit_and_lose_no_word(words: list[str], width: float) -> None:
    lines = wrap(" ".join(words), 2.5, width)
    assert " ".join(lines).split() == words
    assert all(text_width(line, 2.5) <= width or " " not in line for line in lines)


@settings(deadline=None)
@given(st.text("abcdefghij MWl", min_size=1, max_size=60), st.floats(10, 60))
def test_shortened_text_fits(text: str, width: float) -> None:
    found = shortened(text, 2.5, width)
    assert text_width(found, 2.5) <= width
    assert found == text or found.endswith("...")


def test_a_block_stands_free() -> None:
    shape, hole = (
        ((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (30.0, 20.0), (30.0, 100.0), (0.0, 100.0)),
        rectangle(5, 30, 25, 60),
    )
    texts = place_block(Block(("B-1", "front face up")), shape, [hole], (8.0, 5.0, 3.0))
    free = Polygon(shape).difference(Polygon(hole))
    assert all(free.contains(Polygon(text_box(text))) for text in texts)
    assert [text.text for text in texts] == ["B-1", "front face up"]


def test_a_block_that_fits_nowhere_says_so() -> None:
    assert fit_block(Block(("far too long for this",)), rectangle(0, 0, 9, 9), (), (3.0,)) == ()
    assert len(place_block(Block(("far too long for this",)), rectangle(0, 0, 9, 9), (), (3.0,))) == 1
