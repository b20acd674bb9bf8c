"""The symbol of the angle of projection: a truncated cone seen from the side and from its small end."""

from __future__ import annotations

from typing import Literal

from generator.drafting.ink import Circle, Ink, Line, Outline

Angle = Literal["first", "third"]
LARGE, SMALL = 2.5, 1.25
"""mm: radii of the cone's ends; it is as long as its large end is wide (ISO 5456-2, from memory)."""
APART = 3.7
"""mm from the middle of the symbol to the middle of either view."""
OVER = 0.8
"""mm that the axes reach beyond the views."""


def projection_symbol(angle: Angle, middle: float, y: float) -> tuple[Ink, ...]:
    """The symbol about (middle, y). The small end lies at the left, so what is seen from there stands right of the
    side in the first angle, and left of it in the third."""
    way = 1.0 if angle == "first" else -1.0
    return (*_side(middle - way * APART, y), *_end(middle + way * APART, y))


def _side(x: float, y: float) -> tuple[Ink, ...]:
    ring = ((x - LARGE, y - SMALL), (x + LARGE, y - LARGE), (x + LARGE, y + LARGE), (x - LARGE, y + SMALL))
    return (Line((x - LARGE - OVER, y), (x + LARGE + OVER, y), "light"), Outline(ring, "visible"))


def _end(x: float, y: float) -> tuple[Ink, ...]:
    return (
        Line((x - LARGE - OVER, y), (x + LARGE + OVER, y), "light"),
        Line((x, y - LARGE - OVER), (x, y + LARGE + OVER), "light"),
        Circle((x, y), SMALL, "visible"),
        Circle((x, y), LARGE, "visible"),
    )
