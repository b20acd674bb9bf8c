"""Screws: rows on every crossed upright support, pitch, distances, washers, bite."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from shapely import LineString
from shapely import Point as Spot
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points, unary_union

from tests.verifier.doubled import is_relieved
from tests.verifier.framing import crossed
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
    deck_at,
    face_lines,
    faces_at,
    heights,
    lean,
    level_cuts,
    limit,
    on_wall,
    opening_shape,
    rect,
    seen_box,
    shape,
    stretches,
    upright,
    upright_cuts,
)
from tests.verifier.soffits import behind_soffits


def check_each(plan: Record) -> Iterator[Violation]:
    """What holds for a screw by itself."""
    boards, supports, walls = by_id(plan, "boards"), by_id(plan, "supports"), by_id(plan, "walls")
    lines = {wall["id"]: face_lines(plan, wall) for wall in plan["walls"]}
    hidden = {wall["id"]: behind_soffits(plan, wall) for wall in plan["walls"]}
    for screw in plan["fasteners"]:
        held = [boards[b] for b in screw["board_ids"]]
        yield from _place(screw, held, supports[screw["support_id"]])
        yield from _bite(plan, screw, held, supports[screw["support_id"]])
        yield from _sides(plan, screw, held)
        yield from _openings(plan, screw)
        yield from _flange(plan, screw)
        low, high = lines[screw["wall"]]
        wall, v = walls[screw["wall"]], screw["point"][1]
        low, high = low + lean(wall, "left") * v, high + lean(wall, "right") * v
        reach = screw["washer_diameter"] / 2 - TOUCH
        left, bottom, right, top = seen_box(plan, wall)
        low, high = max(low, left), min(high, right)
        if not (low + reach <= screw["point"][0] <= high - reach and bottom + reach <= v <= top - reach):
            yield Violation("screw-corner", f"washer of {screw['id']} meets the neighbour's face")
        if Spot(screw["point"]).buffer(reach).intersection(hidden[screw["wall"]]).area > REAL_AREA:
            yield Violation("screw-corner", f"washer of {screw['id']} meets the boards of a soffit")


def _place(screw: Record, held: list[Record], support: Record) -> Iterator[Violation]:
    spot = Spot(screw["point"])
    if {screw["wall"]} != {support["wall"], *(b["wall"] for b in held)}:
        yield Violation("screw-place", f"{screw['id']} joins things of different walls")
    if shape(support["outline"]).distance(spot) > TOUCH:
        yield Violation("screw-place", f"{screw['id']} is not on {support['id']}")
    for board in held:
        if shape(board["outline"]).distance(spot) > TOUCH:
            yield Violation("screw-place", f"{screw['id']} is not on {board['id']}")


def _bite(plan: Record, screw: Record, held: list[Record], support: Record) -> Iterator[Violation]:
    rule = {"wood": "screw-bite-wood", "steel": "screw-bite-steel", "masonry": "plug-depth"}[support["material"]]
    bite = screw["length"] - max(b["thickness"] for b in held) - by_id(plan, "walls")[screw["wall"]]["furring"]
    if bite < limit(plan, rule) - SEEN:
        yield broken(rule, screw["wall"], f"{screw['id']} bites {bite:.3f}")


def _sides(plan: Record, screw: Record, held: list[Record]) -> Iterator[Violation]:
    least = limit(plan, "screw-side-distance")
    spot = Spot(screw["point"])
    if len(held) == 2:
        seam = shape(held[0]["outline"]).boundary.intersection(shape(held[1]["outline"]).boundary)
        if seam.distance(spot) > TOUCH:
            yield Violation("screw-seam", f"{screw['id']} has two boards but is not on their seam")
        return
    edge = shape(held[0]["outline"]).boundary
    off, nearest = edge.distance(spot), nearest_points(edge, spot)[0]
    if off < least - SEEN:
        at_end = abs(nearest.x - spot.x) < abs(nearest.y - spot.y)
        rule = "screw-edge-distance" if at_end else "screw-side-distance"
        yield Violation("screw-side-distance", f"{screw['id']} is {off:.3f} from its board's edge", rule, screw["wall"])


def _openings(plan: Record, screw: Record) -> Iterator[Violation]:
    for opening in wall_openings(plan, screw["wall"]):
        if _clearance(opening, screw["point"]) < screw["washer_diameter"] / 2 - TOUCH:
            yield Violation("screw-opening", f"washer of {screw['id']} lies over {opening['id']}")


def wall_openings(plan: Record, wall: str) -> list[Record]:
    return [o for b in on_wall(plan, "boards", wall) for o in b["openings"]]


def _clearance(opening: Record, point: list[float]) -> float:
    """From a point to the edge of an opening; not positive inside it."""
    if opening["shape"] == "circle":
        return math.dist(point, opening["centre"]) - float(opening["diameter"]) / 2
    return float(shape(opening["ring"]).distance(Spot(point)))


def _flange(plan: Record, screw: Record) -> Iterator[Violation]:
    least = _lowest(plan, screw["wall"], screw["point"][0], screw["washer_diameter"] / 2)
    if screw["point"][1] < least - SEEN:
        yield Violation("screw-flange", f"{screw['id']} stands over the base's flange", "", screw["wall"])


def _lowest(plan: Record, wall: str, u: float, radius: float) -> float:
    """Least height of a screw's centre above the base at u; -inf beside the base."""
    least = -math.inf
    for side in plan["base"]["sides"]:
        if (
            side["wall"] == wall
            and plan["base"]["kind"] != "none"
            and side["from"] < u + radius
            and u - radius < side["to"]
        ):
            top = max(side["flange_top"], deck_at(side, u))
            least = max(least, top + limit(plan, "flange-clearance") + radius)
    return least


