"""The cure of a stud in a fitting's way: the least move, as the hand finds it, and advice where none will do."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.findings import Cure
from generator.model.plan import Plan, Support
from generator.model.room import Duty, Room
from generator.planning.cures import add_cure, measured_from, move_cure
from generator.reading import load_catalogue
from tests.worked_plan import worked_plan
from tests.worked_room import END_STUDS_AS_FOUND, mm, worked_room


def _as_found(studs: tuple[float, ...] = END_STUDS_AS_FOUND) -> tuple[Room, Plan]:
    room = replace(worked_room(studs), rules=load_catalogue().rules)
    return room, worked_plan(room)


def _cure(room: Room, plan: Plan, support_id: str = "S-right-02") -> Cure:
    own = [s for s in plan.supports if s.wall == "right"]
    return move_cure(room, plan.wall("right"), own, plan.support(support_id))


def test_to_the_left_to_12_and_a_half_as_worked_by_hand() -> None:
    """worked-room.md: 19-1/4 to the right leaves a bay of 18-1/2; 13-3/8 - 1/8 - 3/4 = 12-1/2 holds."""
    cure = _cure(*_as_found())
    assert (cure.kind, cure.wall, cure.to) == ("move_support", "right", mm(12.5))
    assert cure.room_path == "walls.2.supports.studs.0.centres.1"
    assert cure.text == (
        'move the stud at 16 1/4" to 12 1/2" from the corner with back; '
        "confirm that the wall is not load-bearing, or head off as the code requires"
    )


def test_the_nearer_side_is_taken_where_both_hold() -> None:
    room, plan = _as_found((0.75, 16.25, 31.0, 32.75, 36.0))
    wide = replace(room, rules={**room.rules, "support-spacing": replace(room.rules["support-spacing"], limit=mm(24))})
    assert _cure(wide, plan).to == pytest.approx(mm(19.25))


@pytest.mark.parametrize(
    ("duty", "words"),
    [("bearing", "head off as the code requires"), ("non_bearing", 'to 12 1/2" from the corner with back')],
)
def test_what_is_said_follows_from_the_walls_duty(duty: Duty, words: str) -> None:
    room, plan = _as_found()
    room = replace(room, walls=tuple(replace(w, duty=duty) for w in room.walls))
    text = _cure(room, plan).text
    assert text.endswith(words)
    assert "confirm" not in text


def test_where_no_move_will_do_the_stud_is_headed_off() -> None:
    room, plan = _as_found()
    narrow = replace(room.rules["support-spacing"], limit=mm(14))
    cure = _cure(replace(room, rules={**room.rules, "support-spacing": narrow}), plan)
    assert cure.kind == "advice"
    assert "head it off as the code requires" in cure.text


def test_a_stud_that_carries_an_end_of_the_boards_is_not_moved_away() -> None:
    room, plan = _as_found()
    assert _cure(room, plan, "S-right-05").kind == "advice"


def test_the_place_keeps_to_the_papers_step_away_from_the_fitting() -> None:
    room, plan = _as_found()
    room = replace(room, units="mm")
    cure = _cure(room, plan)
    assert cure.to == 317.0
    assert "to 317 mm from the corner with back" in cure.text


def test_places_are_told_from_the_end_that_was_measured_from() -> None:
    room, _ = _as_found()
    left = room.walls[0]
    assert measured_from(room, left) == "right"
    for text, end in (("47 1/2", "left"), ("12 1/2", "right")):
        assert measured_from(replace(room, entered={left.supports[1].path: text}), left) == end
    back = room.walls[1]
    assert measured_from(room, back) == "left"
    assert measured_from(replace(room, entered={back.supports[2].path: "29 1/4"}), back) == "right"


def _added(plan: Plan, *centres: float) -> list[Support]:
    like = plan.support("S-back-02")
    shifts = [mm(c) - like.axis[0][0] for c in centres]
    return [replace(like, axis=((like.axis[0][0] + d, 0.0), (like.axis[1][0] + d, like.axis[1][1]))) for d in shifts]


def test_studs_to_add_are_told_together_and_can_be_replayed() -> None:
    room, plan = _as_found()
    cure = add_cure(room, room.walls[1], _added(plan, 47.75))
    assert cure is not None
    assert (cure.text, cure.kind, cure.also) == ('add a stud at 47 3/4" from the corner with left', "add_support", ())
    cure = add_cure(room, room.walls[1], _added(plan, 40, 24))
    assert cure is not None
    assert cure.text == 'add studs at 24" and 40" from the corner with left'
    assert [cure.to, *cure.also] == [pytest.approx(mm(24)), pytest.approx(mm(40))]
    assert add_cure(room, room.walls[1], []) is None
