"""Sticks of lumber: an exhaustive twin, an instance whose optimum is known, and what any purchase must hold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import fsum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.planning.lumber.cutting import cut_stock

KERF = 3.0
FEET = [8 * 304.8, 10 * 304.8, 12 * 304.8, 16 * 304.8]


def _partitions(pieces: Sequence[float]) -> Iterator[list[list[float]]]:
    """Every way to put the pieces into groups, without an idea of what is good."""
    if not pieces:
        yield []
        return
    first, rest = pieces[0], pieces[1:]
    for groups in _partitions(rest):
        yield [[first], *groups]
        for i in range(len(groups)):
            yield [*groups[:i], [first, *groups[i]], *groups[i + 1 :]]


def _least_by_trying(pieces: Sequence[float], stocks: Sequence[float]) -> float:
    totals = []
    for groups in _partitions(pieces):
        lengths = [fsum(g) + KERF * (len(g) - 1) for g in groups]
        if all(length <= max(stocks) + 1e-6 for length in lengths):
            totals.append(fsum(min(s for s in stocks if length <= s + 1e-6) for length in lengths))
    return min(totals)


LENGTHS = st.lists(st.integers(4, 48).map(lambda n: n * 50.0), min_size=1, max_size=6)
STOCKS = st.lists(st.integers(24, 60).map(lambda n: n * 100.0), min_size=1, max_size=3, unique=True)


@settings(max_examples=25, deadline=None)
@given(LENGTHS, STOCKS)
def test_no_purchase_is_shorter_than_the_one_found_by_trying_them_all(pieces: list[float], stocks: list[float]) -> None:
    found = cut_stock(pieces, stocks, KERF)
    assert found.total == pytest.approx(_least_by_trying(pieces, stocks))
    assert found.bound <= found.total + 1e-6


@settings(max_examples=15, deadline=None)
@given(st.lists(st.floats(50, 2600), min_size=1, max_size=25))
def test_every_piece_is_cut_once_and_every_stick_is_long_enough(pieces: list[float]) -> None:
    found = cut_stock(pieces, FEET, KERF)
    assert Counter(cut for _, cuts in found.sticks for cut in cuts) == Counter(pieces)
    for length, cuts in found.sticks:
        assert fsum(cuts) + KERF * (len(cuts) - 1) <= length + 1e-6
    assert found.bound <= found.total + 1e-6
    assert found.total >= fsum(pieces)


def test_a_textbook_order_of_paper_rolls() -> None:
    """Thirteen widths from rolls of 5600 mm: 73 rolls are the least (a widely printed example, from memory)."""
    order = {
        1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
        2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
    }  # fmt: skip
    found = cut_stock([float(w) for w, n in order.items() for _ in range(n)], [5600.0], 0.0)
    assert found.bound == 73 * 5600
    assert found.total == 73 * 5600


def test_the_kerf_counts_between_pieces_and_not_at_the_end() -> None:
    assert cut_stock([1000.0, 1000.0], [2003.0], KERF).total == 2003.0
    assert cut_stock([1000.0, 1000.0], [2002.9], KERF).total == pytest.approx(2 * 2002.9)


def test_a_piece_longer_than_any_stick_is_bought_to_order() -> None:
    found = cut_stock([6000.0, 500.0], [2400.0], KERF)
    assert found.sticks == ((6000.0, (6000.0,)), (2400.0, (500.0,)))
    assert found.bound == found.total


def test_one_long_stick_beats_two_short_ones_only_where_it_is_shorter() -> None:
    """Three studs of 92-5/8 in: three pre-cut ones (277.9 in) against a 16 ft and an 8 ft stick (288 in)."""
    precut = 92.625 * 25.4
    found = cut_stock([precut] * 3, [precut, *FEET], KERF)
    assert [length for length, _ in found.sticks] == [precut] * 3


def test_the_answer_does_not_hang_on_the_order_of_the_pieces() -> None:
    pieces = [300.0, 450.0, 1200.0, 700.0, 300.0]
    answers = {cut_stock(list(order), FEET, KERF) for order in (pieces, pieces[::-1], sorted(pieces))}
    assert len(answers) == 1
