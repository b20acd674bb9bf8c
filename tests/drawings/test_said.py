"""Lengths on paper: as entered where entered, else within half a step of the truth."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drawings.said import entered_mm, measured_from, said, weight_text
from generator.units import Units, parse_length
from tests.drawings.set_job import set_job


def test_an_entered_length_is_said_as_entered_with_its_mark() -> None:
    job = set_job()
    assert said(job, 15.875 * 25.4, ("fittings.valve.across",)) == '15-7/8"*'


def test_a_length_that_was_measured_from_elsewhere_is_computed() -> None:
    job = set_job()
    assert said(job, (60 - 15.875) * 25.4, ("fittings.valve.across",)) == '44 1/8"'


def test_a_unit_that_was_written_is_kept() -> None:
    job = set_job()
    job = replace(job, room=replace(job.room, entered={"a": "403 mm"}))
    assert said(job, 403.0, ("a",)) == "403 mm*"


def test_words_are_no_length() -> None:
    assert entered_mm(set_job().room, "from the right") is None


def test_walls_are_dimensioned_from_the_corner_they_were_measured_from() -> None:
    room = set_job().room
    assert [measured_from(room, wall) for wall in room.walls] == ["right", "left", "left"]


@settings(deadline=None)
@given(st.floats(0, 4000))
def test_computed_lengths_are_within_half_a_step(mm: float) -> None:
    steps: tuple[tuple[Units, float], ...] = (("in", 25.4 / 16), ("mm", 1.0))
    for units, step in steps:
        job = set_job("letter", units)
        text = said(job, mm)
        assert abs(parse_length(text, units).mm - mm) <= step / 2 + 1e-6


def test_weights_are_in_the_pounds_of_the_1959_agreement() -> None:
    assert weight_text(4.5359237, "in") == "10.0 lb"
    assert weight_text(4.5359237, "mm") == "4.5 kg"


def test_a_board_that_weighs_next_to_nothing_is_not_said_to_weigh_nothing() -> None:
    assert weight_text(0.02, "in") == "< 0.1 lb"
    assert weight_text(0.05, "mm") == "0.1 kg"
