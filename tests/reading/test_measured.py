"""Walls as measured: outlines against plane trigonometry by hand, and what contradicts what. Inches where typed."""

from __future__ import annotations

import pytest

from generator.model.geometry import Ring
from tests.reading.rooms import changed, complaints, read

IN = 25.4
BACK = "    width: 60\n    height: 96\n"


def outline(measured: str) -> list[tuple[float, float]]:
    """The back wall's outline in inches, with what stands in place of its width and height."""
    return inches(read(changed((BACK, measured), text=CLOSED)).walls[1].outline)


def inches(ring: Ring) -> list[tuple[float, float]]:
    return [(u / IN, v / IN) for u, v in ring]


def near(points: list[tuple[float, float]]) -> object:
    return [pytest.approx(p, abs=1e-4) for p in points]


def said(measured: str) -> list[str]:
    return [message for _, message in complaints(changed((BACK, measured), text=BARE))]


RIGHT = "  - name: right\n    width: 40\n    height: 96\n    supports: {}\n"
BARE = changed(("kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16", "kind: none"))
CLOSED = changed(("fittings:\n", RIGHT + "fittings:\n"), text=BARE)


def test_a_wall_without_more_measurements_is_a_rectangle() -> None:
    assert outline(BACK) == near([(0, 0), (60, 0), (60, 96), (0, 96)])


def test_plumb_of_the_left_end_moves_its_top_to_the_right() -> None:
    assert outline(BACK + "    plumb: {left: 3/4}\n") == near([(0, 0), (60, 0), (60, 96), (0.75, 96)])


def test_an_end_that_leans_out_has_a_minus_sign() -> None:
    assert outline(BACK + '    plumb: {left: "-1/2"}\n') == near([(0, 0), (60, 0), (60, 96), (-0.5, 96)])


def test_widths_give_the_end_that_was_not_plumbed() -> None:
    # left leans in by 3/4 over 96; the width falls by 1 over 48, so by 2 over 96; the right end leans in by 2 - 3/4
    text = "    widths: [{at: 0, is: 60}, {at: 48, is: 59}]\n    height: 96\n    plumb: {left: 3/4}\n"
    assert outline(text) == near([(0, 0), (60, 0), (58.75, 96), (0.75, 96)])


def test_a_diagonal_solves_an_end_left_free() -> None:
    # rising: foot of the left end to the top of the right one. 113 in: sqrt(113^2 - 96^2) = sqrt(12769 - 9216)
    # = sqrt(3553) = 59.607046, so the right end leans in by 60 - 59.607046 = 0.392954
    got = outline(BACK + "    diagonals: {rising: 113}\n")
    assert got == near([(0, 0), (60, 0), (59.607046, 96), (0, 96)])


def test_within_the_fit_a_wall_stays_a_rectangle() -> None:
    text = "    widths: [{at: 0, is: 60}, {at: 96, is: 59 7/8}]\n    heights: [{at: 0, is: 96}, {at: 60, is: 95 7/8}]\n"
    assert outline(text) == near([(0, 0), (60, 0), (60, 95.875), (0, 95.875)])


def test_a_ceiling_that_slopes_and_one_that_steps() -> None:
    slope = "    width: 60\n    heights: [{at: 0, is: 96}, {at: 40, is: 86}]\n"
    assert outline(slope) == near([(0, 0), (60, 0), (60, 86), (40, 86), (0, 96)])
    step = "    width: 60\n    heights: [{at: 20, is: 96}, {at: 20, is: 90}]\n"
    assert outline(step) == near([(0, 0), (60, 0), (60, 90), (20, 90), (20, 96), (0, 96)])


