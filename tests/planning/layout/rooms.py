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


IN = 25.4
SHEETS = ((36, 60, 42.0), (48, 64, 58.0), (48, 96, 84.0), (32, 48, 31.0), (36, 48, 35.0), (24, 48, 25.0))
"""Invented sizes and prices."""


def real_room(seed: int, count: int | None = None) -> LayoutTask:
    """A room of one to six walls in inches: uneven studs, legs, nips, collars, offered supports, several sheets."""
    draw = Random(seed)
    walls = tuple(_real_wall(draw, f"w{n}") for n in range(count or draw.randint(1, 6)))
    priced = draw.random() < 0.7
    chosen = sorted({(48, 96, 84.0), *draw.sample(SHEETS, draw.randint(1, 3))})
    stocks = tuple(
        StockSize(f"{w}x{h}", w * IN, h * IN, price if priced else None, draw.choice((0, 0, 0, 1)))
        for w, h, price in chosen
    )
    return LayoutTask(walls, stocks, 0.125 * IN, 6 * IN, 4 * IN, 9.0)


def _real_wall(draw: Random, name: str) -> WallTask:
    width, top = draw.randint(30 * 16, 66 * 16) / 16, draw.choice((84, 90, 95.875))
    studs = [0.75]
    while studs[-1] < width - 8:
        studs.append(studs[-1] + draw.randint(11 * 8, 16 * 8) / 8)
    offered = [u for u in (24, 36, 48) if all(abs(u - s) > 2 for s in studs)]
    seams = [SeamPlace(u * IN, 0.0, 96 * IN, False) for u in studs] + [
        SeamPlace(u * IN, 0.0, 96 * IN, True) for u in offered
    ]
    inside = tuple(s for s in sorted(seams, key=lambda s: s.u) if 2 * IN < s.u < (width - 2) * IN)
    discs = (
        (Disc((draw.uniform(8, width - 8) * IN, draw.choice((28, 38, 78)) * IN), 4 * IN),)
        if draw.random() < 0.5
        else ()
    )
    deck, nip, leg = draw.choice((0.25, 4.25, 18.75)), draw.choice((0.0, 0.125)), draw.random() < 0.4
    points = [(nip, deck), (nip, deck + nip), (0.0, deck + nip), (0.0, top), (width, top)]
    legs: tuple[Leg, ...] = ()
    if leg and deck > 1:
        points += [(width, 0.25), (width - 4, 0.25), (width - 4, deck)]
        legs = (Leg((width - 4) * IN, width * IN, deck * IN),)
        inside = tuple(s for s in inside if s.u < (width - 4) * IN)
    else:
        points += [(width, deck)]
    ring = canonical((u * IN, v * IN) for u, v in points)
    return WallTask(name, Region(ring, ()), inside, discs, (), legs)
