"""Writing broken to a width."""

from generator.drafting.page import text_width, wrap


def test_a_length_and_what_stands_in_brackets_are_never_broken() -> None:
    text = '60" x 29 1/8" [1524 x 740] of board'
    assert wrap(text, 2.5, 24.0) == ('60" x 29 1/8"', "[1524 x 740] of", "board")
    assert wrap('sheet 36" x 60 1/4"', 2.5, text_width('sheet 36" x 60', 2.5)) == ('sheet 36" x', '60 1/4"')
