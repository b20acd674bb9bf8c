"""Exact search over combinations of layouts, best first, each packed in truth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from math import prod

from generator.planning.layout.pack import Packer
from generator.planning.layout.purchase import Choice, first_level
from generator.planning.layout.shop import Shop

LOOKS = 60_000
"""Combinations of layouts that are looked at in one search."""
PROOFS = 5_000
"""Of these, the ones that are packed where that settles all of them."""
TRIALS = 800
"""The ones that are packed where there are too many to settle."""
EFFORT = 6_000
"""The packer's effort in one search, where there are too many to settle."""
SETTLING = 45_000
"""The same where that may settle all of them."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """`settled`: every combination that is better than the choice was shown not to fit the budget."""

    choice: Choice | None
    settled: bool


@dataclass(frozen=True, slots=True)
class Descent:
    """The cheapest choice found; no choice of the class costs less than `floor`."""

    choice: Choice
    floor: float


def cheapest(shop: Shop, packer: Packer, choice: Choice, floor: float) -> Descent:
    """Packs combinations, those of the least worth of boards first, each below the cheapest cost so far.

    A combination costs at least its worth: once the next is worth as much as the best choice costs, that is the best.
    """
    least = attainable(shop, floor)
    most, effort = (PROOFS, SETTLING) if _few(shop) else (TRIALS, EFFORT)
    start, missed = packer.effort(), packer.given_up()
    for trials, (worth, chosen) in enumerate(_combinations(shop, _worths(shop, packer))):
        if packer.given_up() == missed and worth[0] - packer.gift() > least + SMALL:
            least = attainable(shop, worth[0] - packer.gift())
        if least > choice.first - SMALL:
            return Descent(choice, choice.first)
        if trials >= most or packer.effort() - start >= effort:
            return Descent(choice, least)
        choice = _cheaper(shop, packer, chosen, choice)
    return Descent(choice, choice.first if packer.given_up() == missed else least)


def _few(shop: Shop) -> bool:
    return prod(len(wall) for wall in shop.layouts) <= PROOFS


def _cheaper(shop: Shop, packer: Packer, chosen: tuple[int, ...], choice: Choice) -> Choice:
    """These layouts instead, as often as they can be had for less."""
    while True:
        found = packed(shop, packer, chosen, choice.first - SMALL, MANY)
        if found is None or found.first > choice.first - SMALL:
            return choice
        choice = found


SMALL = 1e-6
MANY = 10_000


def _worths(shop: Shop, packer: Packer) -> list[list[tuple[float, ...]]]:
    return [
        [(packer.worth(sizes) + shop.layout_cost(w, i),) for i, sizes in enumerate(wall)]
        for w, wall in enumerate(shop.demands)
    ]


def _scores(shop: Shop) -> list[list[tuple[float, ...]]]:
    return [[layout.score for layout in wall] for wall in shop.layouts]


def best_layouts(shop: Shop, packer: Packer, choice: Choice) -> Outcome:
    """The best choice that costs no more: on as few sheets as possible, then with the best layouts."""
    for sheets in range(1, len(choice.patterns) + 1):
        outcome = best_within(shop, packer, choice.first, sheets)
        if not outcome.settled or outcome.choice is not None:
            return outcome
    raise RuntimeError("a choice does not fit its own sheets")


def attainable(shop: Shop, floor: float) -> float:
    """The least sum of sheets and supports that is no less than the floor."""
    return next(budgets(shop, floor))


def budgets(shop: Shop, floor: float) -> Iterator[float]:
    """Every cost from the floor up that sheets and supports can add up to."""
    steps = sorted({*shop.prices, *([shop.support] if shop.support else [])} - {0.0})
    waiting, seen = [0.0], {0.0}
    while waiting:
        cost = heappop(waiting)
        if cost >= floor - SMALL:
            yield cost
        for step in steps:
            onward = round(cost + step, 9)
            if onward not in seen:
                seen.add(onward)
                heappush(waiting, onward)


def best_within(shop: Shop, packer: Packer, budget: float, sheets: int) -> Outcome:
    """The best combination of layouts whose sheets and supports cost at most the budget on at most so many sheets."""
    worths = _worths(shop, packer)
    trials, start, missed = 0, packer.effort(), packer.given_up()
    effort = SETTLING if _few(shop) else EFFORT
    for looks, (_, chosen) in enumerate(_combinations(shop, _scores(shop))):
        if looks >= LOOKS or trials >= PROOFS or packer.effort() - start >= effort:
            return Outcome(None, settled=False)
        if sum(worths[w][i][0] for w, i in enumerate(chosen)) - packer.gift() <= budget + SMALL:
            trials += 1
            choice = packed(shop, packer, chosen, budget, sheets)
            if choice is not None:
                return Outcome(choice, settled=packer.given_up() == missed)
    return Outcome(None, settled=packer.given_up() == missed)


def packed(shop: Shop, packer: Packer, chosen: tuple[int, ...], budget: float, sheets: int) -> Choice | None:
    """These layouts on sheets within the budget; None when they don't fit."""
    supports = sum(shop.layout_cost(w, i) for w, i in enumerate(chosen))
    sizes = tuple(size for w, i in enumerate(chosen) for size in shop.demands[w][i])
    patterns = packer.pack(sizes, budget - supports, sheets)
    return None if patterns is None else Choice(chosen, patterns, first_level(shop, chosen, patterns))


