"""Sealing over folds: each face is covered from the line where the finished faces meet, and the band is one piece."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString, Polygon
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from tests.verifier.plain import (
    REAL_AREA,
    TOUCH,
    Point,
    Record,
    Violation,
    broken,
    by_id,
    limit,
    on_wall,
    opening_shape,
    shape,
    thickness,
    union,
)

Line = list[Point]


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
        before = translate(shows, -ahead[0] * lip, -ahead[1] * lip)
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
