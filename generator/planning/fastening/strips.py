"""Where a board lies on the face of an upright support, and where on it a row of screws can stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from generator.model.ends import STEEPEST
from generator.model.geometry import NOISE, TOUCH, Point, Ring
from generator.model.plan import Board, Region, Support
from generator.planning.bays import Span, axis_at, face, face_between, heights_at, is_upright, spans_at


@dataclass(frozen=True, slots=True)
class Strip:
    """A stretch of a face that one board covers: the board's own edges in u, and v from low to high."""

    edges: Span
    low: float
    high: float


def strips(board: Board, support: Support, least: float, edge_distance: float) -> tuple[Strip, ...]:
    """Stretches of the support's face that the board overlaps by at least `least`, upwards.

    Stretches lower than the edge distance hold no screw of their own (a nip, the slope of a deck) and are
    passed over. Stretches join while one upright line can serve both.
    """
    slopes = _slope_levels(board.outline, face(support))
    levels = sorted({v for _, v in board.outline} | slopes)
    joined: list[Strip] = []
    for low, high in pairwise(levels):
        tapers = high in slopes or (low in slopes and _tapers(board.outline, face(support), (low, high)))
        if joined and tapers and abs(joined[-1].high - low) <= NOISE:
            if _crossing(board, support, (low, high), least):
                joined[-1] = replace(joined[-1], high=high)
            continue
        if high - low < edge_distance:
            continue
        for edges in _crossing(board, support, (low, high), least):
            strip = Strip(edges, low, high)
            both = _common(joined[-1], strip, edge_distance) if joined else None
            if both is not None and _overlap(both.edges, face(support)) >= least - NOISE:
                joined[-1] = both
            else:
                joined.append(strip)
    return tuple(joined)


def _slope_levels(ring: Ring, across: Span) -> set[float]:
    """Heights at which a side that slopes crosses the edges of a face."""
    found = set()
    for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if abs(u1 - u0) > STEEPEST * abs(v1 - v0) and abs(v1 - v0) > TOUCH:
            found |= {v0 + (u - u0) / (u1 - u0) * (v1 - v0) for u in across if min(u0, u1) < u < max(u0, u1)}
    return found


def _tapers(ring: Ring, across: Span, heights: Span) -> bool:
    """True where a side that slopes runs over a face between two heights, as up to the tip of a board there."""
    middle = sum(heights) / 2
    return any(
        across[0] < u0 + (middle - v0) / (v1 - v0) * (u1 - u0) < across[1]
        for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if min(v0, v1) < middle < max(v0, v1) and abs(u1 - u0) > STEEPEST * abs(v1 - v0)
    )


def _crossing(board: Board, support: Support, heights: Span, least: float) -> list[Span]:
    spans = _narrowest(board.outline, *heights)
    return [span for span in spans if _overlap(span, face(support)) >= least - NOISE]


def _narrowest(ring: Ring, low: float, high: float) -> list[Span]:
    """The board between two heights: across its middle, less what ends that lean take away further up or down."""
    middle, *others = (spans_at((Region(ring, ()),), v) for v in ((low + high) / 2, low + 2 * TOUCH, high - 2 * TOUCH))
    spans = list(middle)
    for other in (o for o in others if len(o) == len(middle)):
        for i, (own, there) in enumerate(zip(spans, other, strict=True)):
            near = [abs(a - b) <= STEEPEST * (high - low) for a, b in zip(own, there, strict=True)]
            left = max(own[0], there[0]) if near[0] else own[0]
            spans[i] = left, min(own[1], there[1]) if near[1] else own[1]
    return spans


def _overlap(a: Span, b: Span) -> float:
    return min(a[1], b[1]) - max(a[0], b[0])


def _common(below: Strip, above: Strip, gap: float) -> Strip | None:
    """Both as one, as narrow as the narrower on either side; None where they stand apart."""
    if above.low - below.high > gap:
        return None
    edges = max(below.edges[0], above.edges[0]), min(below.edges[1], above.edges[1])
    return Strip(edges, below.low, above.high)


