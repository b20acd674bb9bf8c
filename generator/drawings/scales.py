"""Standard drawing scales, and the choice of the largest one that fits a space on paper."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.units import PaperUnits, Units


@dataclass(frozen=True, slots=True)
class Scale:
    """`factor`: mm on paper for one mm of the thing; `text`: as the title block says it."""

    factor: float
    text: str


def _us(inches: str) -> Scale:
    """So many inches of paper to the foot (facts table, section 7, US scales; 12 in / x computed)."""
    whole = sum(Fraction(part) for part in inches.split("-"))
    return Scale(float(whole / 12), f'{inches}" = 1\'-0"')


US: tuple[Scale, ...] = (
    Scale(1.0, "FULL SIZE"),
    *(_us(text) for text in ("6", "3", "1-1/2", "1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8")),
)
"""Inch scales, largest first."""

ISO: tuple[Scale, ...] = tuple(Scale(1 / n, f"1:{n}") for n in (1, 2, 5, 10, 20, 50, 100, 200, 500))
"""Metric scales of ISO 5455, largest first."""


def standard_scales(units: Units | PaperUnits) -> tuple[Scale, ...]:
    """The scales that a drawing in these units may use, largest first."""
    main = units.main if isinstance(units, PaperUnits) else units
    return US if main == "in" else ISO


def fitting_scale(size: tuple[float, float], space: tuple[float, float], units: Units | PaperUnits) -> Scale:
    """The largest standard scale at which `size` (mm of the thing) fits into `space` (mm of paper).

    The smallest standard scale when none fits: at 1:500 that is a wall of a hundred metres.
    """
    scales = standard_scales(units)
    fits = (s for s in scales if size[0] * s.factor <= space[0] + 1e-9 and size[1] * s.factor <= space[1] + 1e-9)
    return next(fits, scales[-1])
