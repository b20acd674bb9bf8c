"""Tables and notes that fill columns from the top and continue in the next column, or on the next page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate, chain, dropwhile

from generator.drafting.ink import Align, Ink, Line, Text, move
from generator.drafting.page import text_width, wrap
from generator.model.geometry import Point

Box = tuple[float, float, float, float]
"""(left, bottom, right, top) on paper, mm."""

TEXT = 2.5
"""mm: height of capitals, the least that this set uses (ISO 3098 series; from memory)."""
PITCH = 4.0
"""mm from line to line of TEXT."""
PAD = 1.0
"""mm at either side of a cell."""
ROW = 0.6
"""mm between the writing of a row and the rule below it, beside the line spacing."""


@dataclass(frozen=True, slots=True)
class Block:
    """A strip of ink, its top-left corner at (0, 0). `head` is repeated above it at the top of a column."""

    height: float
    ink: tuple[Ink, ...]
    head: tuple[Block, ...] = ()
    glued: bool = False
    """True: never the last of its column."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: `share` is its part of the width, in any unit."""

    title: str
    share: float
    align: Align = "left"


def lines_of(text: str, width: float, height: float = TEXT, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width`; a word that is wider is broken behind a hyphen, or where it must."""
    return tuple(piece for line in wrap(text, height, width, bold) for piece in _broken(line, width, height, bold))


def _broken(line: str, width: float, height: float, bold: bool) -> tuple[str, ...]:
    if text_width(line, height, bold) <= width:
        return (line,)
    keep = next((i for i in range(len(line) - 1, 1, -1) if text_width(line[:i], height, bold) <= width), 1)
    keep = line.rfind("-", 0, keep) + 1 or keep
    return (line[:keep], *_broken(line[keep:], width, height, bold))


def heading(text: str, width: float, height: float = 3.5) -> Block:
    """A bold line that stays with what follows it."""
    lines = lines_of(text, width, height, bold=True)
    ink = tuple(Text((0.0, -(i + 1) * 1.5 * height + 0.2), line, height, bold=True) for i, line in enumerate(lines))
    return Block((len(lines) * 1.5 + 0.3) * height + 1.0, ink, glued=True)


def prose(text: str, width: float, bold: bool = False, indent: float = 0.0) -> Block:
    """A paragraph of small text with a little space below it."""
    lines = lines_of(text, width - indent, TEXT, bold)
    ink = tuple(Text((indent, -(i + 1) * PITCH + 1.0), line, TEXT, bold=bold) for i, line in enumerate(lines))
    return Block(len(lines) * PITCH + 1.2, ink)


def gap(height: float) -> Block:
    """Empty space."""
    return Block(height, ())


def table(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float, title: str = "") -> tuple[Block, ...]:
    """Blocks of a table: its title, its head, a block a row; the head is repeated wherever it continues."""
    widths = [width * c.share / sum(c.share for c in columns) for c in columns]
    aligns = [c.align for c in columns]
    head = _row([c.title for c in columns], widths, aligns, bold=True)
    top = (heading(title, width),) if title else ()
    body = tuple(_with_head(_row(row, widths, aligns), head) for row in rows)
    return (*top, head, *body, gap(3.0))


def _with_head(row: Block, head: Block) -> Block:
    return Block(row.height, row.ink, (head,))


def _row(cells: Sequence[str], widths: Sequence[float], aligns: Sequence[Align], bold: bool = False) -> Block:
    columns = [lines_of(cell, w - 2 * PAD, TEXT, bold) for cell, w in zip(cells, widths, strict=True)]
    height = max(1, *(len(lines) for lines in columns)) * PITCH + ROW
    rule = Line((0.0, -height), (sum(widths), -height), "visible" if bold else "light")
    ink: list[Ink] = [rule]
    for i, (lines, align) in enumerate(zip(columns, aligns, strict=True)):
        left, right = sum(widths[:i]) + PAD, sum(widths[: i + 1]) - PAD
        x = {"left": left, "right": right, "centre": (left + right) / 2}[align]
        ink += [Text((x, -(j + 1) * PITCH + 0.6), line, TEXT, align, bold=bold) for j, line in enumerate(lines)]
    return Block(height, tuple(ink), glued=bold)


def flow(blocks: Sequence[Block], boxes: Iterable[Box]) -> tuple[tuple[Ink, ...], ...]:
    """The blocks as ink, box after box, until none is left; one tuple of ink for each box used."""
    return tuple(tuple(chain(*(move(b.ink, *at) for b, at in column))) for column in spread_out(blocks, boxes))


def spread_out(blocks: Sequence[Block], boxes: Iterable[Box]) -> tuple[tuple[tuple[Block, Point], ...], ...]:
    """The blocks with their upper left corners, box after box, until none is left; one tuple for each box used."""
    filled: list[tuple[tuple[Block, Point], ...]] = []
    rest = tuple(blocks)
    for box in boxes:
        if not rest:
            break
        column, rest = _fill(rest, box)
        rest = tuple(dropwhile(lambda block: not block.ink, rest))
        filled.append(column)
    return tuple(filled)


def _fill(blocks: tuple[Block, ...], box: Box) -> tuple[tuple[tuple[Block, Point], ...], tuple[Block, ...]]:
    count = _fitting(blocks, box[3] - box[1])
    column = (*blocks[0].head, *blocks[:count])
    tops = accumulate((-block.height for block in column), initial=box[3])
    return tuple((block, (box[0], y)) for block, y in zip(column, tops, strict=False)), blocks[count:]


def _fitting(blocks: tuple[Block, ...], height: float) -> int:
    """How many blocks go into a column of that height: at least one, and none that is glued to the next alone."""
    used = sum(b.height for b in blocks[0].head)
    count = 0
    for block in blocks:
        used += block.height
        if used > height + 1e-6 and count:
            break
        count += 1
    if count == len(blocks):
        return count
    return next((n for n in range(count, 0, -1) if not blocks[n - 1].glued), count)


def columns_of(box: Box, least: float, between: float = 7.0) -> tuple[Box, ...]:
    """The box in as many equal columns as leave each at least `least` mm wide."""
    left, bottom, right, top = box
    count = max(1, int((right - left + between) // (least + between)))
    width = (right - left - (count - 1) * between) / count
    return tuple(
        (left + i * (width + between), bottom, left + i * (width + between) + width, top) for i in range(count)
    )
