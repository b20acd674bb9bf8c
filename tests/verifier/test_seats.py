"""The verifier's own look at a seat's framing: each way to cheat is named."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.verifier import seats
from tests.verifier.plain import Record
from tests.verifier.plans import example
from tests.verifier.run import Check


def _of(plan: Record, reason: str) -> Record:
    return next(s for s in plan["supports"] if s["reason"].startswith(reason) and s["same_as"] is None)


def square_ends(plan: Record) -> None:
    """The rail with square ends reaches into the boards of the walls."""
    _of(plan, "front rail")["bevels"] = [0.0, 0.0]


def stud_as_high_as_the_seat(plan: Record) -> None:
    stud = _of(plan, "knee stud of")
    top = max(v for _, v in stud["outline"])
    stud["outline"] = [[u, v + 80.0 if v == top else v] for u, v in stud["outline"]]


def joist_through_the_ledger(plan: Record) -> None:
    joist = _of(plan, "joist")
    top = max(v for _, v in joist["outline"])
    joist["outline"] = [[u, v + 30.0 if v == top else v] for u, v in joist["outline"]]


def without_a_ledger(plan: Record) -> None:
    plan["supports"].remove(_of(plan, "ledger"))


def ledger_without_screws(plan: Record) -> None:
    gone = _of(plan, "ledger")["id"]
    plan["fasteners"] = [f for f in plan["fasteners"] if f["support_id"] != gone]


def without_the_middle_stud(plan: Record) -> None:
    gone = [s for s in plan["supports"] if s["reason"].startswith("knee stud of")]
    plan["supports"] = [s for s in plan["supports"] if s not in gone]


MUTATIONS: tuple[tuple[str, Callable[[Record], None], Check], ...] = (
    ("seat-lumber", square_ends, seats.check_before_boards),
    ("seat-lumber", stud_as_high_as_the_seat, seats.check_apart),
    ("seat-lumber", joist_through_the_ledger, seats.check_apart),
    ("seat-edge", without_a_ledger, seats.check_edges),
    ("screw-spacing", ledger_without_screws, seats.check_ledgers),
    ("seat-span", without_the_middle_stud, seats.check_span),
)


@pytest.mark.parametrize(("code", "change", "check"), MUTATIONS)
def test_a_seat_framed_wrongly_is_named(code: str, change: Callable[[Record], None], check: Check) -> None:
    plan = example("corner-seat")
    assert not list(check(plan))
    change(plan)
    assert code in {violation.code for violation in check(plan)}
