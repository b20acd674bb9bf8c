"""Walls in the room, what is to be boarded, and whether boards tile it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from shapely import MultiPoint, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.verifier.plain import (
    REAL_AREA,
    TOUCH,
    Record,
    Violation,
    box,
    broken,
    by_id,
    corner_of,
    framing_ends,
    on_wall,
    opening_shape,
    raked,
    rect,
    shape,
    sides,
    wet,
)

ASLANT = 4.0
"""mm: what the slope of a seat or a cap takes off or adds to a piece that is cut to it, and the fit beside it."""


def check_frames(plan: Record) -> Iterator[Violation]:
    """Axes are unit vectors, square to each other, and turn u -> v -> w to the right."""
    for wall in plan["walls"]:
        u, v, w = wall["u_axis"], wall["v_axis"], wall["w_axis"]
        turned = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
        if math.dist(turned, w) > 1e-9 or abs(math.hypot(*u) - 1) > 1e-9 or abs(math.hypot(*v) - 1) > 1e-9:
            yield Violation("frame", f"axes of {wall['id']} are no right-handed frame")


def _foot(wall: Record, u: float) -> list[float]:
    return [o + u * a for o, a in zip(wall["origin"], wall["u_axis"], strict=True)]


def check_corners(plan: Record) -> Iterator[Violation]:
    walls, order = by_id(plan, "walls"), [w["id"] for w in plan["walls"]]
    for corner in plan["corners"]:
        left, right = walls[corner["left_wall"]], walls[corner["right_wall"]]
        ends = _foot(left, framing_ends(left)[1]), _foot(right, framing_ends(right)[0])
        if math.dist(*ends) > TOUCH:
            yield Violation("corner-ends", f"framing ends at {corner['id']} are {math.dist(*ends):.3f} apart")
        if abs(_angle(left, right) - corner["angle_deg"]) > 1e-4:
            yield Violation("corner-angle", f"{corner['id']} is {_angle(left, right):.4f}, not {corner['angle_deg']}")
        if corner["first"] not in (left["id"], right["id"]):
            yield Violation("corner-first", f"{corner['first']} is not at {corner['id']}")
        if order.index(right["id"]) != (order.index(left["id"]) + 1) % len(order):
            yield Violation("corner-order", f"walls of {corner['id']} are not next to each other")


def _angle(left: Record, right: Record) -> float:
    """Angle inside the room between two walls, 0 to 360."""
    back = [-x for x in left["u_axis"]]
    ahead = right["u_axis"]
    turn = math.degrees(math.atan2(ahead[1], ahead[0]) - math.atan2(back[1], back[0]))
    return turn % 360


def _asked(plan: Record, wall: Record) -> BaseGeometry:
    """Outline and extent; where an outside corner lets the extent pass the outline, that strip too.

    Faces of niches and the like lap their neighbours on any side: they fill their extent, one board past the outline.
    """
    if wall["face"] != "wall":
        return shape(wall["extent"])
    outline, extent = shape(wall["outline"]), shape(wall["extent"])
    pieces = [outline.intersection(extent)]
    left, bottom, right, top = box([*wall["outline"], *wall["extent"]])
    ends = framing_ends(wall)
    for side, strip in (("left", (left, bottom, ends[0], top)), ("right", (ends[1], bottom, right, top))):
        corner = corner_of(plan, wall["id"], side)
        if corner is not None and corner["angle_deg"] > 180:
            pieces.append(extent.intersection(rect(*strip)))
    return unary_union(pieces)


def check_wet_region(plan: Record) -> Iterator[Violation]:
    for wall in plan["walls"]:
        taken = [shape(a["ring"]) for a in wall["allowances"]]
        taken += [shape(mouth["ring"]) for mouth in wall["mouths"]]
        expected = _asked(plan, wall).difference(unary_union([Polygon(), *taken]))
        off = expected.symmetric_difference(wet(wall)).area
        if off > REAL_AREA:
            yield Violation("wet-region", f"{wall['id']}: {off:.3f} mm2 off outline and extent less allowances")


def check_coverage(plan: Record) -> Iterator[Violation]:
    for wall in plan["walls"]:
        boards = on_wall(plan, "boards", wall["id"])
        covered = unary_union([Polygon(), *(_board(b) for b in boards)])
        off = covered.symmetric_difference(wet(wall)).area
        if off > REAL_AREA:
            yield broken("coverage", wall["id"], f"boards and wet region of {wall['id']} differ by {off:.3f} mm2")
        for a, b in combinations(boards, 2):
            both = shape(a["outline"]).intersection(shape(b["outline"])).area
            if both > REAL_AREA:
                yield broken("overlap", wall["id"], f"{a['id']} and {b['id']} overlap by {both:.3f} mm2")


def _slant(plan: Record, wall: str) -> float:
    """Board's thickness along its edge, in thicknesses, where it meets a neighbour's on the slant, as at the ends of a
    corner seat's front: one over the sine of the angle between them."""
    askew = [f["angle_deg"] for f in plan["folds"] if wall in f["faces"] and 10 < f["angle_deg"] % 90 < 80]
    return max((1 / abs(math.sin(math.radians(angle))) for angle in askew), default=1.0)


