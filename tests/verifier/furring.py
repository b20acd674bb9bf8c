"""Furring: strips that stand between supports and boards, clear of the flange and of each other, under every screw."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely import Point as Spot

from tests.verifier.plain import REAL_AREA, SEEN, TOUCH, Record, Violation, by_id, deck_at, on_wall, rect, shape


def check_furring(plan: Record) -> Iterator[Violation]:
    supports, walls = by_id(plan, "supports"), by_id(plan, "walls")
    for strip in plan["furring"]:
        if abs(strip["thickness"] - walls[strip["wall"]]["furring"]) > SEEN:
            yield Violation("furring-plane", f"{strip['id']} does not reach from its wall's supports to its boards")
        for ring in (supports[strip["support_id"]]["outline"], walls[strip["wall"]]["outline"]):
            if shape(strip["ring"]).difference(shape(ring)).area > REAL_AREA:
                yield Violation("furring-place", f"{strip['id']} leaves its support or its wall")
    for wall in plan["walls"]:
        own = on_wall(plan, "furring", wall["id"])
        for a, b in combinations(own, 2):
            if shape(a["ring"]).intersection(shape(b["ring"])).area > REAL_AREA:
                yield Violation("furring-overlap", f"{a['id']} and {b['id']} overlap")
        yield from _off_flange(plan, wall, own)
    yield from _under_screws(plan)
    counted = sum(row["quantity"] for row in plan["takeoff"] if row["kind"] == "furring")
    if counted != len(plan["furring"]):
        yield Violation("furring-count", f"{counted} strips are bought for {len(plan['furring'])}")


def _off_flange(plan: Record, wall: Record, strips: list[Record]) -> Iterator[Violation]:
    """Where the flange stands behind the faces of the strips, they end above it."""
    for side in plan["base"]["sides"]:
        if side["wall"] != wall["id"] or side["gap"] >= -TOUCH:
            continue
        low = min(deck_at(side, u) for u in (side["from"], side["to"]))
        zone = rect(side["from"], low, side["to"], side["flange_top"])
        for strip in strips:
            if shape(strip["ring"]).intersection(zone).area > REAL_AREA:
                yield Violation("furring-flange", f"{strip['id']} stands in the flange")


def _under_screws(plan: Record) -> Iterator[Violation]:
    faces: dict[str, list[Record]] = {}
    for strip in plan["furring"]:
        faces.setdefault(strip["support_id"], []).append(strip)
    for screw in plan["fasteners"]:
        strips = faces.get(screw["support_id"], [])
        furred = by_id(plan, "walls")[screw["wall"]]["furring"] > 0 and on_wall(plan, "furring", screw["wall"])
        if furred and all(shape(s["ring"]).distance(Spot(screw["point"])) > TOUCH for s in strips):
            yield Violation("furring-screw", f"{screw['id']} has no strip behind its board")
