"""Notes with leaders: blocks of words in a column right of a view, each with a leader to what it speaks of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drafting.ink import Circle, Ink, Line, Text
from generator.drafting.page import wrap
from generator.drawings.flow import TEXT
from generator.model.geometry import Point

PITCH = 3.7
"""mm from line to line."""
BETWEEN = 1.5
"""mm between two notes."""


@dataclass(frozen=True, slots=True)
class Note:
    """Words about a point: in the cut's frame until they are placed, then on paper."""

    at: Point
    text: str


@dataclass(frozen=True, slots=True)
class _Words:
    at: Point
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        return len(self.lines) * PITCH + BETWEEN


def column_height(notes: Sequence[Note], width: float) -> float:
    """mm that the notes need one below the other."""
    return sum(_Words(n.at, wrap(n.text, TEXT, width)).height for n in notes)


def column(notes: Sequence[Note], x: float, width: float, top: float, bottom: float) -> tuple[Ink, ...]:
    """The notes from `x` to the right, between top and bottom (beyond it where they must), leaders uncrossed.

    Of two points at one height the nearer one's note stands first: the other's leader then runs below its dot.
    """
    words = [_Words(n.at, wrap(n.text, TEXT, width)) for n in notes]
    ordered = _uncrossed(sorted(words, key=lambda w: (-round(w.at[1], 2), -w.at[0], w.lines)), x, top, bottom)
    ink: list[Ink] = []
    for word, y in zip(ordered, _tops(ordered, top, bottom), strict=True):
        ink += [Line(word.at, (x - 1.0, y - PITCH / 2), "dimension"), Circle(word.at, 0.45, "dimension", fill=0.0)]
        ink += [Text((x, y - (i + 0.5) * PITCH), s, TEXT, "left", "middle") for i, s in enumerate(word.lines)]
    return tuple(ink)


def _tops(words: Sequence[_Words], top: float, bottom: float) -> list[float]:
    """Upper edge of each note: at its point's height, pushed down by those above and up by those below."""
    tops: list[float] = []
    for i, word in enumerate(words):
        ceiling = top if i == 0 else tops[-1] - words[i - 1].height
        floor = bottom + sum(w.height for w in words[i:])
        tops.append(min(ceiling, max(word.at[1] + PITCH / 2, floor)))
    return tops


def _uncrossed(words: list[_Words], x: float, top: float, bottom: float) -> list[_Words]:
    """The order in which no two neighbours' leaders cross; each swap makes the leaders shorter, so it ends."""
    for _ in range(len(words) ** 2):
        tops = _tops(words, top, bottom)
        ends = [(x - 1.0, y - PITCH / 2) for y in tops]
        pairs = zip(words, ends, words[1:], ends[1:], strict=False)
        found = next((i for i, (a, p, b, q) in enumerate(pairs) if _cross(a.at, p, b.at, q)), None)
        if found is None:
            break
        words = [*words[:found], words[found + 1], words[found], *words[found + 2 :]]
    return words


def _cross(p: Point, q: Point, r: Point, s: Point) -> bool:
    """True where two lines cross between their ends."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return side(p, q, r) * side(p, q, s) < 0 and side(r, s, p) * side(r, s, q) < 0
