"""`form` and `new` as a person runs them: a form to print, a dialogue that forgives, nothing left behind."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from generator.asking.entries import is_asked
from generator.asking.questions import NONE
from generator.cli import app
from generator.reading import read_room
from tests.asking.filled import filled, form

RUN = CliRunner()


def _typed(**instead: str) -> str:
    """What a person types for the filled recess, an empty line for a blank box; `instead` by box."""
    texts = filled("recess")
    lines: list[str] = []
    given: dict[str, str] = {}
    for question in form("recess").questions:
        if is_asked(form("recess"), question, given):
            text = texts.get(question.box, "" if question.default else NONE)
            given[question.box] = text or question.default
            lines.append(instead.get(question.box, text))
    return "\n".join(lines) + "\n"


def test_a_dialogue_writes_a_room_that_can_be_read(tmp_path: Path) -> None:
    out = tmp_path / "room.yaml"
    done = RUN.invoke(app, ["new", "recess", "-o", str(out)], input=_typed(A1="?\nback\nHall"))
    assert done.exit_code == 0, done.output
    assert read_room(out).name == "Hall"
    assert "a line of text" in done.output


def test_a_bad_answer_is_asked_again_with_the_reason(tmp_path: Path) -> None:
    out = tmp_path / "room.yaml"
    done = RUN.invoke(app, ["new", "recess", "-o", str(out)], input=_typed(C4="60 1/4/2\n60 1/16", I3="45\n44 1/8"))
    assert done.exit_code == 0, done.output
    assert "the right wall is 60" in done.output
    assert "two strokes in one fraction" in done.output
    assert "Traceback" not in done.output


def test_stopping_leaves_nothing_behind(tmp_path: Path) -> None:
    done = RUN.invoke(app, ["new", "recess", "-o", str(tmp_path / "room.yaml")], input="Hall\n")
    assert done.exit_code == 2
    assert "nothing was written" in done.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["new", "form"])
def test_an_existing_file_is_never_replaced(command: str, tmp_path: Path) -> None:
    out = tmp_path / "mine"
    out.write_text("mine")
    done = RUN.invoke(app, [command, "recess", "-o", str(out)])
    assert done.exit_code == 2
    assert "is there already" in done.output
    assert out.read_text() == "mine"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["form", "reces"], "did you mean `recess`"),
        (["form", "recess", "--paper", "a5"], "letter or a4"),
        (["form", "recess", "--units", "cm"], 'not "cm"'),
        (["new", "recess", "--answers", "nowhere.yaml"], "nowhere.yaml"),
    ],
)
def test_wrong_words_get_a_sentence(words: list[str], said: str, tmp_path: Path) -> None:
    done = RUN.invoke(app, [*words, "-o", str(tmp_path / "out")])
    assert done.exit_code == 2
    assert said in done.output
    assert list(tmp_path.iterdir()) == []


def test_a_form_is_the_same_file_each_time(tmp_path: Path) -> None:
    for name in ("a.pdf", "b.pdf"):
        assert RUN.invoke(app, ["form", "tray", "--paper", "a4", "-o", str(tmp_path / name)]).exit_code == 0
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()
