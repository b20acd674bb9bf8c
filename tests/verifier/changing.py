"""What mutations share. A mutation does one wrong thing to a plan that is right."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.verifier.edges import is_upright
from tests.verifier.plain import Record, by_id

Mutation = Callable[[Record], None]


def first(records: list[Record], wanted: Callable[[Record], Any]) -> Record:
    return next(record for record in records if wanted(record))


def shift(points: list[list[float]], du: float, dv: float) -> None:
    for point in points:
        point[0], point[1] = round(point[0] + du, 6), round(point[1] + dv, 6)


def wall_of(plan: Record, edge: Record) -> str:
    return str(by_id(plan, "boards")[edge["board"]]["wall"])


def upright_edge(plan: Record, *roles: str) -> Record:
    return first(plan["edges"], lambda e: is_upright(e) and e["role"] in roles)


def board_with(plan: Record, key: str) -> Record:
    return first(plan["boards"], lambda b: b[key])


def opening(plan: Record) -> Record:
    return first(board_with(plan, "openings")["openings"], lambda o: o["shape"] == "circle")


def free_screw(plan: Record) -> Record:
    """A screw with others of its board below and above it, on a found support."""
    screws = [f for f in plan["fasteners"] if f["board_ids"] == plan["fasteners"][0]["board_ids"]]
    rows = [[s for s in screws if s["point"][0] == f["point"][0]] for f in screws]
    longest: list[Record] = max(rows, key=len)
    return sorted(longest, key=lambda s: float(s["point"][1]))[len(longest) // 2]
