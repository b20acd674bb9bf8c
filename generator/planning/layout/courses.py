"""The ways to divide a stretch into courses, as the sheet sizes give them."""

from __future__ import annotations

from itertools import product
from math import ceil

from generator.model.geometry import NOISE, TOUCH, tidy
from generator.planning.layout.task import StockSize

Cuts = tuple[float, ...]


def divisions(start: float, end: float, across: float, stocks: tuple[StockSize, ...], least: float) -> tuple[Cuts, ...]:
    """Places of the cuts between start and end for boards `across` wide, undivided first.

    Either equal parts, or every part but one as long as a side of a sheet that holds the width; the one left over
    may stand anywhere, or be brought up to the least rip at its neighbour's expense. No more parts than the
    least useful sheet needs.
    """
    length = end - start
    sides = _useful_sides(across, stocks)
    most = max((ceil((length - TOUCH) / side) for side in sides), default=1)
    found: dict[Cuts, None] = {}
    for count in range(1, most + 1):
        found.update(dict.fromkeys(_equal(start, length, count)))
        found.update(dict.fromkeys(_by_sides(start, end, sides, count, least)))
    return tuple(found)


def _useful_sides(across: float, stocks: tuple[StockSize, ...]) -> tuple[float, ...]:
    """Sides that run along the stretch on some sheet whose other side holds the width."""
    turned = [(s.width, s.height) for s in stocks] + [(s.height, s.width) for s in stocks]
    return tuple(sorted({along for other, along in turned if across <= other + NOISE}))


def _equal(start: float, length: float, count: int) -> tuple[Cuts, ...]:
    return (tuple(tidy(start + length * i / count) for i in range(1, count)),)


def _by_sides(start: float, end: float, sides: tuple[float, ...], count: int, least: float) -> list[Cuts]:
    found = []
    for chosen in product(sides, repeat=count - 1):
        rest = end - start - sum(chosen)
        if rest > TOUCH:
            for place in range(count):
                parts = [*chosen[:place], rest, *chosen[place:]]
                found.append(_cuts(start, parts))
                if rest < least - TOUCH and count > 1:
                    found.append(_cuts(start, _fattened(parts, place, least - rest)))
    return found


def _fattened(parts: list[float], place: int, more: float) -> list[float]:
    """The narrow part brought up to the least rip, its larger neighbour cut down."""
    beside = [i for i in (place - 1, place + 1) if 0 <= i < len(parts)]
    giver = max(beside, key=lambda i: (parts[i], -i))
    return [p + more * ((i == place) - (i == giver)) for i, p in enumerate(parts)]


def _cuts(start: float, parts: list[float]) -> Cuts:
    return tuple(tidy(start + sum(parts[:i])) for i in range(1, len(parts)))
