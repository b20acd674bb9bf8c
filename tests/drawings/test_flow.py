"""Tables that continue: nothing is lost, nothing leaves its column, heads come again, headings are not orphaned."""

from __future__ import annotations

from itertools import pairwise, repeat

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drafting.ink import Text
from generator.drafting.page import text_box, text_width
from generator.drawings.flow import Column, columns_of, flow, heading, lines_of, prose, table

BOX = (10.0, 20.0, 110.0, 90.0)
WORDS = st.text("abcdefgh", min_size=1, max_size=12)
CELLS = st.lists(WORDS, min_size=1, max_size=8).map(" ".join)
ROWS = st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=40)
COLUMNS = (Column("Left", 1), Column("Right", 2, "right"))


def _texts(ink: tuple[object, ...]) -> list[Text]:
    return [item for item in ink if isinstance(item, Text)]


@settings(max_examples=40, deadline=None)
@given(ROWS)
def test_every_word_of_a_long_table_is_printed_once(rows: list[tuple[str, str]]) -> None:
    filled = flow(table(COLUMNS, rows, 100.0, "Long"), repeat(BOX))
    printed = [word for ink in filled for t in _texts(ink) if not t.bold for word in t.text.split()]
    assert sorted(printed) == sorted(word for row in rows for cell in row for word in cell.split())


@settings(max_examples=40, deadline=None)
@given(ROWS)
def test_every_column_starts_with_the_head_and_stays_in_its_box(rows: list[tuple[str, str]]) -> None:
    for ink in flow(table(COLUMNS, rows, 100.0), repeat(BOX)):
        texts = _texts(ink)
        corners = [corner for t in texts for corner in text_box(t)]
        assert all(BOX[0] - 0.01 <= x <= BOX[2] + 0.01 and BOX[1] - 0.01 <= y <= BOX[3] + 0.01 for x, y in corners)
        assert {"Left", "Right"} <= {t.text for t in texts if t.bold}


def test_a_heading_is_never_the_last_of_its_column() -> None:
    filler = tuple(prose("x", 100.0) for _ in range(12))
    filled = flow((*filler, heading("Alone", 100.0), prose("with me", 100.0)), repeat(BOX))
    pages = [[t.text for t in _texts(ink)] for ink in filled]
    assert pages[-1] == ["Alone", "with me"]


@given(st.text("abcdefgh ", min_size=1, max_size=80), st.floats(8, 60))
def test_lines_keep_all_letters_and_their_width(text: str, width: float) -> None:
    lines = lines_of(text, width)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(text_width(line, 2.5) <= width + 1e-9 for line in lines)


def test_columns_share_the_box_and_do_not_touch() -> None:
    columns = columns_of((0.0, 0.0, 300.0, 100.0), 92.0)
    assert len(columns) == 3
    assert columns[-1][2] == 300.0
    assert all(b[0] - a[2] >= 5.0 for a, b in pairwise(columns))
