"""Wrong screws, openings, rabbets, bands."""

from __future__ import annotations

from tests.verifier.changing import (
    Mutation,
    board_with,
    first,
    free_screw,
    opening,
    remove,
    screw_beside,
    shift,
    upright_edge,
)
from tests.verifier.plain import Record, limit


def screw_gone(plan: Record) -> None:
    remove(plan, "fasteners", [free_screw(plan)])


def screw_slid(plan: Record) -> None:
    free_screw(plan)["point"][1] += 20.0


def screw_wide(plan: Record) -> None:
    free_screw(plan)["point"][0] += 100.0


def row_gone(plan: Record) -> None:
    at = free_screw(plan)
    remove(plan, "fasteners", [f for f in plan["fasteners"] if f["support_id"] == at["support_id"]])


def screw_low(plan: Record) -> None:
    """Down into the flange of the base."""
    side = plan["base"]["sides"][0]
    screw = first(plan["fasteners"], lambda f: f["wall"] == side["wall"] and side["from"] < f["point"][0] < side["to"])
    screw["point"][1] = side["flange_top"] + 5.0


def screw_at_edge(plan: Record) -> None:
    edge = upright_edge(plan, "seam", "wallboard")
    inward = 5.0 if edge["q"][1] < edge["p"][1] else -5.0
    screw = screw_beside(plan, edge)
    screw["point"][0] = edge["p"][0] + inward


def screw_in_corner(plan: Record) -> None:
    edge = upright_edge(plan, "corner")
    screw = screw_beside(plan, edge)
    screw["point"][0] = edge["p"][0] + (10.0 if edge["q"][1] < edge["p"][1] else -10.0)


def screw_of_two(plan: Record) -> None:
    """A screw in the middle of one board that claims a second."""
    edge = upright_edge(plan, "seam")
    screw = screw_beside(plan, edge)
    screw["board_ids"] = sorted([edge["board"], edge["neighbour"]])


def screw_short(plan: Record) -> None:
    plan["fasteners"][0]["length"] = 20.0


def screw_over_opening(plan: Record) -> None:
    board = board_with(plan, "openings")
    screw = first(plan["fasteners"], lambda f: f["board_ids"] == [board["id"]])
    screw["point"] = list(opening(plan)["centre"])


def opening_gone(plan: Record) -> None:
    board_with(plan, "openings")["openings"].pop()


def opening_wide(plan: Record) -> None:
    opening(plan)["diameter"] += 1.0


def opening_off(plan: Record) -> None:
    opening(plan)["centre"][0] += 1.0


def opening_owned(plan: Record) -> None:
    opening(plan)["fitting_id"] = None


def opening_at_edge(plan: Record) -> None:
    board = board_with(plan, "openings")
    hole = opening(plan)
    fitting = first(plan["fittings"], lambda f: f["id"] == hole["fitting_id"])
    spot = [max(u for u, _ in board["outline"]) - 1.0, hole["centre"][1]]
    hole["centre"], fitting["centre"] = spot, list(spot)


def too_heavy(plan: Record) -> None:
    plan["boards"][0]["weight_kg"] = round(plan["boards"][0]["weight_kg"] + 0.1, 6)


def too_thick(plan: Record) -> None:
    plan["boards"][0]["thickness"] += 3.0


def rabbet_deep(plan: Record) -> None:
    board_with(plan, "rabbets")["rabbets"][0]["depth"] += 1.0


def rabbet_out(plan: Record) -> None:
    shift(board_with(plan, "rabbets")["rabbets"][0]["ring"], 0.0, -5.0)


def rabbet_twice(plan: Record) -> None:
    rabbets = board_with(plan, "rabbets")["rabbets"]
    rabbets.append(dict(rabbets[0]))


def rabbet_shallow(plan: Record) -> None:
    board_with(plan, "rabbets")["rabbets"][0]["depth"] -= 2.0


def deck_higher(plan: Record) -> None:
    for side in plan["base"]["sides"]:
        shift(side["deck"], 0.0, 3.0)


def longer_base(plan: Record) -> None:
    """The apron comes 3 mm nearer to the leg."""
    side = first(plan["base"]["sides"], lambda s: s["from"] == 0.0 and s["wall"] == plan["walls"][-1]["id"])
    side["to"] += 3.0
    side["deck"][-1][0] += 3.0


def base_past_wall(plan: Record) -> None:
    side = plan["base"]["sides"][0]
    side["to"] += 500.0
    side["deck"][-1][0] += 500.0


def on_the_floor(plan: Record) -> None:
    """A board beside the base comes down to 3 mm: the floor is z = 0 of the room, whatever a wall's outline says."""
    board = first(plan["boards"], lambda b: b["outline"][0][1] == limit(plan, "leg-gap"))
    low = board["outline"][0][1]
    for point in board["outline"]:
        point[1] = 3.0 if point[1] == low else point[1]


def band_gone(plan: Record) -> None:
    remove(plan, "bands", [first(plan["bands"], lambda b: b["kind"] == "corner")])


def band_narrow(plan: Record) -> None:
    """Moved along the wall until it covers too little on one side of its joint."""
    band = first(plan["bands"], lambda b: b["kind"] == "seam")
    shift(band["rings"][0]["ring"], 15.0, 15.0)


def patch_gone(plan: Record) -> None:
    remove(plan, "bands", [first(plan["bands"], lambda b: b["kind"] == "patch")])


def lap_one_way(plan: Record) -> None:
    band = first(plan["bands"], lambda b: b["lap_ids"])
    band["lap_ids"].pop()


def lap_unlisted(plan: Record) -> None:
    band = first(plan["bands"], lambda b: b["lap_ids"])
    for other in plan["bands"]:
        other["lap_ids"] = [i for i in other["lap_ids"] if i != band["id"]]
    band["lap_ids"] = []


def lap_short(plan: Record) -> None:
    """The limit grows instead of the lap shrinking: every lap is now too short."""
    plan["rules"]["band-lap"]["limit"] = 500.0


def band_length(plan: Record) -> None:
    first(plan["bands"], lambda b: b["kind"] == "corner")["length"] += 30.0


def collar_gone(plan: Record) -> None:
    remove(plan, "bands", [first(plan["bands"], lambda b: b["kind"] == "collar")])


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("screw-pitch", screw_gone),
    ("screw-pitch", screw_slid),
    ("screw-place", screw_wide),
    ("screw-spacing", row_gone),
    ("screw-spacing", screw_gone),
    ("screw-flange", screw_low),
    ("screw-side-distance", screw_at_edge),
    ("screw-corner", screw_in_corner),
    ("screw-seam", screw_of_two),
    ("screw-bite-wood", screw_short),
    ("screw-opening", screw_over_opening),
    ("opening-count", opening_gone),
    ("opening-size", opening_wide),
    ("opening-place", opening_off),
    ("opening-owner", opening_owned),
    ("opening-margin", opening_at_edge),
    ("board-weight", too_heavy),
    ("board-thickness", too_thick),
    ("rabbet-share", rabbet_deep),
    ("rabbet-inside", rabbet_out),
    ("rabbet-overlap", rabbet_twice),
    ("flange-clearance", rabbet_shallow),
    ("deck-gap", deck_higher),
    ("leg-gap", longer_base),
    ("leg-gap", on_the_floor),
    ("base-side", base_past_wall),
    ("band-cover", band_gone),
    ("band-cover", band_narrow),
    ("band-cover", patch_gone),
    ("lap-mutual", lap_one_way),
    ("band-lap", lap_unlisted),
    ("band-lap", lap_short),
    ("band-length", band_length),
    ("collar", collar_gone),
)