def board_heights(board: Board, strip: Strip, u: float, edge_distance: float) -> Span:
    """v from, v to of the board on the upright line at u, within the edge distance of the strip's ends."""
    middle = (strip.low + strip.high) / 2
    turned = _turned(board.outline)
    spans = [s for s in spans_at((Region(turned, ()),), u) if s[0] <= middle <= s[1]]
    low, high = spans[0] if spans else (strip.low, strip.high)
    return max(low, strip.low - edge_distance), min(high, strip.high + edge_distance)


def in_a_tip(board: Board, at: Point, edge_distance: float) -> bool:
    """True where a board runs out between a slanting side and another, too low for a screw on the plumb line at a
    point: the rows beside it hold the tip, and a screw there would tear out."""
    u, v = at
    chords = (s for s in spans_at((Region(_turned(board.outline), ()),), u) if s[0] - TOUCH <= v <= s[1] + TOUCH)
    low, high = next(chords, (v, v))
    slanting = (
        v0 + (u - u0) / (u1 - u0) * (v1 - v0)
        for (u0, v0), (u1, v1) in zip(board.outline, (*board.outline[1:], board.outline[0]), strict=True)
        if abs(u1 - u0) > STEEPEST * abs(v1 - v0) > TOUCH and min(u0, u1) <= u <= max(u0, u1)
    )
    ends = any(min(abs(end - low), abs(end - high)) <= TOUCH for end in slanting)
    return ends and high - low < 2 * edge_distance - NOISE


def _turned(ring: Ring) -> Ring:
    """The ring with u and v exchanged."""
    return tuple((v, u) for u, v in ring)


def carriers(support: Support, others: Sequence[Support], u: float) -> tuple[Support, ...]:
    """The support and the plates that carry the line at u on from its ends, lowest first."""
    chain = [support]
    plates = [p for p in others if p.wall == support.wall and not is_upright(p) and _spans(p, u)]
    for _ in plates:
        ends = heights_at(chain[0], u)[0], heights_at(chain[-1], u)[1]
        chain[:0] = [p for p in plates if p not in chain and abs(heights_at(p, u)[1] - ends[0]) <= TOUCH][:1]
        chain += [p for p in plates if p not in chain and abs(heights_at(p, u)[0] - ends[1]) <= TOUCH][:1]
    return tuple(chain)


def _spans(plate: Support, u: float) -> bool:
    left, right = face(plate)
    return plate.kind == "plate" and left - TOUCH <= u <= right + TOUCH


def row_u(strip: Strip, support: Support, side: float, clear: Span) -> float:
    """u of a row: the middle of the face where the board allows it, else off the edge that lies on the face.

    A row is plumb; on a crooked stud it keeps to what the face covers at every height of the strip.
    `side`: least distance of a screw from the board's side edges; `clear`: from, to of the screws that clear
    the neighbours' faces. Where the demands contradict each other, the middle between them, on the face.
    """
    covered = face_between(support, strip.low, strip.high)
    left, right = max(strip.edges[0], covered[0]), min(strip.edges[1], covered[1])
    low = max(left, strip.edges[0] + side, clear[0])
    high = min(right, strip.edges[1] - side, clear[1])
    if low > high:
        return min(max((low + high) / 2, left), right)
    return min(max(_wanted(strip, support, side, right - left), low), high)


def _wanted(strip: Strip, support: Support, side: float, bearing: float) -> float:
    """Before the neighbours have their say."""
    middle, offset = _line(strip, support), max(side, bearing / 2)
    if middle < strip.edges[0] + side:
        return strip.edges[0] + offset
    if middle > strip.edges[1] - side:
        return strip.edges[1] - offset
    return middle


def _line(strip: Strip, support: Support) -> float:
    """The middle of the face half way up the strip; of several plies the middle of the first, not the joint."""
    left, right = face(support)
    aside = (right - left) / 2 * (1 - 1 / support.plies)
    return axis_at(support, (strip.low + strip.high) / 2) - aside