def improved(shop: Shop, packer: Packer, choice: Choice, floor: float) -> Choice:
    """The same or better: cheaper or fewer sheets for its layouts, then better layouts, one wall at a time."""
    start = packer.effort()
    for budget in budgets(shop, floor):
        if budget > choice.first - SMALL or packer.effort() - start >= EFFORT:
            break
        cheaper = packed(shop, packer, choice.layouts, budget, MANY)
        if cheaper is not None:
            choice = cheaper
            break
    for sheets in range(1, len(choice.patterns)):
        if packer.effort() - start >= 2 * EFFORT:
            break
        fewer = packed(shop, packer, choice.layouts, choice.first, sheets)
        if fewer is not None:
            choice = fewer
            break
    return _better_layouts(shop, packer, choice)


def _better_layouts(shop: Shop, packer: Packer, choice: Choice) -> Choice:
    start = packer.effort()
    for _ in range(len(shop.layouts)):
        before = choice
        for w in range(len(shop.layouts)):
            for i in range(choice.layouts[w]):
                if packer.effort() - start >= EFFORT:
                    return choice
                chosen = (*choice.layouts[:w], i, *choice.layouts[w + 1 :])
                better = packed(shop, packer, chosen, choice.first, len(choice.patterns))
                if better is not None:
                    choice = better
                    break
        if choice is before:
            break
    return choice


def _combinations(
    shop: Shop, keys: list[list[tuple[float, ...]]]
) -> Iterator[tuple[tuple[float, ...], tuple[int, ...]]]:
    """One layout for each wall, by rising sum of their keys, then by place in the lists."""
    orders = [sorted(range(len(wall)), key=wall.__getitem__) for wall in keys]

    def entry(places: tuple[int, ...]) -> tuple[tuple[float, ...], tuple[int, ...]]:
        parts = [keys[w][orders[w][place]] for w, place in enumerate(places)]
        return tuple(round(sum(column), 6) for column in zip(*parts, strict=True)), places

    start = (0,) * len(shop.layouts)
    waiting, seen = [entry(start)], {start}
    while waiting:
        total, places = heappop(waiting)
        yield total, tuple(orders[w][place] for w, place in enumerate(places))
        for w, place in enumerate(places):
            onward = (*places[:w], place + 1, *places[w + 1 :])
            if onward[w] < len(orders[w]) and onward not in seen:
                seen.add(onward)
                heappush(waiting, entry(onward))
