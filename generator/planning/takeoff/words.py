"""Quantities of the take-off as people say them."""

from __future__ import annotations

from generator.units import INCH, Units

FLUID_OUNCE = 231 * INCH**3 / 128 / 1000
"""ml in a US fluid ounce: a US gallon is 231 in3 (definition) and holds 128."""


def amount_text(value: float, unit: str, units: Units) -> str:
    """A quantity in the job's units: lengths in feet or metres, volumes in fluid ounces or litres, counts plain."""
    if unit == "mm":
        return f"{value / INCH / 12:.1f} ft" if units == "in" else f"{value / 1000:.2f} m"
    if unit == "ml":
        return f"{value / FLUID_OUNCE:.1f} fl oz" if units == "in" else f"{value / 1000:.3f} l"
    return f"{value:g} {unit}"
