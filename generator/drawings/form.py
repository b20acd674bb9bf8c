"""The blank measuring form: safety, then a section for every stop of the walk, each with its sketch and its boxes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.asking.job_questions import SAFETY
from generator.asking.questions import Form, Section, Word
from generator.drafting.ink import Ink, Line, Outline, Text, move
from generator.drafting.page import Page, paragraph, shortened, wrap
from generator.drawings import template_sheet as sheet
from generator.drawings.form_cells import Row, check_rows, rows
from generator.drawings.form_features import built_sketch, niche_sketch, studs_sketch
from generator.drawings.form_plans import base_sketch, corner_sketch, reach_sketch
from generator.drawings.form_walls import fitting_sketch, wall_sketch
from generator.model.geometry import rectangle

if TYPE_CHECKING:
    from generator.model.profiles import PaperProfile

_HEAD = 17.0
"""mm: what every page says at its top."""
_SPACE = 3.0
_ABREAST = 2
"""Words side by side in their list."""
_RULES = (
    'Lengths: 60 1/4, 60-1/4", 5\' 0-1/4", 1530 mm, 153 cm; a bare number is in {units}. Heavy boxes are needed; '
    "write - in a light one where there is none or it cannot be measured."
)
_FOOT = (
    "Both bars measure right when the form is printed at 100 %. Sketches are not to scale. Aid only: local codes, "
    "makers' instructions and licensed trades decide."
)
_Sketch = Callable[[Form, Section, float], Row]


@dataclass(frozen=True, slots=True)
class _Block:
    """Rows that stay on one page as long as a page can hold them."""

    rows: tuple[Row, ...]

    @property
    def height(self) -> float:
        return sum(row.height for row in self.rows) + _SPACE


def form_pages(form: Form, profile: PaperProfile) -> tuple[Page, ...]:
    """All pages on that paper, upright."""
    paper = sheet.upright(profile)
    width = paper.width - 2 * paper.margin
    blocks = [_safety(), *(_section(form, section, width) for section in form.sections), _remarks(width)]
    blocks += _words(form, width)
    pages = _filled(blocks, paper)
    return tuple(_page(form, paper, page, i + 1, len(pages)) for i, page in enumerate(pages))


def _safety() -> _Block:
    title = _title("!", "Before anything is opened or measured")
    return _Block((title, *check_rows(SAFETY)))


def _section(form: Form, section: Section, width: float) -> _Block:
    hints = tuple(_line(hint) for hint in section.hints)
    sketch = _sketch(section)
    drawn = (sketch(form, section, width),) if sketch else ()
    return _Block((_title(section.letter, section.title), *hints, *drawn, *rows(section.questions, width, form.units)))


def _sketch(section: Section) -> _Sketch | None:
    """The sketch that goes with a section."""
    sketches: dict[str, _Sketch] = {
        "corners": corner_sketch,
        "base": base_sketch,
        "wall": wall_sketch,
        "studs": studs_sketch,
        "fitting": fitting_sketch,
        "niche": niche_sketch,
        "built": built_sketch,
        "reach": reach_sketch,
    }
    return sketches.get(section.sketch)


def _title(letter: str, title: str) -> Row:
    square = Outline(rectangle(0.0, -7.5, 7.5, 0.0), "outline")
    return Row((square, Text((3.75, -3.75), letter, 4.0, "centre", "middle", bold=True), _beside(title)), 9.5)


def _beside(title: str) -> Text:
    return Text((10.0, -3.75), title, 3.8, level="middle", bold=True)


def _line(text: str) -> Row:
    return Row((Text((0.0, -3.0), text, 2.5),), 4.6)


def _remarks(width: float) -> _Block:
    """Ruled lines for all that has no box."""
    lines = tuple(Row((Line((0.0, -8.0), (width, -8.0), "light"),), 8.0) for _ in range(4))
    words = "More studs, readings, blocking, pipes in bays, niches, windows, bars or soffits: all that has no box."
    return _Block((_title("+", "Remarks"), _line(words), *lines))


def _words(form: Form, width: float) -> list[_Block]:
    """What may be written in the boxes that take a word: every list of words once, with its boxes."""
    asked = [q for q in form.questions if q.answer == "word" and q.words]
    lists = dict.fromkeys(q.words for q in asked)
    title = (_title("?", "Words for the boxes that ask what it is"),)
    blocks: list[_Block] = []
    for words in lists:
        boxes = f"In {', '.join(q.box for q in asked if q.words == words)}:"
        rows_of = [words[i : i + _ABREAST] for i in range(0, len(words), _ABREAST)]
        head = tuple(_line(line) for line in wrap(boxes, 2.5, width))
        blocks.append(
            _Block((*(() if blocks else title), *head, *(_word_row(row, width / _ABREAST) for row in rows_of)))
        )
    return blocks


def _word_row(words: tuple[Word, ...], width: float) -> Row:
    """Words side by side, each with its meaning."""
    ink: list[Ink] = []
    for i, word in enumerate(words):
        ink.append(Text((i * width, -3.0), word.id, 2.4, bold=True))
        ink.append(Text((i * width + 28.5, -3.0), shortened(word.name, 2.3, width - 30.0), 2.3))
    return Row(tuple(ink), 4.4)


def _filled(blocks: list[_Block], paper: sheet.Paper) -> list[tuple[Row, ...]]:
    """The rows of each page: a block goes to a fresh page when it does not fit below the others."""
    room = paper.height - 2 * paper.margin - _HEAD - sheet.FOOT
    pages: list[list[Row]] = [[]]
    for block in blocks:
        used = sum(row.height for row in pages[-1])
        if pages[-1] and used + block.height > room:
            pages.append([])
        elif pages[-1]:
            pages[-1].append(Row((), _SPACE))
        for row in block.rows:
            if pages[-1] and sum(one.height for one in pages[-1]) + row.height > room:
                pages.append([])
            pages[-1].append(row)
    return [tuple(page) for page in pages]


def _page(form: Form, paper: sheet.Paper, content: tuple[Row, ...], number: int, of: int) -> Page:
    left, y = paper.margin, paper.height - paper.margin - _HEAD
    ink: list[Ink] = [*_head(form, paper, number, of)]
    for row in content:
        ink += move(row.ink, left, y)
        y -= row.height
    foot, bars = sheet.footer(paper, _FOOT)
    title = f"Measuring form, {form.title}, page {number}"
    return Page(str(number), title, paper.width, paper.height, "not to scale", (*ink, *foot), bars)


def _head(form: Form, paper: sheet.Paper, number: int, of: int) -> tuple[Ink, ...]:
    left, right, top = paper.margin, paper.width - paper.margin, paper.height - paper.margin
    rules = wrap(_RULES.format(units="inches" if form.units == "in" else "millimetres"), 2.4, right - left)
    title = f"Measuring form: {form.title}" if number == 1 else f"Measuring form: {form.kind}"
    job = "" if number == 1 else f"Room {'_' * 34}"
    return (
        Text((left, top - 4.4), title, 4.4, bold=True),
        Text((right, top - 4.4), f"{number} of {of}", 3.4, "right", bold=True),
        *((Text((right - 20.0, top - 4.4), job, 2.6, "right"),) if job else ()),
        *paragraph(rules, (left, top - 10.0), 2.4, pitch=1.6),
    )
