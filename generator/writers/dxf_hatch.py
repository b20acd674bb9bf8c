"""A cut face to DXF: a hatch by layer, its lines where our paper has them; what is dark on paper as a solid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from generator.drafting.hatch import UNNAMED, Hatch, Lines, middle_of
from generator.model.geometry import Point, box
from generator.units import Units, to_units

DARK = 0.6
"""Tones (0 black to 1 white) below this become a solid; lighter ones are left out, as colour comes from the layer."""
BY_LAYER = 256
OWN, PREDEFINED = 2, 1
"""Types of a pattern (DXF reference, HATCH, group code 76)."""


def add_hatch(target: Any, item: Hatch, scale: float, units: Units, layer: str) -> None:
    """Into a space of a document whose writing is drawn 1 / `scale` as large; nothing for a light tone alone."""
    pattern = item.pattern
    dark = pattern.tone is not None and pattern.tone < DARK
    if not pattern.lines and not dark:
        return
    hatch = target.add_hatch(color=BY_LAYER, dxfattribs={"layer": layer})
    for ring in item.rings:
        hatch.paths.add_polyline_path([_point(p, units) for p in ring], is_closed=True)
    if not pattern.lines:
        hatch.dxf.hatch_style = 0
        return
    lines = [_line(family, middle_of(box(item.rings[0])), scale, units) for family in pattern.lines]
    kind = OWN if pattern.name == UNNAMED else PREDEFINED
    hatch.set_pattern_fill(pattern.name, color=BY_LAYER, style=0, pattern_type=kind, definition=lines)
    hatch.dxf.pattern_scale = round(pattern.size / scale, 6)


def _point(p: Point, units: Units) -> Point:
    return (to_units(p[0], units), to_units(p[1], units))


def _line(family: Lines, middle: Point, scale: float, units: Units) -> list[Any]:
    """Angle, a point of its first line, the step from line to line, lengths on (positive) and off (negative).

    Steps and lengths are mm of paper, the point is mm of the model; the next line of dashes starts half a dash on.
    """
    turn = math.radians(family.angle)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    dash = family.dash or (0.0, 0.0)

    def paper(a: float, b: float) -> Point:
        """So far along and across, in the model."""
        return ((a * along[0] + b * across[0]) / scale, (a * along[1] + b * across[1]) / scale)

    base, step = paper(0.0, family.shift), paper(sum(dash) / 2, family.pitch)
    start = (middle[0] + base[0], middle[1] + base[1])
    lengths: Sequence[float] = (dash[0] / scale, -dash[1] / scale) if family.dash else ()
    return [family.angle, _point(start, units), _point(step, units), [to_units(length, units) for length in lengths]]
