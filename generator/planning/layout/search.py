"""Exact search over combinations of layouts, best first, each packed in truth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush

from generator.planning.layout.pack import Packer
from generator.planning.layout.purchase import Choice, first_level
from generator.planning.layout.shop import Shop

LOOKS = 60_000
"""Combinations of layouts that are looked at for one budget."""
TRIALS = 4_000
"""Of these, the ones that are packed to see whether the sheets hold them."""
LEVELS = 400
"""Budgets tried."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """`settled`: every combination that is better than the choice was shown not to fit the budget."""

    choice: Choice | None
    settled: bool


@dataclass(frozen=True, slots=True)
class Proven:
    """A choice that is best by every level, or (None) how far up the first level nothing exists."""

    choice: Choice | None
    floor: float


def combinations(shop: Shop) -> int:
    """How many ways there are to take one layout for each wall."""
    count = 1
    for wall in shop.layouts:
        count *= len(wall)
    return count


def prove(shop: Shop, packer: Packer, floor: float) -> Proven:
    """Raises the budget from the floor, level by level, until a combination fits or the limits are reached."""
    for tried, budget in enumerate(budgets(shop, floor)):
        if tried >= LEVELS:
            return Proven(None, budget)
        outcome = best_within(shop, packer, budget, MANY)
        if not outcome.settled:
            return Proven(None, budget)
        if outcome.choice is not None:
            return Proven(_fewest_sheets(shop, packer, budget, outcome.choice), budget)
    raise RuntimeError("budgets never end")


MANY = 10_000


def _fewest_sheets(shop: Shop, packer: Packer, budget: float, choice: Choice) -> Choice | None:
    """The choice on as few sheets as the budget allows; None when the limits are reached."""
    for sheets in range(1, len(choice.patterns)):
        outcome = best_within(shop, packer, budget, sheets)
        if not outcome.settled or outcome.choice is not None:
            return outcome.choice
    return best_within(shop, packer, budget, len(choice.patterns)).choice


def budgets(shop: Shop, floor: float) -> Iterator[float]:
    """Every cost from the floor up that sheets and supports can add up to."""
    steps = sorted({*shop.prices, *([shop.support] if shop.support else [])} - {0.0})
    waiting, seen = [0.0], {0.0}
    while waiting:
        cost = heappop(waiting)
        if cost >= floor - 1e-6:
            yield cost
        for step in steps:
            onward = round(cost + step, 6)
            if onward not in seen:
                seen.add(onward)
                heappush(waiting, onward)


def best_within(shop: Shop, packer: Packer, budget: float, sheets: int) -> Outcome:
    """The best combination of layouts whose sheets and supports cost at most the budget on at most so many sheets."""
    worths = [[packer.worth(sizes) for sizes in wall] for wall in shop.demands]
    trials = 0
    for looks, chosen in enumerate(_combinations(shop)):
        supports = sum(shop.layout_cost(w, i) for w, i in enumerate(chosen))
        if looks >= LOOKS or trials >= TRIALS:
            return Outcome(None, settled=False)
        if supports + sum(worths[w][i] for w, i in enumerate(chosen)) - packer.gift() <= budget + 1e-6:
            trials += 1
            choice = packed(shop, packer, chosen, budget, sheets)
            if choice is not None:
                return Outcome(choice, settled=True)
    return Outcome(None, settled=True)


def packed(shop: Shop, packer: Packer, chosen: tuple[int, ...], budget: float, sheets: int) -> Choice | None:
    """These layouts on sheets within the budget; None when they don't fit."""
    supports = sum(shop.layout_cost(w, i) for w, i in enumerate(chosen))
    sizes = tuple(size for w, i in enumerate(chosen) for size in shop.demands[w][i])
    patterns = packer.pack(sizes, budget - supports, sheets)
    return None if patterns is None else Choice(chosen, patterns, first_level(shop, chosen, patterns))


def improved(shop: Shop, packer: Packer, choice: Choice, floor: float) -> Choice:
    """The same or better: cheaper or fewer sheets for its layouts, then better layouts, one wall at a time."""
    for budget in budgets(shop, floor):
        if budget > choice.first - 1e-6:
            break
        cheaper = packed(shop, packer, choice.layouts, budget, MANY)
        if cheaper is not None:
            choice = cheaper
            break
    for sheets in range(1, len(choice.patterns)):
        fewer = packed(shop, packer, choice.layouts, choice.first, sheets)
        if fewer is not None:
            choice = fewer
            break
    return _better_layouts(shop, packer, choice)


def _better_layouts(shop: Shop, packer: Packer, choice: Choice) -> Choice:
    for _ in range(len(shop.layouts)):
        before = choice
        for w in range(len(shop.layouts)):
            for i in range(choice.layouts[w]):
                chosen = (*choice.layouts[:w], i, *choice.layouts[w + 1 :])
                better = packed(shop, packer, chosen, choice.first, len(choice.patterns))
                if better is not None:
                    choice = better
                    break
        if choice is before:
            break
    return choice


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
