"""Words as a square code that a telephone reads (ISO/IEC 18004), in ink."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from generator.drafting.ink import Outline
from generator.model.geometry import rectangle

QUIET = 4
"""Squares kept white round a code (ISO/IEC 18004)."""
LEVELS = ("m", "l")
"""Error correction: the stronger one if its squares do not get too small."""


def code_ink(text: str, side: float, least: float) -> tuple[Outline, ...]:
    """The text as a square code in its quiet zone, as large as fits into `side` mm, its lower left at 0, 0.

    The dark squares of a row that touch are one rectangle, and rows that are alike are one too. `least`: mm that a
    square shall measure; a text too long for that even at the weaker correction is drawn smaller.
    """
    rows = next((r for level in LEVELS if side / (len(r := _code(text, level)) + 2 * QUIET) >= least), None)
    rows = rows or _code(text, LEVELS[-1])
    module = side / (len(rows) + 2 * QUIET)
    boxes = (rectangle(*((n + QUIET) * module for n in run)) for run in _runs(rows))
    return tuple(Outline(ring, "mark", fill=0.0, edge=False) for ring in boxes)


def _code(text: str, level: str) -> tuple[bytes, ...]:
    """Rows of the code from its top, 1 for a dark square."""
    import segno

    code = segno.make_qr(text, error=level, encoding="utf-8", boost_error=False)
    return tuple(bytes(row) for row in code.matrix)


def _runs(rows: Sequence[bytes]) -> list[tuple[int, int, int, int]]:
    """Rectangles (left, bottom, right, top) of the dark squares, y up from the lowest row."""
    found: list[tuple[int, int, int, int]] = []
    begun: dict[tuple[int, int], int] = {}
    for y, row in enumerate((*rows, b"")):
        runs = _dark(row)
        ended = [run for run in begun if run not in runs]
        found += [(run[0], len(rows) - y, run[1], len(rows) - begun.pop(run)) for run in ended]
        for run in runs:
            begun.setdefault(run, y)
    return found


def _dark(row: bytes) -> list[tuple[int, int]]:
    """(start, end) of each run of dark squares."""
    found, x = [], 0
    for dark, group in groupby(row):
        end = x + len(tuple(group))
        if dark:
            found.append((x, end))
        x = end
    return found
