"""Prices of boards against sheets: the dearest collection that a sheet could yield, on a grid rounded in its favour.

Boards (kerf added) are rounded down to whole grid steps, so a collection found here may not really fit, but none
that fits is missed: what it says of sheets is a bound.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from generator.planning.layout.sizes import Size

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Table = NDArray[np.float64]

SMALL = 1e-9


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
        """Collections worth more than `above`: the best for each first cut of the sheet."""
        x, y = self.plate(sheet)
        if self.of_sheet(sheet) <= above:
            return set()
        found = {self._yield(x, y)}
        for cut in _cuts_above(self.worth[:, y], x, above):
            found.add(tuple(sorted(self._yield(cut, y) + self._yield(x - cut, y))))
        for cut in _cuts_above(self.worth[x], y, above):
            found.add(tuple(sorted(self._yield(x, cut) + self._yield(x, y - cut))))
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
        for cut in _cuts_above(self.worth[:, y], x, value - SMALL)[:1]:
            return tuple(sorted(self._yield(cut, y) + self._yield(x - cut, y)))
        cut = _cuts_above(self.worth[x], y, value - SMALL)[0]
        return tuple(sorted(self._yield(x, cut) + self._yield(x, y - cut)))

    def _single(self, x: int, y: int) -> Size:
        """The board worth single[x, y]: the plate shrinks until it is the board's own."""
        value = self.single[x, y]
        while x and self.single[x - 1, y] == value:
            x -= 1
        while y and self.single[x, y - 1] == value:
            y -= 1
        return self.boards[x, y]


def _cuts_above(line: Table, end: int, above: float) -> list[int]:
    """Cuts of a line of plates whose two parts are together worth more."""
    half = end // 2
    both = line[1 : half + 1] + line[end - 1 : end - half - 1 : -1]
    return [int(i) + 1 for i in (both > above).nonzero()[0]]


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
    single = worth.copy()
    for y in range(1, along + 1):
        worth[:, y] = _joined_across(_stacked(worth, y))
    return PriceTable(step, prices, worth, single, boards)


def _stacked(worth: Table, y: int) -> Any:
    """Best of a single board, the plate one step lower, and two plates one above the other, for every width."""
    import numpy as np

    half = y // 2
    best = np.maximum(worth[:, y], worth[:, y - 1])
    if half:
        np.maximum(best, (worth[:, 1 : half + 1] + worth[:, y - 1 : y - half - 1 : -1]).max(axis=1), out=best)
    return best


def _joined_across(best: Any) -> Any:
    """The same with plates side by side, from narrow to wide."""
    for x in range(2, len(best)):
        half = x // 2
        joined = (best[1 : half + 1] + best[x - 1 : x - half - 1 : -1]).max()
        best[x] = max(best[x], best[x - 1], joined)
    return best
