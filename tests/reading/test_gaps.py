"""The space between a flange and the stud faces, in room files: what follows from what, and what contradicts what.

Numbers by hand, in inches: a tub sold as 60 in a recess of 60 1/4 leaves 1/4 for both ends together.
"""

from __future__ import annotations

import pytest

from generator.model.room import Room
from tests.reading.rooms import changed, complaints, read

RECESS = """\
name: short tub
units: in
place: {code: none}
base: {kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16, GAPS}
walls:
  - name: left
    width: 40
    height: 96
    boards: {reach: 34}
    supports:
      from: right
      studs:
        - {profile: wood-2x4, centres: [3/4, 16, 31, 34]}
  - name: back
    width: 60 1/4
    height: 96
    supports:
      studs:
        - {profile: wood-2x4, centres: [3/4, 15, 30, 45, 59 1/2]}
  - name: right
    width: 40
    height: 96
    boards: {reach: 34}
    supports:
      from: left
      studs:
        - {profile: wood-2x4, centres: [3/4, 16, 31, 34]}
"""
BASE_LINE, WIDTH_LINE, STRING_LINE = 4, 15, 23
IN = 25.4


def recess(gaps: str) -> str:
    return changed((", GAPS", f", {gaps}" if gaps else ""), text=RECESS)


def sides_of(room: Room) -> dict[str, tuple[float, float, float]]:
    """From, to and gap of each side of the base, in inches."""
    return {s.wall: (s.start / IN, s.end / IN, s.gap / IN) for s in room.base.sides}


@pytest.mark.parametrize(
    ("gaps", "left", "back", "right"),
    [
        ("gaps: {left: 1/8, right: 1/8}", 1 / 8, 0, 1 / 8),
        ("gaps: {left: 1/16}", 1 / 16, 0, 3 / 16),
        ("gaps: {right: 1/16}", 3 / 16, 0, 1 / 16),
        ("start: 1/16", 1 / 16, 0, 3 / 16),
        ("gaps: {left: 1/8, back: 1/16, right: 1/8}", 1 / 8, 1 / 16, 1 / 8),
    ],
)
def test_one_end_gives_the_other(gaps: str, left: float, back: float, right: float) -> None:
    sides = sides_of(read(recess(gaps)))
    assert sides["left"] == pytest.approx((10, 40 - back, left))
    assert sides["back"] == pytest.approx((left, left + 60, back))
    assert sides["right"] == pytest.approx((back, 30, right))


def test_where_the_ends_agree_within_the_fit_the_notch_is_for_the_larger() -> None:
    """1/8 and 3/16 make 5/16 where 1/4 is left: within the fit of 1/8. Left over at the right: 1/8; measured: 3/16."""
    sides = sides_of(read(recess("gaps: {left: 1/8, right: 3/16}")))
    assert (sides["left"][2], sides["right"][2]) == pytest.approx((1 / 8, 3 / 16))


def test_a_short_base_without_gaps_is_to_be_measured() -> None:
    words = 'the base is 1/4" shorter than its recess; measure the space between the back of its flange'
    assert [(line, words in text) for line, text in complaints(recess(""))] == [(BASE_LINE, True)]


def test_a_base_without_flanges_at_its_ends_may_be_short() -> None:
    assert complaints(recess("flanged: [back]")) == []


@pytest.mark.parametrize(
    ("gaps", "words"),
    [
        ("gaps: {left: 1/4, right: 1/4}", '1/2", and wall "back" is 1/4" longer than the base: 1/4" apart'),
        ("gaps: {right: 1/2}", '1/2", and wall "back" is 1/4" longer than the base: 1/4" apart'),
        ("gaps: {left: 1/2}", '1/2", and wall "back" is 1/4" longer than the base: 1/4" apart'),
        ("start: 1/4, gaps: {right: 1/4}", '1/2", and wall "back" is 1/4" longer than the base: 1/4" apart'),
    ],
)
def test_a_contradiction_stands_on_both_lines_with_its_misfit(gaps: str, words: str) -> None:
    found = [line for line, text in complaints(recess(gaps)) if words in text]
    assert found == [BASE_LINE, WIDTH_LINE]


def string_line(off: str) -> str:
    """The recess with its back studs 1/2 in behind a line, and the flange's back measured off the same line."""
    return recess("gaps: {left: 1/8, back: 1/16}").replace(
        "  - name: right\n",
        "    string_line:\n"
        "      - {stud: 3/4, at: [20, 90], off: [1/2, 1/2]}\n"
        "      - {stud: 59 1/2, at: [20, 90], off: [1/2, 1/2]}\n"
        f"    flange_off: {off}\n"
        "  - name: right\n",
    )


def test_a_string_line_that_tells_another_gap_is_reported_on_both_lines() -> None:
    """The flange's back 1/4 behind the line, the studs 1/2: a gap of 1/4 where 1/16 is written; left is well."""
    words = 'stands 1/4" before the stud at its right end, and `gaps` says 1/16 in: 3/16" apart'
    found = complaints(string_line("[7/16, 1/4]"))
    assert [line for line, text in found if words in text] == [BASE_LINE, STRING_LINE]
    assert len(found) == 2
    assert complaints(string_line("[7/16, 3/8]")) == []


def test_furring_thicknesses_by_hand() -> None:
    """fur: gap 1/8 + flange 3/16 + clearance 1/16 = 3/8, at the back 1/16 + 3/16 + 1/16 = 5/16."""
    room = read(recess("gaps: {left: 1/8, back: 1/16}, at_flange: fur"))
    assert [wall.furring / IN for wall in room.walls] == pytest.approx([3 / 8, 5 / 16, 3 / 8])
    room = read(recess("gaps: {left: 1/8, back: 1/16}, at_flange: {left: 1/8, back: rabbet}"))
    assert [wall.furring / IN for wall in room.walls] == pytest.approx([1 / 8, 0, 0])


def test_at_a_thick_flange_studs_are_furred_until_the_faces_are_flush() -> None:
    """1/8 behind a flange of 1/2 that a 1/2 in board is to be flush with: 1/8 of furring."""
    text = recess("gaps: {left: 1/8}, at_flange: {left: fur, right: fur}").replace("thin-3-16", "thick-1-2")
    assert [wall.furring / IN for wall in read(text).walls] == pytest.approx([1 / 8, 0, 1 / 8])


def test_furred_walls_meet_in_front_of_the_bare_corners() -> None:
    """Left furred 1/4, back 1/8: back begins at 1/4, left ends at 40 - 1/8; studs and tape stay with bare framing."""
    left, back, right = read(recess("gaps: {left: 1/8, back: 1/16}, at_flange: {left: 1/4, back: 1/8}")).walls
    ends = [(wall.outline[0][0] / IN, wall.outline[1][0] / IN) for wall in (left, back, right)]
    assert ends == [pytest.approx(pair) for pair in ((0, 39.875), (0.25, 60.25), (0.125, 40))]
    assert [wall.bare_width / IN for wall in (left, back, right)] == pytest.approx([40, 60.25, 40])
    assert back.supports[0].axis[0][0] / IN == pytest.approx(0.75)
