"""A floor under every purchase, by column generation over layouts and sheets together.

The linear relaxation gives prices of boards; a layout costs at least what its boards are worth, and a sheet is
worth at most its price once the prices are scaled down to that. This holds for unlimited edge-to-edge cutting.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import gcd

from generator.planning.layout.columns import Rows
from generator.planning.layout.linear import add_column, make_solver, solve_relaxed
from generator.planning.layout.prices import PriceTable, price_table
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import Size, in_steps

ROUNDS = 150
STEPS = (192,)
"""Grid steps along the longest sheet, one pass each."""
STICKINESS = 0.6
"""Share of the best prices so far in those that are tried next: without it the prices swing for long."""
POOLED = 5
"""Patterns of more boards are not handed on: to see whether they can truly be cut takes long."""
CLOSE = 1e-3
"""Share of the value at which the floor is near enough to the relaxation's value."""
NEAR = 0.97
"""Collections worth at least this share of a sheet's best are looked at, not the best alone."""


@dataclass(frozen=True, slots=True)
class Floor:
    """`bound` on the first level; `prices` of boards and `rents` of sheets that prove it; `patterns` seen."""

    bound: float
    prices: Mapping[Size, float]
    rents: tuple[float, ...]
    patterns: tuple[Pattern, ...]


def lower_bound(shop: Shop) -> Floor:
    """The best floor found, with the patterns that the search met (they fit on its grid, perhaps not in truth)."""
    floor = _first_floor(shop)
    for step in _grid_steps(shop):
        floor = _improve(shop, floor, step)
        floor = replace(floor, patterns=tuple(p for p in floor.patterns if len(p.sizes) <= POOLED and shop.cuts(p)))
    return floor


def _grid_steps(shop: Shop) -> tuple[int, ...]:
    """Coarse, then fine, in whole shares of the sheets' sides, so that nothing is rounded off a sheet."""
    longest = max(sheet.long for sheet in shop.sheets)
    exact = gcd(*(side for sheet in shop.sheets for side in sheet), in_steps(shop.task.kerf))
    return tuple(dict.fromkeys(exact * max(1, round(longest / (exact * count))) for count in STEPS))


def _first_floor(shop: Shop) -> Floor:
    """Boards priced by area, at the cheapest sheet's rate."""
    rate = min(price / (s.short * s.long) for price, s in zip(shop.prices, shop.sheets, strict=True))
    prices = {size: rate * size.short * size.long for size in shop.sizes()}
    singles = (Pattern(s, (size,)) for size in prices for s, sheet in enumerate(shop.sheets) if _holds(sheet, size))
    rents = tuple(shop.prices)
    return Floor(_value(shop, prices, rents), prices, rents, tuple(singles))


def _holds(sheet: Size, size: Size) -> bool:
    return size.short <= sheet.short and size.long <= sheet.long


def _value(shop: Shop, prices: Mapping[Size, float], rents: tuple[float, ...]) -> float:
    """What the prices prove: each wall's cheapest layout, less the rent of the sheets that are already there."""
    walls = sum(
        min(shop.layout_cost(w, i) + sum(prices[size] for size in demand) for i, demand in enumerate(demands))
        for w, demands in enumerate(shop.demands)
    )
    return walls - sum(rent * stock.have for rent, stock in zip(rents, shop.task.stocks, strict=True))


def _improve(shop: Shop, floor: Floor, step: int) -> Floor:
    """Column generation on one grid, until nothing is under-priced."""
    master = _Master(shop)
    seen = dict.fromkeys(floor.patterns)
    for pattern in seen:
        master.add(pattern)
    for _ in range(ROUNDS):
        value, prices, rents = master.solve()
        if value - floor.bound < CLOSE * abs(value):
            break
        for share in (STICKINESS, 0.0):
            table = price_table(_mixed(floor.prices, prices, share), shop.sheets, step)
            floor = _better(shop, floor, table)
            fresh = [p for p in _under_priced(shop, table, prices, rents) if p not in seen]
            if fresh:
                break
        if not fresh:
            break
        seen.update(dict.fromkeys(fresh))
        for pattern in fresh:
            master.add(pattern)
    return replace(floor, patterns=tuple(seen))


def _mixed(old: Mapping[Size, float], new: Mapping[Size, float], share: float) -> dict[Size, float]:
    return {size: share * old[size] + (1 - share) * price for size, price in new.items()}


def _better(shop: Shop, floor: Floor, table: PriceTable) -> Floor:
    """The floor that the table's prices prove once no sheet is worth more than its price, if it is higher."""
    worths = [table.of_sheet(sheet) for sheet in shop.sheets]
    scale = max(1.0, *(worth / price if price else 1.0 for worth, price in zip(worths, shop.prices, strict=True)))
    prices = {size: price / scale for size, price in table.prices.items()}
    rents = tuple(worth / scale for worth in worths)
    value = _value(shop, prices, rents)
    return replace(floor, bound=value, prices=prices, rents=rents) if value > floor.bound else floor


def _under_priced(
    shop: Shop, table: PriceTable, prices: Mapping[Size, float], rents: tuple[float, ...]
) -> list[Pattern]:
    """Patterns near the best of the table whose boards are worth more, at these prices, than their sheet's rent."""
    near = (
        Pattern(s, sizes)
        for s, sheet in enumerate(shop.sheets)
        for sizes in sorted(table.collections(sheet, NEAR * table.of_sheet(sheet)))
    )
    return [p for p in near if sum(prices[size] for size in p.sizes) > rents[p.stock] + 1e-7 * shop.prices[p.stock]]


class _Master:
    """The linear relaxation with every layout and the patterns so far."""

    def __init__(self, shop: Shop) -> None:
        self.rows = Rows(shop, shop.sizes())
        self.solver = make_solver(self.rows.limits)
        layouts = [self.rows.layout(shop, w, i) for w, wall in enumerate(shop.layouts) for i in range(len(wall))]
        purchases = [self.rows.purchase(shop, s) for s in range(len(shop.sheets))]
        for column in (*layouts, *purchases, *self.rows.exchanges()):
            add_column(self.solver, column)

    def add(self, pattern: Pattern) -> None:
        add_column(self.solver, self.rows.pattern(pattern))

    def solve(self) -> tuple[float, dict[Size, float], tuple[float, ...]]:
        """Value, prices of boards, rents of sheets."""
        value, duals = solve_relaxed(self.solver)
        prices = {size: max(0.0, duals[row]) for size, row in self.rows.size.items()}
        return value, prices, tuple(max(0.0, d) for d in duals[self.rows.first_stock :])
