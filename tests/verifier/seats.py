"""Benches, corner seats and decks: lumber that fits between the walls and into itself, and carries every edge."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

import numpy as np
from scipy.optimize import linprog
from shapely import LineString
from shapely import Point as Spot

from tests.verifier.plain import (
    REAL_AREA,
    SEEN,
    TOUCH,
    Record,
    Violation,
    box,
    broken,
    by_id,
    limit,
    on_wall,
    shape,
    sides,
    thickness,
    union,
)

STANDS = ("front", "left", "right", "seat")
FILM = 0.05
"""mm: half the thickness of what two pieces may share: points are written to a millionth, angles to a billionth."""


def _seats(plan: Record) -> Iterator[tuple[Record, list[Record]]]:
    """Each seat with the faces of its feature."""
    for seat in (w for w in plan["walls"] if w["face"] == "seat"):
        yield seat, [w for w in plan["walls"] if w["feature_id"] == seat["feature_id"]]


def _lumber(plan: Record, faces: list[Record]) -> list[Record]:
    ids = {w["id"] for w in faces}
    return [s for s in plan["supports"] if s["wall"] in ids and s["same_as"] is None]


def _planes(wall: Record, support: Record) -> tuple[np.ndarray, np.ndarray]:
    """A, b of a convex piece: the room points x with A x <= b."""
    left, _, right, _ = box(support["outline"])
    rows = [(0.0, 0.0, 1.0, 0.0), (0.0, 0.0, -1.0, support["depth"])]
    for (u0, v0), (u1, v1) in sides(support["outline"]):
        length = math.dist((u0, v0), (u1, v1))
        a, b = (v1 - v0) / length, (u0 - u1) / length
        rows.append((a, b, 0.0, a * u0 + b * v0))
    for end, way, bevel in ((left, -1.0, support["bevels"][0]), (right, 1.0, support["bevels"][1])):
        slant = math.hypot(1.0, bevel)
        rows.append((way / slant, 0.0, -bevel / slant, way * end / slant))
    axes = np.array([wall["u_axis"], wall["v_axis"], wall["w_axis"]])
    normals = np.array([row[:3] for row in rows]) @ axes
    return normals, np.array([row[3] for row in rows]) + normals @ np.array(wall["origin"])


def check_apart(plan: Record) -> Iterator[Violation]:
    """No two pieces of a seat's lumber are in one place: no ball wider than a film fits into both."""
    walls = by_id(plan, "walls")
    for _, faces in _seats(plan):
        pieces = [(s, *_planes(walls[s["wall"]], s)) for s in _lumber(plan, faces)]
        for (one, a, b), (other, c, d) in combinations(pieces, 2):
            normals, offsets = np.vstack((a, c)), np.concatenate((b, d))
            ball = linprog(
                (0.0, 0.0, 0.0, -1.0),
                A_ub=np.hstack((normals, np.ones((len(normals), 1)))),
                b_ub=offsets,
                bounds=[(None, None)] * 3 + [(None, 1.0)],
            )
            if ball.status == 0 and ball.x[3] > FILM:
                yield Violation("seat-lumber", f"{one['id']} and {other['id']} are in one place")


def check_before_boards(plan: Record) -> Iterator[Violation]:
    """The lumber of a seat stands in front of the boards of the walls that it meets."""
    walls = by_id(plan, "walls")
    for seat, faces in _seats(plan):
        for fold in (f for f in plan["folds"] if seat["id"] in f["faces"] and f["angle_deg"] < 180):
            wall = walls[next(face for face in fold["faces"] if face != seat["id"])]
            for piece in _lumber(plan, faces):
                least = min(_before(wall, corner) for corner in _corners(walls[piece["wall"]], piece))
                if least < thickness(plan, wall["id"]) - FILM:
                    yield Violation("seat-lumber", f"{piece['id']} stands in the boards of {wall['id']}")


