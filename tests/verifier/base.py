"""Where boards meet the base: rabbets, the space they leave round the flange, gaps to deck, apron and floor."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.verifier.plain import (
    REAL_AREA,
    SEEN,
    TOUCH,
    Record,
    Violation,
    across_corner,
    box,
    broken,
    by_id,
    corner_of,
    deck_at,
    framing_ends,
    limit,
    on_wall,
    rect,
    shape,
    thickness,
)


def check_rabbets(plan: Record) -> Iterator[Violation]:
    share = limit(plan, "rabbet-share")
    for board in plan["boards"]:
        outline = shape(board["outline"])
        for rabbet in board["rabbets"]:
            if rabbet["depth"] > share * board["thickness"] + SEEN:
                yield broken("rabbet-share", board["wall"], f"a rabbet of {board['id']} is {rabbet['depth']} deep")
            if shape(rabbet["ring"]).difference(outline).area > REAL_AREA:
                yield Violation("rabbet-inside", f"a rabbet of {board['id']} leaves its outline")
        for a, b in combinations(board["rabbets"], 2):
            if shape(a["ring"]).intersection(shape(b["ring"])).area > REAL_AREA:
                yield Violation("rabbet-overlap", f"rabbets of {board['id']} overlap")


def _rule_or(plan: Record, rule: str, otherwise: float) -> float:
    return float(plan["rules"][rule]["limit"]) if rule in plan["rules"] else otherwise


def _strip(side: Record, below: float, above: float, beyond: float = 0.0) -> BaseGeometry:
    """Along a side, from `below` under its deck line to `above` over it, longer by `beyond` at both ends."""
    us = sorted({side["from"], side["to"], *(u for u, _ in side["deck"] if side["from"] < u < side["to"])})
    line = [(u, deck_at(side, u)) for u in us]
    line = [(line[0][0] - beyond, line[0][1]), *line, (line[-1][0] + beyond, line[-1][1])]
    under = [(u, v - below) for u, v in line]
    over = [(u, v + above) for u, v in reversed(line)]
    return Polygon([*under, *over]).buffer(0)


def check_deck(plan: Record) -> Iterator[Violation]:
    """Boards keep the gap above the deck (lapped) or above the flange's top (butted), and from apron and floor."""
    kind = plan["base"]["kind"]
    leg = _rule_or(plan, "leg-gap", 0.0)
    for side in plan["base"]["sides"] if kind in ("lapped", "butted") else ():
        rule = "deck-gap" if kind == "lapped" else "bed-gap"
        rise = side["flange_top"] - max(v for _, v in side["deck"])
        gap = limit(plan, "deck-gap") if kind == "lapped" else rise + _rule_or(plan, "bed-gap", 0.0)
        for board in on_wall(plan, "boards", side["wall"]):
            outline = shape(board["outline"]).buffer(-TOUCH)
            if outline.intersection(_strip(side, 1e5, gap)).area > REAL_AREA:
                yield broken(rule, side["wall"], f"{board['id']} comes closer than {gap:.3f} to the deck")
            elif outline.intersection(_strip(side, 1e5, 0.0, leg)).area > REAL_AREA:
                yield broken("leg-gap", side["wall"], f"{board['id']} comes closer than {leg:.3f} to the apron")
    yield from _floor(plan, leg)


def _floor(plan: Record, gap: float) -> Iterator[Violation]:
    for wall in plan["walls"]:
        (x, y), z = (wall["u_axis"][2], wall["v_axis"][2]), wall["origin"][2]
        for board in on_wall(plan, "boards", wall["id"]):
            if min(z + u * x + v * y for u, v in board["outline"]) < gap - SEEN:
                yield broken("leg-gap", wall["id"], f"{board['id']} comes closer than {gap:.3f} to the floor")


def check_flange(plan: Record) -> Iterator[Violation]:
    """In front of a thin flange the back of every board is cut away, and beside a neighbour's flange all of it."""
    if plan["base"]["kind"] != "lapped" or not plan["base"]["flange_section"]:
        return
    front = box(plan["base"]["flange_section"])[2]
    above = limit(plan, "flange-clearance")
    for side in plan["base"]["sides"]:
        depth = side["gap"] + front + _rule_or(plan, "rabbet-clearance", 0.0)
        if side["flange_top"] > max(v for _, v in side["deck"]) + TOUCH and depth > TOUCH:
            rise = side["flange_top"] - max(v for _, v in side["deck"])
            yield from _behind(plan, side, _strip(side, 0.0, rise + above), depth)
            yield from _nips(plan, side, depth, rise + above)


def _behind(plan: Record, side: Record, zone: BaseGeometry, depth: float) -> Iterator[Violation]:
    for board in on_wall(plan, "boards", side["wall"]):
        deep = [shape(r["ring"]) for r in board["rabbets"] if r["face"] == "back" and r["depth"] >= depth - SEEN]
        left = shape(board["outline"]).intersection(zone).difference(unary_union([Polygon(), *deep])).area
        if left > REAL_AREA:
            yield broken("flange-clearance", side["wall"], f"{left:.3f} mm2 of {board['id']} stand in the flange")


def _nips(plan: Record, side: Record, depth: float, rise: float) -> Iterator[Violation]:
    """The flange along this side, seen from the walls next to it, stands in their corner."""
    wall = by_id(plan, "walls")[side["wall"]]
    left, right = framing_ends(wall)
    for place, short in (("left", side["from"] - left), ("right", right - side["to"])):
        corner = corner_of(plan, wall["id"], place)
        reached = corner is not None and short <= _gap_on(plan, across_corner(corner, wall["id"])) + TOUCH
        if corner is None or not reached or corner["angle_deg"] > 180:
            continue
        other, angle = by_id(plan, "walls")[across_corner(corner, wall["id"])], math.radians(corner["angle_deg"])
        start, end = framing_ends(other)
        top = rise + deck_at(side, side["from"] if place == "left" else side["to"])
        wide = (depth + max(0.0, thickness(plan, other["id"]) * math.cos(angle))) / math.sin(angle)
        zone = rect(end - wide, -1e5, end, top) if place == "left" else rect(start, -1e5, start + wide, top)
        for board in on_wall(plan, "boards", other["id"]):
            if shape(board["outline"]).intersection(zone).area > REAL_AREA:
                yield broken("flange-clearance", other["id"], f"{board['id']} meets the flange of {wall['id']}")


def _gap_on(plan: Record, wall: str) -> float:
    """How far a flange on a wall stands off it: so far short of the corner do those beside it end."""
    return max([0.0, *(float(side["gap"]) for side in plan["base"]["sides"] if side["wall"] == wall)])


def check_sides(plan: Record) -> Iterator[Violation]:
    """Sides of the base lie on their walls, decks run left to right from end to end."""
    for side in plan["base"]["sides"]:
        left, right = framing_ends(by_id(plan, "walls")[side["wall"]])
        us = [u for u, _ in side["deck"]]
        if side["from"] < left - TOUCH or side["to"] > right + TOUCH or side["to"] <= side["from"]:
            yield Violation("base-side", f"base side on {side['wall']} runs past the framing")
        if us != sorted(us) or abs(us[0] - side["from"]) > TOUCH or abs(us[-1] - side["to"]) > TOUCH:
            yield Violation("base-side", f"deck on {side['wall']} does not run from end to end")
        if any(b - a <= 0 for a, b in pairwise(us)):
            yield Violation("base-side", f"deck on {side['wall']} turns back")