def test_a_leaning_end_meets_a_sloped_ceiling_where_both_lines_cross() -> None:
    # ceiling v = 96 - u/4 up to u = 40; the left end leans in by 3 over its 96: u = v/32.
    # v = 96 - v/128, so v = 96 * 128/129 = 95.255814 and u = 2.976744
    text = "    width: 60\n    heights: [{at: 0, is: 96}, {at: 40, is: 86}]\n    plumb: {left: 3}\n"
    assert outline(text) == near([(0, 0), (60, 0), (60, 86), (40, 86), (2.976744, 95.255814)])


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ("    widths: [{at: 0, is: 60}, {at: 96, is: 59}]\n    height: 96\n", ['differ by 1"', "which end leans"]),
        (
            "    widths: [{at: 0, is: 60}, {at: 96, is: 59}]\n    height: 96\n    plumb: {left: 1/4, right: 1/4}\n",
            ['widths and plumb disagree by 1/2"'],
        ),
        ("    widths: [{at: 0, is: 60}, {at: 48, is: 59}, {at: 96, is: 60}]\n    height: 96\n", ['bowed by 1"']),
        # 60 by 96: sqrt(3600 + 9216) = 113.208; 114 is 0.792 off, 13/16 on the tape
        (BACK + "    plumb: {left: 0, right: 0}\n    diagonals: {rising: 114}\n", ['13/16" off', '113 3/16"']),
        ("    widths: [{at: 12, is: 60}, {at: 48, is: 60}]\n    height: 96\n", ["first width is at 0"]),
        ("    width: 61\n    widths: [{at: 0, is: 60}, {at: 48, is: 60}]\n    height: 96\n", ['floor by 1"']),
        ("    height: 97\n    width: 60\n    heights: [{at: 0, is: 96}, {at: 60, is: 90}]\n", ['heights by 1"']),
        (BACK + "    plumb: {left: 12}\n", ["1 in 10"]),
        (BACK + "    plumb: {right: 1}\n", ['leans by 1"', "stop the reach short"]),
    ],
)
def test_a_contradiction_is_told_with_its_misfit(measured: str, words: list[str]) -> None:
    messages = said(measured)
    assert any(all(word in message for word in words) for message in messages), messages


def test_a_contradiction_names_its_line() -> None:
    text = changed((BACK, BACK + "    plumb: {left: 0, right: 0}\n    diagonals: {rising: 114}\n"))
    line = text.splitlines().index("    diagonals: {rising: 114}") + 1
    assert [at for at, _ in complaints(text)] == [line]


def test_diagonals_from_a_level_mark_above_the_deck_solve_both_ends() -> None:
    # Marks at 16, left leans in by 3/4 and right in by 1/4 over 96: A = 1/128, B = -1/384.
    # rising, from (0.125, 16) to (59.75, 96): sqrt(59.625^2 + 80^2) = 99.775451
    # falling, from (0.75, 96) to (59.958333, 16): sqrt(59.208333^2 + 80^2) = 99.527015
    text = BACK + "    diagonals: {at: 16, rising: 99.775451, falling: 99.527015}\n"
    assert outline(text) == near([(0, 0), (60, 0), (59.75, 96), (0.75, 96)])


def test_two_diagonals_where_one_end_was_plumbed_are_one_too_many() -> None:
    # as above; the falling diagonal alone does not solve the right end, it only proves the left one
    text = BACK + "    plumb: {left: 3/4}\n    diagonals: {at: 16, rising: 99.775451, falling: FALLING}\n"
    assert outline(text.replace("FALLING", "99.527015")) == near([(0, 0), (60, 0), (59.75, 96), (0.75, 96)])
    # sqrt(58.5^2 ...): 99 is 0.5277 off, 1/2 on the tape
    assert any('1/2" off' in message for message in said(text.replace("FALLING", "99")))


def test_a_diagonal_alone_says_nothing_of_the_end_that_it_hardly_crosses() -> None:
    # falling from (a, 96) to (60, 16) with a = 1: sqrt(59^2 + 80^2) = 99.403219; the right end counts as plumb
    got = outline(BACK + "    diagonals: {at: 16, falling: 99.403219}\n")
    assert got == near([(0, 0), (60, 0), (60, 96), (1, 96)])


def test_each_end_is_plumb_by_itself_within_what_counts_as_square() -> None:
    assert outline(BACK + "    plumb: {left: 1, right: 1/8}\n") == near([(0, 0), (60, 0), (60, 96), (1, 96)])
