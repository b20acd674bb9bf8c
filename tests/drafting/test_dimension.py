"""Running dimensions: values in order, apart, moved as little as can be."""

from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drafting.dimension import running, spread, staggered, strokes
from generator.drafting.ink import Dimension, Line, Outline, Stop, Text
from generator.drafting.overlap import flat, overlaps
from generator.drafting.page import Page, text_box

PLACES = st.lists(st.floats(0, 200).map(lambda x: round(x, 3)), min_size=1, max_size=12).map(sorted)


@settings(deadline=None)
@given(PLACES, st.floats(0.5, 20))
def test_spread_keeps_order_and_gap(wanted: list[float], gap: float) -> None:
    found = spread(wanted, gap)
    assert all(b - a >= gap - 1e-6 for a, b in pairwise(found))


@settings(deadline=None)
@given(PLACES, st.floats(0.5, 20), st.integers(0, 11), st.sampled_from([-0.05, 0.05]))
def test_no_single_move_makes_a_spread_better(wanted: list[float], gap: float, which: int, step: float) -> None:
    """The least-squares placement is convex: when no allowed shift of a tail or head helps, it is the best."""
    found = list(spread(wanted, gap))
    cut = which % len(found)
    moved = [x + step if (i >= cut) == (step > 0) else x for i, x in enumerate(found)]
    before = sum((a - b) ** 2 for a, b in zip(found, wanted, strict=True))
    after = sum((a - b) ** 2 for a, b in zip(moved, wanted, strict=True))
    assert after >= before - 1e-6


def test_values_that_have_room_stay_where_they_are() -> None:
    assert spread([0.0, 10.0, 30.0], 4.0) == (0.0, 10.0, 30.0)


@settings(deadline=None)
@given(PLACES)
def test_values_of_a_running_dimension_never_touch(places: list[float]) -> None:
    stops = [Stop(60 + x, f'{i} 15/16"', 59.0) for i, x in enumerate(places)]
    for axis in ("x", "y"):
        ink = running(axis, 40.0, 60.0, stops)
        page = Page("1", "", 400.0, 400.0, "", ink)
        assert [text for text in overlaps(page) if "over" in text and "beyond" not in text] == []


def test_places_that_read_alike_are_said_once() -> None:
    """Two corners a fraction apart read the same on a tape that starts at the datum: the nearer one is dimensioned."""
    stops = [Stop(70.2, "a"), Stop(90.0, "b"), Stop(70.0, "a")]
    texts = [i for i in flat(running("x", 40.0, 60.0, stops)) if isinstance(i, Text)]
    assert [text.text for text in texts] == ["a", "b"]
    assert texts[0].at[0] == pytest.approx(70.0, abs=1e-6)


def test_each_value_is_joined_to_its_tick() -> None:
    ink = tuple(flat(running("x", 40.0, 60.0, [Stop(70.0, "a", 59.0), Stop(70.5, "b", 59.0)])))
    texts = {item.text: item.at[0] for item in ink if isinstance(item, Text)}
    feet = {item.end[0] for item in ink if isinstance(item, Line)}
    assert texts["a"] < texts["b"]
    assert set(texts.values()) <= feet


def test_a_dimension_too_narrow_for_its_text_puts_it_beside() -> None:
    narrow = strokes(Dimension((10, 0), (14, 0), "x", 10, '12 15/16"', 4))
    wide = strokes(Dimension((10, 0), (60, 0), "x", 10, '12 15/16"', 50))
    assert next(i for i in narrow if isinstance(i, Text)).at[0] > 14
    assert next(i for i in wide if isinstance(i, Text)).at[0] == 35


@settings(deadline=None)
@given(st.lists(st.tuples(st.floats(0, 60), st.floats(0.5, 60)), min_size=1, max_size=6), st.sampled_from([1, -1]))
def test_no_text_of_staggered_dimensions_lies_on_an_extension_line(spans: list[tuple[float, float]], side: int) -> None:
    """Dimensions of any spans one outside the other, left or right of a thing, each with a text in both units."""
    dims = [
        Dimension((80.0, 70 + a), (80.0, 70 + a + size), "y", 80 + side * 5.2 * (i + 1), '12 15/16" [329]', size)
        for i, (a, size) in enumerate(spans)
    ]
    page = Page("1", "", 200.0, 400.0, "", staggered(dims))
    assert [text for text in overlaps(page) if "beyond" not in text] == []


def test_texts_of_upright_dimensions_stay_below_the_ceiling() -> None:
    dim = Dimension((10.0, 0.0), (10.0, 5.0), "y", 5.0, '12 15/16" [329]', 5.0)
    (free,), (low,) = staggered((dim,)), staggered((dim,), 8.0)
    tops = [max(y for _, y in text_box(i)) for d in (free, low) for i in strokes(d) if isinstance(i, Text)]
    assert tops[0] > 8.0 >= tops[1]


def test_a_text_that_has_room_is_not_moved() -> None:
    near = Dimension((0.0, 0.0), (60.0, 0.0), "x", 5.0, "60", 60.0)
    far = Dimension((0.0, 0.0), (90.0, 0.0), "x", 10.2, "90", 90.0)
    assert staggered((near, far)) == (near, far)


def test_a_tick_is_as_heavy_as_a_thick_line_and_a_stroke_is_a_line() -> None:
    """0.6 mm with the 0.3 mm pen of its edge (ASME Y14.2-2008, 2.1), across the line at 45 degrees."""
    thin = Dimension((0.0, 0.0), (60.0, 0.0), "x", 5.0, "60", 60.0)
    assert not [i for i in strokes(thin) if isinstance(i, Outline)]
    ticks = [i for i in strokes(replace(thin, ends="tick")) if isinstance(i, Outline)]
    assert len(ticks) == 2
    for tick, at in zip(ticks, (0.0, 60.0), strict=True):
        a, b, c, _ = tick.ring
        assert dist(b, c) + 0.3 == pytest.approx(0.6)
        assert (b[1] - a[1]) / (b[0] - a[0]) == pytest.approx(1.0)
        assert ((a[0] + c[0]) / 2, (a[1] + c[1]) / 2) == pytest.approx((at, 5.0))