def check_rows(plan: Record) -> Iterator[Violation]:
    """Every upright support that a board crosses carries a row of that board's screws."""
    bonded = _bonded(plan)
    for board in (b for b in plan["boards"] if b["wall"] not in bonded):
        supports = on_wall(plan, "supports", board["wall"])
        ledgers = {s["id"] for s in supports if s["kind"] == "ledger"}  # whose rows are judged by themselves
        mine = [f for f in plan["fasteners"] if board["id"] in f["board_ids"] and f["support_id"] not in ledgers]
        for support in (s for s in supports if upright(s) and s["kind"] != "ledger"):
            for span in _crossing(plan, board, support):
                own = [f for f in mine if _in_column(f, support)]
                if own or not is_relieved(plan, board, support, mine):
                    yield from _row(plan, board, support, span, own)


def _bonded(plan: Record) -> set[str]:
    """Top and inside of a curb (which alone has an outside of its own): nothing is driven through them."""
    curbs = {w["feature_id"] for w in plan["walls"] if w["face"] == "outside"}
    return {w["id"] for w in plan["walls"] if w["feature_id"] in curbs and w["face"] in ("inside", "cap")}


def _in_column(screw: Record, support: Record) -> bool:
    left, _, right, _ = box(support["outline"])
    return bool(left - TOUCH <= screw["point"][0] <= right + TOUCH)


def _crossing(plan: Record, board: Record, support: Record) -> list[Span]:
    """Heights at which a board crosses a support, joined where they touch."""
    least = limit(plan, "bearing-edge")
    bottom, top = _whole_width(support)
    spans: list[Span] = []
    for low, high in stretches([v for _, v in board["outline"]], bottom, top):
        middle = (low + high) / 2
        face = level_cuts(support["outline"], middle)[0]
        if any(crossed(piece, face, least) for piece in level_cuts(board["outline"], middle)):
            joined = spans and abs(spans[-1][1] - low) < TOUCH
            spans = [*spans[:-1], (spans[-1][0], high)] if joined else [*spans, (low, high)]
    return spans


def _whole_width(support: Record) -> Span:
    """Heights between which a face of four corners has its whole width: its head may be cut to a rake."""
    vs = sorted(v for _, v in support["outline"])
    return vs[1], vs[-2]


def _chord(board: Record, support: Record) -> float:
    """How high a board is on the plumb line down the middle of what it covers of a support: little in a tip."""
    face = shape(board["outline"]).intersection(shape(support["outline"]))
    left, low, right, high = face.bounds
    middle = (left + right) / 2
    return float(face.intersection(LineString([(middle, low), (middle, high)])).length)


def _row(plan: Record, board: Record, support: Record, span: Span, screws: list[Record]) -> Iterator[Violation]:
    name = f"{board['id']} on {support['id']}"
    columns = sorted({round(f["point"][0], 2) for f in screws})
    if not columns:
        if min(span[1] - span[0], _chord(board, support)) > 2 * limit(plan, "screw-edge-distance"):
            yield broken("screw-spacing", board["wall"], f"no screws hold {name}")
        return
    if len(columns) > 1:
        yield from _loose_row(plan, board, name, span, screws)
        return
    u, radius = screws[0]["point"][0], screws[0]["washer_diameter"] / 2
    low, high = _row_ends(plan, board, support, (u, radius), span)
    placed = sorted(f["point"][1] for f in screws if low - 1 <= f["point"][1] <= high + 1)
    blocked = unary_union([opening_shape(o, radius) for o in wall_openings(plan, board["wall"])])
    yield from _pitch(plan, board, name, (u, low, high, 2 * radius), placed, blocked)


def _either_side(u: float) -> tuple[float, float]:
    return u - TOUCH / 10, u + TOUCH / 10


