"""The room file becomes the Room that planning needs."""

from __future__ import annotations

import re
from fractions import Fraction
from hashlib import sha256
from itertools import pairwise
from typing import Any

import pytest

from generator.model.geometry import TOUCH, box
from generator.model.room import Room
from generator.reading import read_room
from generator.units import INCH
from tests.reading.rooms import EXAMPLES, GOOD, SMALL, changed, read


def inches(*values: float) -> Any:
    """These lengths in mm, for a comparison within the float noise."""
    return tuple(pytest.approx(value * INCH, abs=1e-6) for value in values)


def centres(room: Room, wall: int, kind: str = "stud") -> list[float]:
    return [round(s.axis[0][0] / INCH, 6) for s in room.walls[wall].supports if s.kind == kind]


@pytest.fixture(scope="module")
def recess() -> Room:
    return read_room(EXAMPLES / "recess-as-measured.yaml")


def test_the_worked_room_stands_as_the_tape_said(recess: Room) -> None:
    """Numbers of worked-room.md."""
    left, back, right = recess.walls
    assert box(back.outline) == inches(0, 0, 60.25, 96)
    assert left.reach == inches(24, 60)
    assert right.reach == inches(0, 36)
    assert back.reach == inches(0, 60.25)
    assert centres(recess, 1) == [0.75, 15.875, 31, 46.5, 59.5]
    assert centres(recess, 2) == [0.75, 16.25, 28, 32.75, 36]
    assert centres(recess, 0) == [59.25, 43.75, 32, 27.25, 24]
    assert left.beside == ("wallboard", "corner")
    assert back.beside == ("corner", "corner")
    assert right.beside == ("corner", "wallboard")
    assert all(wall.to_ceiling and wall.top == pytest.approx(96 * INCH) for wall in recess.walls)


def test_the_base_stands_against_three_walls(recess: Room) -> None:
    base = recess.base
    assert base.treatment == "lapped"
    assert [(side.wall, side.flanged) for side in base.sides] == [("left", True), ("back", True), ("right", True)]
    spans = [(side.start, side.end) for side in base.sides]
    assert spans == [inches(28.25, 60), inches(0, 60.25), inches(0, 31.75)]
    assert base.sides[1].deck == (inches(0, 18.5), inches(60.25, 18.5))
    assert base.flange is not None
    assert (base.flange.top, base.flange.thickness) == inches(1, 3 / 16)


def test_the_fittings_are_where_they_were_measured(recess: Room) -> None:
    valve, spout, arm = recess.fittings
    assert valve.centre == inches(15.875, 28)
    assert (valve.diameter, valve.collar_diameter) == inches(5, 8)
    assert valve.body is not None
    assert valve.body.width == pytest.approx(4.5 * INCH)
    assert (spout.diameter, arm.diameter) == inches(0.625, 0.84)
    assert spout.is_pipe
    assert not valve.is_pipe
    assert not arm.steel


def test_corners_join_neighbours_and_the_wall_along_the_base_goes_first(recess: Room) -> None:
    assert [(c.id, c.angle_deg, c.first) for c in recess.corners] == [
        ("C-left-back", 90.0, "back"),
        ("C-back-right", 90.0, "back"),
    ]


def test_texts_lines_and_hash_are_kept(recess: Room) -> None:
    raw = (EXAMPLES / "recess-as-measured.yaml").read_bytes()
    assert recess.sha256 == sha256(raw).hexdigest()
    assert recess.entered["base.length"] == "60 1/4"
    assert recess.entered["walls.0.supports.studs.0.centres.1"] == "16 1/4"
    lines = raw.decode().split("\n")
    assert "length: 60 1/4" in lines[recess.lines["base.length"] - 1]
    assert "name: spout" in lines[recess.lines["fittings.1"] - 1]
    for wall in recess.walls:
        assert all(support.path in recess.lines for support in wall.supports)


