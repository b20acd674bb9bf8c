"""How the upright supports of a wall stand apart behind its boards, at every height."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.model.geometry import NOISE, TOUCH, Point, Ring, box
from generator.model.plan import Region, Support

Span = tuple[float, float]
_ENDLESS: Ring = ((-1e6, -1e6), (1e6, -1e6), (1e6, 1e6), (-1e6, 1e6))
"""mm: no framing is larger."""


@dataclass(frozen=True, slots=True, order=True)
class Bay:
    """Between two support axes, or a board's edge and the first axis: u from left to right, v from low to high."""

    left: float
    right: float
    low: float
    high: float

    @property
    def width(self) -> float:
        return self.right - self.left


def is_upright(support: Support) -> bool:
    """True where the support's axis rises more than it runs; true of a ledger, which ends bays as uprights do."""
    if support.kind == "ledger":
        return True
    (u0, v0), (u1, v1) = support.axis
    return abs(v1 - v0) >= abs(u1 - u0)


def centre(support: Support) -> float:
    """u of the middle of an upright support's face, half way up where it leans."""
    return (support.axis[0][0] + support.axis[1][0]) / 2


def face(support: Support) -> Span:
    """u from, u to of what a support's face covers at every height: less than its width where the support leans."""
    left, right = fills(support)
    return left + sideways(support), right - sideways(support)


def fills(support: Support) -> Span:
    """u from, u to of what a support takes up, all heights together."""
    left, _, right, _ = box(support.outline)
    return left, right


def sideways(support: Support) -> float:
    """How far (mm) a crooked upright stands out of plumb from its lower to its upper end."""
    return abs(support.axis[1][0] - support.axis[0][0]) if is_upright(support) else 0.0


def axis_at(support: Support, v: float) -> float:
    """u of an upright support's axis at a height, at its nearer end beyond them."""
    if support.kind == "ledger":
        return sum(_section(support.outline, v)) / 2
    (u0, v0), (u1, v1) = support.axis
    share = min(max((v - v0) / (v1 - v0), 0.0), 1.0) if v1 != v0 else 0.0
    return u0 + share * (u1 - u0)


def face_at(support: Support, v: float) -> Span:
    """u from, u to of a support's face at a height."""
    if support.kind == "ledger":
        return _section(support.outline, v)
    left, right = face(support)
    aside = axis_at(support, v) - centre(support) if is_upright(support) else 0.0
    half = sideways(support) / 2
    return left - half + aside, right + half + aside


def face_between(support: Support, low: float, high: float) -> Span:
    """u from, u to of what a support's face covers at every height between two."""
    ends = face_at(support, low), face_at(support, high)
    return max(left for left, _ in ends), min(right for _, right in ends)


def fills_between(support: Support, low: float, high: float) -> Span:
    """u from, u to of what a support takes up, the heights between two together."""
    ends = face_at(support, low), face_at(support, high)
    return min(left for left, _ in ends), max(right for _, right in ends)


def off_axis(support: Support, u: float, low: float, high: float) -> float:
    """Greatest distance (mm) of a plumb line at u from an upright support's axis between two heights."""
    return max(abs(axis_at(support, v) - u) for v in (low, high))


def heights(support: Support) -> Span:
    """v from, v to of a support's face."""
    _, low, _, high = box(support.outline)
    return low, high


def spans_at(region: Sequence[Region], v: float) -> tuple[Span, ...]:
    """The stretches of u that the regions cover at one height, left to right."""
    spans: list[Span] = []
    for part in region:
        crossings = sorted(u for ring in (part.ring, *part.holes) for u in _crossings(ring, v))
        spans += list(zip(crossings[::2], crossings[1::2], strict=True))
    return tuple(sorted(spans))


def _crossings(ring: Ring, v: float) -> list[float]:
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    return [p[0] + (v - p[1]) / (q[1] - p[1]) * (q[0] - p[0]) for p, q in sides if (p[1] <= v) != (q[1] <= v)]


def heights_at(support: Support, u: float) -> Span:
    """v from, v to of a support's face on the plumb line at u: a plate along a rake is at another height there."""
    return _section(tuple((v, u) for u, v in support.outline), u) if _is_raked(support) else heights(support)


def whole_heights(support: Support) -> Span:
    """v from, v to of where a support's face has its whole width: an end may be cut aslant."""
    vs = sorted(v for _, v in support.outline)
    return vs[1], vs[-2]


def section(support: Support, v: float) -> Span:
    """u from, u to of a level support's face at a height; of a plate along a rake what the height meets of it."""
    return _section(support.outline, v) if _is_raked(support) else face(support)


