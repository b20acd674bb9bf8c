"""For every rule of accessible places and of what carries mounts: a room that holds it, and one that breaks it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.plan import Plan
from generator.model.room import Room
from tests.checks import access_rooms as ac
from tests.checks.cases import Case, Change, Pair
from tests.worked_plan import worked_plan
from tests.worked_room import mm


def _as(make: Callable[[], Pair]) -> Change:
    """A room of its own in place of the worked one."""
    return lambda _room, _plan: make()


def _case(
    rule: str,
    bad: Callable[[], Pair],
    measured: float,
    wall: str,
    good: Callable[[], Pair] = ac.transfer,
    verdict: str = "fail",
) -> Case:
    return Case(rule, "planned", _as(bad), measured, wall, verdict, _as(good))  # type: ignore[arg-type]


def _without_block() -> Pair:
    room, plan = ac.transfer()
    block = next(s for s in plan.supports if s.wall == "back" and s.kind == "blocking")
    return room, replace(plan, supports=tuple(s for s in plan.supports if s is not block))


def _backed(room: Room, plan: Plan) -> Pair:
    """Found blocking behind the fittings of the worked room: from stud to stud, 12 in high, round 28 and round 78."""
    stud = next(s for s in worked_plan(room).supports if s.wall == "right")
    blocks = []
    for i, v in enumerate((25.5, 78.0)):
        ring = tuple((mm(u), mm(v + d)) for u, d in ((13.25, -6), (27.25, -6), (27.25, 6), (13.25, 6)))
        axis = ((mm(13.25), mm(v)), (mm(27.25), mm(v)))
        blocks.append(replace(stud, id=f"S-right-b{i}", kind="blocking", outline=ring, axis=axis))
    return room, replace(plan, supports=(*plan.supports, *blocks))


def _low_bar(top: float) -> Callable[[], Pair]:
    return lambda: ac.tub_with("low", ac.bar("low", "back", 6, top, 26))


ACCESS_CASES = (
    _case("mount-backed", _without_block, 1.0, "back"),
    Case("fitting-backed", "planned", lambda r, p: (r, p), 1.0, "right", "confirm", _backed),
    _case("ada-bars", lambda: ac.without("back-bar"), 1.0, "back"),
    _case("ada-bar-low", lambda: ac.moved("control-bar", v=-2), mm(32), "control"),
    _case("ada-bar-high", lambda: ac.moved("control-bar", v=3), mm(37), "control"),
    _case("ada-bar-rim-low", _low_bar(22), mm(7), "back", ac.tub),
    _case("ada-bar-rim-high", _low_bar(26), mm(11), "back", ac.tub),
    _case("ada-bar-section-least", lambda: ac.changed("back-bar", diameter=mm(1)), mm(1), "back"),
    _case("ada-bar-section-most", lambda: ac.changed("back-bar", diameter=mm(2.25)), mm(2.25), "back"),
    _case("ada-bar-gap-least", lambda: ac.changed("back-bar", gap=mm(1.25)), mm(1.25), "back"),
    _case("ada-bar-gap-most", lambda: ac.changed("back-bar", gap=mm(2)), mm(2), "back"),
    # A seat 5 in above a bar on its own wall: its lower side at 40 - 6.5, the grip at 30.
    _case("ada-bar-over", lambda: ac.place("transfer_shower", ac.bar("b", "seat-wall", 12, 30, 24), ac.seat(40)),
          mm(3.5), "seat-wall"),
    # The valve's opening is 5 in wide: its lower edge at 43 - 7.5 - 2.5 = 33, below the grip's top at 34.
    _case("ada-bar-clear", lambda: ac.valve_moved(v=-6), mm(0.5), "control"),
    _case("ada-bar-adjacent", lambda: ac.moved("control-bar", u=4, longer=-4), mm(7), "control"),
    # The bar on the back wall runs from 18 to 34 in of a framing of 38 in; shortened at its left it ends 15 in away.
    _case("ada-bar-reach", lambda: ac.moved("back-bar", u=4, longer=-4), mm(15), "back"),
    _case("ada-bar-over-seat", lambda: ac.moved("back-bar", u=-4), 1.0, "seat-wall"),
    _case("ada-tub-bar-length", lambda: ac.tub_with("high", ac.bar("high", "back", 6, 34, 20)), mm(20), "back", ac.tub),
    _case("ada-tub-bar-head-length", lambda: ac.tub_with("at-head", ac.bar("at-head", "seat-wall", 20, 34, 10)),
          mm(10), "seat-wall", ac.tub),
    _case("ada-tub-bar-head", lambda: ac.tub_with("high", ac.bar("high", "back", 27, 34, 10)), mm(26), "back", ac.tub),
    _case("ada-tub-bar-head-seat", lambda: ac.tub(*ac.TUB_BARS[:1], ac.bar("high", "back", 18, 34, 14), ac.seat()),
          mm(17), "back", lambda: ac.tub(*ac.TUB_BARS[:3], ac.seat())),
    _case("ada-tub-bar-control", lambda: ac.tub_with("high", ac.bar("high", "back", 2, 34, 20)),
          mm(15), "back", ac.tub),
    _case("ada-seat", lambda: ac.without("seat"), 1.0, "seat-wall"),
    _case("ada-seat-low", lambda: ac.moved("seat", v=-2), mm(16), "seat-wall"),
    _case("ada-seat-high", lambda: ac.moved("seat", v=2), mm(20), "seat-wall"),
    _case("ada-seat-out-least", lambda: ac.changed("seat", out=mm(14)), mm(14), "seat-wall"),
    _case("ada-seat-out-most", lambda: ac.changed("seat", out=mm(17)), mm(17), "seat-wall"),
    # The shower's floor is the deck, 1/2 in above the room's.
    _case("ada-control-low", lambda: ac.valve_moved(v=-6), mm(36.5), "control"),
    _case("ada-control-high", lambda: ac.valve_moved(v=6), mm(48.5), "control"),
    # The seat runs from 1/2 to 33-1/2 in in front of the back wall's tile: its middle is 17 in away, the valve's 20.
    _case("ada-control-offset", lambda: ac.valve_moved(u=13), mm(16), "control"),
    _case("ada-control-side", lambda: ac.valve_moved(u=-5), mm(-2), "control"),
    _case("ada-control-wall", lambda: ac.roll_in(u=9), mm(28), "back", ac.roll_in),
    # The valve's opening reaches down to 40.5: above a grip at 34, below one raised to 42.
    _case("ada-control-bar", lambda: ac.roll_in(bars=(ac.bar("back-bar", "back", 17, 42, 16), ac.ROLL_BARS[1])),
          mm(-1.5), "back", ac.roll_in),
    # Rim 15, opening of the valve to 26.5, lower side of the bar at 32.75.
    _case("ada-tub-control", lambda: ac.valve_moved(v=8, pair=ac.tub()), mm(32.75 - 32 - 2.5), "control", ac.tub),
    # The tub is 36 in deep in clear: its middle 18 in from the tile, the valve 22.
    _case("ada-tub-control-side", lambda: ac.valve_moved(u=-6, pair=ac.tub()), mm(-2), "control", ac.tub),
    _case("ada-clear-least", lambda: ac.finished(ac.transfer(), 1 / 8), mm(35.75), ""),
    _case("ada-clear-most", lambda: ac.finished(ac.transfer(), -3 / 8), mm(36.75), ""),
    _case("ada-rollin-deep", lambda: ac.wide_roll_in(62, 30), mm(29), "", lambda: ac.wide_roll_in(62, 31)),
    _case("ada-rollin-wide", lambda: ac.wide_roll_in(61, 31), mm(59), "", lambda: ac.wide_roll_in(62, 31)),
    _case("ada-threshold", lambda: ac.threshold(0.75), mm(0.75), ""),
)  # fmt: skip
