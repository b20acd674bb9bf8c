"""Edges: the outline once, roles and neighbours recomputed, bearing and the centre rule."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString
from shapely import Point as Spot

from tests.verifier.plain import (
    SEEN,
    TOUCH,
    Point,
    Record,
    Span,
    Violation,
    across_corner,
    axis_at,
    box,
    broken,
    by_id,
    corner_of,
    faces_at,
    fold_lines,
    framing_ends,
    heights,
    just_inside,
    lean,
    leaning,
    level_cuts,
    limit,
    on_wall,
    raked,
    rakes_at,
    runs_along,
    shape,
    sides,
    stretches,
    thickness,
    u_at,
    upright,
    upright_cuts,
)

BORNE = ("seam", "corner", "free", "wallboard", "apron")


def is_upright(edge: Record) -> bool:
    """True where an edge stands, or leans as an end of a wall may."""
    return leaning(edge["p"], edge["q"])


def span_of(edge: Record) -> Span:
    """Heights from the bottom to the top of an edge."""
    low, high = sorted((edge["p"][1], edge["q"][1]))
    return low, high


def side_of(edge: Record) -> float:
    """+1 when the board of an upright edge lies at greater u, -1 when at smaller u."""
    return 1.0 if edge["q"][1] < edge["p"][1] else -1.0


def check_outline(plan: Record) -> Iterator[Violation]:
    """Edges of a board, put one after another, are its outline exactly once."""
    for board in plan["boards"]:
        placed = sorted(_along(board, e) for e in plan["edges"] if e["board"] == board["id"])
        reached = 0.0
        for start, end, edge_id in placed:
            if abs(start - reached) > 1e-4 or end <= start:
                yield Violation("edge-outline", f"{edge_id} does not go on where the edge before it ends")
            reached = end
        round_about = sum(math.dist(p, q) for p, q in sides(board["outline"]))
        if abs(reached - round_about) > 1e-4:
            yield Violation("edge-outline", f"edges of {board['id']} end {round_about - reached:.4f} short")


def _along(board: Record, edge: Record) -> tuple[float, float, str]:
    """Where an edge starts and ends along its board's outline; (-1, -1) when it does not lie on it."""
    walked = 0.0
    for a, b in sides(board["outline"]):
        length = math.dist(a, b)
        starts, ends = _on(a, b, edge["p"]), _on(a, b, edge["q"])
        if starts is not None and ends is not None and ends > starts:
            return walked + starts, walked + ends, edge["id"]
        walked += length
    return -1.0, -1.0, edge["id"]


def _on(a: Point, b: Point, point: Point) -> float | None:
    """Distance from a of a point on the side a-b, None when it is off it."""
    length = math.dist(a, b)
    along = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / length
    off = abs((point[0] - a[0]) * (b[1] - a[1]) - (point[1] - a[1]) * (b[0] - a[0])) / length
    return along if off < 1e-5 and -1e-5 <= along <= length + 1e-5 else None


def check_roles(plan: Record) -> Iterator[Violation]:
    boards = by_id(plan, "boards")
    for edge in plan["edges"]:
        roles, neighbours = _expected(plan, edge, boards[edge["board"]])
        if edge["role"] not in roles:
            yield Violation("edge-role", f"{edge['id']} is {edge['role']}, expected {' or '.join(roles)}")
        elif edge["neighbour"] not in neighbours:
            yield Violation("edge-neighbour", f"{edge['id']} names {edge['neighbour']}, expected {neighbours}")


def _expected(plan: Record, edge: Record, board: Record) -> tuple[tuple[str, ...], list[str | None]]:
    """Roles that an edge may have, and neighbours that it may name."""
    beyond = _boards_beyond(plan, edge, board)
    if beyond:
        return ("seam",), list(beyond)
    if any(runs_along(edge, line, 2 * board["thickness"]) for line in _edge_folds(plan, board["wall"])):
        return ("corner",), [None]
    if by_id(plan, "walls")[board["wall"]]["face"] != "wall":
        kept_off = any(a["name"] in ("base", "leg-gap") for a in by_id(plan, "walls")[board["wall"]]["allowances"])
        return ("free", "top", "bottom", *(["apron"] if kept_off else [])), [None]
    if not is_upright(edge):
        return (("bottom",) if edge["q"][0] > edge["p"][0] else ("top",)), [None]
    side = "left" if side_of(edge) > 0 else "right"
    if _is_end(plan, edge, board["wall"], side):
        corner = corner_of(plan, board["wall"], side)
        if corner is None:
            return ("wallboard", "free"), [None]
        across = across_corner(corner, board["wall"])
        if min(span_of(edge)) >= _end_height(plan, across, "right" if side == "left" else "left") - TOUCH:
            return ("free",), [None]
        return ("corner",), [None, across, corner["id"], *(b["id"] for b in on_wall(plan, "boards", across))]
    return (_inner_role(plan, edge, board["wall"]),), [None]


