"""A soffit made wrong: each is named by the check that is there for it, and by no name of its finding."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.verifier import bands, edges, folded, screws, soffits, walls
from tests.verifier.changing import first, shift
from tests.verifier.plain import Record, box, by_id
from tests.verifier.plans import example
from tests.verifier.run import Check

NAME = "soffit-over-tub"


def _taken(plan: Record, wall: str) -> Record:
    return first(by_id(plan, "walls")[wall]["allowances"], lambda a: a["name"] == "soffit")


def _grown(ring: list[list[float]], by: float) -> list[list[float]]:
    """Its left and lower sides moved out."""
    left, low, _, _ = box(ring)
    return [[u - by if u == left else u, v - by if v == low else v] for u, v in ring]


def boards_up_to_its_framing(plan: Record) -> None:
    taken = _taken(plan, "back")
    taken["ring"] = _grown(taken["ring"], -3.0)


def boards_that_end_short_of_it(plan: Record) -> None:
    taken = _taken(plan, "back")
    taken["ring"] = _grown(taken["ring"], 12.0)


def taken_where_there_is_none(plan: Record) -> None:
    wall = by_id(plan, "walls")["left"]
    wall["allowances"].append({"name": "soffit", "ring": _taken(plan, "back")["ring"]})


def underside_lower(plan: Record) -> None:
    """The soffit hangs 1 in lower than the walls' boards know."""
    by_id(plan, "walls")["soffit-underside"]["origin"][2] -= 25.4


def front_farther_out(plan: Record) -> None:
    """By 1 in, so that it no longer meets the right wall where it did."""
    wall = by_id(plan, "walls")["soffit-front"]
    wall["origin"] = [o + 25.4 * w for o, w in zip(wall["origin"], wall["w_axis"], strict=True)]


def washer_under_its_board(plan: Record) -> None:
    high = [f for f in plan["fasteners"] if f["wall"] == "back" and 1100 < f["point"][0] < 1400]
    max(high, key=lambda f: f["point"][1])["point"][1] += 6.0


def rail_seen_elsewhere(plan: Record) -> None:
    seen = first(plan["supports"], lambda s: s["wall"] == "soffit-front" and s["same_as"])
    shift(seen["outline"], 0.0, 10.0)
    shift(seen["axis"], 0.0, 10.0)


def no_screws_overhead(plan: Record) -> None:
    plan["fasteners"] = [f for f in plan["fasteners"] if f["wall"] != "soffit-underside"]


def edge_beside_it_called_free(plan: Record) -> None:
    boards = by_id(plan, "boards")
    first(plan["edges"], lambda e: boards[e["board"]]["wall"] == "right" and e["p"][1] > 2300)["role"] = "free"


def no_stud_beside_it(plan: Record) -> None:
    stud = first(plan["supports"], lambda s: s["wall"] == "right" and "beside the soffit" in s["reason"])
    shift(stud["outline"], 60.0, 0.0)
    shift(stud["axis"], 60.0, 0.0)


def band_short_of_its_end(plan: Record) -> None:
    """Of the band over the front's lower edge: no other covers its middle."""
    band = first(plan["bands"], lambda b: b["id"] == "T-soffit-underside-soffit-front-corner-001")
    for ring in band["rings"]:
        right = box(ring["ring"])[2]
        ring["ring"] = [[u - 300.0 if u == right else u, v] for u, v in ring["ring"]]


def underside_notched(plan: Record) -> None:
    """A board that leaves a hand's breadth open at the wall."""
    board = first(plan["boards"], lambda b: b["wall"] == "soffit-underside")
    low = box(board["outline"])[1]
    board["outline"] = [[u, v + 100.0 if v == low else v] for u, v in board["outline"]]


MUTATIONS: tuple[tuple[str, Callable[[Record], None], Check], ...] = (
    ("soffit", boards_up_to_its_framing, soffits.check_soffits),
    ("soffit", boards_that_end_short_of_it, soffits.check_soffits),
    ("soffit", taken_where_there_is_none, soffits.check_soffits),
    ("soffit", underside_lower, soffits.check_soffits),
    ("soffit", front_farther_out, soffits.check_soffits),
    ("fold", underside_lower, walls.check_folds),
    ("wet-region", boards_up_to_its_framing, walls.check_wet_region),
    ("screw-corner", washer_under_its_board, screws.check_each),
    ("same-as", rail_seen_elsewhere, walls.check_lent),
    ("screw-spacing", no_screws_overhead, screws.check_rows),
    ("edge-role", edge_beside_it_called_free, edges.check_roles),
    ("bearing-edge", no_stud_beside_it, edges.check_bearing),
    ("band-cover", band_short_of_its_end, folded.check_folds_banded),
    ("coverage", underside_notched, walls.check_coverage),
)


@pytest.mark.parametrize(("code", "change", "check"), MUTATIONS)
def test_what_is_wrong_is_named(code: str, change: Callable[[Record], None], check: Check) -> None:
    plan = example(NAME)
    assert not list(check(plan))
    change(plan)
    assert code in {violation.code for violation in check(plan)}


def test_what_its_boards_hide_wants_no_band() -> None:
    """Corners and seams of the walls end at the line where the faces meet, 3/8 below the edges of their boards."""
    assert not list(bands.check_cover(example(NAME)))
