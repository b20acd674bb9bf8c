"""The catalogue as rows that can be printed: every field with its value, source and confidence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Any

from generator.model.profiles import Catalogue, Origin, Profile, Rule, SheetSize
from generator.units import Units, label, to_units

_NOT_LENGTHS = {
    "density": "kg/m3",
    "steel_mils": "mil",
    "package": "pieces",
    "cartridge": "ml",
    "bag": "ml",
    "waste": "share",
    "angle_deg": "deg",
}
_HEAD = ("id", "name", "origin", "origins")


@dataclass(frozen=True, slots=True)
class Row:
    """One field of one profile, in words."""

    kind: str
    id: str
    name: str
    field: str
    value: str
    source: str
    confidence: str


def describe(catalogue: Catalogue, units: Units) -> tuple[Row, ...]:
    """Every field of every profile, lengths in these units; by kind, id and the order of the fields."""
    rows: list[Row] = []
    for table in fields(catalogue):
        for record in getattr(catalogue, table.name).values():
            rows += _rows(table.name, record, units)
    return tuple(rows)


def _rows(kind: str, record: Profile | Rule, units: Units) -> Iterator[Row]:
    origins = record.origins if isinstance(record, Profile) else {}
    name = record.name if isinstance(record, Profile) else record.statement
    for field in fields(record):
        if field.name not in _HEAD:
            value = getattr(record, field.name)
            own: Origin = origins.get(field.name, record.origin)
            text = _limit(record, units) if isinstance(record, Rule) and field.name == "limit" else None
            shown = text or _shown(field.name, value, units)
            yield Row(kind, record.id, name, field.name, shown, own.source, own.confidence)


def _limit(rule: Rule, units: Units) -> str:
    """A limit with its unit, lengths and areas in the reader's."""
    if rule.unit == "mm":
        return length_text(rule.limit, units)
    if rule.unit == "mm2" and units == "in":
        return f"{rule.limit / 25.4**2:.6g} in2"
    return f"{rule.limit:.6g} {rule.unit}"


def length_text(mm: float, units: Units) -> str:
    """A length to the paper's step where that is exact, else in decimals: a pipe is 0.84 in, not 13/16."""
    plain = label(mm, units) + ("" if units == "in" else " mm")
    step = 25.4 / 16 if units == "in" else 1.0
    exact = abs(mm / step - round(mm / step)) < 1e-6
    return plain if exact else f"{round(to_units(mm, units), 4):g} {units}"


def _shown(field: str, value: Any, units: Units) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if field in _NOT_LENGTHS:
        return f"{value:.6g} {_NOT_LENGTHS[field]}"
    if isinstance(value, int | float):
        return length_text(value, units)
    if isinstance(value, SheetSize):
        return f"{length_text(value.width, units)} x {length_text(value.height, units)}"
    if isinstance(value, tuple):
        return ", ".join(_point(item, units) if isinstance(item, tuple) else _shown("", item, units) for item in value)
    return str(value)


def _point(point: tuple[float, ...], units: Units) -> str:
    return "(" + " ".join(length_text(number, units) for number in point) + ")"
