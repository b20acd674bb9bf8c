"""A page of ink, and the widths of its writing."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from generator.drafting.ink import Ink, Text
from generator.drafting.inview import Sheet
from generator.lettering import typeface, written_width
from generator.model.geometry import Point
from generator.model.job import Bar
from generator.model.profiles import PracticeProfile

_WORD = re.compile(r"[0-9]+ [0-9]+/[0-9]+\S*|\[[^\]]*\]\S*|\S+")


@dataclass(frozen=True, slots=True)
class CheckBar:
    """A printed measure: from p to q on the page is `length` mm on a true print."""

    p: Point
    q: Point
    length: float


@dataclass(frozen=True, slots=True)
class Page:
    """`name`: short label (A1, S-03), also the PDF page label; `title`: its bookmark; sizes in mm."""

    name: str
    title: str
    width: float
    height: float
    scale: str
    """As printed: `1:8`, `FULL SIZE`."""
    ink: tuple[Ink, ...]
    bars: tuple[CheckBar, ...] = ()
    sheet: Sheet | None = None
    """The same for a CAD file, where the page is a sheet of the set."""
    practice: PracticeProfile | None = None
    """Says how wide its lines are; None: as drafted."""


def job_bars(pages: Sequence[Page]) -> tuple[Bar, ...]:
    """The check bars of a file of these pages, as plan.json lists them."""
    return tuple(Bar(i + 1, bar.p, bar.q, bar.length) for i, page in enumerate(pages) for bar in page.bars)


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width in mm of one line whose capitals are `height` mm high, from the font's own metrics."""
    return written_width(text, height, bold)


def shortened(text: str, height: float, width: float, bold: bool = False) -> str:
    """The text, its end replaced by dots where it is wider than `width` mm."""
    if text_width(text, height, bold) <= width:
        return text
    cut = next((n for n in range(len(text) - 1, 0, -1) if text_width(f"{text[:n]}...", height, bold) <= width), 0)
    return f"{text[:cut].rstrip()}..."


def text_box(text: Text) -> tuple[Point, Point, Point, Point]:
    """The four corners of a line of writing, descenders included, counter-clockwise from its lower left."""
    wide, face = text_width(text.text, text.height, text.bold), typeface(text.text)
    left = -wide * {"left": 0.0, "centre": 0.5, "right": 1.0}[text.align]
    base = baseline_shift(text)
    low, high = base - text.height * face.descent / face.capital, base + text.height
    corners = ((left, low), (left + wide, low), (left + wide, high), (left, high))
    a, b, c, d = (_turned(text, corner) for corner in corners)
    return a, b, c, d


def baseline_shift(text: Text) -> float:
    """How far the base line lies from `at`, measured in the writing's own upward direction."""
    return -text.height * {"base": 0.0, "middle": 0.5, "top": 1.0}[text.level]


def _turned(text: Text, corner: Point) -> Point:
    turn = math.radians(text.angle)
    x, y = corner
    return (
        text.at[0] + x * math.cos(turn) - y * math.sin(turn),
        text.at[1] + x * math.sin(turn) + y * math.cos(turn),
    )


@lru_cache(maxsize=10_000)
def wrap(text: str, height: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width` mm, broken at blanks; one word that is wider stands alone.

    A length with a fraction is one word, and so is what stands in square brackets.
    """
    lines: list[str] = []
    for word in _WORD.findall(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def paragraph(
    lines: Sequence[str], at: Point, height: float, bold: bool = False, pitch: float = 1.7
) -> tuple[Text, ...]:
    """Lines below each other; `at` is the left end of the first base line, `pitch` the line spacing in heights."""
    return tuple(
        Text((at[0], at[1] - i * pitch * height), line, height, bold=bold) for i, line in enumerate(lines) if line
    )