def _board(board: Record) -> BaseGeometry:
    """Its outline less the mouths of niches and windows that lie inside it."""
    mouths = [opening_shape(o) for o in board["openings"] if o["fitting_id"] is None]
    return shape(board["outline"]).difference(unary_union([Polygon(), *mouths]))


def check_laps(plan: Record) -> Iterator[Violation]:
    """A face passes its framing by at most one board, and mouths inside boards are openings of their feature."""
    board = max((s["thickness"] for s in plan["stocks"]), default=0.0)
    for wall in (w for w in plan["walls"] if w["face"] != "wall"):
        reach = board * _slant(plan, wall["id"]) + 0.5
        past = shape(wall["extent"]).difference(shape(wall["outline"]).buffer(reach, join_style="mitre"))
        if past.area > REAL_AREA:
            yield Violation("lap", f"{wall['id']} passes its framing by more than {reach:.3f}")
    yield from _stand_out(plan, board)
    for wall in plan["walls"]:
        rings = {m["feature_id"]: m["ring"] for m in wall["mouths"]}
        for board in on_wall(plan, "boards", wall["id"]):
            for opening in (o for o in board["openings"] if o["fitting_id"] is None):
                if opening.get("ring") != rings.get(opening.get("feature_id", "")):
                    yield Violation("mouth", f"{opening['id']} is not a mouth of its wall")


def _stand_out(plan: Record, board: float) -> Iterator[Violation]:
    """No part of a board that laps another's edge stands out beyond that one's finished face, measured square to it."""
    walls = by_id(plan, "walls")
    for fold in (f for f in plan["folds"] if f["angle_deg"] > 180):
        later = next(walls[f] for f in fold["faces"] if f != fold["first"])
        first = walls[fold["first"]]
        axes, normal = (later["u_axis"], later["v_axis"], later["w_axis"]), first["w_axis"]
        corners = ((u, v, w) for u, v in later["extent"] for w in (0.0, board))
        points = ([sum(k * a[i] for k, a in zip(c, axes, strict=True)) for i in range(3)] for c in corners)
        start = [a - b for a, b in zip(later["origin"], first["origin"], strict=True)]
        out = max(sum((s + p) * n for s, p, n in zip(start, point, normal, strict=True)) for point in points)
        if later["face"] != "wall" and out > board + TOUCH:
            yield Violation("lap", f"{later['id']} stands {out - board:.3f} out before the face of {first['id']}")


def check_folds(plan: Record) -> Iterator[Violation]:
    """Both faces see a fold at the same place of the room, in the planes of their boards, at the angle it says."""
    walls = by_id(plan, "walls")
    for fold in plan["folds"]:
        pair = [walls[face] for face in fold["faces"]]
        ends = [[_face_point(plan, w, p) for p in line] for w, line in zip(pair, fold["lines"], strict=True)]
        apart = max(math.dist(a, b) for a, b in zip(*ends, strict=True))
        if apart > TOUCH:
            yield Violation("fold", f"{fold['id']} lies {apart:.3f} apart on its two faces")
        cosine = sum(a * b for a, b in zip(pair[0]["w_axis"], pair[1]["w_axis"], strict=True))
        turned = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
        if min(abs(fold["angle_deg"] - 180 + turned), abs(fold["angle_deg"] - 180 - turned)) > 1e-3:
            yield Violation("fold-angle", f"{fold['id']} is not {fold['angle_deg']} degrees")


def _face_point(plan: Record, wall: Record, point: list[float]) -> list[float]:
    """Room point of a point on the faces of a wall's boards."""
    thick = max((s["thickness"] for s in plan["stocks"]), default=0.0)
    axes = (wall["u_axis"], wall["v_axis"], wall["w_axis"])
    return [o + sum(k * a[i] for k, a in zip((*point, thick), axes, strict=True)) for i, o in enumerate(wall["origin"])]


def check_supports(plan: Record) -> Iterator[Violation]:
    """An axis is the middle of its face, end to end; a crooked stud's runs from middle of foot to middle of head."""
    for support in plan["supports"]:
        left, bottom, right, top = box(support["outline"])
        foot, head = ([u for u, v in support["outline"] if v == end] for end in (bottom, top))
        middles = [[(a + b) / 2 for a, b in zip(p, q, strict=True)] for p, q in sides(support["outline"])]
        lines = (
            [[sum(foot) / len(foot), bottom], [sum(head) / len(head), top]],
            [[left, (bottom + top) / 2], [right, (bottom + top) / 2]],
            *([middles[i], middles[i + 2]] for i in (0, 1) if len(middles) == 4),  # one that is cut to a rake
        )
        if support["kind"] == "ledger":
            lines = (_middle_of(support),)
        elif _is_plumb(support):  # an end cut aslant, to its long point
            lines = (*lines, [[(left + right) / 2, bottom], [(left + right) / 2, top]])
        axis = sorted(support["axis"])
        if not any(max(math.dist(a, b) for a, b in zip(axis, sorted(line), strict=True)) < TOUCH for line in lines):
            yield Violation("support-axis", f"axis of {support['id']} is not the middle of its face")