def test_all_examples_read() -> None:
    rooms = {path.name: read_room(path) for path in sorted(EXAMPLES.glob("*.yaml"))}
    assert list(rooms) == [
        "attic-shower.yaml",
        "brick-and-frame.yaml",
        "corner-seat.yaml",
        "corner-shower.yaml",
        "crooked-studs.yaml",
        "neo-angle.yaml",
        "raked-half-wall.yaml",
        "recess-600-cured.yaml",
        "recess-600.yaml",
        "recess-as-measured.yaml",
        "recess-out-of-square.yaml",
        "recess.yaml",
        "seat-and-curb.yaml",
        "single-wall.yaml",
        "soffit-over-tub.yaml",
        "transfer-shower.yaml",
        "tub-deck.yaml",
        "walk-in.yaml",
    ]
    shower = rooms["corner-shower.yaml"]
    assert shower.base.treatment == "butted"
    assert {s.profile.material for wall in shower.walls for s in wall.supports} == {"steel"}
    assert {s.profile.face for wall in shower.walls for s in wall.supports} == {1.25 * INCH}
    assert [side.wall for side in shower.base.sides] == ["left", "right"]
    assert tuple(side.end - side.start for side in shower.base.sides) == inches(36, 48)
    metric = rooms["recess-600.yaml"]
    assert max(b - a for a, b in _bays(metric, 1)) == 600
    assert max(b - a for a, b in _bays(rooms["recess-600-cured.yaml"], 1)) <= 16 * INCH
    assert metric.choices.drawing_units == "mm"
    assert metric.fittings[0].centre == (381, 850)
    assert centres(rooms["recess.yaml"], 2)[1] == 12.5


def _bays(room: Room, wall: int) -> list[tuple[float, float]]:
    us = sorted(s.axis[0][0] for s in room.walls[wall].supports if s.kind == "stud")
    return list(pairwise(us))


def test_a_room_in_millimetres_is_the_same_room() -> None:
    """Every bare number of the small room, times 25.4, in a millimetre file."""
    numbers = {"60": "1524", "30": "762", "16": "406.4", "40": "1016", "96": "2438.4", "34": "863.6", "15": "381"}
    numbers |= {"45": "1143", "22": "558.8"}
    head, _, tail = SMALL.partition("units: in\n")
    for inch, mm in numbers.items():
        tail = _whole_word(tail, inch, mm)
    tail = tail.replace("59 1/4", "1504.95").replace("3/4", "19.05")
    room, same = read(head + "units: mm\n" + tail), read(SMALL)
    assert room.walls == same.walls
    assert room.base == same.base
    assert room.fittings == same.fittings


def _whole_word(text: str, old: str, new: str) -> str:
    return re.sub(rf"(?<=[ \[]){old}(?=[,}}\]\n])", new, text)


def test_the_base_stands_in_the_corner_it_has() -> None:
    room = read(SMALL)
    assert [side.wall for side in room.base.sides] == ["left", "back"]
    assert room.base.sides[0].start == 10 * INCH
    unflanged = read(changed(("length: 60", "length: 59, start: 1/2, flanged: [back]")))
    assert [(side.wall, side.flanged) for side in unflanged.base.sides] == [("left", False), ("back", True)]
    away = read(changed(("length: 60", "length: 50, start: 5")))
    assert [side.wall for side in away.base.sides] == ["back"]
    mirrored = read(changed(("along: back, length: 60, width: 30", "along: left, length: 30, width: 30")))
    assert [(side.wall, side.start) for side in mirrored.base.sides] == [("left", 10 * INCH), ("back", 0.0)]


def test_flanges_are_where_the_file_says() -> None:
    room = read(changed(("deck: 16", "deck: 16, flanged: [back]")))
    assert [(side.wall, side.flanged) for side in room.base.sides] == [("left", False), ("back", True)]


def test_supports_of_every_kind() -> None:
    room = read(
        changed(
            (
                "        - {profile: wood-2x4, centres: [3/4, 15, 34]}\n",
                """        - {profile: wood-2x4, centres: [3/4, 15, 34]}
        - {profile: wood-2x4, centres: [38], bottom: 20, top: 50}
      blocking:
        - {profile: wood-2x6, from: 1 1/2, to: 14 1/4, centre: 40}
        - {profile: wood-2x6, from: 1 1/2, to: 14 1/4, centre: 60, flat: true}
      backing:
        - {profile: wood-2x2, centre: 2 1/4}
      plates: {profile: wood-2x4}
""".replace("centre: 2 1/4", "centre: 17 1/4"),
            )
        )
    )
    found = {(s.kind, s.path.removeprefix("walls.0.supports.")): box(s.outline) for s in room.walls[0].supports}
    assert found["stud", "studs.0.centres.0"] == inches(38.5, 1.5, 40, 94.5)
    assert found["stud", "studs.1.centres.0"] == inches(1.25, 20, 2.75, 50)
    assert found["blocking", "blocking.0"] == inches(25.75, 39.25, 38.5, 40.75)
    assert found["blocking", "blocking.1"] == inches(25.75, 57.25, 38.5, 62.75)
    assert found["nailer", "backing.0"] == inches(22, 1.5, 23.5, 94.5)
    assert found["plate", "plates.bottom"] == inches(0, 0, 40, 1.5)
    assert found["plate", "plates.top"] == inches(0, 94.5, 40, 96)
    depths = {s.path[-10:]: s.profile.depth for s in room.walls[0].supports if s.kind == "blocking"}
    assert depths == {"blocking.0": pytest.approx(5.5 * INCH), "blocking.1": pytest.approx(1.5 * INCH)}


