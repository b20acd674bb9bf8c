"""Rows and columns of the choice: a row for each wall, size and stock; layouts, sheets bought and patterns as columns.

A wall takes exactly one layout; of each size (or of a larger one in its stead) as many boards are cut as the
layouts need; no more sheets are cut than are there or bought.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from generator.planning.layout.guillotine import Sizes
from generator.planning.layout.linear import INFINITE, Column, Row
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import Size


class Rows:
    """Where the rows stand."""

    def __init__(self, shop: Shop, sizes: Sizes) -> None:
        self.walls = len(shop.layouts)
        self.size = {size: self.walls + i for i, size in enumerate(sizes)}
        self.first_stock = self.walls + len(sizes)
        self.limits = (
            *(Row(1.0, 1.0) for _ in range(self.walls)),
            *(Row(0.0, INFINITE) for _ in sizes),
            *(Row(-float(stock.have), INFINITE) for stock in shop.task.stocks),
        )

    def layout(self, shop: Shop, wall: int, index: int) -> Column:
        counts = Counter(shop.demands[wall][index])
        rows = {wall: 1.0} | {self.size[size]: -float(n) for size, n in counts.items()}
        return Column(shop.layout_cost(wall, index), rows)

    def purchase(self, shop: Shop, stock: int) -> Column:
        return Column(shop.prices[stock], {self.first_stock + stock: 1.0})

    def pattern(self, pattern: Pattern) -> Column:
        rows = {self.size[size]: float(n) for size, n in Counter(pattern.sizes).items() if size in self.size}
        return Column(0.0, {self.first_stock + pattern.stock: -1.0} | rows)

    def exchange(self, smaller: Size, larger: Size) -> Column:
        """A larger board cut down to a smaller one; never needs to be whole by itself."""
        return Column(0.0, {self.size[smaller]: 1.0, self.size[larger]: -1.0}, whole=False)

    def exchanges(self) -> list[Column]:
        return [self.exchange(a, b) for a, b in next_larger(tuple(self.size))]


def next_larger(sizes: Sequence[Size]) -> list[tuple[Size, Size]]:
    """Pairs (smaller, larger) with no third size between them."""
    pairs = []
    for small in sizes:
        lowest: int | None = None
        for large in sorted((s for s in sizes if s != small and _covers(s, small)), key=lambda s: (s.short, s.long)):
            if lowest is None or large.long < lowest:
                pairs.append((small, large))
                lowest = large.long
    return pairs


def _covers(large: Size, small: Size) -> bool:
    return large.short >= small.short and large.long >= small.long