def _before(wall: Record, point: list[float]) -> float:
    return float(sum((p - o) * w for p, o, w in zip(point, wall["origin"], wall["w_axis"], strict=True)))


def _corners(wall: Record, support: Record) -> Iterator[list[float]]:
    left, _, right, _ = box(support["outline"])
    for depth in (0.0, support["depth"]):
        for u, v in support["outline"]:
            at = min(max(u, left + support["bevels"][0] * depth), right - support["bevels"][1] * depth)
            axes = (wall["u_axis"], wall["v_axis"], wall["w_axis"])
            yield [
                o + sum(k * a[i] for k, a in zip((at, v, -depth), axes, strict=True))
                for i, o in enumerate(wall["origin"])
            ]


def check_edges(plan: Record) -> Iterator[Violation]:
    """Along every edge of a seat's boards lumber reaches so far in, from the edge or from the framing's."""
    for seat, _ in _seats(plan):
        lumber = union(s["outline"] for s in on_wall(plan, "supports", seat["id"])).buffer(TOUCH)
        for board in on_wall(plan, "boards", seat["id"]):
            framed = shape(board["outline"]).intersection(shape(seat["outline"]))
            for edge in (e for e in plan["edges"] if e["board"] == board["id"] and e["role"] != "seam"):
                least = limit(plan, "seat-edge") - SEEN
                line = LineString((edge["p"], edge["q"]))
                rim = framed.boundary.intersection(line.buffer(1.5 * board["thickness"], cap_style="flat"))
                if rim.buffer(least).intersection(framed).difference(lumber).area > REAL_AREA:
                    yield broken("seat-edge", seat["id"], f"lumber under {edge['id']} ends before {least:.3f}")


def check_ledgers(plan: Record) -> Iterator[Violation]:
    """Along each ledger that a board crosses runs a row of its screws, no farther apart than the spacing."""
    for board in plan["boards"]:
        for ledger in (s for s in on_wall(plan, "supports", board["wall"]) if s["kind"] == "ledger"):
            mine = [f for f in plan["fasteners"] if board["id"] in f["board_ids"] and f["support_id"] == ledger["id"]]
            common = shape(ledger["outline"]).intersection(shape(board["outline"]))
            (a, b), length = ledger["axis"], math.dist(*ledger["axis"])
            if common.area <= REAL_AREA:
                continue
            if not mine:
                yield broken("screw-spacing", board["wall"], f"no screws hold {board['id']} on {ledger['id']}")
            places = sorted(sum((f["point"][k] - a[k]) * (b[k] - a[k]) for k in (0, 1)) / length for f in mine)
            wide = max((y - x for x, y in pairwise(places)), default=0.0)
            taken = [f for f in plan["fasteners"] if board["id"] in f["board_ids"] and f not in mine]
            crowded = any(common.buffer(TOUCH).contains(Spot(f["point"])) for f in taken)
            if wide > limit(plan, "screw-spacing") + SEEN and not crowded:
                yield broken("screw-spacing", board["wall"], f"{board['id']} on {ledger['id']}: {wide:.3f} apart")
            most = limit(plan, "screw-spacing")
            if mine and (places[0] > most or places[-1] < length - most):
                yield broken("screw-spacing", board["wall"], f"{board['id']} on {ledger['id']}: an end without a screw")


def check_span(plan: Record) -> Iterator[Violation]:
    """Knee studs under a seat stand no farther apart than joists may, from middle to middle."""
    for _, faces in _seats(plan):
        for face in (w for w in faces if w["face"] in STANDS and w["face"] != "seat"):
            own = [s for s in on_wall(plan, "supports", face["id"]) if s["kind"] == "stud"]
            middles = sorted(s["axis"][0][0] for s in own)
            wide = max((b - a for a, b in pairwise(middles)), default=0.0)
            if wide > limit(plan, "seat-span") + SEEN:
                yield broken("seat-span", face["id"], f"knee studs of {face['id']} stand {wide:.3f} apart")
