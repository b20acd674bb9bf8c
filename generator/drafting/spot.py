"""Where a block of writing can stand inside a shape without touching what is already there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from generator.drafting.ink import Align, Text
from generator.drafting.layers import Role
from generator.drafting.page import text_width
from generator.model.geometry import Point, Ring, box

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_STEPS = 24
PITCH = 1.6
"""Line spacing of a block, in heights of its capitals."""


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of writing that stay together; the first is the largest thing said."""

    lines: tuple[str, ...]
    layer: Role = "text"
    bold: bool = False
    mask: bool = False

    def size(self, height: float) -> Point:
        """(width, height) in mm of the block at a height of capitals."""
        width = max(text_width(line, height, self.bold) for line in self.lines)
        return width, (len(self.lines) - 1) * PITCH * height + 1.3 * height


def place_block(
    block: Block, inside: Ring, keep_out: Sequence[Ring], heights: Sequence[float], clear: float = 2.0
) -> tuple[Text, ...]:
    """The block at the largest of `heights` (descending) that fits inside the ring, `clear` mm off everything.

    Level is tried before upright, near the middle of the ring's box before far from it. Where nothing fits, the
    smallest height at the middle: text is never left out, and `overlaps` tells.
    """
    for height in heights:
        if found := fit_block(block, inside, keep_out, (height,), (0.0, 90.0), clear):
            return found
    left, bottom, right, top = box(inside)
    return _texts(block, ((left + right) / 2, (bottom + top) / 2), heights[-1], 0.0)


def fit_block(
    block: Block,
    inside: Ring,
    keep_out: Sequence[Ring],
    heights: Sequence[float],
    angles: Sequence[float] = (0.0, 90.0),
    clear: float = 2.0,
) -> tuple[Text, ...]:
    """As `place_block`, at the first of the angles (0 or 90) that holds it at any height; empty where nothing fits."""
    left, bottom, right, top = box(inside)
    middle = ((left + right) / 2, (bottom + top) / 2)
    for angle, height in product(angles, heights):
        wide, high = block.size(height)[:: 1 if angle == 0.0 else -1]
        if at := _free(inside, keep_out, (wide + 2 * clear, high + 2 * clear), middle):
            return _texts(block, at, height, angle)
    return ()


def _free(inside: Ring, keep_out: Sequence[Ring], size: Point, middle: Point) -> Point | None:
    from shapely import Polygon, contains, prepare, union_all
    from shapely import box as shapely_box

    space: BaseGeometry = Polygon(inside).difference(union_all([Polygon(ring) for ring in keep_out]))
    prepare(space)
    (w, h), at = (size[0] / 2, size[1] / 2), _grid(box(inside), size, middle)
    sides = ([x - w for x, _ in at], [y - h for _, y in at], [x + w for x, _ in at], [y + h for _, y in at])
    return next((p for p, fit in zip(at, contains(space, shapely_box(*sides)), strict=True) if fit), None)


def _grid(bounds: tuple[float, float, float, float], size: Point, middle: Point) -> list[Point]:
    """Middles of boxes of that size inside the bounds, the nearest to the middle first (then lower, then left)."""
    left, bottom, right, top = bounds
    free = (right - left - size[0], top - bottom - size[1])
    if min(free) < 0:
        return []
    xs = [left + size[0] / 2 + free[0] * i / _STEPS for i in range(_STEPS + 1)]
    ys = [bottom + size[1] / 2 + free[1] * i / _STEPS for i in range(_STEPS + 1)]
    far = {(x, y): round((x - middle[0]) ** 2 + (y - middle[1]) ** 2, 6) for x in xs for y in ys}
    return sorted(far, key=lambda p: (far[p], p[1], p[0]))


def _texts(block: Block, middle: Point, height: float, angle: float) -> tuple[Text, ...]:
    """Lines centred about a point, the first uppermost (leftmost when the block reads upwards)."""
    count = len(block.lines)
    align: Align = "centre"
    shifts = [((count - 1) / 2 - i) * PITCH * height for i in range(count)]
    at = [(middle[0], middle[1] + s) if angle == 0.0 else (middle[0] - s, middle[1]) for s in shifts]
    return tuple(
        Text(p, line, height, align, "middle", angle, block.bold, block.mask, block.layer)
        for p, line in zip(at, block.lines, strict=True)
    )
