"""Corners measured across: angles against the law of cosines by hand, what counts as square, what contradicts what."""

from __future__ import annotations

from math import acos, cos, degrees, radians, sqrt

import pytest

from generator.planning.pipeline import make_plan
from tests.reading.rooms import SMALL, changed, complaints, read

CORNER = "corners:\n  - {between: [left, back], MEASURED}\nfittings:"
BARE = changed(("kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16", "kind: none"))


def measured(text: str, room: str = BARE) -> str:
    return changed(("fittings:", CORNER.replace("MEASURED", text)), text=room)


def angle(text: str) -> float:
    return read(measured(text)).corners[0].angle_deg


def test_3_4_5_is_a_right_angle() -> None:
    assert angle("marks: [36, 48], diagonal: 60") == 90.0


def test_a_longer_diagonal_opens_the_corner() -> None:
    # 36 and 48, 60 1/2 across: cos = (1296 + 2304 - 3660.25) / 3456 = -60.25 / 3456 = -0.017433449; 90.998914 degrees
    assert angle("marks: [36, 48], diagonal: 60 1/2") == pytest.approx(90.998914, abs=1e-6)
    # An equilateral triangle has 60 degrees.
    assert angle("marks: [36, 36], diagonal: 36") == pytest.approx(60.0)


def test_within_the_fit_over_the_boards_reach_a_corner_is_square() -> None:
    # Boards reach 60 along the back wall: 1/8 there is 1/480 of the reach, an angle of 90 - 0.119366 degrees.
    edge = degrees(acos(1 / 480))
    assert angle(f"angle: {edge + 0.001:.6f}") == 90.0
    assert angle(f"angle: {edge - 0.001:.6f}") == pytest.approx(edge - 0.001, abs=1e-6)
    # Where boards go no farther than 20, three times as much counts as square.
    near = changed(("width: 60\n", "width: 60\n    boards: {reach: 20}\n"), ("reach: 34", "reach: 20"), text=BARE)
    near = changed(("15, 34]", "15, 34, 20]"), ("15, 30,", "15, 20, 30,"), text=near)
    near = changed(("34, 20]", "20, 34]"), text=near)
    room = read(measured("angle: 89.7", room=near))
    assert room.corners[0].angle_deg == 90.0


@pytest.mark.parametrize("rule", ["square", "fit"])
def test_what_counts_as_square_is_a_rule_and_no_more_than_the_fit(rule: str) -> None:
    text = measured("angle: 89.95") + f"choices: {{allowances: {{{rule}: 1/64}}}}\n"
    assert read(text).corners[0].angle_deg == pytest.approx(89.95)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        # 92 degrees make sqrt(1296 + 2304 + 3456 * 0.0348995) = sqrt(3720.6127) = 60.9968; 60 is 0.9968 off
        ("marks: [36, 48], diagonal: 60, angle: 92", 'it is 1" off what an angle of 92 makes it (61")'),
        ("marks: [36, 48], diagonal: 84", 'lies between 12" and 84"'),
        ("marks: [36, 48], diagonal: 12", 'lies between 12" and 84"'),
        ("diagonal: 60", "`marks` is missing"),
        ("marks: [36, 48]", "`diagonal` is missing"),
        ("marks: [36, 36], diagonal: 12", "from 40 to 140 degrees"),
    ],
)
def test_what_is_wrong_with_a_measured_corner_is_told(text: str, words: str) -> None:
    messages = [message for _, message in complaints(measured(text))]
    assert any(words in message for message in messages), messages


@pytest.mark.parametrize("true", [60.0, 89.2, 90.0, 91.0, 120.0, 135.0])
def test_the_angle_comes_back_from_the_diagonal_that_it_makes(true: float) -> None:
    across = sqrt(36**2 + 48**2 - 2 * 36 * 48 * cos(radians(true)))
    assert angle(f"marks: [36, 48], diagonal: {across:.9f}") == pytest.approx(true, abs=1e-6)
    # and the angle itself beside it is no contradiction, one step of the tape is not either
    assert complaints(measured(f"marks: [36, 48], diagonal: {across + 0.06:.9f}, angle: {true}")) == []


def test_a_corner_that_is_not_square_is_planned() -> None:
    for text in ("angle: 89.5", "angle: 90.5"):
        plan = make_plan(read(measured(text)))
        assert {board.wall for board in plan.boards} == {"left", "back"}
        assert plan.corners[0].angle_deg == float(text.split()[1])


def test_small_room_of_these_tests_is_square() -> None:
    assert read(SMALL).corners[0].angle_deg == 90.0
