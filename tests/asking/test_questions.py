"""The questions ask for all that the room file needs, and their answers make a room that can be planned."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from generator.asking.dialogue import answers_of, interview
from generator.asking.entries import closed_up, entries
from generator.asking.judging import why_not
from generator.asking.kinds import KINDS, form_of
from generator.asking.questions import Question
from generator.asking.room_file import room_text
from generator.errors import InputError
from generator.forms import filled_room
from generator.planning.pipeline import make_plan
from generator.reading import read_room, room_schema
from tests.asking.filled import box, catalogue, filled, form
from tests.properties.light import lightly


def _required(schema: Any, root: Any, path: str) -> list[str]:
    """Paths of required keys, list items as `*`: an own walk over the published schema."""
    while "$ref" in schema:
        schema = root["$defs"][schema["$ref"].rpartition("/")[2]]
    if "items" in schema and isinstance(schema["items"], dict):
        return _required(schema["items"], root, f"{path}.*")
    if "properties" not in schema:
        return [path]
    found = [
        _required(schema["properties"][key], root, f"{path}.{key}".strip(".")) for key in schema.get("required", ())
    ]
    return [key for keys in found for key in keys]


def _asked(kind: str) -> set[str]:
    asked = form(kind)
    keys = [key for q in asked.questions for key in (*q.keys, *(k for k, _ in q.also))]
    return {re.sub(r"\.[0-9]+(?=\.|$)", ".*", key) for key in (*keys, *(k for k, _ in asked.given))}


_LISTS = {
    "walls.*.supports.studs.*": "StudsShape",
    "walls.*.supports.blocking.*": "BlockingShape",
    "walls.*.supports.backing.*": "BackingShape",
    "walls.*.supports.plates": "PlatesShape",
    "fittings.*": "FittingShape",
    "corners.*": "CornerShape",
    "walls.*.widths.*": "WidthShape",
    "walls.*.heights.*": "HeightShape",
    "walls.*.string_line.*": "StringLineShape",
    "walls.*.supports.holes.*": "HoleShape",
    "walls.*.supports.notches.*": "NotchShape",
    "mounts.*": "MountShape",
    "niches.*": "NicheShape",
    "windows.*": "WindowShape",
    "walls.*.in_bays.*": "InBayShape",
    "walls.*.supports.masonry": "MasonryShape",
    "soffits.*": "SoffitShape",
}
_SOME = {
    "benches.*": "BenchShape",
    "curbs.*": "CurbShape",
    "walls.*.partition": "PartitionShape",
}
"""Of some kinds of room only."""


@pytest.mark.parametrize("kind", KINDS)
def test_every_required_key_of_the_schema_is_asked_for(kind: str) -> None:
    root: Any = room_schema()
    needed = _required(root, root, "")
    needed += [key for at, name in _LISTS.items() for key in _required(root["$defs"][name], root, at)]
    lists = ("centres.*", ".at.*", ".off.*")
    needed = [key.removesuffix(".*") if key.endswith(lists) else key for key in needed]
    needed = [key for key in needed if kind != "single" or not key.startswith("corners")]
    assert len(needed) > 40
    assert set(needed) - {"walls.*.supports"} <= _asked(kind)


@pytest.mark.parametrize("at", _SOME)
def test_what_only_some_kinds_have_is_asked_for_whole_where_it_is_asked(at: str) -> None:
    root: Any = room_schema()
    needed = set(_required(root["$defs"][_SOME[at]], root, at))
    kinds = [kind for kind in KINDS if any(key.startswith(at) for key in _asked(kind))]
    assert needed and kinds
    assert all(needed <= _asked(kind) for kind in kinds)


@pytest.mark.parametrize("kind", KINDS)
def test_the_base_is_asked_for_whole(kind: str) -> None:
    """The reader needs these of every base that is one; the schema cannot say so."""
    assert {f"base.{key}" for key in ("kind", "profile", "along", "length", "width", "deck")} <= _asked(kind)


def _answers_file(folder: Path, texts: dict[str, str]) -> Path:
    file = folder / "answers.yaml"
    file.write_text("".join(f"{at}: {json.dumps(text)}\n" for at, text in texts.items()), "utf-8")
    return file


@pytest.mark.parametrize("kind", KINDS)
def test_a_filled_form_makes_a_room_that_is_planned(kind: str, tmp_path: Path) -> None:
    file = tmp_path / "room.yaml"
    file.write_bytes(filled_room(form(kind), _answers_file(tmp_path, filled(kind)), ()))
    room = read_room(file)
    with lightly():
        plan = make_plan(room)
    assert [wall.id for wall in room.walls][: len(KINDS[kind].walls)] == list(KINDS[kind].walls)
    assert [fitting.id for fitting in room.fittings] == ["valve", "arm"]
    assert (len(room.features) > 0) == (kind in ("recess", "tray", "walk-in"))
    assert [mount.id for mount in room.mounts] == (["mount-1"] if kind == "recess" else [])
    assert len(plan.boards) >= len(room.walls)


def test_what_is_in_a_bay_and_what_hangs_from_the_ceiling_is_written_down(tmp_path: Path) -> None:
    file = tmp_path / "room.yaml"
    file.write_bytes(filled_room(form("tray"), _answers_file(tmp_path, filled("tray")), ()))
    room = read_room(file)
    back = room.walls[1]
    assert [(one.kind, one.ring[0][0] / 25.4, one.ring[2][0] / 25.4) for one in back.in_bays] == [("pipe", 34.0, 35.0)]
    assert [(one.id, one.kind) for one in room.features] == [("bench", "bench"), ("curb", "curb"), ("soffit", "soffit")]
    assert "soffits:\n  - {name: soffit, along: back" in re.sub("#.*\n *", "", file.read_text())


def test_of_bare_masonry_no_studs_are_asked(tmp_path: Path) -> None:
    """The left wall of a corner, of brick: neither its studs nor its plates, which would otherwise be needed."""
    texts = {**filled("corner"), box("corner", "C", "masonry"): "brick"}
    for mark in ("stud", "studs"):
        texts.pop(box("corner", "C", mark), None)
    file = tmp_path / "room.yaml"
    file.write_bytes(filled_room(form("corner"), _answers_file(tmp_path, texts), ()))
    room = read_room(file)
    assert room.walls[0].masonry is not None and not room.walls[0].supports
    assert room.walls[1].masonry is None


def test_lengths_stay_as_they_were_entered_and_nothing_measured_is_left_out(tmp_path: Path) -> None:
    text = filled_room(form("recess"), _answers_file(tmp_path, filled("recess")), ()).decode()
    file = tmp_path / "room.yaml"
    file.write_text(text)
    room = read_room(file)
    assert room.entered["walls.1.supports.studs.0.centres.1"] == "15 7/8"
    assert room.entered["walls.0.widths.1.is"] == "60 1/16"
    assert room.entered["walls.0.heights.1.at"] == "60"
    assert room.entered["corners.0.diagonal"] == "40"
    measured = [length / 25.4 for r in room.walls[1].readings for length in (r.v, r.off)]
    assert measured == pytest.approx([24, 0.5, 48, 0.5625, 24, 0.5])
    assert "44 1/8, agrees" in text
    assert room.name == "Hall: bath #2"


def test_the_dialogue_writes_what_the_file_of_answers_writes(tmp_path: Path) -> None:
    """An empty line for every blank box takes the default; for one without, `-`."""
    texts = filled("recess")

    def reply(question: Question, usual: str) -> str:
        return texts.get(question.box, "" if usual else "-")

    asked = interview(form("recess"), catalogue(), reply, pytest.fail)
    file = _answers_file(tmp_path, texts)
    assert room_text(form("recess"), asked).encode() == filled_room(form("recess"), file, ())


WRONG = [
    ("E", "studs", "3/4, 71", "lies outside the 60 1/4 in"),
    ("E", "studs", "3/4, 15,7/8x", "the fraction is not complete"),
    ("B", "length", "60 ¼ 3", "two numbers stand side by side"),
    ("B", "profile", "thin-3-17", "did you mean `thin-3-16`"),
    ("C", "middle", "60 1/4", 'an end of the wall is bowed by 1/4" here'),
    ("C", "middle-at", "97", "each at a height of its own"),
    ("E", "rising", "99", "measure them again"),
    ("A", "square-0", "56", 'lies between 8" and 56"'),
    ("F", "line-0", "17", "stud"),
    ("I", "valve-other", "44 1/2", "the right wall is 60"),
    ("I", "valve-up", "97", "above the 8' ceiling"),
    ("A", "name", "-", "needed"),
    ("C", "block-0-height", "0", "next to nothing"),
]


@pytest.mark.parametrize(("letter", "mark", "text", "reason"), WRONG)
def test_a_wrong_answer_is_told_why(letter: str, mark: str, text: str, reason: str, tmp_path: Path) -> None:
    at = box("recess", letter, mark)
    with pytest.raises(InputError) as caught:
        answers_of(form("recess"), _answers_file(tmp_path, {**filled("recess"), at: text}), catalogue())
    problems = [p for p in caught.value.problems if reason in p.message]
    assert len(problems) == 1
    assert problems[0].line > 0
    assert f"box {at[0]}" in problems[0].message


@pytest.mark.parametrize(("letter", "mark", "text"), [("C", "middle", "60 1/4"), ("I", "valve-up", "97")])
def test_a_mistake_that_shows_only_later_is_told_once_at_its_own_box(
    letter: str, mark: str, text: str, tmp_path: Path
) -> None:
    """The bow shows when the heights are known, the pipe above the ceiling when it is known what comes through."""
    at = box("recess", letter, mark)
    file = _answers_file(tmp_path, {**filled("recess"), at: text})
    with pytest.raises(InputError) as caught:
        answers_of(form("recess"), file, catalogue())
    line = next(i for i, said in enumerate(file.read_text().splitlines(), 1) if said.startswith(f"{at}: "))
    (problem,) = (p for p in caught.value.problems if p.line == line)
    assert problem.message.startswith(f"box {at} (")


def test_the_dialogue_names_an_earlier_box_that_is_at_fault() -> None:
    asked, at = form("recess"), box("recess", "C", "height-left")
    number = next(i for i, q in enumerate(asked.questions) if q.box == at)
    texts = {**filled("recess"), box("recess", "C", "middle"): "60 1/4"}
    before = {q.box: texts[q.box] for q in asked.questions[:number] if q.box in texts}
    told = why_not(asked, asked.questions[number], "96", before, catalogue())
    assert told.startswith(f"box {box('recess', 'C', 'middle')} (")


def test_above_the_deck_must_agree_with_above_the_floor() -> None:
    asked, at = form("recess"), box("recess", "I", "valve-deck")
    question = next(q for q in asked.questions if q.box == at)
    before = filled("recess")
    assert why_not(asked, question, "9 1/2", before, catalogue()) == ""
    assert "measure both again" in why_not(asked, question, "9", before, catalogue())


def test_a_bad_answer_is_asked_again_and_back_goes_back() -> None:
    texts = filled("recess")
    name, title = form("recess").questions[:2]
    script = {name.box: ["", "first", "second"], title.box: ["back", "-"]}
    told: list[str] = []

    def reply(question: Question, usual: str) -> str:
        lines = script.get(question.box)
        return lines.pop(0) if lines else texts.get(question.box, "" if usual else "-")

    answers = interview(form("recess"), catalogue(), reply, told.append)
    assert answers[name.box] == "second"
    assert len(told) == 1
    assert "nothing is written here" in told[0]


def test_boxes_that_are_not_on_the_form_are_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no box Q7"):
        answers_of(form("recess"), _answers_file(tmp_path, {**filled("recess"), "Q7": "1"}), catalogue())


def test_empty_slots_leave_no_holes_in_lists() -> None:
    assert closed_up(("a.0.x", "a.2.x", "a.2.y.5")) == {"a.0.x": "a.0.x", "a.2.x": "a.1.x", "a.2.y.5": "a.1.y.0"}
    keys = [entry.key for entry in entries(form("recess"), filled("recess"))]
    assert "fittings.1.name" in keys
    assert "fittings.2.name" not in keys


def test_boxes_are_named_once_and_every_kind_is_in_both_units() -> None:
    for kind in KINDS:
        for asked in (form(kind), form_of(kind, "mm", catalogue())):
            boxes = [q.box for q in asked.questions]
            assert len(set(boxes)) == len(boxes)
            assert [len({q.mark for q in s.questions}) for s in asked.sections] == [
                len(s.questions) for s in asked.sections
            ]
