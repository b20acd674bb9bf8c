"""Lengths as people write and read them. Millimetres inside, feet and inches only here and on paper."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor
from typing import Literal

INCH = 25.4
"""mm in one inch, exact by definition (international yard and pound agreement, 1959)."""

Units = Literal["in", "mm"]


@dataclass(frozen=True, slots=True)
class Length:
    """A length as entered: exact in mm, with the text that the person wrote."""

    exact: Fraction
    text: str

    @property
    def mm(self) -> float:
        return float(self.exact)


def paper_step(units: Units) -> float:
    """The step that lengths on paper are rounded to, in mm: 1/16 in or 1 mm."""
    return INCH / 16 if units == "in" else 1.0


def label(mm: float, units: Units) -> str:
    """A computed length as paper says it, rounded half up, once: `60 1/4"`, or `1530` in mm."""
    if units == "mm":
        return str(_half_up(mm))
    sixteenths = _half_up(mm / INCH * 16)
    sign = "-" if sixteenths < 0 else ""
    whole, rest = divmod(abs(sixteenths), 16)
    fraction = str(Fraction(rest, 16)) if rest else ""
    return sign + " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part) + '"'


def label_feet(mm: float, units: Units) -> str:
    """As `label`, in feet and inches from one foot up: `5'-0 1/4"`; plain mm in metric."""
    inches = _half_up(mm / INCH * 16) if units == "in" else 0
    if abs(inches) < 12 * 16:
        return label(mm, units)
    feet, rest = divmod(abs(inches), 12 * 16)
    inch_text = label(rest * INCH / 16, "in")
    zero = "0 " if 0 < rest < 16 else ""
    return f"{'-' if inches < 0 else ''}{feet}'-{zero}{inch_text}"


def label_opening(mm: float, units: Units) -> str:
    """A diameter as paper says it: 0.01 in or 0.1 mm, rounded half up."""
    size, step = (mm / INCH, "0.01") if units == "in" else (mm, "0.1")
    rounded = Decimal(repr(round(size, 9))).quantize(Decimal(step), ROUND_HALF_UP)
    return f'{rounded}"' if units == "in" else str(rounded)


def to_units(mm: float, units: Units) -> float:
    """The number that a drawing in these units carries: inches at 9 decimals, mm at 6 (see technology notes)."""
    return round(mm / INCH, 9) + 0.0 if units == "in" else round(mm, 6) + 0.0


def _half_up(value: float) -> int:
    """Nearest whole number, halves up; float noise of 1e-9 does not push a half down."""
    return floor(round(value, 9) + 0.5)