def test_reach_and_top_in_every_form() -> None:
    pair = read(changed(("reach: 34", "reach: [4, 40], top: 80")))
    assert pair.walls[0].reach == inches(4, 40)
    assert pair.walls[0].top == 80 * INCH
    assert not pair.walls[0].to_ceiling
    ends = ("height: 96\n    boards", "height: 96\n    beside: [free, wallboard]\n    boards")
    short = read(changed(("reach: 34", "reach: [4, 30]"), ends))
    assert short.walls[0].beside == ("free", "wallboard")
    whole = read(changed(("    boards: {reach: 34}\n", "")))
    assert whole.walls[0].reach == inches(0, 40)
    assert whole.walls[0].beside == ("wallboard", "corner")


def test_choices_fall_back_on_what_is_shipped() -> None:
    choices = read(SMALL).choices
    assert [stock.id for stock in choices.stocks] == [f"foam-1-2-{s}" for s in ("32x48", "36x60", "48x64", "48x96")]
    assert all(stock.price is None and stock.available is None for stock in choices.stocks)
    assert {support: screw.support for support, screw in choices.screws.items()} == {
        "wood": "wood",
        "light_steel": "light_steel",
        "heavy_steel": "heavy_steel",
        "masonry": "masonry",
    }
    assert choices.added_stud["back"].id == "wood-2x4"
    assert choices.kerf == INCH / 8
    assert [paper.id for paper in choices.papers] == ["letter", "a4"]


def test_choices_of_the_room_win() -> None:
    extra = """\
choices:
  sheets: [{board: foam-5-8, size: 48x96, price: 91.5, have: 2}]
  prices: {added_support: 9}
  kerf: 1/16
  allowances: {fit: 3/16, rabbet-share: 0.6, shower-area: 1024 in2}
  screws: {wood: screw-wood-2}
  added_stud: wood-2x6
  template_papers: [a3]
  in_van: {sealant: 1}
"""
    room = read(SMALL + extra)
    (stock,) = room.choices.stocks
    assert (stock.id, stock.price, stock.available, stock.board.thickness) == ("foam-5-8-48x96", 91.5, 2, 15.875)
    assert room.choices.prices.support == 9
    assert room.choices.prices.currency == "USD"
    assert room.limit("fit") == pytest.approx(3 / 16 * INCH)
    assert room.limit("rabbet-share") == 0.6
    assert room.limit("shower-area") == pytest.approx(1024 * INCH**2)
    assert room.limit("sheet-kerf") == pytest.approx(INCH / 16)
    assert room.rules["fit"].origin.source == "entered in the room file"
    assert room.rules["deck-gap"].origin.confidence == "practice"
    assert room.choices.screws["wood"].id == "screw-wood-2"
    assert room.choices.added_stud["left"].id == "wood-2x6"
    assert room.choices.in_van == {"sealant": 1.0}


def test_a_room_without_a_base_or_with_a_tray() -> None:
    none = read(
        changed(("{kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16}", "{kind: none}"))
    )
    assert none.base.treatment == "none"
    assert none.base.sides == ()
    assert none.corners[0].first == "back"
    tray = read(
        changed(("kind: tub, profile: thin-3-16", "kind: tray, profile: tray-tray-first"), ("deck: 16", "deck: 3"))
    )
    assert tray.base.treatment == "tray"
    assert tray.base.tray is not None
    assert not any(side.flanged for side in tray.base.sides)


def test_corners_as_entered() -> None:
    room = read(SMALL.replace("fittings:", "corners:\n  - {between: [left, back], angle: 90, first: left}\nfittings:"))
    assert (room.corners[0].path, room.corners[0].first) == ("corners.0", "left")


def test_heights_from_the_deck_and_bodies_as_entered() -> None:
    room = read(changed(("up: 30}", "up: 14, above: deck, body: {width: 6, height: 5, depth: 3}}")))
    assert room.fittings[0].centre == inches(18, 30)
    assert room.fittings[0].body is not None
    assert room.fittings[0].body.width == pytest.approx(6 * INCH)


def test_lengths_are_exact_to_the_float() -> None:
    room = read(SMALL)
    assert room.walls[1].supports[4].axis[0][0] == float(Fraction(237, 4) * Fraction(127, 5))
    assert room.walls[0].supports[0].outline[1][0] == pytest.approx(40 * INCH, abs=TOUCH / 1000)


def test_the_same_bytes_make_the_same_room() -> None:
    assert read(GOOD) == read(GOOD)