def _row_ends(plan: Record, board: Record, support: Record, at: tuple[float, float], span: Span) -> Span:
    """First and last screw of a row at u with washers of a radius; it runs on over plates to the edge."""
    u, radius = at
    middle = (span[0] + span[1]) / 2
    # On either side of the line: the edge of a leg may lie on it.
    cuts = [
        next((c for c in upright_cuts(board["outline"], x) if c[0] <= middle <= c[1]), span) for x in _either_side(u)
    ]
    bottom, top = max(c[0] for c in cuts), min(c[1] for c in cuts)
    ends = limit(plan, "screw-edge-distance")
    # What laps a neighbour's edge stands past the framing, where nothing carries it.
    _, sole, _, crown = box(by_id(plan, "walls")[board["wall"]]["outline"])
    bottom, top = max(bottom, sole), min(top, crown)
    # Where the board bears on less of the support, by no more than the distance of a screw from an end.
    foot, head = _whole_width(support)
    bottom = bottom if span[0] < foot + TOUCH else max(bottom, span[0] - ends)
    top = top if span[1] > head - TOUCH else min(top, span[1] + ends)
    own = [s for s in on_wall(plan, "supports", board["wall"]) if s["id"] == support["id"] or s["kind"] == "plate"]
    low = bottom if _carried_on(own, u, bottom, span[0]) else span[0]
    high = top if _carried_on(own, u, span[1], top) else span[1]
    wall = by_id(plan, "walls")[board["wall"]]
    _, floor, _, roof = seen_box(plan, wall)
    over = behind_soffits(plan, wall).intersection(rect(u - radius + TOUCH, span[0], u + radius - TOUCH, top))
    roof = roof if over.is_empty else min(roof, over.bounds[1])
    lowest = max(_lowest(plan, board["wall"], u, radius), floor + radius)
    return max(low + ends, lowest), min(high - ends, roof - radius)


def _carried_on(supports: list[Record], u: float, low: float, high: float) -> bool:
    return all(
        any(f[0] - TOUCH <= u <= f[1] + TOUCH for _, f in faces_at(supports, (a + b) / 2))
        for a, b in stretches(heights(supports), low, high)
    )


def _pitch(
    plan: Record,
    board: Record,
    name: str,
    row: tuple[float, float, float, float],
    placed: list[float],
    blocked: BaseGeometry,
) -> Iterator[Violation]:
    u, low, high, washer = row
    if low < high < low + washer - SEEN:  # two would lie on each other
        low = high = (low + high) / 2
    expected = _even(low, high, limit(plan, "screw-spacing"))
    free = [v for v in expected if not blocked.contains(Spot(u, v))]
    for v in free:
        if not any(abs(v - x) < TOUCH for x in placed):
            yield Violation("screw-pitch", f"{name}: no screw at {u:.3f}, {v:.3f}", "", board["wall"])
    moved = [x for x in placed if not any(abs(v - x) < TOUCH for v in expected)]
    wanted = [e for v in expected if v not in free for e in _beside(blocked, (u, low, high), v)]
    for x in moved:
        if not any(abs(x - e) < 0.05 for e in wanted):
            yield Violation("screw-pitch", f"{name}: a screw at {u:.3f}, {x:.3f} fits no pitch", "", board["wall"])
    yield from _gaps(plan, board, name, u, placed, blocked)


def _even(low: float, high: float, most: float) -> list[float]:
    if high < low - TOUCH:
        return []
    count = math.ceil((high - low) / most - 1e-9)
    return [low + (high - low) * i / count for i in range(count + 1)] if count > 0 else [low]


def _beside(blocked: BaseGeometry, row: tuple[float, float, float], v: float) -> list[float]:
    """Heights within the row just below and above the openings that a screw at v would touch, the nearer ones."""
    u, low, high = row
    pieces = list(getattr(blocked, "geoms", [blocked]))
    around = next(p for p in pieces if p.contains(Spot(u, v)))
    ring = [[x, y] for x, y in around.exterior.coords[:-1]]
    ends = next(c for c in upright_cuts(ring, u + 1e-9) if c[0] <= v <= c[1])
    off = sorted((abs(end - v), end) for end in ends if low - 0.05 <= end <= high + 0.05)
    return [end for away, end in off if away < off[0][0] + 0.1]


def _gaps(
    plan: Record, board: Record, name: str, u: float, placed: list[float], blocked: BaseGeometry
) -> Iterator[Violation]:
    most = limit(plan, "screw-spacing")
    for a, b in pairwise(placed):
        if b - a > most + SEEN and not blocked.intersects(Spot(u, (a + b) / 2).buffer((b - a) / 2)):
            yield broken("screw-spacing", board["wall"], f"{name}: {b - a:.3f} between screws")


def _loose_row(plan: Record, board: Record, name: str, span: Span, screws: list[Record]) -> Iterator[Violation]:
    """Screws of one board in two columns of one support (a leg beside the base): spacing alone is judged."""
    blocked = unary_union([opening_shape(o, screws[0]["washer_diameter"]) for o in wall_openings(plan, board["wall"])])
    placed = sorted(f["point"][1] for f in screws if span[0] <= f["point"][1] <= span[1])
    yield from _gaps(plan, board, name, screws[0]["point"][0], placed, blocked)
