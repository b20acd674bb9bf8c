"""Exact packing of the few boards of one layout of the room: can they be cut from so few, so cheap sheets?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from generator.planning.layout.guillotine import Sizes
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import Size

NOISE = 1e-9
SUBSETS = 8
"""Companies looked at that weigh as much as one collection whose cutting is worked out."""
PACKING = 3_000
"""The patience that planning a room has: enough for its few boards."""

_Owned = tuple[int, ...]


@dataclass(frozen=True)
class Packer:
    """`prices`: what each board is worth at least (see `bound`): rests that are worth too much are given up early."""

    shop: Shop
    prices: Mapping[Size, float]
    rents: tuple[float, ...]
    patience: int = PACKING
    """Effort after which one packing is given up."""
    _failed: dict[tuple[Sizes, _Owned, int], float] = field(default_factory=dict)
    _counts: dict[str, int] = field(default_factory=lambda: {"subsets": 0, "given up": 0, "stop": 0})

    def effort(self) -> int:
        """Work done so far, counted, so that it is the same on every machine."""
        return self.shop.cutter.asked() + self._counts["subsets"] // SUBSETS

    def given_up(self) -> int:
        """Packings that were given up: None said nothing there."""
        return self._counts["given up"]

    def worth(self, sizes: Sizes) -> float:
        """What these boards cost at least, sheets that are there set aside."""
        return sum(self.prices[size] for size in sizes)

    def gift(self) -> float:
        """What the sheets that are there can save at most."""
        return self._gift(tuple(stock.have for stock in self.shop.task.stocks))

    def _gift(self, owned: _Owned) -> float:
        return sum(rent * count for rent, count in zip(self.rents, owned, strict=True))

    def pack(self, sizes: Sizes, budget: float, sheets: int) -> tuple[Pattern, ...] | None:
        """Patterns for these boards that cost no more than the budget and are no more than so many; None if none do."""
        owned = tuple(stock.have for stock in self.shop.task.stocks)
        self._counts["stop"] = self.effort() + self.patience
        found = self._pack(tuple(sorted(sizes, key=_by_long, reverse=True)), budget + NOISE, sheets, owned)
        self._counts["given up"] += found is None and self._tired()
        return found

    def _tired(self) -> bool:
        return self.effort() >= self._counts["stop"]

    def _pack(self, sizes: Sizes, budget: float, sheets: int, owned: _Owned) -> tuple[Pattern, ...] | None:
        if not sizes:
            return ()
        key = (sizes, owned, sheets)
        if (
            sheets == 0
            or self.worth(sizes) - self._gift(owned) > budget + NOISE
            or self._failed.get(key, -1.0) >= budget
            or self._tired()
        ):
            return None
        for pattern, rest, price, left in self._first_sheets(sizes, budget, owned):
            found = self._pack(rest, budget - price, sheets - 1, left)
            if found is not None:
                return (pattern, *found)
        if not self._tired():
            self._failed[key] = budget
        return None

    def _first_sheets(
        self, sizes: Sizes, budget: float, owned: _Owned
    ) -> Iterator[tuple[Pattern, Sizes, float, _Owned]]:
        """Every sheet that the first (longest) board can lie on, and every company it can have there."""
        for stock, price in enumerate(self.shop.prices):
            cost = 0.0 if owned[stock] else price
            if cost <= budget:
                left = tuple(n - (i == stock and n > 0) for i, n in enumerate(owned))
                least = self.worth(sizes) - self._gift(left) - (budget - cost)
                for pattern, rest in self._companies(sizes, stock, least):
                    yield pattern, rest, cost, left

    def _companies(self, sizes: Sizes, stock: int, least: float) -> Iterator[tuple[Pattern, Sizes]]:
        """The first board with as many others as can join it, worth at least so much that the rest can be paid.

        A smaller company than one that can be cut is never better.
        """
        sheet = self.shop.sheets[stock]
        if sizes[0].short > sheet.short or sizes[0].long > sheet.long:
            return
        area = sheet.short * sheet.long
        whole: list[set[int]] = []
        subsets = _subsets(sizes, area)
        self._counts["subsets"] += len(subsets)
        for chosen in subsets:
            if self.worth(tuple(sizes[i] for i in chosen)) < least - 2 * NOISE:
                continue
            inside = set(chosen)
            if any(inside < other for other in whole):
                continue
            self._counts["subsets"] += 1
            pattern = Pattern(stock, tuple(sorted(sizes[i] for i in chosen)))
            if self.shop.cuts(pattern):
                whole.append(inside)
                yield pattern, tuple(s for i, s in enumerate(sizes) if i not in inside)


def _by_long(size: Size) -> tuple[int, int]:
    return size.long, size.short


def _subsets(sizes: Sizes, area: int) -> list[tuple[int, ...]]:
    """Index sets with the first board that are no larger than the sheet, largest first, equal collections once."""
    found: dict[Sizes, tuple[int, ...]] = {}
    stack: list[tuple[tuple[int, ...], int]] = [((0,), sizes[0].short * sizes[0].long)]
    while stack:
        chosen, used = stack.pop()
        found.setdefault(tuple(sizes[i] for i in chosen), chosen)
        for i in range(chosen[-1] + 1, len(sizes)):
            more = used + sizes[i].short * sizes[i].long
            if more <= area:
                stack.append(((*chosen, i), more))
    return sorted(found.values(), key=lambda chosen: (-len(chosen), chosen))
