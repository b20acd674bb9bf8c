"""How the upright supports of a wall stand apart behind its boards, at every height."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.model.geometry import NOISE, TOUCH, Ring, box
from generator.model.plan import Region, Support

Span = tuple[float, float]


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
    """True where the support's axis rises more than it runs."""
    (u0, v0), (u1, v1) = support.axis
    return abs(v1 - v0) >= abs(u1 - u0)


def centre(support: Support) -> float:
    """u of the middle of an upright support's face."""
    return (support.axis[0][0] + support.axis[1][0]) / 2


def face(support: Support) -> Span:
    """u from, u to of a support's face."""
    left, _, right, _ = box(support.outline)
    return left, right


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


def find_bays(region: Sequence[Region], supports: Iterable[Support], least: float) -> tuple[Bay, ...]:
    """Every bay behind a region, bays that a level support carries left out.

    A support counts where the region overlaps its face by at least `least` (mm). Bays that stand above one
    another unchanged are one bay.
    """
    own = tuple(supports)
    levels = sorted({v for part in region for ring in (part.ring, *part.holes) for _, v in ring})
    levels = sorted({*levels, *(v for s in own for v in heights(s) if levels and levels[0] < v < levels[-1])})
    bays: list[Bay] = []
    for low, high in pairwise(levels):
        if high - low > 4 * TOUCH:
            # Clear of the ends by more than a touch, so that a plate just below or above carries nothing here.
            for v in (low + 2 * TOUCH, high - 2 * TOUCH):
                bays += [Bay(left, right, low, high) for left, right in _open_spans(region, own, least, v)]
    return _stacked(bays)


def _open_spans(region: Sequence[Region], supports: Sequence[Support], least: float, v: float) -> list[Span]:
    at_height = [s for s in supports if heights(s)[0] - TOUCH <= v <= heights(s)[1] + TOUCH]
    upright = sorted((s for s in at_height if is_upright(s)), key=centre)
    level = [face(s) for s in at_height if not is_upright(s)]
    spans: list[Span] = []
    for left, right in spans_at(region, v):
        crossed = [s for s in upright if min(right, face(s)[1]) - max(left, face(s)[0]) >= least - NOISE]
        marks = [left, *(min(max(centre(s), left), right) for s in crossed), right]
        clear = [(left, left), *(face(s) for s in crossed), (right, right)]
        for index, (a, b) in enumerate(pairwise(marks)):
            gap = (clear[index][1], clear[index + 1][0])
            if b - a > NOISE and not any(s[0] <= gap[0] + TOUCH and gap[1] - TOUCH <= s[1] for s in level):
                spans.append((a, b))
    return spans


def _stacked(bays: list[Bay]) -> tuple[Bay, ...]:
    merged: list[Bay] = []
    for bay in sorted(set(bays)):
        last = merged[-1] if merged else None
        if last and (last.left, last.right) == (bay.left, bay.right) and bay.low <= last.high + NOISE:
            merged[-1] = Bay(last.left, last.right, last.low, max(last.high, bay.high))
        else:
            merged.append(bay)
    return tuple(merged)
