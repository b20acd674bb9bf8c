"""Mounts in the room file: where they land, what is taken when it is left out, and every mistake on its line."""

from __future__ import annotations

import pytest

from generator.model.geometry import box
from generator.model.mounts import Mount
from tests.reading.rooms import SMALL, changed, complaints, read
from tests.worked_room import mm

BAR = "{name: bar, kind: grab_bar, wall: back, across: 6, up: 34, length: 24}"
SEAT = "{name: seat, kind: seat, wall: left, across: 2, from: right, up: 18, length: 20, out: 15}"


def _with(*mounts: str) -> str:
    return SMALL.rstrip("\n") + "\nmounts:\n" + "".join(f"  - {mount}\n" for mount in mounts)


def _mount(text: str) -> Mount:
    (mount,) = read(_with(text)).mounts
    return mount


def _inches(mount: Mount) -> tuple[float, ...]:
    return tuple(round(x / 25.4, 4) for x in box(mount.ring))


def test_a_bar_is_measured_to_the_top_of_its_grip_and_has_a_plate_at_each_end() -> None:
    bar = _mount(BAR)
    assert _inches(bar) == (6.0, 32.75, 30.0, 34.0)
    assert [(round(u / 25.4, 4), round(v / 25.4, 4)) for u, v in bar.fixings] == [(7.5, 33.375), (28.5, 33.375)]
    assert (bar.diameter, bar.gap, bar.plate) == pytest.approx((mm(1.25), mm(1.5), mm(3)))


def test_across_runs_from_the_end_that_it_names() -> None:
    assert _inches(_mount(BAR.replace("across: 6", "across: 6, from: right"))) == (30.0, 32.75, 54.0, 34.0)


def test_heights_above_the_deck_count_from_there() -> None:
    """The deck of the small room is 16 in up."""
    assert _mount(BAR.replace("up: 34", "up: 9, above: deck")).top == pytest.approx(mm(25))


def test_an_upright_bar_stands_on_its_lower_end() -> None:
    bar = _mount(BAR.replace("length: 24", "length: 18, direction: upright"))
    assert _inches(bar) == (5.375, 34.0, 6.625, 52.0)


def test_a_seat_has_four_plates_below_its_top() -> None:
    """A wall of 40 in: from 18 to 38 in; plates of 3 in at the top and 5 in below it."""
    seat = _mount(SEAT)
    assert (*seat.ends, seat.top, seat.out) == pytest.approx((mm(18), mm(38), mm(18), mm(15)))
    assert len(seat.fixings) == 4
    assert {round(v / 25.4, 4) for _, v in seat.fixings} == {13.0, 16.5}


LAST = len(_with(BAR).splitlines())
MISTAKES = {
    "wall": (BAR.replace("wall: back", "wall: bak"), "unknown wall `bak`; did you mean `back`?"),
    "kind": (BAR.replace("grab_bar", "grabbar"), "not one of the words known here; did you mean `grab_bar`?"),
    "past the end": (BAR.replace("across: 6", "across: 40"), '"bar" reaches past an end of the 60 in wall "back"'),
    "through the ceiling": (BAR.replace("up: 34", "up: 97"), '"bar" reaches past the floor or the 96 in ceiling'),
    "no length": (BAR.replace(", length: 24", ""), "`length` is missing"),
    "too short": (BAR.replace("length: 24", "length: 5"), '"bar" is shorter than its two plates'),
    "a fitting's name": (BAR.replace("name: bar", "name: valve"), 'there is a fitting "valve" already'),
    "a wall's name": (BAR.replace("name: bar", "name: back"), 'there is a wall "back" already'),
    "no out": (SEAT.replace(", out: 15", ""), "`out` is missing: how far a seat stands out"),
    "a seat's gap": (SEAT.replace("out: 15", "out: 15, gap: 1"), "`gap` is a size of a grab bar; `seat` is a seat"),
    "a bar's out": (BAR.replace("up: 34", "up: 34, out: 3"), "`out` is a size of a seat; `bar` is a grab_bar"),
    "a seat upright": (SEAT.replace("out: 15", "out: 15, direction: upright"), "only a grab bar has a direction"),
}


@pytest.mark.parametrize(("mount", "words"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_named_on_its_line(mount: str, words: str) -> None:
    found = complaints(_with(mount))
    assert any(line == LAST and words in message for line, message in found), found


def test_one_name_is_for_one_mount() -> None:
    assert any('there is a mount "bar" already' in message for _, message in complaints(_with(BAR, BAR)))


def test_a_place_is_one_of_three() -> None:
    found = complaints(changed(("code: none", "code: none, accessible: transfer")))
    assert any("did you mean `transfer_shower`?" in message for _, message in found), found
