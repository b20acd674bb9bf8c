"""Lengths: what people write, read exactly or refused with the reason."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.units import (
    INCH,
    LengthError,
    PaperUnits,
    Units,
    either,
    label,
    label_feet,
    label_named,
    label_opening,
    label_size,
    label_thickness,
    paper_step,
    parse_length,
    size_named,
    thickness_named,
    to_units,
)

IN = Fraction(127, 5)

READ = {
    "60 1/4": Fraction(241, 4),
    '60-1/4"': Fraction(241, 4),
    "60   1/4 in": Fraction(241, 4),
    "5' 0-1/4\"": Fraction(241, 4),
    "5'-0 1/4\"": Fraction(241, 4),
    "5'-0-1/4\"": Fraction(241, 4),
    "5'0 1/4\"": Fraction(241, 4),
    "5 ft 3/4 in": Fraction(243, 4),
    "5 FT. 3 Inches": Fraction(63),
    "5'": Fraction(60),
    "5 1/2'": Fraction(66),
    "1/2 foot": Fraction(6),
    "3/4": Fraction(3, 4),
    "60.25": Fraction(241, 4),
    "60.1": Fraction(601, 10),
    ".5": Fraction(1, 2),
    "0": Fraction(0),
    " 60 ": Fraction(60),
    "60in.": Fraction(60),
    "60¼": Fraction(241, 4),
    "60 ¼": Fraction(241, 4),
    "60-¼”": Fraction(241, 4),
    "⅞": Fraction(7, 8),
    "5′ 0¼″": Fraction(241, 4),
    "5’ 3“": Fraction(63),
    "60\u20111/4": Fraction(241, 4),
    "60\xa01/4": Fraction(241, 4),
}
METRIC = {
    "1530 mm": 1530,
    "153 cm": 1530,
    "1.53 m": 1530,
    "1530mm": 1530,
    "12.5 mm": Fraction(25, 2),
    "0.5 MM": Fraction(1, 2),
}

REFUSED = {
    "": "nothing is written",
    "60-1/4-1/8": "two fractions",
    "½½": "two fractions",
    "5' 14\"": "12 inches or more",
    "5' 12\"": "12 inches or more",
    "5.5' 3\"": "part of a foot",
    "1/2' 3\"": "part of a foot",
    "5' 3": "lack their mark",
    "1/0": "0 below the stroke",
    "60 5/4": "fraction of one or more",
    "11/4": "space missing",
    "4/4": "fraction of one or more",
    "1/2/3": "two strokes",
    "/4": "not complete",
    "60 1": "side by side",
    "60-1": "side by side",
    "60 - 1/4": "minus sign or a joint",
    "60 -1/4": "minus sign or a joint",
    "60 in 5 mm": "units are mixed",
    "5 ft 3 cm": "units are mixed",
    '60"1/4': "units are mixed",
    "60 in 3/4": "units are mixed",
    "60 1/4 mm": "fraction in metric",
    "1,530": "part thousands",
    "1,530.5": "part thousands",
    "60,25": "decimal point, not a comma",
    "-3": "never negative",
    "−3": "never negative",
    "+5": "no sign",
    "1e3": "without an exponent",
    "0x10": "programmer",
    "0o10": "programmer",
    "010": "does not begin with 0",
    "60 01/4": "does not begin with 0",
    "1_000": "underscores",
    ".nan": "not a number",
    "-.inf": "never negative",
    ".inf": "not a number",
    "NaN": "not a number",
    "2026-11-24": "a date",
    "60.": "after the decimal point",
    "1.2.3": "two decimal points",
    "60 furlongs": "unit is unknown",
    "60 km": "unit is unknown",
    "31 m": "longer than 30 m",
    "100'": "longer than 30 m",
    "9" * 70: "too long",
    "true": "write a number",
    "١٢": "write a number",
    "1\n2": "write a number",
}


@pytest.mark.parametrize(("text", "inches"), READ.items())
def test_a_length_in_inches_is_read_exactly(text: str, inches: Fraction) -> None:
    length = parse_length(text, "in")
    assert length.exact == inches * IN
    assert length.text == text.strip()


@pytest.mark.parametrize(("text", "mm"), METRIC.items())
@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_metric_length_does_not_depend_on_the_file(text: str, mm: Fraction, units: Units) -> None:
    assert parse_length(text, units).exact == mm


@pytest.mark.parametrize(("text", "why"), REFUSED.items())
def test_an_unclear_length_is_refused_with_the_reason(text: str, why: str) -> None:
    with pytest.raises(LengthError) as caught:
        parse_length(text, "in")
    assert why in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_fraction_in_a_millimetre_file_asks_for_its_unit() -> None:
    with pytest.raises(LengthError, match="were inches meant"):
        parse_length("60 1/4", "mm")
    assert parse_length('60 1/4"', "mm").exact == Fraction(241, 4) * IN


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf, -1, -0.5, 1e300, 10**40])
def test_numbers_that_are_no_lengths_are_refused(number: float) -> None:
    with pytest.raises(LengthError):
        parse_length(number, "mm")


def test_a_number_is_read_as_it_is_written() -> None:
    assert parse_length(60.1, "in").exact == Fraction(601, 10) * IN
    assert parse_length(60, "mm").exact == 60


SIXTEENTHS = st.integers(0, 16 * 600)
FRACTIONS = st.tuples(st.integers(0, 600), st.sampled_from([2, 4, 8, 16, 32, 64])).flatmap(
    lambda pair: st.tuples(st.just(pair[0]), st.integers(1, pair[1] - 1), st.just(pair[1]))
)


@given(SIXTEENTHS)
def test_what_the_label_says_reads_back(sixteenths: int) -> None:
    exact = Fraction(sixteenths, 16) * IN
    assert parse_length(label(float(exact), "in"), "mm").exact == exact
    assert parse_length(label_feet(float(exact), "in"), "mm").exact == exact


@given(st.floats(0, 20_000))
def test_a_label_is_within_half_a_step_of_its_length(mm: float) -> None:
    for units in ("in", "mm"):
        for text in (label(mm, units), label_feet(mm, units)):
            assert abs(parse_length(text, units).mm - mm) <= paper_step(units) / 2 + 1e-9


@given(FRACTIONS, st.sampled_from(["{} {}/{}", "{}-{}/{}", '{} {}/{}"', "{}-{}/{} in", "{}  {}/{} inches"]))
def test_brute_force_against_fraction(parts: tuple[int, int, int], form: str) -> None:
    whole, top, bottom = parts
    assert parse_length(form.format(whole, top, bottom), "in").exact == (whole + Fraction(top, bottom)) * IN


@given(st.integers(0, 50), st.integers(0, 11), st.integers(1, 15), st.sampled_from(["' ", "'-", "'", " ft ", " feet "]))
def test_feet_and_inches_against_fraction(feet: int, inches: int, top: int, joint: str) -> None:
    text = f'{feet}{joint}{inches}-{top}/16"'
    assert parse_length(text, "mm").exact == (feet * 12 + inches + Fraction(top, 16)) * IN


@given(st.text(max_size=30) | st.text("0123456789 -/.'\"ftincm½¼,", max_size=14))
def test_any_text_is_a_length_or_a_reason(text: str) -> None:
    try:
        length = parse_length(text, "in")
    except LengthError as error:
        assert str(error)
    else:
        assert 0 <= length.exact <= 30_000


@given(st.text("0123456789 -/.'\"", min_size=1, max_size=10))
def test_no_digit_is_lost_or_moved(text: str) -> None:
    """Whatever is accepted contains no more than one number a unit: its digits rebuild the value by a plain rule."""
    try:
        length = parse_length(text, "in")
    except LengthError:
        return
    feet, mark, rest = text.partition("'")
    plain = (Fraction(0) if not mark else _plain(feet) * 12) + _plain(rest if mark else text)
    assert length.exact == plain * IN


def _plain(text: str) -> Fraction:
    words = text.replace('"', " ").replace("-", " ").split()
    return sum((Fraction(word) for word in words), Fraction(0))


@pytest.mark.parametrize(
    ("mm", "inch_text", "metric_text"),
    [
        (1530.35, '60 1/4"', "1530"),
        (0.0, '0"', "0"),
        (INCH / 32, '1/16"', "1"),
        (12.5, '1/2"', "13"),
        (6.35, '1/4"', "6"),
    ],
)
def test_labels_round_half_up_once(mm: float, inch_text: str, metric_text: str) -> None:
    assert label(mm, "in") == inch_text
    assert label(mm, "mm") == metric_text


def test_labels_in_feet_say_the_zero() -> None:
    assert label_feet(60.25 * INCH, "in") == "5'-0 1/4\""
    assert label_feet(11.75 * INCH, "in") == '11 3/4"'
    assert label_feet(1530, "mm") == "1530"


def test_an_opening_is_said_finer() -> None:
    """To 1/32 in, which a tape and a set of drills have; 1.09 in is 34.88 of them."""
    assert label_opening(0.875 * INCH, "in") == '7/8"'
    assert label_opening(1.09 * INCH, "in") == '1 3/32"'
    assert label_opening(5 * INCH, "in") == '5"'
    assert label_opening(120, "mm") == "120"
    assert label_opening(15.05, "mm") == "15.1"


def test_drawing_units_are_quantised_once() -> None:
    assert to_units(INCH / 16, "in") == 0.0625
    assert to_units(609.5999999999999, "mm") == 609.6
    assert str(to_units(-1e-12, "mm")) == "0.0"


def test_a_board_is_as_thick_as_it_is_sold() -> None:
    """Rounded to whole millimetres a 12.5 mm board would be called 13, and be sorted with the wrong stock."""
    assert label_thickness(12.5, "mm") == "12.5"
    assert label_thickness(12.0, "mm") == "12"
    assert label_thickness(INCH / 2, "in") == '1/2"'


BOTH = PaperUnits("in", "mm")


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        (label(48.25 * INCH, BOTH), '48 1/4" [1226]'),
        (label(1226, PaperUnits("mm", "in")), '1226 [48 1/4"]'),
        (label(1226, PaperUnits("mm")), "1226"),
        (label_size((36 * INCH, 60 * INCH), BOTH), '36" x 60" [914 x 1524]'),
        (label_opening(1.25 * INCH, BOTH), '1 1/4" [31.8]'),
        (label_thickness(12.5, PaperUnits("mm", "in")), '12.5 [1/2"]'),
        (label_named(6, PaperUnits("in", "mm")), '1/4" [6 mm]'),
        (size_named((914, 1524), PaperUnits("mm", "in")), '914 x 1524 mm [36" x 60"]'),
        (thickness_named(12.5, "mm"), "12.5 mm"),
        (either(BOTH, "3.4 lb", "1.5 kg"), "3.4 lb [1.5 kg]"),
        (label_opening(33.4, PaperUnits("mm", comma=True)), "33,4"),
        (label_thickness(12.5, PaperUnits("in", "mm", comma=True)), '1/2" [12,5]'),
    ],
)
def test_the_other_unit_stands_in_brackets_behind_the_main_one(said: str, wanted: str) -> None:
    """Each rounded by itself: 48 1/4 in are 1225.55 mm, 914 mm are 35.98 in (25.4 mm to the inch, by definition)."""
    assert said == wanted
