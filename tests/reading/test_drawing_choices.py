"""How a room file chooses the units and the practice of its drawings."""

from pathlib import Path

import pytest

from generator.errors import InputError
from generator.reading import load_catalogue
from tests.reading.rooms import EXAMPLES, SMALL, complaints, read


@pytest.mark.parametrize(
    ("said", "main", "other"), [("in", "in", None), ("mm", "mm", None), ("in+mm", "in", "mm"), ("mm+in", "mm", "in")]
)
def test_the_main_unit_comes_first(said: str, main: str, other: str | None) -> None:
    choices = read(f"{SMALL}choices: {{drawing_units: {said}}}\n").choices
    assert (choices.drawing_units, choices.other_units) == (main, other)
    assert (choices.paper_units.main, choices.paper_units.other) == (main, other)


def test_the_usual_practice_goes_by_the_unit_of_the_room() -> None:
    metric = (EXAMPLES / "recess-600.yaml").read_text("utf-8")
    chosen = read(f"{SMALL}choices: {{practice: iso}}\n")
    assert [r.choices.practice and r.choices.practice.id for r in (read(SMALL), read(metric), chosen)] == [
        "us",
        "iso",
        "iso",
    ]


def test_what_is_no_choice_is_told_with_its_line() -> None:
    line = SMALL.count("\n") + 1
    ((at, message),) = complaints(f"{SMALL}choices: {{practice: uss}}\n")
    assert (at, message) == (line, "unknown profile `uss` of practices; did you mean `us`?")
    ((at, message),) = complaints(f"{SMALL}choices: {{drawing_units: feet}}\n")
    assert at == line
    assert "in+mm" in message


def test_writing_larger_than_its_room_is_refused(tmp_path: Path) -> None:
    shipped = (EXAMPLES.parent / "practices.yaml").read_text("utf-8")
    (tmp_path / "practices.yaml").write_text(shipped.replace("{value: 3/32 in", "{value: 1/8 in"), "utf-8")
    with pytest.raises(InputError, match=r"text is 1/8 in high; drawings have room for 2\.5 mm"):
        load_catalogue((tmp_path,))
