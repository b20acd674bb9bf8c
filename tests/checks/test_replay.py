"""Every cure is carried out and judged again: it mends what it was given for, and breaks nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import InputError
from generator.model.findings import Finding
from generator.model.room import Room
from generator.reading import read_room
from tests.checks.replay import found_fails, replay
from tests.properties.rooms import room_text
from tests.worked_room import mm

ROOMS = Path(__file__).parents[2] / "profiles" / "rooms"


def curable(findings: list[Finding]) -> list[Finding]:
    return [f for f in findings if f.cure and f.cure.kind != "advice"]


def cured(room: Room) -> Room:
    """The room with one cure after the other carried out."""
    for _ in range(40):
        todo = curable(found_fails(room))
        if not todo:
            return room
        assert todo[0].cure is not None
        room = replay(room, todo[0].cure)
    raise AssertionError(f"{room.name}: the cures come to no end")


def test_the_recess_as_measured_fails_three_times_and_one_move_cures_all() -> None:
    """worked-room.md: valve, spout and arm stand on the stud at 16-1/4; at 12-1/2 the room passes."""
    room = read_room(ROOMS / "recess-as-measured.yaml")
    fails = found_fails(room)
    assert sorted(f.subject.split()[0] for f in fails) == ["arm", "spout", "valve"]
    assert {f.cure.to for f in fails if f.cure} == {mm(12.5)}
    assert fails[0].cure is not None
    assert found_fails(replay(room, fails[0].cure)) == []
    assert found_fails(read_room(ROOMS / "recess.yaml")) == []


def test_studs_at_600_mm_fail_and_the_listed_studs_cure_them() -> None:
    room = read_room(ROOMS / "recess-600.yaml")
    fails = found_fails(room)
    assert {f.rule for f in fails} == {"support-spacing"}
    assert {f.place.wall for f in fails} == {"left", "back", "right"}
    for fail in fails:
        assert fail.cure is not None
        room = replay(room, fail.cure)
    assert found_fails(room) == []
    assert found_fails(read_room(ROOMS / "recess-600-cured.yaml")) == []


@pytest.mark.parametrize("start", range(0, 48, 24))
def test_cures_of_generated_rooms_mend_what_they_are_given_for(start: int, tmp_path: Path) -> None:
    tried = 0
    for seed in range(start, start + 24):
        file = tmp_path / f"{seed}.yaml"
        file.write_text(room_text(seed), "utf-8")
        try:
            room = read_room(file)
        except InputError:
            continue
        before = found_fails(room)
        for fail in curable(before):
            assert fail.cure is not None
            after = found_fails(replay(room, fail.cure))
            assert len(after) < len(before), f"room {seed}: {fail.subject}: {fail.cure.text}"
            tried += 1
        assert curable(found_fails(cured(room))) == []
    assert tried > 10
