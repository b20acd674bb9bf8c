"""The paper of a template: words above, check bars below, and between them a window at full size."""

from __future__ import annotations

from dataclasses import dataclass, replace

from generator.drafting.ink import Ink, Line, Text
from generator.drafting.page import CheckBar, paragraph, wrap
from generator.drafting.titleblock import CAUTION
from generator.drawings.template_targets import Bounds
from generator.model.profiles import PaperProfile
from generator.units import INCH

GUTTER = 5.0
"""mm round the window for its crop marks."""
SIDE = 34.0
"""mm at the right of the words, for the page's label and the page plan."""
FOOT = 20.0
LEAST = 16.0
"""mm that the page's label takes."""
_STAMP, _TITLE, _PLAIN, _PITCH = 4.0, 4.4, 2.5, 1.6
BARS = ((4 * INCH, "4 in"), (100.0, "100 mm"))


@dataclass(frozen=True, slots=True)
class Words:
    """What stands above the window. `stamp` empty unless the wall failed."""

    stamp: str
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet as it goes into the printer, portrait or landscape, with unprintable margins; of a roll what is used."""

    width: float
    height: float
    margin: float

    @property
    def words_width(self) -> float:
        return self.width - 2 * self.margin - SIDE


def papers(profile: PaperProfile, words: Words, high: float) -> tuple[Paper, ...]:
    """The paper upright, then lying; of a roll a piece as long as a window `high` mm high needs."""
    if profile.roll:
        piece = Paper(profile.width, profile.height, profile.margin)
        _, bottom, _, top = window(piece, words)
        return (replace(piece, height=min(profile.height, profile.height - (top - bottom) + high)),)
    short, long = sorted((profile.width, profile.height))
    return Paper(short, long, profile.margin), Paper(long, short, profile.margin)


def upright(profile: PaperProfile) -> Paper:
    """A cut sheet, its long side up."""
    short, long = sorted((profile.width, profile.height))
    return Paper(short, long, profile.margin)


def body(paper: Paper, words: Words) -> Bounds:
    """(left, bottom, right, top) on paper of what is below the words where there is no window."""
    top = paper.height - paper.margin - max(_words_height(paper, words), LEAST) - GUTTER
    return (paper.margin, paper.margin, paper.width - paper.margin, top)


def window(paper: Paper, words: Words) -> Bounds:
    """(left, bottom, right, top) on paper of what is printed at full size."""
    top = paper.height - paper.margin - _words_height(paper, words)
    side = paper.margin + GUTTER
    return (side, paper.margin + FOOT + GUTTER, paper.width - side, top - GUTTER)


def _stamp_lines(paper: Paper, words: Words) -> tuple[str, ...]:
    return wrap(words.stamp, _STAMP, paper.words_width, bold=True)


def _wrapped(paper: Paper, words: Words) -> tuple[str, ...]:
    return tuple(part for line in words.lines for part in wrap(line, _PLAIN, paper.words_width))


def _words_height(paper: Paper, words: Words) -> float:
    stamp = len(_stamp_lines(paper, words)) * _PITCH * _STAMP
    return stamp + _TITLE + 3.5 + len(_wrapped(paper, words)) * _PITCH * _PLAIN


def header(paper: Paper, words: Words, label: str, pages: int) -> tuple[Ink, ...]:
    """The words, the page's label, and an arrow that says which way is up."""
    left, y = paper.margin, paper.height - paper.margin
    stamp = _stamp_lines(paper, words)
    ink: list[Ink] = list(paragraph(stamp, (left, y - _STAMP), _STAMP, bold=True, pitch=_PITCH))
    ink = [replace(line, layer="mark") for line in ink if isinstance(line, Text)]
    y -= len(stamp) * _PITCH * _STAMP + _TITLE
    ink.append(Text((left, y), words.title, _TITLE, bold=True))
    ink += paragraph(_wrapped(paper, words), (left, y - 3.5 - _PLAIN), _PLAIN, pitch=_PITCH)
    right, top = paper.width - paper.margin, paper.height - paper.margin
    ink.append(Text((right, top), label, 6.0, "right", "top", bold=True))
    ink.append(Text((right, top - 9.0), f"of {pages} page{'s' if pages > 1 else ''}", 2.5, "right", "top"))
    return (*ink, *_up_arrow((right - SIDE + 2.0, top - 9.0)))


def plan_frame(paper: Paper, words: Words) -> Bounds:
    """Where the page plan goes, below the label."""
    top = paper.height - paper.margin
    low = top - max(_words_height(paper, words), 26.0)
    return (paper.width - paper.margin - SIDE + 8.0, low, paper.width - paper.margin, top - 13.0)


def _up_arrow(foot: tuple[float, float]) -> tuple[Ink, ...]:
    x, y = foot
    shaft = Line((x, y), (x, y + 9.0), "visible")
    head = tuple(Line((x, y + 9.0), (x + dx, y + 6.0), "visible") for dx in (-1.5, 1.5))
    return (shaft, *head, Text((x + 2.0, y), "UP", 2.5, bold=True))


NOTE = f'Measure both bars before cutting. If either is off, print again at 100 % ("actual size"). {CAUTION}'


def footer(paper: Paper, note: str = NOTE) -> tuple[tuple[Ink, ...], tuple[CheckBar, ...]]:
    """The two check bars, and what to do with them."""
    ink: list[Ink] = []
    bars = []
    left = paper.margin + 1.0
    for i, (length, name) in enumerate(BARS):
        y = paper.margin + FOOT - 5.0 - i * 7.0
        bars.append(CheckBar((left, y), (left + length, y), length))
        ink += [Line((left, y), (left + length, y), "visible"), Text((left + length + 2.0, y), name, 2.6, bold=True)]
        ink += [Line((x, y - 1.5), (x, y + 2.5), "visible") for x in (left, left + length)]
    beside = left + BARS[0][0] + 17.0
    lines = wrap(note, 2.5, paper.width - paper.margin - beside)
    return (*ink, *paragraph(lines, (beside, paper.margin + FOOT - 3.5), 2.5, pitch=1.5)), tuple(bars)
