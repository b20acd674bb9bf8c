"""Sealing: every joint and every washer under a band, cover, laps, collars."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from shapely import LineString, Polygon
from shapely import Point as Spot
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.verifier.edges import is_upright, side_of, span_of
from tests.verifier.plain import (
    REAL_AREA,
    SEEN,
    TOUCH,
    Record,
    Span,
    Violation,
    box,
    broken,
    by_id,
    face_lines,
    fold_lines,
    lean,
    limit,
    on_wall,
    opening_shape,
    rect,
    runs_along,
    shape,
    sides,
    union,
    wet,
)
from tests.verifier.screws import wall_openings
from tests.verifier.soffits import behind_soffits

JOINTS = ("seam", "corner", "base")
Lines = dict[str, tuple[str, BaseGeometry]]
"""Board and line of each edge and mouth."""
NIP = 50.0
"""mm: a nip keeps the edge in a corner this far, at most, from the edge along the base."""


def check_cover(plan: Record) -> Iterator[Violation]:
    walls = by_id(plan, "walls")
    boards = by_id(plan, "boards")
    lines = {wall_id: face_lines(plan, wall) for wall_id, wall in walls.items()}
    for edge in plan["edges"]:
        board = boards[edge["board"]]
        wall = walls[board["wall"]]
        if any(runs_along(edge, line, 2 * board["thickness"]) for line in fold_lines(plan, wall["id"])):
            continue
        needed = _needed(plan, edge, wall, lines[wall["id"]])
        covering = [b for b in plan["bands"] if edge["id"] in b["covers"]]
        open_area = needed.difference(_rings(covering, wall["id"])).area
        if open_area > REAL_AREA:
            message = f"{open_area:.2f} mm2 at {edge['id']} ({edge['role']}) lie under no band that covers it"
            yield broken("band-cover", wall["id"], message)


def _rings(bands: list[Record], wall: str) -> BaseGeometry:
    return unary_union([Polygon(), *(shape(r["ring"]) for b in bands for r in b["rings"] if r["wall"] == wall)])


def _needed(plan: Record, edge: Record, wall: Record, lines: Span) -> BaseGeometry:
    """What a band must cover at an edge, hidden parts left out, shrunk by less than a touch."""
    cover = limit(plan, "band-cover")
    slopes = lean(wall, "left"), lean(wall, "right")
    slope = slopes[0 if side_of(edge) > 0 else 1] if edge["role"] == "corner" else 0.0
    ends = max(lines[0], -1e6), min(lines[1], 1e6)
    strip = affine_transform(_strip(edge, cover, ends), (1, slope, 0, 1, 0, 0))
    seen = Polygon(
        [
            (u + slopes[i] * v, v)
            for i, u, v in ((0, ends[0], -1e3), (1, ends[1], -1e3), (1, ends[1], 1e4), (0, ends[0], 1e4))
        ]
    )
    shows = wet(wall).union(_lip(edge, ends, slope)) if edge["role"] == "corner" else wet(wall)
    if edge["role"] == "wallboard":  # beyond the edge the wall goes on; on the board's side it may end at a rake
        shows = shows.union(_strip(edge, cover, ends).difference(_beside(edge, cover)))
    within = seen.intersection(shows)
    within = within.difference(behind_soffits(plan, wall))
    return strip.intersection(within).buffer(-TOUCH / 2)


def _beside(edge: Record, cover: float) -> BaseGeometry:
    """The strip along an upright edge on its board's side."""
    (low, high), u = span_of(edge), edge["p"][0]
    return rect(min(u, u + side_of(edge) * cover), low, max(u, u + side_of(edge) * cover), high)


def _lip(edge: Record, lines: Span, slope: float) -> BaseGeometry:
    """At an outside corner, the edge of the neighbour's boards: from the line where the faces meet to this edge."""
    low, high = span_of(edge)
    u = edge["p"][0] - slope * edge["p"][1]
    lip = rect(lines[0], low, u, high) if side_of(edge) > 0 else rect(u, low, lines[1], high)
    return affine_transform(lip, (1, slope, 0, 1, 0, 0))


def _strip(edge: Record, cover: float, lines: Span) -> BaseGeometry:
    (u0, v0), (u1, v1) = edge["p"], edge["q"]
    low, high = span_of(edge)
    role = edge["role"]
    if role in ("seam", "wallboard") and is_upright(edge):
        return rect(u0 - cover, low, u0 + cover, high)
    if role == "corner":
        line = lines[0] if side_of(edge) > 0 else lines[1]
        return rect(min(line, line + side_of(edge) * cover), low, max(line, line + side_of(edge) * cover), high)
    if role == "apron":
        return rect(min(u0, u0 + side_of(edge) * cover), low, max(u0, u0 + side_of(edge) * cover), high)
    if role == "seam":
        return rect(min(u0, u1), low - cover, max(u0, u1), high + cover)
    if role == "bottom" and not is_upright(edge):
        return Polygon([(u0, v0), (u1, v1), (u1, v1 + cover), (u0, v0 + cover)])
    return Polygon()


def check_screws_covered(plan: Record) -> Iterator[Violation]:
    shapes = {
        w["id"]: [shape(r["ring"]) for b in plan["bands"] for r in b["rings"] if r["wall"] == w["id"]]
        for w in plan["walls"]
    }
    for screw in plan["fasteners"]:
        washer = Spot(screw["point"]).buffer(screw["washer_diameter"] / 2 - TOUCH)
        if not any(ring.contains(washer) for ring in shapes[screw["wall"]]):
            rule = "fastener-cover" if "fastener-cover" in plan["rules"] else "band-cover"
            yield Violation("band-cover", f"washer of {screw['id']} lies under no band or patch", rule, screw["wall"])


