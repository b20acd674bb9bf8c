"""How a full-size drawing goes over pages: windows that overlap, in columns A, B, ... and rows 1, 2, ... from below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.drafting.ink import Circle, Ink, Line, Outline, Text
from generator.drawings.template_targets import Bounds
from generator.model.geometry import Point, Ring, rectangle

OVERLAP = 10.0
"""mm that neighbouring pages share."""
_TARGET = 3.0
_CROP = 4.0
_NAMED = 8.0
"""mm: pages of a plan that are smaller than this carry no name there."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page's window in the wall frame; `label` A1, B1 ..."""

    column: int
    row: int
    ring: Ring
    corner: Point

    @property
    def label(self) -> str:
        return f"{column_name(self.column)}{self.row + 1}"


@dataclass(frozen=True, slots=True)
class Grid:
    """All windows of a template: `size` of each, how many, `corner` the lower left of the first."""

    columns: int
    rows: int
    size: Point
    corner: Point

    def tile(self, column: int, row: int) -> Tile:
        """The window of a column and row, both from 0."""
        x = self.corner[0] + column * (self.size[0] - OVERLAP)
        y = self.corner[1] + row * (self.size[1] - OVERLAP)
        return Tile(column, row, rectangle(x, y, x + self.size[0], y + self.size[1]), (x, y))

    def tiles(self) -> tuple[Tile, ...]:
        """Row by row from below, left to right."""
        return tuple(self.tile(c, r) for r in range(self.rows) for c in range(self.columns))


def column_name(column: int) -> str:
    """A, B, ... Z, AA, AB ..."""
    name = ""
    while column >= 0:
        name, column = chr(ord("A") + column % 26) + name, column // 26 - 1
    return name


def count(extent: float, window: float) -> int:
    """Windows that cover an extent in one direction, overlaps counted."""
    return max(1, math.ceil(round((extent - OVERLAP) / (window - OVERLAP), 9)))


def grid(extent: Bounds, size: Point, whole: Sequence[Bounds]) -> Grid:
    """The fewest windows of that size that cover the extent, placed so that few of the boxes `whole` are cut."""
    spans = [(extent[k], extent[k + 2], size[k], [(b[k], b[k + 2]) for b in whole]) for k in (0, 1)]
    columns, rows = (count(high - low, window) for low, high, window, _ in spans)
    x, y = (_start(*span) for span in spans)
    return Grid(columns, rows, size, (x, y))


def _start(low: float, high: float, window: float, whole: Sequence[tuple[float, float]]) -> float:
    """Where the first window begins: fewest cut boxes, then the extent in the middle of the windows."""
    windows = count(high - low, window)
    spare = windows * window - (windows - 1) * OVERLAP - (high - low)
    steps = sorted(range(9), key=lambda i: (abs(i - 4), i))
    return min((low - spare * i / 8 for i in steps), key=lambda start: _cut(start, window, windows, whole))


def _cut(start: float, window: float, windows: int, whole: Sequence[tuple[float, float]]) -> int:
    """How many of the spans lie in no single window."""
    lefts = [start + i * (window - OVERLAP) for i in range(windows)]
    return sum(not any(left <= a and b <= left + window for left in lefts) for a, b in whole)


def joints(whole: Grid, tile: Tile) -> tuple[Ink, ...]:
    """In the wall frame: where each neighbour begins, and the targets that two neighbours share."""
    x, y = tile.corner
    w, h = whole.size
    ink: list[Ink] = []
    for column, at in ((tile.column - 1, x + OVERLAP), (tile.column + 1, x + w - OVERLAP)):
        if 0 <= column < whole.columns:
            ink += [Line((at, y), (at, y + h), "collar"), *_note(whole.tile(column, tile.row), (at, y + h / 2), 90.0)]
            ink += [piece for t in (0.25, 0.75) for piece in _target((_middle(at, x, w), y + t * h))]
    for row, at in ((tile.row - 1, y + OVERLAP), (tile.row + 1, y + h - OVERLAP)):
        if 0 <= row < whole.rows:
            ink += [Line((x, at), (x + w, at), "collar"), *_note(whole.tile(tile.column, row), (x + w / 2, at), 0.0)]
            ink += [piece for t in (0.25, 0.75) for piece in _target((x + t * w, _middle(at, y, h)))]
    return tuple(ink)


def _middle(line: float, start: float, size: float) -> float:
    """The middle of the overlap that the line bounds."""
    return line - OVERLAP / 2 if line < start + size / 2 else line + OVERLAP / 2


def _target(at: Point) -> tuple[Ink, ...]:
    (x, y), r = at, _TARGET
    cross = (Line((x - r, y), (x + r, y), "register"), Line((x, y - r), (x, y + r), "register"))
    return (Circle(at, _TARGET * 0.6, "register"), *cross)


def _note(neighbour: Tile, at: Point, angle: float) -> tuple[Text, ...]:
    text = f"page {neighbour.label} overlaps up to here; match the targets"
    return (Text(at, text, 2.5, "centre", "middle", angle, mask=True),)


def crop_marks(window: Bounds) -> tuple[Ink, ...]:
    """On paper: the trim line, and marks outside its corners."""
    left, bottom, right, top = window
    corners = [(x, a, y, b) for x, a in ((left, -1.0), (right, 1.0)) for y, b in ((bottom, -1.0), (top, 1.0))]
    level = [Line((x + 0.8 * a, y), (x + _CROP * a, y), "visible") for x, a, y, _ in corners]
    plumb = [Line((x, y + 0.8 * b), (x, y + _CROP * b), "visible") for x, _, y, b in corners]
    return (Outline(rectangle(*window), "register"), *level, *plumb)


def page_plan(whole: Grid, tile: Tile, circles: tuple[Ring, ...], frame: Bounds) -> tuple[Ink, ...]:
    """A small map of the pages in a frame on paper: this page grey, openings as boxes."""
    left, bottom, right, top = frame
    wide, high = (n * (s - OVERLAP) + OVERLAP for n, s in zip((whole.columns, whole.rows), whole.size, strict=True))
    scale = min((right - left) / wide, (top - bottom) / high)

    def at(p: Point) -> Point:
        return (right - (whole.corner[0] + wide - p[0]) * scale, bottom + (p[1] - whole.corner[1]) * scale)

    ink: list[Ink] = []
    for other in whole.tiles():
        fill = 0.8 if other == tile else None
        ink.append(Outline(tuple(at(p) for p in other.ring), "register", fill=fill))
    ink += [Outline(tuple(at(p) for p in ring), "visible") for ring in circles]
    if min(whole.size) * scale >= _NAMED:
        corners = ((at(other.corner), other.label) for other in whole.tiles())
        ink += [Text((x + 1.0, y + 1.0), label, 2.5, mask=True) for (x, y), label in corners]
    return tuple(ink)
