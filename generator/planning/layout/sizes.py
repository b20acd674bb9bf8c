"""Sizes of boxes and sheets in whole steps, so that a box as wide as its sheet fits exactly."""

from __future__ import annotations

from typing import NamedTuple

from generator.planning.layout.task import StockSize


class Size(NamedTuple):
    """A box that may be turned: short side first, in steps."""

    short: int
    long: int

    def fits(self, stock: StockSize) -> bool:
        """True when the sheet holds the box, one way or the other."""
        sheet = size_of(stock.width, stock.height)
        return self.short <= sheet.short and self.long <= sheet.long


STEPS = 1_000_000
"""Steps in a millimetre: the noise grid itself, so that no box is rounded off or beyond its leaf."""


def in_steps(mm: float) -> int:
    """Nearest whole number of steps."""
    return round(mm * STEPS)


def size_of(width: float, height: float) -> Size:
    """The turnable size of a box in mm."""
    a, b = in_steps(width), in_steps(height)
    return Size(min(a, b), max(a, b))