def _is_raked(support: Support) -> bool:
    """True where its face is cut to a slope, as a half wall's top plate and the studs under it."""
    return len({v for _, v in support.outline}) > 2


def _section(ring: Ring, v: float) -> Span:
    """u from, u to of a convex ring at a height, its ends included; beyond them at the nearer end."""
    _, low, _, high = box(ring)
    v = min(max(v, low), high)
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    met = [p for side in sides if min(side[0][1], side[1][1]) <= v <= max(side[0][1], side[1][1]) for p in _at(side, v)]
    return min(met), max(met)


def _at(side: tuple[Point, Point], v: float) -> tuple[float, ...]:
    (u0, v0), (u1, v1) = side
    return (u0, u1) if v0 == v1 else (u0 + (v - v0) / (v1 - v0) * (u1 - u0),)


def find_bays(
    region: Sequence[Region], supports: Iterable[Support], least: float, framing: Ring = _ENDLESS
) -> tuple[Bay, ...]:
    """Every bay behind a region, bays that a level support carries left out.

    A support counts where the region overlaps its face by at least `least` (mm). Bays that stand above one
    another unchanged are one bay. `framing`: outline of the framing; a board that laps others' edges passes it, and
    what fills the framing carries the board there.
    """
    within = box(framing)
    own = tuple(s for s in supports if not s.set_back)
    levels = sorted({v for part in region for ring in (part.ring, *part.holes) for _, v in ring})
    levels = sorted({*levels, *(v for s in own for v in heights(s) if levels and levels[0] < v < levels[-1])})
    levels = sorted({min(max(v, within[1]), within[3]) for v in levels})
    bays: list[Bay] = []
    for low, high in pairwise(levels):
        if high - low > 4 * TOUCH:
            # Clear of the ends by more than a touch, so that a plate just below or above carries nothing here.
            for v in (low + 2 * TOUCH, high - 2 * TOUCH):
                bays += [Bay(left, right, low, high) for left, right in _open_spans(region, own, least, framing, v)]
    return _stacked(bays)


def _open_spans(
    region: Sequence[Region], supports: Sequence[Support], least: float, framing: Ring, v: float
) -> list[Span]:
    at_height = [s for s in supports if heights(s)[0] - TOUCH <= v <= heights(s)[1] + TOUCH]
    upright = sorted((s for s in at_height if is_upright(s)), key=lambda s: axis_at(s, v))
    level = _joined(section(s, v) for s in at_height if not is_upright(s) or s.kind == "ledger")
    inner = _section(framing, v)
    rakes = [section(s, v) for s in at_height if not is_upright(s) and _is_raked(s)]
    spans: list[Span] = []
    for left, right in spans_at(region, v):
        faces = [(s, face_at(s, v)) for s in upright]
        crossed = [(s, f) for s, f in faces if min(right, f[1]) - max(left, f[0]) >= least - NOISE]
        marks = [left, *(min(max(axis_at(s, v), left), right) for s, _ in crossed), right]
        clear = [(left, left), *(f for _, f in crossed), (right, right)]
        for index, (a, b) in enumerate(pairwise(marks)):
            gap = (max(clear[index][1], inner[0]), min(clear[index + 1][0], inner[1]))
            if b - a > NOISE and not any(s[0] <= gap[0] + TOUCH and gap[1] - TOUCH <= s[1] for s in level):
                spans += _short_of(rakes, (a, b))
    return spans


def _short_of(rakes: Sequence[Span], bay: Span) -> list[Span]:
    """A bay, or what is left of it where plates along a rake carry parts of it."""
    open_parts = [bay]
    for low, high in rakes:
        open_parts = [p for a, b in open_parts for p in ((a, min(b, low)), (max(a, high), b))]
        open_parts = [(a, b) for a, b in open_parts if b - a > NOISE]
    return open_parts


def _joined(spans: Iterable[Span]) -> list[Span]:
    """Spans with those that touch made one: packing and a header carry a bay together."""
    joined: list[Span] = []
    for left, right in sorted(spans):
        if joined and left <= joined[-1][1] + TOUCH:
            joined[-1] = joined[-1][0], max(joined[-1][1], right)
        else:
            joined.append((left, right))
    return joined


def _stacked(bays: list[Bay]) -> tuple[Bay, ...]:
    merged: list[Bay] = []
    for bay in sorted(set(bays)):
        last = merged[-1] if merged else None
        if last and (last.left, last.right) == (bay.left, bay.right) and bay.low <= last.high + NOISE:
            merged[-1] = Bay(last.left, last.right, last.low, max(last.high, bay.high))
        else:
            merged.append(bay)
    return tuple(merged)
