"""Uprights in corners that no washer has a place on, and those that they touch, which take their screws."""

from __future__ import annotations

from tests.verifier.plain import (
    SEEN,
    TOUCH,
    Record,
    Span,
    box,
    by_id,
    face_lines,
    faces_at,
    just_inside,
    lean,
    limit,
    on_wall,
    rect,
    union,
    upright,
)


def is_relieved(plan: Record, board: Record, support: Record, screws: list[Record]) -> bool:
    """True where the corner leaves no place for a row of washers on a face, from the bottom of the wall's boards to
    their top, and an upright that touches it holds the board.

    `screws`: those of the board. Those on the upright beside reach as near to the board's ends as a row may have gaps.
    """
    left, bottom, right, top = box(support["outline"])
    low, high = _heights_before([board], left, right)
    span = _heights_before(on_wall(plan, "boards", board["wall"]), left, right)
    most = limit(plan, "screw-spacing") + SEEN
    for other in on_wall(plan, "supports", board["wall"]):
        a, _, b, _ = box(other["outline"])
        if upright(other) and other["kind"] != "ledger" and min(abs(a - right), abs(b - left)) <= TOUCH:
            row = [f for f in screws if f["support_id"] == other["id"]]
            vs = [f["point"][1] for f in row]
            near = bool(row) and min(vs) - max(low, bottom) <= most and min(high, top) - max(vs) <= most
            if near and _room_for(plan, support, span, row[0]["washer_diameter"]) < -SEEN:
                return True
    return False


def _heights_before(boards: list[Record], left: float, right: float) -> Span:
    """The lowest and the highest of boards in front of a face."""
    bounds = union(b["outline"] for b in boards).intersection(rect(left, -1e5, right, 1e5)).bounds
    return bounds[1], bounds[3]


def _room_for(plan: Record, support: Record, span: Span, washer: float) -> float:
    """Width of the places of a plumb row on a face whose washers clear the neighbours' board faces; negative: none."""
    wall = by_id(plan, "walls")[support["wall"]]
    left, right = face_lines(plan, wall)
    _, bottom, _, top = box(support["outline"])
    faces = [f for v in just_inside(max(span[0], bottom), min(span[1], top)) for _, f in faces_at([support], v)]
    lefts = [left + lean(wall, "left") * v for v in span]
    rights = [right + lean(wall, "right") * v for v in span]
    low = max(*(a for a, _ in faces), *(u + washer / 2 for u in lefts))
    high = min(*(b for _, b in faces), *(u - washer / 2 for u in rights))
    return high - low