def _is_plumb(support: Record) -> bool:
    """True where both sides stand upright."""
    left, _, right, _ = box(support["outline"])
    return all(len({v for u, v in support["outline"] if u == side}) > 1 for side in (left, right))


def _middle_of(support: Record) -> list[list[float]]:
    """Half way between the two longest sides, which are parallel, from the first corner to the last along them."""
    (p, q), (r, _) = sorted(sides(support["outline"]), key=lambda side: -math.dist(*side))[:2]
    way = [(b - a) / math.dist(p, q) for a, b in zip(p, q, strict=True)]
    across = [-way[1], way[0]]
    off = sum((b - a) * n for a, b, n in zip(p, r, across, strict=True)) / 2
    ts = [sum((c - a) * w for c, a, w in zip(corner, p, way, strict=True)) for corner in support["outline"]]
    return [[p[k] + t * way[k] + off * across[k] for k in (0, 1)] for t in (min(ts), max(ts))]


def check_lent(plan: Record) -> Iterator[Violation]:
    """The two faces of one piece of lumber are sides of the same box."""
    supports, walls = by_id(plan, "supports"), by_id(plan, "walls")
    for support in (s for s in plan["supports"] if s["same_as"] is not None):
        other = supports[support["same_as"]]
        if abs(walls[support["wall"]]["w_axis"][2]) not in (0.0, 1.0):
            yield from _cut_aslant(walls, support, other)
            continue
        if raked(other):
            yield from _side_of_one(walls, support, other)
            continue
        boxes = [_room_box(walls[s["wall"]], s) for s in (support, other)]
        if max(math.dist(a, b) for a, b in zip(*boxes, strict=True)) > TOUCH:
            yield Violation("same-as", f"{support['id']} and {other['id']} are not one piece")


def _side_of_one(walls: Record, support: Record, other: Record) -> Iterator[Violation]:
    """A piece that is cut to a rake: its corners on the face that sees it are corners of the piece, and so deep."""
    wall, piece = walls[support["wall"]], _corners(walls[other["wall"]], other)
    if any(min(math.dist(corner, p) for p in piece) > TOUCH for corner in _corners(wall, support)[::2]):
        yield Violation("same-as", f"{support['id']} and {other['id']} are not one piece")
    back = max(-sum((p - o) * w for p, o, w in zip(c, wall["origin"], wall["w_axis"], strict=True)) for c in piece)
    if abs(back - support["depth"]) > TOUCH:
        yield Violation("same-as", f"{support['id']} is not as deep as {other['id']}")


def _corners(wall: Record, support: Record) -> list[list[float]]:
    """Corners of a support in the room: of each corner of its outline that in its face, and that at its back."""
    axes = (wall["u_axis"], wall["v_axis"], wall["w_axis"])
    corners = [(u, v, w) for u, v in support["outline"] for w in (0.0, -support["depth"])]
    return [
        [o + sum(k * a[i] for k, a in zip(c, axes, strict=True)) for i, o in enumerate(wall["origin"])] for c in corners
    ]


def _cut_aslant(walls: Record, support: Record, other: Record) -> Iterator[Violation]:
    """A sloping face on a piece that stands or lies: seen from above it is on the piece, and reaches its top."""
    seen = [_room_corners(walls[s["wall"]], s, depth) for s, depth in ((support, 0.0), (other, other["depth"]))]
    above, piece = (MultiPoint([(x, y) for x, y, _ in points]).convex_hull for points in seen)
    heights = [[z for _, _, z in points] for points in seen]
    if not piece.buffer(ASLANT).covers(above):
        yield Violation("same-as", f"{support['id']} lies beside {other['id']}")
    if max(heights[1]) < min(heights[0]) - ASLANT or min(heights[1]) > max(heights[0]) + ASLANT:
        yield Violation("same-as", f"{support['id']} lies over or under {other['id']}")


def _room_corners(wall: Record, support: Record, depth: float) -> list[list[float]]:
    """Corners of a support in the room, back to `depth` behind its face."""
    axes = (wall["u_axis"], wall["v_axis"], wall["w_axis"])
    corners = [(u, v, w) for u, v in support["outline"] for w in (-depth, 0.0)]
    return [
        [o + sum(k * a[i] for k, a in zip(c, axes, strict=True)) for i, o in enumerate(wall["origin"])] for c in corners
    ]


def _room_box(wall: Record, support: Record) -> list[list[float]]:
    """Lowest and highest corner of a support in the room."""
    points = _room_corners(wall, support, support["depth"])
    return [[f(p[i] for p in points) for i in range(3)] for f in (min, max)]
