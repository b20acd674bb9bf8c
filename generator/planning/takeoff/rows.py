"""Rows of the take-off: terms that add up to a quantity, and the packages that hold it."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, fsum

from generator.model.geometry import tidy
from generator.model.purchase import TakeoffRow, Term
from generator.model.room import Room


def term(label: str, value: float, refs: Iterable[str]) -> Term:
    """A term on the noise grid, its references sorted."""
    return Term(label, tidy(value), tuple(sorted(refs)))


def waste_term(terms: Iterable[Term], share: float) -> Term:
    """What is added to the other terms for waste."""
    return term(f"waste, {share:.0%}", fsum(t.value for t in terms) * share, ())


def make_row(
    kind: str, profile_id: str, item: str, unit: str, terms: Iterable[Term], package: float, in_van: float = 0.0
) -> TakeoffRow:
    """A row whose quantity is the sum of its terms; packages are whole ones."""
    kept = tuple(terms)
    quantity = tidy(fsum(t.value for t in kept))
    size = tidy(package)
    return TakeoffRow(kind, profile_id, item, quantity, unit, kept, size, ceil(tidy(quantity / size)), in_van)


def in_van(room: Room, kind: str, first: bool = True) -> float:
    """Packages of that kind that are there already; they count for the first row of the kind."""
    return room.choices.in_van.get(kind, 0.0) if first else 0.0


def shortfall(row: TakeoffRow) -> float:
    """Packages to buy; below 0: packages left over from the van."""
    return row.packages - row.in_van
