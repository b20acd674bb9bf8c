"""A good purchase: one layout for each wall and sheets from the patterns that the bound met."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.planning.layout.bound import Floor
from generator.planning.layout.columns import Rows
from generator.planning.layout.linear import solve_whole
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import Size

MOST_LAYOUTS = 120
"""Of one wall, in the integer choice."""
MOST_PATTERNS = 400


@dataclass(frozen=True, slots=True)
class Candidates:
    """Columns to choose among: (wall, index) of layouts, and patterns."""

    layouts: tuple[tuple[int, int], ...]
    patterns: tuple[Pattern, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """The layout of each wall, the sheets to cut, and the first level of the objective."""

    layouts: tuple[int, ...]
    patterns: tuple[Pattern, ...]
    first: float


def choose(shop: Shop, candidates: Candidates) -> Choice | None:
    """The cheapest choice found by the integer solver within its nodes; None when it found none."""
    sizes = tuple(sorted({s for w, i in candidates.layouts for s in shop.demands[w][i]}))
    rows = Rows(shop, sizes)
    layouts = [rows.layout(shop, w, i) for w, i in candidates.layouts]
    purchases = [rows.purchase(shop, s) for s in range(len(shop.sheets))]
    patterns = [rows.pattern(p) for p in candidates.patterns]
    values = solve_whole(rows.limits, [*layouts, *purchases, *patterns, *rows.exchanges()])
    return None if values is None else _read(shop, candidates, values)


def _read(shop: Shop, candidates: Candidates, values: Sequence[float]) -> Choice:
    count, stocks = len(candidates.layouts), len(shop.sheets)
    taken = dict(at for at, value in zip(candidates.layouts, values, strict=False) if value > 0.5)
    layouts = tuple(taken[w] for w in range(len(shop.layouts)))
    cut = values[count + stocks : count + stocks + len(candidates.patterns)]
    patterns = tuple(p for p, n in zip(candidates.patterns, cut, strict=True) for _ in range(round(n)))
    return Choice(layouts, patterns, first_level(shop, layouts, patterns))


def first_level(shop: Shop, layouts: Sequence[int], patterns: Sequence[Pattern]) -> float:
    """Cost (or m2 bought): supports added, and the sheets beyond those that are there."""
    supports = sum(shop.layout_cost(w, i) for w, i in enumerate(layouts))
    used = [sum(p.stock == s for p in patterns) for s in range(len(shop.sheets))]
    bought = (max(0, n - stock.have) for n, stock in zip(used, shop.task.stocks, strict=True))
    return supports + sum(n * price for n, price in zip(bought, shop.prices, strict=True))


def within(shop: Shop, floor: Floor, slack: float) -> Candidates:
    """The layouts, and the floor's patterns, that may cost no more than the floor and the slack; not too many."""
    layouts = (pair for w in range(len(shop.layouts)) for pair in _near_cheapest(shop, floor, w, slack))
    short = {p: shortfall(p, floor.prices, floor.rents) for p in floor.patterns}
    kept = sorted(
        (p for p in floor.patterns if short[p] <= slack), key=lambda p: (round(short[p], 9), p.stock, p.sizes)
    )
    return Candidates(tuple(layouts), tuple(kept[:MOST_PATTERNS]))


def _near_cheapest(shop: Shop, floor: Floor, wall: int, slack: float) -> list[tuple[int, int]]:
    worths = [_worth(shop, floor, wall, i) for i in range(len(shop.layouts[wall]))]
    near = sorted((round(worth, 9), i) for i, worth in enumerate(worths) if worth <= min(worths) + slack)
    return [(wall, i) for _, i in near[:MOST_LAYOUTS]]


def _worth(shop: Shop, floor: Floor, wall: int, index: int) -> float:
    return shop.layout_cost(wall, index) + sum(floor.prices[size] for size in shop.demands[wall][index])


def shortfall(pattern: Pattern, prices: Mapping[Size, float], rents: Sequence[float]) -> float:
    """What the pattern's boards are worth less than its sheet's rent."""
    return rents[pattern.stock] - sum(prices.get(size, 0.0) for size in pattern.sizes)
