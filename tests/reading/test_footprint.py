"""The base from above: sides along the walls by plane trigonometry and area by the shoelace formula, worked by hand."""

from __future__ import annotations

from math import sqrt

import pytest

from generator.model.geometry import area
from generator.model.room import BaseSide, Room
from tests.reading.rooms import SMALL, changed, read

INCH = 25.4
TUB = "kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16"
NEO = "kind: shower_base, shape: neo_angle, profile: thick-1-2, along: ALONG, length: 38, width: 36, RETURNS, deck: 4"
LEFT_CORNER = NEO.replace("ALONG", "back").replace("RETURNS", "returns: {left: 20, back: 18}")
RIGHT_CORNER = NEO.replace("ALONG", "left").replace("RETURNS", "returns: {left: 16, back: 18}")
PONY = """  - name: pony
    width: 18
    height: 42
    supports: {studs: [{profile: wood-2x4, centres: [3/4, 17 1/4]}]}
fittings:"""


def base(text: str, *more: tuple[str, str]) -> Room:
    return read(changed((TUB, text), *more))


def inches(room: Room) -> list[tuple[str, float, float]]:
    return [(s.wall, pytest.approx(s.start / INCH), pytest.approx(s.end / INCH)) for s in room.base.sides]  # type: ignore[misc]


def corner(angle: float) -> tuple[str, str]:
    return ("fittings:", f"corners:\n  - {{between: [left, back], angle: {angle}}}\nfittings:")


def test_neo_angle_in_the_left_corner_of_its_wall() -> None:
    """38 along the back wall and 36 along the left one, which is 40 in wide: its side there is u 4 to 40."""
    room = base(LEFT_CORNER)
    assert inches(room) == [("left", 4, 40), ("back", 0, 38)]
    corners = [(0, 0), (38, 0), (38, 18), (20, 36), (0, 36)]
    assert [x / INCH for p in room.base.footprint for x in p] == pytest.approx([x for p in corners for x in p])
    # Shoelace: 38 x 36 less a triangle of 18 x 18 / 2 = 1368 - 162 = 1206 in2.
    assert area(room.base.footprint) / INCH**2 == pytest.approx(1206)


def test_neo_angle_in_the_right_corner_of_its_wall() -> None:
    """Along the left wall (40 in wide) its 38 end at the corner, so they begin at 2."""
    room = base(RIGHT_CORNER)
    assert inches(room) == [("left", 2, 40), ("back", 0, 36)]
    corners = [(2, 0), (40, 0), (40, 36), (22, 36), (2, 16)]
    assert [x / INCH for p in room.base.footprint for x in p] == pytest.approx([x for p in corners for x in p])
    # Shoelace: 38 x 36 less 20 x 20 / 2 = 1368 - 200 = 1168 in2.
    assert area(room.base.footprint) / INCH**2 == pytest.approx(1168)


def test_low_walls_on_the_return_and_along_the_front_are_sides() -> None:
    """The back wall ends with the base (38); a low wall of 18 stands on its return, square to it; then one at 135."""
    narrow = ("width: 60\n    height", "width: 38\n    height"), ("15, 30, 45, 59 1/4]", "15, 30, 37 1/4]")
    room = base(LEFT_CORNER, *narrow, ("fittings:", PONY))
    assert inches(room) == [("left", 4, 40), ("back", 0, 38), ("pony", 0, 18)]
    assert [side.flanged for side in room.base.sides] == [True, True, False]
    front = PONY.replace("name: pony", "name: door").replace("width: 18", "width: 10").replace("17 1/4", "9 1/4")
    skew = ("fittings:", "corners:\n  - {between: [pony, door], angle: 135}\nfittings:")
    room = base(LEFT_CORNER, *narrow, ("fittings:", PONY), ("fittings:", front), skew)
    assert inches(room)[3] == ("door", 0, 10)


@pytest.mark.parametrize(
    ("angle", "left_width", "along_left", "front_left"),
    [
        (90, 40, 30, 0),
        (135, 60, 30 * sqrt(2), -30),  # 30 / sin 135 along the wall; the front begins 30 cot 45 beyond the corner
        (60, 60, 30 * 2 / sqrt(3), 30 / sqrt(3)),
        (45, 60, 30 * sqrt(2), 30),
    ],
)
def test_a_side_follows_the_neighbour_at_its_angle(
    angle: float, left_width: float, along_left: float, front_left: float
) -> None:
    wide = ("width: 40", f"width: {left_width}"), ("[3/4, 15, 34]", f"[3/4, 15, 34, {left_width - 1}]")
    room = base(TUB.replace("30, deck", "30, start: 0, deck"), *wide, *([corner(angle)] if angle != 90 else []))
    assert inches(room) == [("left", left_width - along_left, left_width), ("back", 0, 60)]
    assert room.base.footprint[3] == pytest.approx((front_left * INCH, 30 * INCH), abs=1e-5)
    # Trapezoid: half of both parallel sides times 30.
    wanted = (60 + 60 - front_left) / 2 * 30
    assert area(room.base.footprint) / INCH**2 == pytest.approx(wanted)


def test_a_base_widens_past_its_side_only_in_a_sharp_corner() -> None:
    """At 60 degrees the front leaves the left wall at 120: cot 60 mm further along it for each mm out."""
    wide = ("width: 40", "width: 60"), ("[3/4, 15, 34]", "[3/4, 15, 34, 59]")
    left, back = base(TUB, *wide, corner(60)).base.sides
    assert left.flare[0] == pytest.approx(1 / sqrt(3), abs=1e-6)
    assert back.flare[1] == 0.0
    assert base(TUB, *wide, corner(120)).base.sides[0].flare[0] == 0.0


def deck(text: str) -> dict[str, BaseSide]:
    return {s.wall: s for s in base(TUB.replace("deck: 16", text)).base.sides}


def test_decks_are_heights_at_both_ends_of_a_side() -> None:
    sides = deck("decks: {left: [16, 16], back: [16, 16 1/4]}")
    assert sides["left"].deck == ((10 * INCH, 16 * INCH), (40 * INCH, 16 * INCH))
    assert sides["back"].deck == ((0.0, 16 * INCH), (60 * INCH, 16.25 * INCH))
    assert deck("deck: 16, decks: {back: [16, 15 1/2]}")["left"].deck[1][1] == 16 * INCH


def test_a_deck_as_good_as_level_is_level_at_its_higher_end() -> None:
    sides = deck("decks: {left: [16, 16], back: [16, 16 1/8]}")
    assert [v for _, v in sides["back"].deck] == pytest.approx([16.125 * INCH] * 2)


def test_a_height_above_a_sloping_deck_counts_from_under_the_fitting() -> None:
    """The left wall's side is u 10 to 40; the valve at 22 from the right is at u 18, 8/30 along a rise of 3/4: 0.2."""
    sloping = TUB.replace("deck: 16", "decks: {left: [16, 16 3/4], back: [16 3/4, 16 3/4]}")
    room = base(sloping, ("right, up: 30", "right, up: 30, above: deck"))
    assert room.fittings[0].centre[1] / INCH == pytest.approx(46.2)


def test_the_small_room_is_a_rectangle() -> None:
    assert area(read(SMALL).base.footprint) / INCH**2 == pytest.approx(60 * 30)
