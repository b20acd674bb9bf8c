"""A light choice of layouts and sheets, so that a sweep over thousands of rooms ends: geometry is what it tries."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from generator.planning.layout import choose
from generator.planning.layout.purchase import Choice, first_level
from generator.planning.layout.shop import Pattern, Shop, open_shop
from generator.planning.layout.sizes import Size
from generator.planning.layout.task import LayoutResult, LayoutTask

TRIED = 3
"""Best layouts of a wall of which a room gets one, turn and turn about by the room's own numbers."""


_WHOLE = choose._choose_for_walls


@contextmanager
def lightly() -> Iterator[None]:
    """Within it rooms are planned without search or bound: each board on the first sheet that still takes it."""
    with _chosen(_choose):
        yield


@contextmanager
def wholly() -> Iterator[None]:
    """Within it rooms are planned as the tool plans them, whatever goes on around."""
    with _chosen(_WHOLE):
        yield


@contextmanager
def _chosen(choice: Callable[[LayoutTask], LayoutResult]) -> Iterator[None]:
    before = choose._choose_for_walls
    choose._choose_for_walls = choice  # type: ignore[assignment]
    try:
        yield
    finally:
        choose._choose_for_walls = before


def _choose(task: LayoutTask) -> LayoutResult:
    shop = open_shop(task)
    layouts = tuple(_some(wall) for wall in shop.demands)
    sizes = sorted((s for w, i in enumerate(layouts) for s in shop.demands[w][i]), reverse=True)
    patterns: list[Pattern] = []
    for size in sizes:
        _add(shop, patterns, size)
    choice = Choice(layouts, tuple(patterns), first_level(shop, layouts, patterns))
    return choose._result(shop, choice, 0.0, "")


def _some(demands: tuple[tuple[Size, ...], ...]) -> int:
    return sum(size.long + size.short for size in demands[0]) % min(TRIED, len(demands))


def _add(shop: Shop, patterns: list[Pattern], size: Size) -> None:
    for at, pattern in enumerate(patterns):
        more = Pattern(pattern.stock, tuple(sorted((*pattern.sizes, size))))
        if shop.cuts(more):
            patterns[at] = more
            return
    patterns.append(next(p for s in range(len(shop.sheets)) if shop.cuts(p := Pattern(s, (size,)))))
