"""Among layouts that the same purchase allows, the best by supports, seams, boards and rips: best first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush

from generator.planning.layout.bound import Floor
from generator.planning.layout.pack import Packer
from generator.planning.layout.purchase import Choice, first_level
from generator.planning.layout.shop import Shop

LOOKS = 60_000
"""Combinations of layouts that are looked at."""
TRIALS = 1_500
"""Of these, the ones that are packed to see whether the sheets hold them."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """`settled`: every better combination was shown not to fit the budget."""

    choice: Choice | None
    settled: bool


def best_within(shop: Shop, floor: Floor, budget: float, sheets: int) -> Outcome:
    """The best combination of layouts whose sheets and supports cost at most the budget on at most so many sheets."""
    packer = Packer(shop, floor.prices, floor.rents)
    gift = sum(rent * stock.have for rent, stock in zip(floor.rents, shop.task.stocks, strict=True))
    worths = [[sum(floor.prices[s] for s in sizes) for sizes in wall] for wall in shop.demands]
    trials = 0
    for looks, chosen in enumerate(_combinations(shop)):
        supports = sum(shop.layout_cost(w, i) for w, i in enumerate(chosen))
        least = supports + sum(worths[w][i] for w, i in enumerate(chosen)) - gift
        if looks >= LOOKS or trials >= TRIALS:
            return Outcome(None, settled=False)
        if least <= budget + 1e-6:
            trials += 1
            sizes = tuple(size for w, i in enumerate(chosen) for size in shop.demands[w][i])
            patterns = packer.pack(sizes, budget - supports, sheets)
            if patterns is not None:
                return Outcome(Choice(chosen, patterns, first_level(shop, chosen, patterns), True), settled=True)
    return Outcome(None, settled=True)


def _combinations(shop: Shop) -> Iterator[tuple[int, ...]]:
    """One layout for each wall, by rising sum of their scores, then by order; each wall's layouts are sorted."""
    start = (0,) * len(shop.layouts)
    waiting = [(_total(shop, start), start)]
    seen = {start}
    while waiting:
        _, chosen = heappop(waiting)
        yield chosen
        for w, i in enumerate(chosen):
            onward = (*chosen[:w], i + 1, *chosen[w + 1 :])
            if i + 1 < len(shop.layouts[w]) and onward not in seen:
                seen.add(onward)
                heappush(waiting, (_total(shop, onward), onward))


def _total(shop: Shop, chosen: tuple[int, ...]) -> tuple[float, ...]:
    scores = [shop.layouts[w][i].score for w, i in enumerate(chosen)]
    return tuple(round(sum(score[k] for score in scores), 6) for k in range(4))
