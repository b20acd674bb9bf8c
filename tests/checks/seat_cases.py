"""The framing of a corner seat made worse: a small room of its own, as the hand-made plan has no seat."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from math import sqrt

from generator.model.plan import Plan, Support
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from tests.checks.cases import Case, Change, Pair
from tests.reading.built_rooms import CORNER
from tests.reading.rooms import read
from tests.worked_room import mm


@cache
def _seat() -> Pair:
    room = read(CORNER)
    return room, make_plan(room)


def _without(gone: Callable[[Support], bool]) -> Change:
    """The seat without some of its lumber, instead of the hand-made plan."""

    def change(_: Room, __: Plan) -> Pair:
        room, plan = _seat()
        return room, replace(plan, supports=tuple(s for s in plan.supports if not gone(s)))

    return change


WHOLE = _without(lambda _: False)
SEAT_CASES = (
    # Faces of 3-1/2 at both ends of a front of 15 root 2: without the stud between, their middles are the bay.
    Case(
        "seat-span",
        "planned",
        _without(lambda s: s.reason == "knee stud of seat"),
        mm(15 * sqrt(2) - 3.5),
        "seat-front",
        good=WHOLE,
    ),
    Case("seat-edge", "planned", _without(lambda s: s.kind == "ledger"), 0.0, "seat-seat", good=WHOLE),
    # Between the corner stud and the next one, 16 in on, the ledger of 12.8 crosses the first alone.
    Case(
        "ledger-fixed",
        "planned",
        _without(lambda s: s.kind == "blocking" and s.wall == "back"),
        1.0,
        "back",
        good=WHOLE,
    ),
)