def check_laps(plan: Record) -> Iterator[Violation]:
    bands = by_id(plan, "bands")
    least = limit(plan, "band-lap")
    faces = {w["id"]: [p for b in plan["boards"] if b["wall"] == w["id"] for p in b["outline"]] for w in plan["walls"]}
    for band in plan["bands"]:
        for name in band["lap_ids"]:
            other = bands[name]
            if band["id"] not in other["lap_ids"] or name == band["id"]:
                yield Violation("lap-mutual", f"{band['id']} laps {name}, but not the other way")
            elif (found := lap(band, other, faces)) < least - SEEN:
                yield broken("band-lap", band["rings"][0]["wall"], f"{band['id']} laps {name} by {found:.3f}")
    lines = _lines(plan)
    walls = {b["id"]: b["wall"] for b in plan["boards"]}
    for a, b in combinations([b for b in plan["bands"] if b["kind"] in JOINTS], 2):
        if lap(a, b, faces) >= -TOUCH and b["id"] not in a["lap_ids"] and _meet(a, b, lines, walls):
            yield broken("band-lap", a["rings"][0]["wall"], f"{a['id']} and {b['id']} meet without a lap")


def _lines(plan: Record) -> Lines:
    """Edges of boards, and of the mouths of niches and windows within them."""
    edges: Lines = {e["id"]: (e["board"], LineString((e["p"], e["q"]))) for e in plan["edges"]}
    mouths = ((o, b["id"]) for b in plan["boards"] for o in b["openings"] if o.get("feature_id") is not None)
    return edges | {o["id"]: (board, LineString([*o["ring"], o["ring"][0]])) for o, board in mouths}


def lap(a: Record, b: Record, faces: dict[str, list[list[float]]]) -> float:
    """Smaller side of the common box of two bands' rings on a wall, the best of their walls; negative apart.

    On a face that both cross from rim to rim the lap is told by the other side: no band can lie wider there.
    """
    pairs = [(p, q) for p in a["rings"] for q in b["rings"] if p["wall"] == q["wall"]]
    return max((_common(p["ring"], q["ring"], faces[p["wall"]]) for p, q in pairs), default=-1.0)


def _common(p: list[list[float]], q: list[list[float]], face: list[list[float]]) -> float:
    (l0, b0, r0, t0), (l1, b1, r1, t1), (left, bottom, right, top) = box(p), box(q), box(face)
    wide, high = min(r0, r1) - max(l0, l1), min(t0, t1) - max(b0, b1)
    if min(wide, high) <= 0:
        return min(wide, high)
    within = [side for side, whole in ((wide, right - left), (high, top - bottom)) if side < whole - 2 * TOUCH]
    return min(within, default=max(wide, high))


def _meet(a: Record, b: Record, lines: Lines, walls: dict[str, str]) -> bool:
    """True where joints that two pieces cover meet on a wall, and the pieces lie over or beside each other there."""
    near = NIP if {a["kind"], b["kind"]} == {"corner", "base"} else TOUCH
    pairs = [(lines[i], lines[j]) for i in a["covers"] for j in b["covers"]]
    meeting = [(walls[p[0]], p[1].buffer(near).intersection(q[1])) for p, q in pairs if walls[p[0]] == walls[q[0]]]
    rings = [(p, q) for p in a["rings"] for q in b["rings"] if p["wall"] == q["wall"]]
    return any(
        wall == p["wall"]
        and not where.is_empty
        # An edge may run on where another band covers it: this one must reach the place where the joints meet.
        and max(shape(ring["ring"]).distance(where) for ring in (p, q)) < near
        and shape(p["ring"]).distance(shape(q["ring"])) < TOUCH
        for wall, where in meeting
        for p, q in rings
    )


def check_lengths(plan: Record) -> Iterator[Violation]:
    """The length as cut is the longer side of its legs (folded along it) or their sum (folded across it)."""
    for band in plan["bands"]:
        boxes = [box(r["ring"]) for r in band["rings"]]
        wide, tall = [b[2] - b[0] for b in boxes], [b[3] - b[1] for b in boxes]
        along = [math.dist(p, q) for r in band["rings"] for p, q in sides(r["ring"])]
        if not any(abs(band["length"] - x) < TOUCH for x in (max(wide), max(tall), sum(wide), sum(tall), *along)):
            yield Violation("band-length", f"{band['id']} is {band['length']} long, no side of its rings")


def check_collars(plan: Record) -> Iterator[Violation]:
    """Each opening of a fitting lies within a collar that covers it."""
    for wall in plan["walls"]:
        for opening in wall_openings(plan, wall["id"]):
            bands = [b for b in plan["bands"] if b["kind"] == "collar" and opening["fitting_id"] in b["covers"]]
            fitting = next((f for f in on_wall(plan, "fittings", wall["id"]) if f["id"] == opening["fitting_id"]), None)
            if fitting is None or fitting["collar_diameter"] <= 0:
                continue
            rings = [r["ring"] for b in bands for r in b["rings"] if r["wall"] == wall["id"]]
            if not rings or opening_shape(opening).difference(union(rings)).area > REAL_AREA:
                yield Violation("collar", f"no collar seals {opening['id']}", "", wall["id"])
