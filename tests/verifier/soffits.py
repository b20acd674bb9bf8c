"""Soffits before the walls' framing: what they take of a wall's boards, and what their own boards hide of them."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.verifier.plain import REAL_AREA, Record, Violation, limit, shape

FAR = 1e5


def of_soffits(plan: Record) -> list[list[Record]]:
    """The faces of each soffit: of all features these alone have an underside."""
    names = sorted(w["feature_id"] for w in plan["walls"] if w["face"] == "underside")
    return [[w for w in plan["walls"] if w["feature_id"] == name] for name in names]


def section(wall: Record, faces: list[Record], grown: float) -> BaseGeometry:
    """Where a wall's stud faces lie behind the framing of all these faces, or less than `grown` before it."""
    ring = shape(wall["outline"])
    for face in faces:
        a, b = (_dot(wall[axis], face["w_axis"]) for axis in ("u_axis", "v_axis"))
        c = _dot([p - o for p, o in zip(wall["origin"], face["origin"], strict=True)], face["w_axis"])
        ring = ring.intersection(_half(a, b, c - grown))
    return ring


def _half(a: float, b: float, c: float) -> BaseGeometry:
    """The points with a u + b v + c <= 0; all or none of them where the planes are parallel."""
    size = (a * a + b * b) ** 0.5
    if size < 1e-9:
        return Polygon([(-FAR, -FAR), (FAR, -FAR), (FAR, FAR), (-FAR, FAR)]) if c <= 0 else Polygon()
    u, v, du, dv = -a * c / size**2, -b * c / size**2, a / size * FAR, b / size * FAR
    return Polygon([(u - dv, v + du), (u + dv, v - du), (u + dv - du, v - du - dv), (u - dv - du, v + du - dv)])


def _dot(a: list[float], b: list[float]) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def behind_soffits(plan: Record, wall: Record) -> BaseGeometry:
    """What the boards of soffits hide of a wall of the room."""
    board = max((s["thickness"] for s in plan["stocks"]), default=0.0)
    own = of_soffits(plan) if wall["face"] == "wall" else []
    return unary_union([Polygon(), *(section(wall, faces, board) for faces in own)])


def check_soffits(plan: Record) -> Iterator[Violation]:
    """A wall's boards end at least the fit from a soffit's framing, and where its own boards still hide their edge."""
    board = max((s["thickness"] for s in plan["stocks"]), default=0.0)
    for wall in (w for w in plan["walls"] if w["face"] == "wall"):
        soffits, fit = of_soffits(plan), limit(plan, "fit")
        taken = unary_union([Polygon(), *(shape(a["ring"]) for a in wall["allowances"] if a["name"] == "soffit")])
        least, most = (
            unary_union([Polygon(), *(section(wall, faces, grown) for faces in soffits)]) for grown in (fit, board)
        )
        if least.difference(taken).area > REAL_AREA:
            yield Violation("soffit", f"boards of {wall['id']} come nearer to a soffit than the fit", "", wall["id"])
        if taken.difference(most).area > REAL_AREA:
            yield Violation("soffit", f"no soffit hides where the boards of {wall['id']} end", "", wall["id"])
