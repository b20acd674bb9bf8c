"""The room's layouts as arrays: what they are worth at given prices of boards, all at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.planning.layout.shop import Shop
from generator.planning.layout.sizes import Size

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Vector = NDArray[np.float64]

SMALL = 1e-7


@dataclass(frozen=True)
class Market:
    """`holds[i, j]`: a board of size i can be cut down to size j. Of each wall, a row for each layout: `costs` of
    its supports, `boards` as indices of sizes (filled up with one index more than there are)."""

    shop: Shop
    sizes: tuple[Size, ...]
    index: Mapping[Size, int]
    holds: NDArray[np.bool_]
    costs: tuple[Vector, ...]
    boards: tuple[NDArray[np.int64], ...]

    def vector(self, values: Iterable[float]) -> Vector:
        import numpy as np

        return np.array(list(values), dtype=np.float64)

    def worth(self, sizes: Sequence[Size], prices: Vector) -> float:
        return sum(float(prices[self.index[size]]) for size in sizes)

    def worths(self, prices: Vector) -> list[Vector]:
        """Of each wall, what each of its layouts costs at these prices."""
        import numpy as np

        padded = np.append(prices, 0.0)
        return [costs + padded[boards].sum(axis=1) for costs, boards in zip(self.costs, self.boards, strict=True)]

    def cheapest(self, prices: Vector, count: int) -> list[tuple[int, int]]:
        """(wall, layout) of the cheapest few of each wall."""
        return [(w, i) for w, worths in enumerate(self.worths(prices)) for i in _lowest(worths, count)]

    def entrants(self, mixed: Vector, prices: Vector, walls: Sequence[float], count: int) -> list[tuple[int, int]]:
        """Of the cheapest layouts at either prices, those that cost less at `prices` than their wall is worth."""
        now = self.worths(prices)
        found = dict.fromkeys([*self.cheapest(mixed, count), *self.cheapest(prices, count)])
        return [(w, i) for w, i in found if now[w][i] < walls[w] - SMALL]

    def lifted(self, prices: Mapping[int, float]) -> Vector:
        """Prices of all sizes from those of some: a board is worth what the dearest one inside it is.

        No sheet is worth more by that, as the smaller board could be cut in the larger one's place.
        """
        import numpy as np

        some = list(prices)
        worth = np.array([prices[i] for i in some])
        lifted: Vector = np.where(self.holds[:, some], worth[None, :], 0.0).max(axis=1)
        return lifted


def _lowest(worths: Vector, count: int) -> list[int]:
    order = worths.round(9).argsort(kind="stable")
    return [int(i) for i in order[:count]]


def make_market(shop: Shop) -> Market:
    import numpy as np

    sizes = shop.sizes()
    index = {size: i for i, size in enumerate(sizes)}
    sides = np.array(sizes, dtype=np.int64)
    holds = (sides[:, None, 0] >= sides[None, :, 0]) & (sides[:, None, 1] >= sides[None, :, 1])
    walls = range(len(shop.demands))
    costs = [np.array([shop.layout_cost(w, i) for i in range(len(shop.demands[w]))]) for w in walls]
    return Market(shop, sizes, index, holds, tuple(costs), tuple(_indices(wall, index) for wall in shop.demands))


def _indices(demands: Sequence[Sequence[Size]], index: Mapping[Size, int]) -> NDArray[np.int64]:
    import numpy as np

    most = max(len(sizes) for sizes in demands)
    rows = [[*(index[size] for size in sizes), *([len(index)] * (most - len(sizes)))] for sizes in demands]
    return np.array(rows, dtype=np.int64)
