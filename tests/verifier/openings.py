"""One opening for each fitting on the boards, of the right size, with board left around it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import Point as Spot

from tests.verifier.plain import (
    NOISE,
    SEEN,
    TOUCH,
    Record,
    Violation,
    broken,
    limit,
    on_wall,
    opening_shape,
    shape,
    twice_area,
    wet,
)
from tests.verifier.screws import wall_openings


def check_openings(plan: Record) -> Iterator[Violation]:
    for wall in plan["walls"]:
        region = wet(wall)
        openings = wall_openings(plan, wall["id"])
        for fitting in on_wall(plan, "fittings", wall["id"]):
            mine = [o for o in openings if o["fitting_id"] == fitting["id"]]
            wanted = 1 if region.contains(Spot(fitting["centre"])) else 0
            if len(mine) != wanted:
                yield Violation(
                    "opening-count", f"{fitting['id']} has {len(mine)} openings, not {wanted}", "", wall["id"]
                )
            for opening in mine:
                yield from _same(plan, fitting, opening)
    yield from _owners(plan)


def _owners(plan: Record) -> Iterator[Violation]:
    walls = {f["id"]: f["wall"] for f in plan["fittings"]}
    for board in plan["boards"]:
        for opening in board["openings"]:
            owner = opening["fitting_id"]
            if owner is None and not opening.get("feature_id"):
                yield Violation("opening-owner", f"{opening['id']} belongs to nothing")
            if owner is not None and walls.get(owner) != board["wall"]:
                yield Violation("opening-owner", f"{opening['id']} belongs to {owner}, which is not on its wall")


def _same(plan: Record, fitting: Record, opening: Record) -> Iterator[Violation]:
    cutout = fitting["cutout"]
    if cutout is not None and cutout["shape"] == "ring":
        yield from _same_ring(fitting, opening)
        return
    if opening["shape"] != "circle":
        yield Violation("opening-size", f"{opening['id']} is no circle")
        return
    pipe = fitting["outside_diameter"]
    diameter = cutout["diameter"] if cutout else pipe + limit(plan, "pipe-clearance")
    if abs(opening["diameter"] - diameter) > NOISE:
        yield Violation("opening-size", f"{opening['id']} is {opening['diameter']} wide, not {diameter}")
    if math.dist(opening["centre"], fitting["centre"]) > NOISE:
        yield Violation("opening-place", f"{opening['id']} is not centred on {fitting['id']}")


def _same_ring(fitting: Record, opening: Record) -> Iterator[Violation]:
    """A ring cut-out is given about the fitting's centre or in the wall frame; the opening is in the wall frame."""
    u, v = fitting["centre"]
    ring = fitting["cutout"]["ring"]
    shifted = [[x + u, y + v] for x, y in ring]
    cut = opening_shape(opening)
    if min(cut.symmetric_difference(shape(r)).area for r in (ring, shifted)) > 0.01:
        yield Violation("opening-size", f"{opening['id']} is not the cut-out of {fitting['id']}")


def check_margins(plan: Record) -> Iterator[Violation]:
    least = limit(plan, "opening-margin")
    for board in plan["boards"]:
        outline = shape(board["outline"])
        for opening in board["openings"]:
            if opening["shape"] == "circle":
                spot = Spot(opening["centre"])
                off = outline.boundary.distance(spot) * (1 if outline.contains(spot) else -1) - opening["diameter"] / 2
            else:
                hole = shape(opening["ring"])
                off = outline.boundary.distance(hole) if outline.contains(hole) else -1.0
            if off < least - SEEN:
                yield broken("opening-margin", board["wall"], f"{opening['id']} is {off:.3f} inside {board['id']}")


def check_weights(plan: Record) -> Iterator[Violation]:
    """Weight is the volume left times the stock's density."""
    stocks = {s["id"]: s for s in plan["stocks"]}
    for board in plan["boards"]:
        stock = stocks[board["stock_id"]]
        if abs(stock["thickness"] - board["thickness"]) > TOUCH:
            yield Violation("board-thickness", f"{board['id']} is not as thick as {stock['id']}")
        holes = sum(
            math.pi / 4 * o["diameter"] ** 2 if o["shape"] == "circle" else twice_area(o["ring"]) / 2
            for o in board["openings"]
        )
        volume = (twice_area(board["outline"]) / 2 - holes) * board["thickness"]
        volume -= sum(twice_area(r["ring"]) / 2 * r["depth"] for r in board["rabbets"])
        weight = volume * stock["density"] / 1e9
        if abs(weight - board["weight_kg"]) > 1e-3:
            yield Violation("board-weight", f"{board['id']} weighs {board['weight_kg']}, computed {weight:.4f}")
