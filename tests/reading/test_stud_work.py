"""Readings off a string line, holes and notches: what is read, and what is wrong with them, in words."""

from __future__ import annotations

import pytest

from tests.reading.rooms import changed, complaints, read
from tests.worked_room import mm

STUDS = "        - {profile: wood-2x4, centres: [3/4, 15, 34]}\n"
HOLES = STUDS + "      holes: [{stud: 15, at: 40, diameter: 1}, {stud: 34, at: 30, diameter: 1, from_face: 1 1/4}]\n"
LINE = STUDS + "    string_line: [{stud: 15, at: [12, 84], off: [1/8, 0]}, {stud: 34, at: [48], off: [3/16]}]\n"


def test_a_stud_is_named_as_it_is_listed_from_either_end() -> None:
    """The left wall is measured from its right end."""
    wall = read(changed((STUDS, LINE))).walls[0]
    wanted = [(6, 48, 3 / 16), (25, 12, 1 / 8), (25, 84, 0)]
    assert len(wall.readings) == len(wanted)
    for reading, inches in zip(wall.readings, wanted, strict=True):
        assert (reading.u, reading.v, reading.off) == pytest.approx(tuple(mm(x) for x in inches))
    assert wall.readings[0].support == "walls.0.supports.studs.0.centres.2"


def test_a_hole_is_centred_unless_it_says_where_it_is() -> None:
    wall = read(changed((STUDS, HOLES))).walls[0]
    assert [h.from_face for h in wall.holes] == pytest.approx([mm(1.75), mm(1.25)])
    assert {h.carries for h in wall.holes} == {"pipe"}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (LINE.replace("stud: 34", "stud: 33"), 'no stud of wall "left" has its middle 33 in from the right end'),
        (LINE.replace("off: [1/8, 0]", "off: [1/8]"), "2 heights and 1 readings"),
        (LINE.replace("at: [12, 84]", "at: [12, 12]"), "one height is given twice"),
        (LINE.replace("at: [48]", "at: [99]"), "99 in is below or above that stud"),
        (LINE.replace("stud: 34", "stud: 15"), "readings in one line tell no plane"),
        (LINE.replace("off: [1/8, 0]", "off: [-1/8, 0]"), "a length is never negative"),
        (HOLES.replace("stud: 15", "stud: 14"), "no stud of wall"),
        (HOLES.replace("diameter: 1}", "diameter: 4}"), "the hole breaks out of the stud"),
        (HOLES.replace("from_face: 1 1/4", "from_face: 1/4"), "the hole breaks out of the stud"),
        (STUDS + "      notches: [{stud: 15, at: 9, height: 2, depth: 4}]\n", "deeper than the stud"),
        (STUDS + "    flange_off: [1/2, 1/2]\n", "measured from which line?"),
    ],
)
def test_mistakes_are_told(text: str, wanted: str) -> None:
    told = complaints(changed((STUDS, text)))
    assert any(wanted in message for _, message in told), told
    assert all(line > 0 for line, _ in told)
