"""Wrong things along a deck out of level, for the plan of the recess out of square: its back deck falls by 1/4 in."""

from __future__ import annotations

from tests.verifier.changing import Mutation, first
from tests.verifier.plain import Point, Record, by_id

LEAST = 1.0
"""mm by which an edge of some length falls that follows the deck."""


def _sloping(plan: Record) -> tuple[Record, Point, Point]:
    """The board over the falling deck, and the higher and the lower end of its bottom edge."""
    edge = first(
        plan["edges"],
        lambda e: e["role"] == "bottom" and LEAST < abs(e["p"][1] - e["q"][1]) < abs(e["p"][0] - e["q"][0]),
    )
    low, high = sorted((edge["p"], edge["q"]), key=lambda p: float(p[1]))
    return by_id(plan, "boards")[edge["board"]], high, low


def _move(plan: Record, board: Record, point: Point, dv: float) -> None:
    """A corner of a board's outline up or down, and the ends of its edges with it."""
    old = list(point)
    own = [e for e in plan["edges"] if e["board"] == board["id"]]
    for spot in (*board["outline"], *(e[end] for e in own for end in ("p", "q"))):
        if spot == old:
            spot[1] = round(spot[1] + dv, 6)
    _from_lowest(board["outline"])


def _from_lowest(ring: list[Point]) -> None:
    """The ring begins at its lowest point again, the leftmost of two."""
    start = ring.index(min(ring, key=lambda p: (p[1], p[0])))
    ring[:] = [*ring[start:], *ring[:start]]


def level_with_the_low_end(plan: Record) -> None:
    board, high, low = _sloping(plan)
    _move(plan, board, high, low[1] - high[1])


def level_with_the_high_end(plan: Record) -> None:
    board, high, low = _sloping(plan)
    _move(plan, board, low, high[1] - low[1])


def level_notch(plan: Record) -> None:
    """Its upper edge at the height of its low end."""
    ring = _sloping(plan)[0]["rabbets"][0]["ring"]
    tops = sorted((p for p in ring), key=lambda p: float(p[1]))[-2:]
    for point in tops:
        point[1] = tops[0][1]


def level_band(plan: Record) -> None:
    """The base band laid level from its high end: its low end is 5 mm up."""
    board, _, _ = _sloping(plan)
    band = first(plan["bands"], lambda b: b["kind"] == "base" and b["rings"][0]["wall"] == board["wall"])
    ring = band["rings"][0]["ring"]
    ring[0][1] = round(ring[0][1] + 5.0, 6)
    _from_lowest(ring)


def level_deck(plan: Record) -> None:
    """The deck is as high all along as at its high end, and the boards are not."""
    side = first(plan["base"]["sides"], lambda s: abs(s["deck"][0][1] - s["deck"][-1][1]) > LEAST)
    top = max(v for _, v in side["deck"])
    side["deck"] = [[u, top] for u, _ in side["deck"]]


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("deck-gap", level_with_the_low_end),
    ("coverage", level_with_the_high_end),
    ("flange-clearance", level_notch),
    ("band-cover", level_band),
    ("deck-gap", level_deck),
)
