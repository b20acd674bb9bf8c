"""Practices of drawing against the sizes that drawings are laid out in."""

import pytest

from generator.drafting.ink import Line, Text
from generator.drafting.layers import layers, pen
from generator.drafting.practice import drawn_height, practised
from generator.model.profiles import DRAFTED, HEIGHTS, WIDTHS
from generator.reading import load_catalogue

PRACTICES = load_catalogue().practices


def test_drawings_are_laid_out_in_the_sizes_of_iso() -> None:
    assert {name: getattr(PRACTICES["iso"], name) for name in (*WIDTHS, *HEIGHTS)} == DRAFTED


@pytest.mark.parametrize("practice", PRACTICES.values(), ids=PRACTICES)
def test_no_practice_needs_more_room_than_there_is(practice) -> None:  # type: ignore[no-untyped-def]
    assert all(drawn_height(DRAFTED[name], practice) <= DRAFTED[name] for name in HEIGHTS)


def test_a_practice_of_two_widths_leaves_what_is_thicker_thicker() -> None:
    us = PRACTICES["us"]
    for role in layers("ncs"):
        drafted = pen(role).width
        assert pen(role, us).width == (0.6 if drafted >= 0.5 else 0.3)
        assert (pen(role, us).grey, pen(role, us).dash) == (pen(role).grey, pen(role).dash)


def test_only_writing_and_dimensions_change() -> None:
    line, words, odd = Line((0, 0), (1, 0), "board"), Text((0, 0), "a", 3.5), Text((0, 0), "a", 18.0)
    assert practised((line, words, odd), None) == (line, words, odd)
    kept, smaller, same = practised((line, words, odd), PRACTICES["us"])
    assert (kept, same) == (line, odd)
    assert smaller == Text((0, 0), "a", 25.4 / 8)
