"""Bodies of the worked room and of rooms changed from it, for the tests of this folder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

from generator.model.plan import Board, Plan, Support
from generator.model.room import Room
from generator.solids import Bodies, make_bodies
from tests.worked_plan import worked_plan, worked_room


@cache
def worked_bodies() -> Bodies:
    return make_bodies(worked_room(), worked_plan())


def with_board(plan: Plan, board_id: str, change: Callable[[Board], Board]) -> Plan:
    """The plan with one board changed."""
    return replace(plan, boards=tuple(change(b) if b.id == board_id else b for b in plan.boards))


def with_support(plan: Plan, support_id: str, change: Callable[[Support], Support]) -> Plan:
    """The plan with one support changed."""
    return replace(plan, supports=tuple(change(s) if s.id == support_id else s for s in plan.supports))


def bodies_of(plan: Plan, room: Room | None = None) -> Bodies:
    return make_bodies(room or worked_room(), plan)
