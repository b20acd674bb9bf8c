"""One rule in words: what it says, why, where it comes from, and its limit in both units."""

from __future__ import annotations

from textwrap import wrap

from generator.model.profiles import Confidence, Rule
from generator.units import INCH, Units, label

CONFIDENCE: dict[Confidence, str] = {
    "published": "published",
    "practice": "common practice, no source",
    "memory": "from memory, no text found",
    "maker": "maker's sheet to be confirmed",
    "invented": "invented for demonstration",
}
SENSE = {"at_most": "at most", "at_least": "at least"}


def quantity(value: float, unit: str, units: Units) -> str:
    """A measured value in its rule's unit: lengths and areas in the room's units, at the precision of the paper.

    A value that the paper's step would hide is given in mm in full, so that a narrow fail never reads as 0.
    """
    if unit == "mm":
        return _length(value, units)
    if unit == "mm2":
        return f"{value / INCH**2:.1f} in2" if units == "in" and abs(value) >= INCH**2 else f"{value:.6g} mm2"
    return f"{value:.4g}" + {"deg": " deg", "mm3": " mm3"}.get(unit, "")


def _length(value: float, units: Units) -> str:
    text = label(value, units) + (" mm" if units == "mm" else "")
    hidden = value != 0.0 and abs(value) < (INCH / 32 if units == "in" else 0.5)
    return f"{value:.2g} mm" if hidden else text


def explain(rule: Rule) -> str:
    """Statement, limit in inches and millimetres, reason, source and confidence of a rule, 80 columns wide."""
    rows = (
        ("rule", rule.id),
        ("says", rule.statement),
        ("limit", f"{SENSE[rule.sense]} {both_units(rule.limit, rule.unit)}"),
        ("why", rule.reason),
        ("source", rule.origin.source),
        ("known", CONFIDENCE[rule.origin.confidence]),
    )
    return "\n".join(line for name, text in rows for line in _lines(name, text)) + "\n"


def both_units(value: float, unit: str) -> str:
    """A limit in both units, exact enough to compare a tape or a drawing with."""
    if unit == "mm":
        return f"{label(value, 'in')} ({value:.6g} mm)"
    if unit == "mm2" and value >= INCH**2:
        return f"{value / INCH**2:.6g} in2 ({value / 1e6:.4g} m2)"
    return f"{value:.6g}" + ("" if unit == "count" else f" {unit}" if unit != "ratio" else " of it")


def _lines(name: str, text: str) -> list[str]:
    return wrap(text, 80, initial_indent=f"{name:<8}", subsequent_indent=" " * 8) or [name]