def _edge_folds(plan: Record, wall: str) -> list[list[Point]]:
    """Folds that edges lie along: of a wall of the room only those round its mouths and beside its soffits; benches
    stand before its boards."""
    own = by_id(plan, "walls")[wall]
    lines = fold_lines(plan, wall)
    if own["face"] != "wall":
        return lines
    rings = [shape(mouth["ring"]).buffer(1.0) for mouth in own["mouths"]]
    rings += [shape(a["ring"]).buffer(2 * thickness(plan, wall)) for a in own["allowances"] if a["name"] == "soffit"]
    return [line for line in lines if any(ring.contains(LineString(line)) for ring in rings)]


def _end_height(plan: Record, wall: str, side: str) -> float:
    """How high the framing of a wall stands at one of its ends."""
    outline = by_id(plan, "walls")[wall]["outline"]
    us = [u for u, _ in outline]
    end = min(us) if side == "left" else max(us)
    near = [v for u, v in outline if abs(u - end) < 0.1 * max(v for _, v in outline)]
    return float(max(near))


def _boards_beyond(plan: Record, edge: Record, board: Record) -> list[str]:
    """Boards of the same wall that have the whole edge on their outline, run the other way."""
    turned = {"p": edge["q"], "q": edge["p"], "id": edge["id"]}
    others = [b for b in on_wall(plan, "boards", board["wall"]) if b["id"] != board["id"]]
    return [b["id"] for b in others if _along(b, turned)[0] >= 0]


def _is_end(plan: Record, edge: Record, wall: str, side: str) -> bool:
    """True at the outermost line of the wet region on that side."""
    own = by_id(plan, "walls")[wall]
    slope = lean(own, side) if corner_of(plan, wall, side) else 0.0
    us = [u - slope * v for region in own["wet_region"] for u, v in region["ring"]]
    outermost = min(us) if side == "left" else max(us)
    return all(abs(u - slope * v - outermost) < TOUCH for u, v in (edge["p"], edge["q"]))


def _inner_role(plan: Record, edge: Record, wall: str) -> str:
    """An upright edge inside the wall without a neighbour: beside the base an apron, above its deck a nip."""
    own = by_id(plan, "walls")[wall]
    outline, (left, right) = shape(own["outline"]), framing_ends(own)
    middle = [(a + b) / 2 for a, b in zip(edge["p"], edge["q"], strict=True)]
    beyond = Spot(middle[0] - side_of(edge) * 2 * limit(plan, "deck-gap"), middle[1])
    left, right = left + lean(own, "left") * beyond.y, right + lean(own, "right") * beyond.y
    within = left + TOUCH < beyond.x < right - TOUCH
    if within and not outline.contains(beyond) and outline.intersects(LineString(((beyond.x, 0.0), beyond))):
        return "top"  # beside a step of the ceiling
    decks = [v for s in plan["base"]["sides"] if s["wall"] == wall for _, v in s["deck"]]
    return "apron" if decks and span_of(edge)[0] < min(decks) else "bottom"


def check_seams_twice(plan: Record) -> Iterator[Violation]:
    """Each seam edge has one twin, on its neighbour, run the other way."""
    ends = {(e["board"], e["neighbour"], *e["p"], *e["q"]) for e in plan["edges"] if e["role"] == "seam"}
    for edge in (e for e in plan["edges"] if e["role"] == "seam"):
        if (edge["neighbour"], edge["board"], *edge["q"], *edge["p"]) not in ends:
            yield Violation("edge-twin", f"seam {edge['id']} has no twin on {edge['neighbour']}")


def check_bearing(plan: Record) -> Iterator[Violation]:
    walls = {b["id"]: b["wall"] for b in plan["boards"]}
    for edge in plan["edges"]:
        borne = is_upright(edge) and edge["role"] in BORNE
        if borne != (edge["bearing"] is not None):
            yield Violation("bearing-null", f"bearing of {edge['id']} ({edge['role']}) is {edge['bearing']}")
        elif borne:
            yield from _judge(plan, edge, walls[edge["board"]])


def _judge(plan: Record, edge: Record, wall: str) -> Iterator[Violation]:
    edge = _on_framing(plan, edge, wall)
    carried = _carried(plan, edge, wall)
    faces = [face for face in carried if face is not None]
    width = min((face[1] for face in faces), default=None)
    if width is not None and abs(width - edge["bearing"]) > TOUCH:
        yield Violation("bearing", f"bearing of {edge['id']} is {edge['bearing']}, measured {width:.4f}")
    for support, width in faces:
        rule = _bearing_rule(edge, support or on_wall(plan, "supports", wall)[0])
        if width < limit(plan, rule) - SEEN:
            yield broken(rule, wall, f"{edge['id']} bears {width:.3f} on {support['id'] if support else 'nothing'}")
            break
    named = set(edge["support_ids"])
    if any(s is not None and s["id"] not in named for s, _ in faces):
        yield Violation("bearing-supports", f"{edge['id']} does not name what it bears on")
    yield from _stray(plan, edge)


