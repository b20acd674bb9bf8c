"""A floor under every purchase, by column generation over layouts and sheets together.

The linear relaxation gives prices of boards; a layout costs at least what its boards are worth, and a sheet is
worth at most its price once the prices are scaled down to that. This holds for unlimited edge-to-edge cutting.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import gcd
from typing import TYPE_CHECKING

from generator.planning.layout.linear import INFINITE
from generator.planning.layout.market import Market, make_market
from generator.planning.layout.master import Master
from generator.planning.layout.prices import PriceTable, price_table
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import Size, in_steps

if TYPE_CHECKING:
    from generator.planning.layout.market import Vector

ROUNDS = 60
STEPS = 192
"""Grid steps along the longest sheet."""
STICKINESS = 0.6
"""Share of the best prices so far in those that are tried next: without it the prices swing for long."""
POOLED = 5
"""Patterns of more boards are not handed on: to see whether they can truly be cut takes long."""
CLOSE = 1e-3
"""Share of the value at which the floor is near enough to the relaxation's value."""
NEAR = 0.97
"""Collections worth at least this share of a sheet's best are looked at, not the best alone."""
ENTRANTS = 4
"""Layouts of each wall that join the relaxation in one round."""


@dataclass(frozen=True, slots=True)
class Floor:
    """`bound` on the first level; `prices` of boards and `rents` of sheets that prove it; `patterns` seen."""

    bound: float
    prices: Mapping[Size, float]
    rents: tuple[float, ...]
    patterns: tuple[Pattern, ...]


@dataclass(frozen=True, slots=True)
class _Best:
    bound: float
    prices: Vector
    rents: tuple[float, ...]


def lower_bound(shop: Shop) -> Floor:
    """The best floor found, with the patterns that the search met and that can truly be cut."""
    market = make_market(shop)
    best, seen = _generate(market, _grid_step(shop))
    patterns = tuple(p for p in seen if len(p.sizes) <= POOLED and shop.cuts(p))
    prices = dict(zip(market.sizes, best.prices.tolist(), strict=True))
    return Floor(best.bound, prices, best.rents, patterns)


def _grid_step(shop: Shop) -> int:
    """A whole share of the sheets' sides, so that nothing is rounded off a sheet."""
    longest = max(sheet.long for sheet in shop.sheets)
    exact = gcd(*(side for sheet in shop.sheets for side in sheet), in_steps(shop.task.kerf))
    return exact * max(1, round(longest / (exact * STEPS)))


def _first(market: Market) -> _Best:
    """Boards priced by area, at the cheapest sheet's rate."""
    shop = market.shop
    rate = min(price / (s.short * s.long) for price, s in zip(shop.prices, shop.sheets, strict=True))
    prices = market.vector(rate * size.short * size.long for size in market.sizes)
    rents = tuple(shop.prices)
    return _Best(_value(market, prices, rents), prices, rents)


def _value(market: Market, prices: Vector, rents: Sequence[float]) -> float:
    """What the prices prove: each wall's cheapest layout, less the rent of the sheets that are already there."""
    walls = sum(float(worths.min()) for worths in market.worths(prices))
    return walls - sum(rent * stock.have for rent, stock in zip(rents, market.shop.task.stocks, strict=True))


def _generate(market: Market, step: int) -> tuple[_Best, list[Pattern]]:
    """Column generation on one grid, until nothing is under-priced."""
    by_area = _first(market)
    best = replace(by_area, bound=-INFINITE)
    master = Master(market)
    for wall, index in market.cheapest(best.prices, ENTRANTS):
        master.add_layout(wall, index)
    master.add_singles()
    for _ in range(ROUNDS):
        value, prices, rents, walls = master.solve()
        if value - best.bound < CLOSE * abs(value):
            break
        for share in (STICKINESS, 0.0):
            mixed = share * best.prices + (1 - share) * prices
            table = price_table(dict(zip(market.sizes, mixed.tolist(), strict=True)), market.shop.sheets, step)
            best = _better(market, best, table, mixed)
            fresh = [master.add_pattern(p) for p in _under_priced(market, table, prices, rents)]
            fresh += [master.add_layout(w, i) for w, i in market.entrants(mixed, prices, walls, ENTRANTS)]
            if any(fresh):
                break
        if not any(fresh):
            break
    return max(best, by_area, key=lambda b: b.bound), master.patterns()


def _better(market: Market, best: _Best, table: PriceTable, prices: Vector) -> _Best:
    """The floor that the table's prices prove once no sheet is worth more than its price, if it is higher."""
    shop = market.shop
    worths = [table.of_sheet(sheet) for sheet in shop.sheets]
    scale = max(1.0, *(worth / price if price else 1.0 for worth, price in zip(worths, shop.prices, strict=True)))
    rents = tuple(worth / scale for worth in worths)
    value = _value(market, prices / scale, rents)
    return _Best(value, prices / scale, rents) if value > best.bound else best


def _under_priced(market: Market, table: PriceTable, prices: Vector, rents: Sequence[float]) -> list[Pattern]:
    """Patterns near the best of the table whose boards are worth more, at these prices, than their sheet's rent."""
    shop = market.shop
    near = (
        Pattern(s, sizes)
        for s, sheet in enumerate(shop.sheets)
        for sizes in sorted(table.collections(sheet, NEAR * table.of_sheet(sheet)))
    )
    return [p for p in near if market.worth(p.sizes, prices) > rents[p.stock] + 1e-7 * shop.prices[p.stock]]
