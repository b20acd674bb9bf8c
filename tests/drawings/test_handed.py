"""Which parts are left and right hand: mirror images of each other that are not alike both ways."""

from __future__ import annotations

from dataclasses import replace

from generator.drawings.handed import Handed, handed
from generator.model.geometry import canonical
from generator.model.plan import Plan, Rabbet
from tests.drawings.worked_job import hole
from tests.worked_plan import worked_plan

STEP = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (600.0, 300.0), (600.0, 900.0), (0.0, 900.0))


def _mirrored(points: tuple[tuple[float, float], ...], by: float = 600.0) -> tuple[tuple[float, float], ...]:
    return canonical((by - x, y) for x, y in points)


def _plan(*boards: tuple[str, str, tuple[tuple[float, float], ...]]) -> Plan:
    plan = worked_plan()
    first = plan.boards[0]
    made = tuple(
        replace(first, id=mark, wall=wall, outline=canonical(ring), openings=(), rabbets=())
        for mark, wall, ring in boards
    )
    return replace(plan, boards=made)


def _changed(plan: Plan, mark: str, **changes: object) -> Plan:
    boards = tuple(replace(b, **changes) if b.id == mark else b for b in plan.boards)  # type: ignore[arg-type]
    return replace(plan, boards=boards)


def test_mirror_images_on_opposite_walls_are_a_left_and_a_right() -> None:
    plan = _plan(("B-1", "right", _mirrored(STEP)), ("B-2", "left", STEP))
    assert handed(plan) == {"B-2": Handed("left", "B-1"), "B-1": Handed("right", "B-2")}


def test_place_on_the_wall_does_not_matter() -> None:
    far = tuple((x + 1000.0, y + 50.0) for x, y in _mirrored(STEP))
    assert set(handed(_plan(("B-1", "back", STEP), ("B-2", "back", far)))) == {"B-1", "B-2"}


def test_copies_and_parts_alike_both_ways_have_no_hand() -> None:
    square = ((0.0, 0.0), (600.0, 0.0), (600.0, 900.0), (0.0, 900.0))
    assert handed(_plan(("B-1", "left", STEP), ("B-2", "right", STEP))) == {}
    assert handed(_plan(("B-1", "left", square), ("B-2", "right", square))) == {}


def test_a_copy_has_the_hand_of_its_like() -> None:
    plan = _plan(("B-1", "left", STEP), ("B-2", "back", _mirrored(STEP)), ("B-3", "right", STEP))
    assert [handed(plan)[mark].hand for mark in ("B-1", "B-2", "B-3")] == ["left", "right", "left"]


def test_a_rabbet_that_only_one_has_makes_them_no_pair() -> None:
    plan = _plan(("B-1", "left", STEP), ("B-2", "right", _mirrored(STEP)))
    cut = Rabbet(((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (0.0, 20.0)), 6.0, "back")
    other = Rabbet(_mirrored(cut.ring), 6.0, "back")
    assert handed(_changed(plan, "B-1", rabbets=(cut,))) == {}
    assert len(handed(_changed(_changed(plan, "B-1", rabbets=(cut,)), "B-2", rabbets=(other,)))) == 2
    deeper = replace(other, depth=7.0)
    assert handed(_changed(_changed(plan, "B-1", rabbets=(cut,)), "B-2", rabbets=(deeper,))) == {}


def test_a_square_with_one_hole_aside_is_handed() -> None:
    square = ((0.0, 0.0), (600.0, 0.0), (600.0, 900.0), (0.0, 900.0))
    plan = _plan(("B-1", "left", square), ("B-2", "right", square))
    plan = _changed(plan, "B-1", openings=(hole("a", 100, 500, 40),))
    plan = _changed(plan, "B-2", openings=(hole("b", 500, 500, 40),))
    assert len(handed(plan)) == 2
