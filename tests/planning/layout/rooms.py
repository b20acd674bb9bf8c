"""Small random layout tasks on whole units, the same on every run."""

from __future__ import annotations

from random import Random

from generator.model.geometry import canonical, rectangle
from generator.model.plan import Region
from generator.planning.layout.task import Disc, LayoutTask, Leg, SeamPlace, StockSize, WallTask
from tests.planning.layout.twin import U


def small_task(seed: int) -> LayoutTask:
    """One or two small walls, one or two sheet sizes."""
    draw = Random(seed)
    walls = tuple(_wall(draw, name) for name in ("a", "b")[: draw.choice((1, 1, 2))])
    priced = draw.random() < 0.7
    sizes = draw.sample([(4, 6), (3, 6), (4, 8), (6, 6), (5, 10), (6, 12)], draw.choice((1, 2)))
    stocks = tuple(
        StockSize(
            f"{w}x{h}", w * U, h * U, float(w * h + draw.randint(0, 6)) if priced else None, draw.choice((0, 0, 1))
        )
        for w, h in sorted(sizes)
    )
    kerf = draw.choice((0.0, 0.0, U))
    return LayoutTask(
        walls, stocks, kerf, draw.choice((0, 1, 2)) * U, draw.choice((1, 2)) * U, draw.choice((None, 5.0))
    )


def _wall(draw: Random, name: str) -> WallTask:
    width, height = draw.randint(4, 9), 6
    places = draw.sample(range(1, width), min(width - 1, draw.randint(1, 3)))
    seams = tuple(SeamPlace(u * U, 0.0, 40 * U, draw.random() < 0.4) for u in sorted(places))
    discs = (Disc((draw.randint(0, width) * U, draw.randint(1, 5) * U), 0.9 * U),) if draw.random() < 0.3 else ()
    if draw.random() < 0.35:
        ring = canonical(
            (x * U, y * U) for x, y in ((0, 2), (width - 1, 2), (width - 1, 0), (width, 0), (width, 6), (0, 6))
        )
        return WallTask(name, Region(ring, ()), seams, discs, (), (Leg((width - 1) * U, width * U, 2 * U),))
    return WallTask(name, Region(rectangle(0, 0, width * U, height * U), ()), seams, discs, (), ())
