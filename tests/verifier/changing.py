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


def remove(plan: Record, kind: str, gone: list[Record]) -> None:
    """Take records out, and every reference to them, so that only what they did is missing."""
    ids = {record["id"] for record in gone}
    plan[kind] = [record for record in plan[kind] if record["id"] not in ids]
    terms = [term for row in plan["takeoff"] for term in row["terms"]]
    lists = [(plan["bands"], "covers"), (plan["bands"], "lap_ids"), (plan["edges"], "support_ids"), (terms, "refs")]
    lists.append((plan["boards"], "factory_edges"))
    for records, key in lists:
        for record in records:
            record[key] = [i for i in record[key] if i not in ids]


def wall_of(plan: Record, edge: Record) -> str:
    return str(by_id(plan, "boards")[edge["board"]]["wall"])


def upright_edge(plan: Record, *roles: str) -> Record:
    return first(plan["edges"], lambda e: is_upright(e) and e["role"] in roles)


def board_with(plan: Record, key: str) -> Record:
    return first(plan["boards"], lambda b: b[key])


def opening(plan: Record) -> Record:
    return first(board_with(plan, "openings")["openings"], lambda o: o["shape"] == "circle")


def free_screw(plan: Record) -> Record:
    """A screw in the middle of the longest row of one board."""
    rows: dict[tuple[str, float], list[Record]] = {}
    for screw in plan["fasteners"]:
        rows.setdefault((screw["board_ids"][0], screw["point"][0]), []).append(screw)
    longest = max(rows.values(), key=len)
    return sorted(longest, key=lambda s: float(s["point"][1]))[len(longest) // 2]


def screw_beside(plan: Record, edge: Record) -> Record:
    """A screw of the edge's board at the height of an upright edge."""
    low, high = sorted((edge["p"][1], edge["q"][1]))
    return first(plan["fasteners"], lambda f: f["board_ids"] == [edge["board"]] and low < f["point"][1] < high)