def _on_framing(plan: Record, edge: Record, wall: str) -> Record:
    """An edge that laps another board stands past the framing and bears from its end on."""
    left, low, right, high = box(by_id(plan, "walls")[wall]["outline"])
    ends = {k: [min(max(edge[k][0], left), right), min(max(edge[k][1], low), high)] for k in ("p", "q")}
    return {**edge, **ends}


def _bearing_rule(edge: Record, support: Record) -> str:
    if edge["role"] not in ("seam", "wallboard") or support["material"] == "masonry":
        return "bearing-edge"
    return f"bearing-seam-{support['material']}"


def _carried(plan: Record, edge: Record, wall: str) -> list[tuple[Record | None, float] | None]:
    """For each stretch of an edge: the support and width it bears on; None where a level support carries it."""
    supports = on_wall(plan, "supports", wall)
    found: list[tuple[Record | None, float] | None] = []
    for low, high in stretches([*heights(supports), *_rake_heights(supports, edge)], *span_of(edge)):
        ends = [(v, u_at(edge["p"], edge["q"], v)) for v in just_inside(low, high)]
        met = [s for s in supports if all(_reaches(s, u, v) for v, u in ends)]
        if any(not upright(s) for s in met) or (met and all(_taken_over(supports, u, v) for v, u in ends)):
            found.append(None)
        else:
            widths = [(min(_width(edge, s, u, v) for v, u in ends), s) for s in met]
            width, support = max(widths, key=lambda w: w[0], default=(0.0, None))
            found.append((support, max(width, 0.0)))
    return found


def _rake_heights(supports: list[Record], edge: Record) -> list[float]:
    """Where an edge passes from a stud that is cut to a rake to the plate over it."""
    middle = (edge["p"][0] + edge["q"][0]) / 2
    return [v for s in supports if raked(s) for span in upright_cuts(s["outline"], middle) for v in span]


def _taken_over(supports: list[Record], u: float, v: float) -> bool:
    """True where a face at the edge goes on, at its slanting end, as that of the plate along the rake."""
    faces = [f for s, f in faces_at(supports, v) if raked(s) and f[0] - TOUCH <= u <= f[1] + TOUCH]
    return any(a[0] <= b[1] + TOUCH and b[0] <= a[1] + TOUCH for a in faces for b in rakes_at(supports, v))


def _reaches(support: Record, u: float, v: float) -> bool:
    return any(f[0] - TOUCH <= u <= f[1] + TOUCH for f in level_cuts(support["outline"], v))


def _width(edge: Record, support: Record, u: float, v: float) -> float:
    """Of a face at a height, on the board's side of the edge."""
    left, right = level_cuts(support["outline"], v)[0]
    return right - u if side_of(edge) > 0 else u - left


def _stray(plan: Record, edge: Record) -> Iterator[Violation]:
    supports = by_id(plan, "supports")
    low, high = span_of(edge)
    for name in edge["support_ids"]:
        left, bottom, right, top = box(supports[name]["outline"])
        us = edge["p"][0], edge["q"][0]
        beside = left - TOUCH <= max(us) and min(us) <= right + TOUCH
        if not beside or top < low - TOUCH or bottom > high + TOUCH:
            yield Violation("bearing-supports", f"{edge['id']} names {name}, which does not reach it")


def check_centres(plan: Record) -> Iterator[Violation]:
    """A seam, or the edge towards wallboard, lies on the axis of an upright support."""
    walls = {b["id"]: b["wall"] for b in plan["boards"]}
    most = limit(plan, "seam-on-axis")
    for edge in (e for e in plan["edges"] if is_upright(e) and e["role"] in ("seam", "wallboard")):
        off = _off_axis(plan, edge, walls[edge["board"]])
        if off > most + SEEN:
            yield broken("seam-on-axis", walls[edge["board"]], f"{edge['id']} is {off:.3f} off the nearest axis")


def _off_axis(plan: Record, edge: Record, wall: str) -> float:
    supports = on_wall(plan, "supports", wall)
    worst = 0.0
    for low, high in stretches(heights(supports), *span_of(edge)):
        middle = (low + high) / 2
        faces = faces_at(supports, middle)
        u = edge["p"][0]
        if any(not upright(s) and f[0] - TOUCH <= u <= f[1] + TOUCH for s, f in faces):
            continue
        ends = just_inside(low, high)
        off = (max(abs(axis_at(s, v) - u) for v in ends) for s, _ in faces if upright(s))
        worst = max(worst, min(off, default=math.inf))
    return worst
