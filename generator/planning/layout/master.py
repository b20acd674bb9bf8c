"""The linear relaxation of the choice, growing by layouts and patterns as they turn out to be worth while."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from generator.planning.layout.linear import INFINITE, Column, Row, add_column, add_row, make_solver, solve_relaxed
from generator.planning.layout.market import Market
from generator.planning.layout.shop import Pattern
from generator.planning.layout.sizes import Size

if TYPE_CHECKING:
    from generator.planning.layout.market import Vector


class Master:
    """Rows: a wall takes one layout; no more sheets are cut than are there or bought; of each size that was met so
    far, as many boards are cut as the layouts need. The solver starts each time from where it ended."""

    def __init__(self, market: Market) -> None:
        self._market = market
        shop = market.shop
        self._first_stock = len(shop.demands)
        walls = [Row(1.0, 1.0) for _ in shop.demands]
        stocks = [Row(-float(stock.have), INFINITE) for stock in shop.task.stocks]
        self._solver = make_solver([*walls, *stocks], presolve="off")
        self._count = len(walls) + len(stocks)
        self._rows: dict[int, int] = {}
        self._layouts: dict[tuple[int, int], None] = {}
        self._patterns: dict[Pattern, None] = {}
        for stock, price in enumerate(shop.prices):
            add_column(self._solver, Column(price, {self._first_stock + stock: 1.0}))

    def patterns(self) -> list[Pattern]:
        """In the order in which they came."""
        return list(self._patterns)

    def add_layout(self, wall: int, index: int) -> bool:
        """False when it is there already."""
        if (wall, index) in self._layouts:
            return False
        self._layouts[wall, index] = None
        shop = self._market.shop
        counts = Counter(shop.demands[wall][index])
        rows = {wall: 1.0} | {self._row(size): -float(n) for size, n in counts.items()}
        add_column(self._solver, Column(shop.layout_cost(wall, index), rows))
        return True

    def add_pattern(self, pattern: Pattern) -> bool:
        """False when it is there already."""
        if pattern in self._patterns:
            return False
        self._patterns[pattern] = None
        rows = {self._row(size): float(n) for size, n in Counter(pattern.sizes).items()}
        add_column(self._solver, Column(0.0, {self._first_stock + pattern.stock: -1.0} | rows))
        return True

    def add_singles(self) -> None:
        """Each size met so far alone on each sheet that holds it: then there is a solution."""
        for size in [self._market.sizes[i] for i in self._rows]:
            for stock, sheet in enumerate(self._market.shop.sheets):
                if size.short <= sheet.short and size.long <= sheet.long:
                    self.add_pattern(Pattern(stock, (size,)))

    def solve(self) -> tuple[float, Vector, tuple[float, ...], tuple[float, ...]]:
        """Value, prices of all sizes, rents of sheets, what each wall is worth."""
        value, duals = solve_relaxed(self._solver)
        prices = self._market.lifted({i: max(0.0, duals[row]) for i, row in self._rows.items()})
        stocks = duals[self._first_stock : self._first_stock + len(self._market.shop.sheets)]
        return value, prices, tuple(max(0.0, d) for d in stocks), tuple(duals[: self._first_stock])

    def _row(self, size: Size) -> int:
        index = self._market.index[size]
        if index not in self._rows:
            add_row(self._solver, Row(0.0, INFINITE))
            self._rows[index] = self._count
            self._count += 1
            self._add_exchanges(index)
        return self._rows[index]

    def _add_exchanges(self, new: int) -> None:
        """The new size may be cut from the next larger ones that were met, and give the next smaller ones."""
        holds = self._market.holds
        larger = [i for i in self._rows if i != new and holds[i, new]]
        smaller = [i for i in self._rows if i != new and holds[new, i]]
        nearest = [(i, new) for i in larger if not any(j != i and holds[i, j] for j in larger)]
        nearest += [(new, i) for i in smaller if not any(j != i and holds[j, i] for j in smaller)]
        for large, small in nearest:
            add_column(self._solver, Column(0.0, {self._rows[large]: -1.0, self._rows[small]: 1.0}))
