"""Dimensions: one distance between two points, and running dimensions from one datum."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Literal

from generator.drafting.ink import Circle, Dimension, Ink, Line, Outline, Running, Stop, Text
from generator.drafting.page import text_width
from generator.model.geometry import NOISE, Point

Axis = Literal["x", "y"]
TICK = 1.2
"""mm: half the length of the oblique stroke at the end of a dimension line (usual in building, ISO 6284)."""
HEAVY = 0.3
"""mm: width of a heavy tick, to which the pen that draws its edge adds its own."""
GAP = 0.8
"""mm between a dimension line and its text, and between an object and its extension line."""


def _xy(axis: Axis, along: float, across: float) -> Point:
    return (along, across) if axis == "x" else (across, along)


def strokes(dim: Dimension | Running) -> tuple[Ink, ...]:
    """The lines and the text of a dimension. The text stands above its line, or beside it where it does not fit."""
    return _of_one(dim) if isinstance(dim, Dimension) else _of_running(dim)


def _of_one(dim: Dimension) -> tuple[Ink, ...]:
    k = 0 if dim.axis == "x" else 1
    low, high = sorted((dim.p, dim.q), key=lambda point: point[k])
    a, b = low[k], high[k]
    ends = tuple(_end(dim, at) for at in (a, b))
    return (_dimension_line(dim, a, b), *ends, *_extensions(dim, low, high), _dimension_text(dim, a, b))


def _dimension_line(dim: Dimension, a: float, b: float) -> Line:
    """From end to end, and on under a text that was moved beyond them."""
    if dim.along is not None:
        half = text_width(dim.text, dim.height) / 2
        a, b = (min(a, dim.along - half), b) if dim.along < (a + b) / 2 else (a, max(b, dim.along + half))
    return Line(_xy(dim.axis, a, dim.line), _xy(dim.axis, b, dim.line), dim.layer)


def _end(dim: Dimension | Running, at: float) -> Line | Outline:
    """The stroke across the dimension line."""
    p, q = _xy(dim.axis, at - TICK, dim.line - TICK), _xy(dim.axis, at + TICK, dim.line + TICK)
    if dim.ends == "oblique":
        return Line(p, q, dim.layer)
    (x, y), (u, v), half = p, q, HEAVY / 2**1.5
    return Outline(
        ((x + half, y - half), (u + half, v - half), (u - half, v + half), (x - half, y + half)), dim.layer, fill=0.0
    )


def _extensions(dim: Dimension, low: Point, high: Point) -> tuple[Line, ...]:
    k = 0 if dim.axis == "x" else 1
    found = []
    for point in (low, high):
        across = point[1 - k]
        way = 1.0 if dim.line > across else -1.0
        if abs(dim.line - across) > 2 * GAP:
            ends = (across + way * GAP, dim.line + way * TICK)
            found.append(Line(_xy(dim.axis, point[k], ends[0]), _xy(dim.axis, point[k], ends[1]), dim.layer))
    return tuple(found)


def _usual_place(dim: Dimension, a: float, b: float) -> float:
    """The middle of a text that nothing is in the way of."""
    width = text_width(dim.text, dim.height)
    fits = width + 2 * TICK + GAP <= b - a
    return (a + b) / 2 if fits else b + TICK + GAP + width / 2


def _dimension_text(dim: Dimension, a: float, b: float) -> Text:
    along = _usual_place(dim, a, b) if dim.along is None else dim.along
    angle = 0.0 if dim.axis == "x" else 90.0
    across = dim.line + (GAP if dim.axis == "x" else -GAP)
    return Text(_xy(dim.axis, along, across), dim.text, dim.height, "centre", angle=angle, layer=dim.layer)


def staggered(dims: Sequence[Dimension], ceiling: float = math.inf) -> tuple[Dimension, ...]:
    """The same dimensions, their texts moved along their lines off the extension lines of those further out.

    `ceiling`: y that texts of dimensions along y stay below.
    """
    most = {"x": math.inf, "y": ceiling}
    return tuple(
        replace(dim, along=_free_place(dim, [d for d in dims if _is_beyond(d, dim)], most[dim.axis])) for dim in dims
    )


def _is_beyond(other: Dimension, dim: Dimension) -> bool:
    """True where the other stands further from the object, on the same side of it."""
    across = dim.p[1 if dim.axis == "x" else 0]
    return other.axis == dim.axis and (other.line - dim.line) * (dim.line - across) > 0


def _free_place(dim: Dimension, further: Sequence[Dimension], most: float) -> float | None:
    """The place nearest to the usual one, its end below `most`, that no line crosses; None: the usual one is free."""
    k = 0 if dim.axis == "x" else 1
    a, b = sorted((dim.p[k], dim.q[k]))
    half, usual = text_width(dim.text, dim.height) / 2 + GAP, _usual_place(dim, a, b)
    lines = [p[k] for d in further for p in (d.p, d.q)]
    taken = [*lines, a - TICK, a, a + TICK, b - TICK, b, b + TICK]
    if usual + half <= most and all(abs(usual - line) >= half for line in lines):
        return None
    places = (at + way * half for at in taken for way in (-1.0, 1.0))
    free = [p for p in places if p + half <= most and all(abs(p - at) >= half - 1e-6 for at in taken)]
    return min(free, key=lambda p: (abs(p - usual), p))


def spread(wanted: Sequence[float], gap: float) -> tuple[float, ...]:
    """Places at least `gap` apart, in the order wanted (ascending), moved as little as can be (least squares)."""
    blocks: list[tuple[float, int]] = []
    for i, value in enumerate(wanted):
        mean, count = value - i * gap, 1
        while blocks and blocks[-1][0] > mean:
            before, n = blocks.pop()
            mean, count = (before * n + mean * count) / (n + count), n + count
        blocks.append((mean, count))
    flat = [mean for mean, count in blocks for _ in range(count)]
    return tuple(mean + i * gap for i, mean in enumerate(flat))


def running(
    axis: Axis, line: float, datum: float, stops: Sequence[Stop], height: float = 2.5, side: Literal[1, -1] = -1
) -> tuple[Ink, ...]:
    """A running dimension: a ring on the datum, a tick and a value at every stop, all from that one datum.

    `line`: across the axis, where it is drawn; the values stand on the `side` away from the object (-1: below a
    line along x, left of one along y), spread so that none touches its neighbour. Values along x read upwards.
    """
    return (Running(axis, line, datum, said_once(stops), height, side),)


def said_once(stops: Iterable[Stop]) -> tuple[Stop, ...]:
    """The stops in order, of those that read alike the first: from one datum a tape cannot tell them apart."""
    once = {s.text: s for s in sorted(stops, key=lambda s: -s.at)}
    return tuple(sorted(once.values(), key=lambda s: s.at))


def _of_running(run: Running) -> tuple[Ink, ...]:
    along = [run.datum, *(s.at for s in run.stops)]
    base = Line(_xy(run.axis, min(along), run.line), _xy(run.axis, max(along), run.line), run.layer)
    return (base, datum_ring(run), *(ink for _, part in stop_strokes(run) for ink in part))


def datum_ring(run: Running) -> Circle:
    """The ring on the datum of a running dimension."""
    return Circle(_xy(run.axis, run.datum, run.line), TICK, run.layer)


def stop_strokes(run: Running) -> tuple[tuple[Stop, tuple[Ink, ...]], ...]:
    """Each stop with its tick, its lines and, last, its text, which is moved where it would touch a neighbour's."""
    places = spread([s.at for s in run.stops], 1.45 * run.height)
    return tuple((stop, _stop(run, stop, place)) for stop, place in zip(run.stops, places, strict=True))


def _stop(run: Running, stop: Stop, place: float) -> tuple[Ink, ...]:
    axis, line, side = run.axis, run.line, run.side
    tick, bend, foot = line + side * TICK, line + side * (TICK + 2.5), line + side * (TICK + 3.5)
    begin = tick if stop.start is None else stop.start
    path = [_xy(axis, stop.at, begin), _xy(axis, stop.at, tick), _xy(axis, place, bend), _xy(axis, place, foot)]
    lines: tuple[Ink, ...] = tuple(Line(p, q, run.layer) for p, q in itertools.pairwise(path) if p != q)
    if abs(stop.at - run.datum) > 2 * NOISE:
        lines = (_end(run, stop.at), *lines)
    if stop.start is None:
        lines = (Line(_xy(axis, stop.at, line - side * TICK), path[1], run.layer), *lines)
    at = _xy(axis, place, foot + side * GAP)
    far_end: Literal["left", "right"] = "right" if side < 0 else "left"
    angle = 90.0 if axis == "x" else 0.0
    return (*lines, Text(at, stop.text, run.height, far_end, "middle", angle, layer=run.layer))
