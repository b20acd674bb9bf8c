"""One-dimensional cutting stock: pieces from sticks of several lengths, the least length bought.

Every way to fill a stick is a column; an integer program picks columns, its relaxation gives the bound (Gilmore and
Gomory's formulation). Where there are too many ways, first-fit decreasing, and the pieces' own length as bound.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from generator.model.geometry import NOISE, tidy
from generator.planning.layout.linear import Column, Row, add_column, make_solver, solve_relaxed, solve_whole

MOST_WAYS = 4000
"""Ways to fill sticks up to which all are listed: a limit that is the same on every machine."""
MOST_SUMS = 20000
"""Totals of whole sticks up to which the bound is rounded up to one of them."""
Way = tuple[float, tuple[float, ...]]
"""Length of the stick, and the lengths cut from it, longest first."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """Sticks to buy with what is cut from each; no purchase is shorter than `bound` (mm)."""

    sticks: tuple[Way, ...]
    bound: float

    @property
    def total(self) -> float:
        """mm bought."""
        return tidy(fsum(length for length, _ in self.sticks))


def cut_stock(pieces: Sequence[float], stocks: Sequence[float], kerf: float) -> Cutting:
    """Pieces (mm, any order) from any number of sticks of the lengths in stock; the saw takes the kerf between two.

    A piece longer than every stick is a stick of its own length, bought to order.
    """
    longest = max(stocks, default=0.0)
    to_order = tuple((p, (p,)) for p in sorted(pieces, reverse=True) if p > longest + NOISE)
    rest = sorted((p for p in pieces if p <= longest + NOISE), reverse=True)
    if not rest:
        return Cutting(to_order, tidy(fsum(p for p, _ in to_order)))
    found = _least(rest, sorted(set(stocks)), kerf)
    return Cutting((*to_order, *found.sticks), tidy(found.bound + fsum(p for p, _ in to_order)))


def _least(pieces: list[float], stocks: list[float], kerf: float) -> Cutting:
    quick = _first_fit(pieces, stocks, kerf)
    ways = _ways(pieces, stocks, kerf)
    if ways is None:
        return Cutting(quick, tidy(fsum(pieces)))
    wanted = Counter(pieces)
    sizes = sorted(wanted)
    rows = [Row(float(wanted[size]), float("inf")) for size in sizes]
    columns = [Column(way[0], {i: float(n) for i, s in enumerate(sizes) if (n := way[1].count(s))}) for way in ways]
    bound = _rounded_up(_relaxed(rows, columns), stocks, fsum(length for length, _ in quick))
    counts = solve_whole(rows, columns)
    picked = quick if counts is None else _picked(ways, counts, wanted)
    best = min((quick, picked), key=lambda sticks: (tidy(fsum(length for length, _ in sticks)), len(sticks)))
    return Cutting(best, bound)


def _relaxed(rows: Sequence[Row], columns: Sequence[Column]) -> float:
    solver = make_solver(rows)
    for column in columns:
        add_column(solver, column)
    return solve_relaxed(solver)[0]


def _ways(pieces: list[float], stocks: list[float], kerf: float) -> list[Way] | None:
    """Every full way to fill each stick (nothing more of what is wanted would fit); None where there are too many."""
    wanted = sorted(Counter(pieces).items(), reverse=True)
    ways: list[Way] = []
    for stock in stocks:
        for cuts in _fillings(stock + kerf, wanted, kerf):
            if cuts:
                ways.append((stock, cuts))
            if len(ways) > MOST_WAYS:
                return None
    return ways


def _fillings(room: float, wanted: Sequence[tuple[float, int]], kerf: float) -> Iterator[tuple[float, ...]]:
    """Ways to fill what is left of a stick with pieces of these sizes; the smallest fills up the rest."""
    if not wanted:
        yield ()
        return
    (size, most), smaller = wanted[0], wanted[1:]
    fits = min(most, int((room + NOISE) // (size + kerf)))
    for count in range(fits, -1 if smaller else fits - 1, -1):
        for rest in _fillings(room - count * (size + kerf), smaller, kerf):
            yield (size,) * count + rest


def _picked(ways: Sequence[Way], counts: Sequence[float], wanted: Counter[float]) -> tuple[Way, ...]:
    """The chosen sticks without what they would cut beyond the demand; empty ones are left out."""
    left, sticks = Counter(wanted), []
    chosen = [way for way, count in zip(ways, counts, strict=True) for _ in range(round(count))]
    for stock, cuts in chosen:
        kept = []
        for size in cuts:
            if left[size] > 0:
                left[size] -= 1
                kept.append(size)
        if kept:
            sticks.append((stock, tuple(kept)))
    return tuple(sorted(sticks, key=lambda s: (-s[0], tuple(-c for c in s[1]))))


def _first_fit(pieces: list[float], stocks: list[float], kerf: float) -> tuple[Way, ...]:
    """Longest piece first into the first of the longest sticks that has room; each stick then as short as will do."""
    bins: list[list[float]] = []
    for piece in pieces:
        fitting = (cuts for cuts in bins if fsum(cuts) + len(cuts) * kerf + piece <= stocks[-1] + NOISE)
        cuts = next(fitting, None)
        if cuts is None:
            bins.append([piece])
        else:
            cuts.append(piece)
    used = [(fsum(cuts) + (len(cuts) - 1) * kerf, tuple(cuts)) for cuts in bins]
    return tuple((next(s for s in stocks if length <= s + NOISE), cuts) for length, cuts in used)


def _rounded_up(relaxed: float, stocks: Sequence[float], most: float) -> float:
    """The least total of whole sticks that is not below the relaxation; itself where there are too many totals."""
    sums, edge = {0.0}, {0.0}
    while edge and len(sums) <= MOST_SUMS:
        edge = {tidy(a + s) for a in edge for s in stocks if a + s <= most + NOISE} - sums
        sums |= edge
    if len(sums) > MOST_SUMS:
        return tidy(relaxed)
    return min((total for total in sums if total >= relaxed - NOISE * 100), default=tidy(relaxed))
