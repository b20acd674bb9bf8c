"""Hatching: what a cut face is made of, as thin parallel lines clipped to it.

Patterns are in mm of paper, so that they look alike at every scale. They run from the middle of the face's own box:
a drawing that is moved keeps its lines.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.drafting.ink import Ink, Line, Outline
from generator.drafting.layers import Role
from generator.model.geometry import Point, Ring, box, tidy

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

UNNAMED = "OWN"
"""Name of a pattern that CAD programs do not know."""
LEAST = 0.15
"""mm: shorter pieces of a line are left out."""


@dataclass(frozen=True, slots=True)
class Lines:
    """Parallel lines at `angle` degrees, `pitch` apart; `dash` on and off in mm, None: full lines; `shift` across."""

    angle: float
    pitch: float
    dash: tuple[float, float] | None = None
    shift: float = 0.0


@dataclass(frozen=True, slots=True)
class Pattern:
    """`tone` fills the face first (0 black to 1 white); `crossed` joins the corners of its box, as for lumber.

    `name`: what CAD programs call a pattern of these lines, and `size` the scale at which theirs is like ours.
    """

    lines: tuple[Lines, ...] = ()
    tone: float | None = None
    crossed: bool = False
    name: str = UNNAMED
    size: float = 1.0


@dataclass(frozen=True, slots=True)
class Hatch:
    """A cut face that has yet to be hatched: its outer ring, then its holes."""

    rings: tuple[Ring, ...]
    pattern: Pattern
    layer: Role = "light"


def hatched(rings: Sequence[Ring], pattern: Pattern) -> tuple[Ink, ...]:
    """The tone and the lines of a face on paper: its outer ring, then its holes. Its outline is not drawn."""
    from shapely import Polygon

    face = Polygon(rings[0], rings[1:])
    tone = () if pattern.tone is None else _tone(rings, pattern.tone)
    wanted = (line for family in pattern.lines for line in _family(family, box(rings[0])))
    return (*tone, *(piece for line in wanted for piece in _clipped(line, face)), *crossing(rings, pattern))


def crossing(rings: Sequence[Ring], pattern: Pattern) -> tuple[Line, ...]:
    """The cross of a `crossed` pattern, which no CAD program has as a hatch."""
    from shapely import Polygon

    face = Polygon(rings[0], rings[1:])
    return tuple(p for line in _diagonals(box(rings[0])) for p in _clipped(line, face)) if pattern.crossed else ()


def _tone(rings: Sequence[Ring], tone: float) -> tuple[Ink, ...]:
    holes = (Outline(ring, "light", fill=1.0, edge=False) for ring in rings[1:])
    return (Outline(rings[0], "light", fill=tone, edge=False), *holes)


def _diagonals(bounds: tuple[float, float, float, float]) -> list[Line]:
    left, low, right, high = bounds
    return [Line((left, low), (right, high), "light"), Line((left, high), (right, low), "light")]


def _family(family: Lines, bounds: tuple[float, float, float, float]) -> Iterator[Line]:
    """Lines over the whole of a box, those in dashes dash by dash, every other one moved by half a dash."""
    left, low, right, high = bounds
    middle, reach = middle_of(bounds), math.dist((left, low), (right, high)) / 2
    turn = math.radians(family.angle)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    count = math.ceil(reach / family.pitch)
    for i in range(-count, count + 1):
        off = i * family.pitch + family.shift
        start = (middle[0] + across[0] * off, middle[1] + across[1] * off)
        for a, b in _spans(reach, family.dash, i % 2):
            yield Line(_on(start, along, a), _on(start, along, b), "light")


def middle_of(bounds: tuple[float, float, float, float]) -> Point:
    """The middle of a face's box, which the lines of its hatch run from."""
    left, low, right, high = bounds
    return ((left + right) / 2, (low + high) / 2)


def _spans(reach: float, dash: tuple[float, float] | None, odd: int) -> Iterator[tuple[float, float]]:
    if dash is None:
        yield (-reach, reach)
        return
    step = sum(dash)
    for i in range(-math.ceil(reach / step), math.ceil(reach / step) + 1):
        start = (i + odd / 2) * step
        yield (start, start + dash[0])


def _on(start: Point, along: Point, at: float) -> Point:
    return (start[0] + along[0] * at, start[1] + along[1] * at)


def _clipped(line: Line, face: BaseGeometry) -> Iterator[Line]:
    from shapely import LineString

    shape = face.intersection(LineString((line.start, line.end)))
    for piece in getattr(shape, "geoms", (shape,)):
        if piece.geom_type == "LineString" and piece.length > LEAST:
            (x0, y0), (x1, y1) = piece.coords[0], piece.coords[-1]
            yield Line((tidy(x0), tidy(y0)), (tidy(x1), tidy(y1)), line.layer)
