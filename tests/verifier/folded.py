"""Sealing over folds: each face is covered from the line where the finished faces meet, and the band is one piece."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString, Polygon
from shapely import Point as Spot
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from tests.verifier.plain import (
    REAL_AREA,
    TOUCH,
    Point,
    Record,
    Violation,
    box,
    broken,
    by_id,
    limit,
    on_wall,
    opening_shape,
    rect,
    shape,
    sides,
    thickness,
    union,
)

Line = list[Point]
BEHIND = 400.0
"""mm: no cap is wider, and so none runs up to a wall farther beyond its end."""


def check_folds_banded(plan: Record) -> Iterator[Violation]:
    """Cover on both faces; and one band at least lies along the fold on both."""
    for fold in plan["folds"]:
        if not all(on_wall(plan, "boards", face) for face in fold["faces"]):
            continue
        for i in (0, 1):
            bare = _bare(plan, fold, i)
            if bare.area > REAL_AREA:
                message = f"{bare.area:.2f} mm2 along {fold['id']} lie under no band"
                yield broken("band-cover", fold["faces"][i], message)
        if not any(_is_folded(band, fold) for band in plan["bands"]):
            yield broken("band-cover", fold["faces"][0], f"no band is folded over {fold['id']}")


def check_caps(plan: Record) -> Iterator[Violation]:
    """Where a cap runs up to a wall the two meet in a fold, and round the end of that on the wall's boards, where cap,
    wall and the face under the cap meet in a point, bands lie as far as they must lap."""
    chain = [w for w in plan["walls"] if w["face"] == "wall" and on_wall(plan, "boards", w["id"])]
    for cap in (w for w in plan["walls"] if w["face"] == "cap"):
        edges = [side for b in on_wall(plan, "boards", cap["id"]) for side in sides(b["outline"])]
        for wall in chain:
            if not any(_stands_at(plan, wall, _in_room(plan, cap, p), _in_room(plan, cap, q)) for p, q in edges):
                continue
            fold = next((f for f in plan["folds"] if set(f["faces"]) == {wall["id"], cap["id"]}), None)
            if fold is None:
                yield Violation("cap-fold", f"{cap['id']} runs up to {wall['id']} without a fold")
            else:
                yield from _open_ends(plan, fold, fold["faces"].index(wall["id"]))


def _in_room(plan: Record, wall: Record, point: Point) -> Point:
    """A point on the finished face of a wall."""
    axes = (wall["u_axis"], wall["v_axis"], wall["w_axis"])
    at = (*point, thickness(plan, wall["id"]))
    return [o + sum(k * a[i] for k, a in zip(at, axes, strict=True)) for i, o in enumerate(wall["origin"])]


def _stands_at(plan: Record, wall: Record, p: Point, q: Point) -> bool:
    """True of an edge that runs along a wall's finished face, no farther off than a board."""
    thick = thickness(plan, wall["id"])
    places = [
        [sum((x - o) * a for x, o, a in zip(end, wall["origin"], wall[axis], strict=True)) for end in (p, q)]
        for axis in ("u_axis", "w_axis")
    ]
    left, _, right, _ = box(wall["outline"])
    beside = max(places[0]) > left - BEHIND and min(places[0]) < right + BEHIND
    return beside and all(thick - TOUCH <= w <= 2 * thick for w in places[1]) and math.dist(p, q) > thick


def _open_ends(plan: Record, fold: Record, i: int) -> Iterator[Violation]:
    wall, line, reach = fold["faces"][i], fold["lines"][i], limit(plan, "band-lap")
    boards = union(b["outline"] for b in on_wall(plan, "boards", wall))
    behind = Polygon([*line, *([u, v - 2 * reach] for u, v in reversed(line))])
    bands = union(r["ring"] for b in plan["bands"] for r in b["rings"] if r["wall"] == wall)
    for u, v in line:
        shows = rect(u - reach, v - reach, u + reach, v + reach).intersection(boards).difference(behind)
        bare = shows.buffer(-TOUCH).difference(bands)
        if boards.distance(Spot(u, v)) < thickness(plan, wall) and bare.area > REAL_AREA:
            yield broken("band-cover", wall, f"{bare.area:.2f} mm2 of {wall} lie bare round the end of a cap's fold")


def _is_folded(band: Record, fold: Record) -> bool:
    return all(
        any(
            r["wall"] == face and shape(r["ring"]).intersection(LineString(line).buffer(TOUCH)).area > TOUCH
            for r in band["rings"]
        )
        for face, line in zip(fold["faces"], fold["lines"], strict=True)
    )


def _bare(plan: Record, fold: Record, i: int) -> BaseGeometry:
    """Of one face, what ought to be covered along the fold and is not."""
    face, line, ahead = fold["faces"][i], fold["lines"][i], _ahead(plan, fold, i)
    boards = on_wall(plan, "boards", face)
    openings = [opening_shape(o) for b in boards for o in b["openings"] if o.get("feature_id")]
    shows = union(b["outline"] for b in boards)
    for opening in openings:
        shows = shows.difference(opening)
    if fold["angle_deg"] > 180:
        lip = thickness(plan, fold["faces"][1 - i])
        # Boards are cut square where a fold is out of square by no more than the fall of a cap makes it.
        before = translate(shows, *(0.0 if abs(way) < 0.02 else -way * lip for way in ahead))
        shows = shows.union(_strip(line, ahead, lip).intersection(before))
    needed = _strip(line, ahead, limit(plan, "band-cover")).intersection(shows).difference(_past(plan, fold, i))
    return needed.buffer(-TOUCH / 2).difference(
        union(r["ring"] for b in plan["bands"] for r in b["rings"] if r["wall"] == face)
    )


def _past(plan: Record, fold: Record, i: int) -> BaseGeometry:
    """What lies on the far side of other folds of the face that have this one on their near side."""
    middle = [sum(p[k] for p in fold["lines"][i]) / 2 for k in (0, 1)]
    past: BaseGeometry = Polygon()
    for other in plan["folds"]:
        for j in (0, 1):
            if other["faces"][j] == fold["faces"][i] and (other["id"], j) != (fold["id"], i):
                line, ahead = other["lines"][j], _ahead(plan, other, j)
                if sum((m - p) * n for m, p, n in zip(middle, line[0], ahead, strict=True)) > 0:
                    past = past.union(_strip(line, ahead, -limit(plan, "band-cover")))
    return past


def _strip(line: Line, ahead: Point, depth: float) -> BaseGeometry:
    (u0, v0), (u1, v1) = line
    du, dv = ahead[0] * depth, ahead[1] * depth
    return Polygon([(u0, v0), (u1, v1), (u1 + du, v1 + dv), (u0 + du, v0 + dv)])


def _ahead(plan: Record, fold: Record, i: int) -> Point:
    """Square to the line on one face, to the side that shows: at an inside fold in front of the other's faces."""
    walls = by_id(plan, "walls")
    own, other = walls[fold["faces"][i]], walls[fold["faces"][1 - i]]
    (u0, v0), (u1, v1) = fold["lines"][i]
    length = math.hypot(u1 - u0, v1 - v0)
    square = [(v1 - v0) / length, (u0 - u1) / length]
    way = [square[0] * a + square[1] * b for a, b in zip(own["u_axis"], own["v_axis"], strict=True)]
    rises = sum(a * b for a, b in zip(way, other["w_axis"], strict=True))
    return square if (rises > 0) == (fold["angle_deg"] < 180) else [-square[0], -square[1]]
