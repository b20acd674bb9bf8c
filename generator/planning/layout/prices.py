"""Prices of boards against sheets: the dearest collection that a sheet could yield, on a grid rounded in its favour.

Boards (kerf added) are rounded down to whole grid steps, so a collection found here may not really fit, but none
that fits is missed: what it says of sheets is a bound.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.planning.layout.sizes import Size

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Table = NDArray[np.float64]

SMALL = 1e-9
FIRST_CUTS = 12
"""First cuts of a sheet whose best collections are looked at."""


@dataclass(frozen=True)
class PriceTable:
    """`worth[x, y]`: the most that boards cut edge to edge from a plate of x by y steps can be worth;
    `single[x, y]`: that one board can; `boards`: the dearest board of just that many steps."""

    step: int
    prices: Mapping[Size, float]
    worth: Table
    single: Table
    boards: Mapping[tuple[int, int], Size]
    _best: dict[tuple[int, int], tuple[Size, ...]] = field(default_factory=dict)

    def plate(self, sheet: Size) -> tuple[int, int]:
        return sheet.short // self.step, sheet.long // self.step

    def of_sheet(self, sheet: Size) -> float:
        return float(self.worth[self.plate(sheet)])

    def collections(self, sheet: Size, above: float) -> set[tuple[Size, ...]]:
        """Collections worth more than `above`: the best for each of the best first cuts of the sheet."""
        x, y = self.plate(sheet)
        if self.of_sheet(sheet) <= above:
            return set()
        across = [(-both, 0, cut) for cut, both in _cuts_above(self.worth[:, y], x, above)]
        along = [(-both, 1, cut) for cut, both in _cuts_above(self.worth[x], y, above)]
        found = {self._yield(x, y)}
        for _, axis, cut in sorted(across + along)[:FIRST_CUTS]:
            parts = ((cut, y), (x - cut, y)) if axis == 0 else ((x, cut), (x, y - cut))
            found.add(tuple(sorted(self._yield(*parts[0]) + self._yield(*parts[1]))))
        return found

    def _yield(self, x: int, y: int) -> tuple[Size, ...]:
        """The boards behind worth[x, y], sorted."""
        if (x, y) not in self._best:
            self._best[x, y] = self._retrace(x, y)
        return self._best[x, y]

    def _retrace(self, x: int, y: int) -> tuple[Size, ...]:
        value = self.worth[x, y]
        if value < SMALL:
            return ()
        if self.single[x, y] > value - SMALL:
            return (self._single(x, y),)
        for cut, _ in _cuts_above(self.worth[:, y], x, value - SMALL)[:1]:
            return tuple(sorted(self._yield(cut, y) + self._yield(x - cut, y)))
        cut = _cuts_above(self.worth[x], y, value - SMALL)[0][0]
        return tuple(sorted(self._yield(x, cut) + self._yield(x, y - cut)))

    def _single(self, x: int, y: int) -> Size:
        """The board worth single[x, y]: the plate shrinks until it is the board's own."""
        value = self.single[x, y]
        while x and self.single[x - 1, y] == value:
            x -= 1
        while y and self.single[x, y - 1] == value:
            y -= 1
        return self.boards[x, y]


def _cuts_above(line: Table, end: int, above: float) -> list[tuple[int, float]]:
    """Cuts of a line of plates whose two parts are together worth more, and what they are worth."""
    half = end // 2
    both = line[1 : half + 1] + line[end - 1 : end - half - 1 : -1]
    return [(int(i) + 1, round(float(both[i]), 9)) for i in (both > above).nonzero()[0]]


def _turns(size: Size, step: int) -> tuple[tuple[int, int], tuple[int, int]]:
    a, b = size.short // step, size.long // step
    return (a, b), (b, a)


def price_table(prices: Mapping[Size, float], sheets: tuple[Size, ...], step: int) -> PriceTable:
    """The table up to the largest sheet; sizes have the kerf added."""
    import numpy as np

    across, along = (max(side) // step for side in zip(*sheets, strict=True))
    worth = np.zeros((across + 1, along + 1))
    boards = {}
    for size, price in prices.items():
        for x, y in _turns(size, step):
            if x <= across and y <= along and price > worth[x, y]:
                worth[x, y] = price
                boards[x, y] = size
    np.maximum.accumulate(worth, axis=0, out=worth)
    np.maximum.accumulate(worth, axis=1, out=worth)
    return PriceTable(step, prices, _joined(worth), worth, boards)


def _joined(single: Table) -> Table:
    """Plates joined side by side and one above the other, again and again until none is worth more."""
    import numpy as np

    worth, before = single, None
    while before is None or not np.array_equal(worth, before):
        before = worth
        worth = np.ascontiguousarray(_stacked(np.ascontiguousarray(_stacked(worth).T)).T)
    return worth


def _stacked(worth: Table) -> Table:
    """Every plate worth at least as much as two plates of the same width one after the other, from short to long."""
    import numpy as np

    best = worth.copy()
    for x in range(2, len(best)):
        half = x // 2
        np.maximum(best[x], (best[1 : half + 1] + best[x - 1 : x - half - 1 : -1]).max(axis=0), out=best[x])
    return best
