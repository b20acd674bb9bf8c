"""Stud faces off a string line, worked out anew: with the shims and the planing each wall lies in its plane."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import dist

from tests.verifier.plain import SEEN, TOUCH, Record, Violation, box, broken, by_id, limit, on_wall

STEPS = (25.4 / 16, 1.0)
"""mm: shims are counted in sixteenths of an inch or in millimetres, all of a room in the same."""


def check_schedule(plan: Record) -> Iterator[Violation]:
    """Every shim answers one reading, over a stretch of its own stud that no other shim covers."""
    supports = by_id(plan, "supports")
    faces = [(f["wall"], f["support_id"], f["v"]) for f in plan["stud_faces"]]
    for shim in plan["shims"]:
        left, low, right, high = box(supports[shim["support_id"]]["outline"])
        if faces.count((shim["wall"], shim["support_id"], shim["v"])) != 1:
            yield Violation("shim-reading", f"{shim['id']} answers no reading, or two")
        if not low - TOUCH <= shim["low"] <= shim["v"] <= shim["high"] <= high + TOUCH or shim["low"] == shim["high"]:
            yield Violation("shim-stretch", f"{shim['id']} does not lie on its stud about its reading")
        if abs(shim["width"] - (right - left)) > TOUCH:
            yield Violation("shim-width", f"{shim['id']} is not as wide as the face of {shim['support_id']}")
    for one, other in combinations(plan["shims"], 2):
        lap = min(one["high"], other["high"]) - max(one["low"], other["low"])
        if one["support_id"] == other["support_id"] and lap > TOUCH:
            yield Violation("shim-lap", f"{one['id']} and {other['id']} lap")


def check_thickness(plan: Record) -> Iterator[Violation]:
    """Whole steps; planing within its limit, and never on steel."""
    supports = by_id(plan, "supports")
    sizes = [shim["thickness"] for shim in plan["shims"]]
    if not any(all(abs(t / step - round(t / step)) < SEEN and round(t / step) > 0 for t in sizes) for step in STEPS):
        yield Violation("shim-step", "shims are not whole steps of 1/16 in or of 1 mm")
    for shim in plan["shims"]:
        if shim["work"] == "plane":
            steel = supports[shim["support_id"]]["material"] == "steel"
            if steel or shim["thickness"] > limit(plan, "planing") + SEEN:
                yield broken("planing", shim["wall"], f"{shim['id']} planes {shim['support_id']} too far")


def check_planes(plan: Record) -> Iterator[Violation]:
    """No finished face stands before the plane, none lies too far behind it, and close ones are alike."""
    walls = {plane["wall"] for plane in plan["planes"]}
    for wall in sorted({f["wall"] for f in plan["stud_faces"]} ^ walls):
        yield Violation("plane-wall", f"{wall} has readings without a plane, or a plane without readings")
    for plane in plan["planes"]:
        behind = [
            (f, _finished(plan, f) - _off(plane, f["u"], f["v"])) for f in on_wall(plan, "stud_faces", plane["wall"])
        ]
        far, near, reach = (limit(plan, f"flatness-{name}-{_size(plan, plane)}") for name in ("far", "near", "reach"))
        for face, gap in behind:
            if not -SEEN <= gap <= far + SEEN:
                yield _not_flat(face, f"lies {gap:.3f} behind the plane")
        for (one, a), (other, b) in combinations(behind, 2):
            apart = dist((one["u"], one["v"]), (other["u"], other["v"]))
            if abs(a - b) > near * max(1.0, apart / reach) + SEEN:
                yield _not_flat(one, f"differs by {abs(a - b):.3f} from one {apart:.0f} away")


def check_material(plan: Record) -> Iterator[Violation]:
    """The volume of a wall's shims and planing, and that no schedule could do with less than the bound."""
    for plane in plan["planes"]:
        shims = on_wall(plan, "shims", plane["wall"])
        volume = sum((s["high"] - s["low"]) * s["width"] * s["thickness"] for s in shims)
        slack = max(1e-3, 1e-6 * volume)
        if abs(volume - plane["material"]) > slack:
            yield Violation("shim-material", f"the shims of {plane['wall']} make {volume:.1f} mm3")
        if plane["bound"] > plane["material"] + slack or plane["proven"] != (
            plane["material"] - plane["bound"] <= slack
        ):
            yield Violation("shim-bound", f"the bound of {plane['wall']} and what is said of it do not agree")


def _size(plan: Record, plane: Record) -> str:
    """A tile that nobody named counts as large."""
    longest = plane["longest"]
    return "large" if longest is None or longest >= limit(plan, "large-tile") - SEEN else "small"


def _finished(plan: Record, face: Record) -> float:
    """Distance of a face from the line once it is shimmed (nearer) or planed (farther)."""
    own = [s for s in plan["shims"] if (s["support_id"], s["v"]) == (face["support_id"], face["v"])]
    return float(face["off"] - sum(s["thickness"] if s["work"] == "shim" else -s["thickness"] for s in own))


def _off(plane: Record, u: float, v: float) -> float:
    """The plane through three points, by its normal."""
    p, q, r = plane["points"]
    a, b = ([y - x for x, y in zip(p, other, strict=True)] for other in (q, r))
    normal = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return float(p[2] - (normal[0] * (u - p[0]) + normal[1] * (v - p[1])) / normal[2])


def _not_flat(face: Record, how: str) -> Violation:
    return broken("flatness", face["wall"], f"the face of {face['support_id']} at {face['v']:.0f} {how}")
