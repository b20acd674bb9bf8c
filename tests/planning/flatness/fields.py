"""Random stud fields, what is true of any schedule for them, and the bound that another solver gives."""

from __future__ import annotations

from itertools import combinations
from math import dist
from random import Random
from typing import Any

import numpy as np
from scipy.optimize import linprog

from generator.planning.flatness.faces import Face, Flatness
from generator.units import INCH

LARGE = Flatness(True, INCH / 8, INCH / 16, 24 * INCH)
SMALL = Flatness(False, INCH / 4, INCH / 16, 12 * INCH)
"""ANSI A108.02-4.1.4.3.2 as the fact table has it, section 5."""
STEP = INCH / 16


def face(u: float, v: float, sixteenths: float, most_plane: int = 0, most_shim: int | None = None) -> Face:
    """A reading at inches (u, v); its stretch is 24 in of a stud 1-1/2 in wide."""
    low, high = (v - 12) * INCH, (v + 12) * INCH
    return Face(f"{u:g}", u * INCH, v * INCH, sixteenths * STEP, low, high, 1.5 * INCH, most_shim, most_plane)


def random_field(seed: int) -> tuple[Face, ...]:
    """Three to seven studs 10 to 24 in apart, read at two to five heights, some of steel."""
    rng = Random(seed)
    heights = sorted(rng.sample(range(8, 96, 4), rng.randint(2, 5)))
    us: list[float] = [0.75]
    faces: list[Face] = []
    for _ in range(rng.randint(2, 6)):
        us.append(us[-1] + rng.choice((10, 14.5, 16, 19.2, 24)))
    lean, slope = rng.uniform(-0.1, 0.1), rng.uniform(-0.1, 0.1)
    for u in us:
        most = rng.choice((0, 2))
        faces += [face(u, v, 12 + round(lean * u + slope * v) + rng.randint(-2, 3), most) for v in heights]
    return tuple(faces)


def pairs(faces: tuple[Face, ...], wanted: Flatness) -> list[tuple[int, int, float]]:
    """By the sentence of the standard: so much within the reach, and in proportion beyond it."""
    found = []
    for i, j in combinations(range(len(faces)), 2):
        apart = dist((faces[i].u, faces[i].v), (faces[j].u, faces[j].v))
        most = wanted.near * max(1.0, apart / wanted.reach)
        if most < wanted.far:
            found.append((i, j, most))
    return found


def least_volume(faces: tuple[Face, ...], wanted: Flatness, moves: tuple[float, ...] | None = None) -> float | None:
    """mm3 of shim and planing of any thickness; None where none will do.

    With `moves` given (mm), 0.0 where a plane suits them.
    Columns: the plane's off at the origin and its slopes, then shim and planing of each face in mm.
    """
    n = len(faces)
    rows: list[Any] = []
    tops: list[float] = []

    def add(coefficients: Any, most: float) -> None:
        rows.append(coefficients)
        tops.append(most)

    def behind(i: int) -> Any:
        row = np.zeros(3 + 2 * n)
        row[:3] = (-1.0, -faces[i].u / 1000, -faces[i].v / 1000)
        row[3 + i], row[3 + n + i] = -1.0, 1.0
        return row

    for i, one in enumerate(faces):
        add(behind(i), wanted.far - one.off)
        add(-behind(i), one.off)
    for i, j, most in pairs(faces, wanted):
        difference, off = behind(i) - behind(j), faces[i].off - faces[j].off
        add(difference, most - off)
        add(-difference, most + off)
    areas = [one.width * (one.high - one.low) for one in faces]
    limits: list[Any]
    if moves is None:
        limits = [(0, None)] * n + [(0, one.most_plane * STEP) for one in faces]
    else:
        limits = [(max(m, 0.0), max(m, 0.0)) for m in moves] + [(max(-m, 0.0), max(-m, 0.0)) for m in moves]
        areas = [0.0] * n
    bounds = [(None, None)] * 3 + limits
    solved = linprog([0.0] * 3 + areas + areas, np.array(rows), tops, bounds=bounds, method="highs-ipm")
    return float(solved.fun) if solved.status == 0 else None
