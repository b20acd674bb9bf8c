"""A label for every part, on plain paper with lines to cut along: what it is, where it goes, which way is up.

The code beside the words says the same words. Labels stand in the order in which the parts are cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drafting.code import code_ink
from generator.drafting.ink import Ink, Line, Outline, Text, move
from generator.drafting.page import Page, paragraph, shortened, text_width, wrap
from generator.drawings.handed import handed
from generator.drawings.stamp import NOT_FOR_CUTTING, stamp
from generator.model.geometry import Point, box
from generator.model.job import Job
from generator.model.plan import Board, PlannedWall
from generator.model.profiles import LabelProfile, PaperProfile
from generator.units import size_named, thickness_named

HEAD = 9.0
"""mm above the labels for the words of the page."""
PAD = 3.0
"""mm from the lines to cut along to the ink of a label."""
CODE = 36.0
"""mm: side of the square that the code and its quiet zone take."""
MARK = (7.0, 6.0, 5.0, 4.0, 3.2, 2.5)
"""Heights of the mark in mm, the largest that fits."""
PLAIN = (3.0, 2.8, 2.5)
"""Heights of the other words in mm: one for all, the largest that fits."""
PITCH = 1.4
BESIDE = 2.0
"""mm between the words and the code."""
GAP = 2.8
"""mm under the mark."""
STAMP = 3.0
"""Height of the stamp in mm."""


@dataclass(frozen=True, slots=True)
class PartLabel:
    """What a label says: the stamp of a failed wall or "", the mark, further lines; `up`: the word at its arrow."""

    stamp: str
    mark: str
    lines: tuple[str, ...]
    up: str

    @property
    def text(self) -> str:
        """All that it says, as the code holds it."""
        return "\n".join(line for line in (self.stamp, self.mark, *self.lines) if line)


def label_pages(job: Job) -> tuple[Page, ...]:
    """The labels of all boards on the first paper of the room's templates, upright."""
    paper, profile = job.room.choices.papers[0], job.room.choices.label
    cells = _cells(paper, profile)
    labels = part_labels(job)
    sheets = [labels[i : i + len(cells)] for i in range(0, len(labels), len(cells))]
    return tuple(_page(job, sheet, cells, i + 1, len(sheets)) for i, sheet in enumerate(sheets))


def part_labels(job: Job) -> tuple[PartLabel, ...]:
    """The labels, sheet by sheet, on a sheet by mark."""
    hands = {
        mark: f"{part.hand.upper()} hand; {part.mirror} is its mirror image" for mark, part in handed(job.plan).items()
    }
    boards = sorted(job.plan.boards, key=lambda b: (b.sheet_id, b.id))
    return tuple(_label(job, board, hands.get(board.id, "")) for board in boards)


def _label(job: Job, board: Board, hand: str) -> PartLabel:
    width, wall = job.room.choices.label.width - 2 * PAD, job.plan.wall(board.wall)
    up = "UP" if wall.v_axis[2] > 0.5 else "TOP"
    lines = (
        shortened(f"{job.room.job.number} {job.room.name}".strip(), PLAIN[-1], width - CODE - BESIDE),
        f"{_place(wall)}, sheet {board.sheet_id}",
        _size(job, board),
        _material(job, board),
        hand,
        _where(job, board, up),
    )
    return PartLabel(
        shortened(stamp(job, board.wall).partition(" (and ")[0], STAMP, 2 * width * 0.9, bold=True),  # one why will do
        board.id,
        tuple(line for line in lines if line),
        up,
    )


def _place(wall: PlannedWall) -> str:
    return f"wall {wall.id}" if wall.feature_id is None else f"{wall.feature_id}, {wall.face}"


def _size(job: Job, board: Board) -> str:
    left, bottom, right, top = box(board.outline)
    return size_named((right - left, top - bottom), job.room.choices.paper_units)


def _material(job: Job, board: Board) -> str:
    """What it is made of, in the words before the first comma: its coating shows, and words cut off say nothing."""
    stock = next((s.material for s in job.plan.stocks if s.id == board.stock_id), board.stock_id).split(",")[0]
    stock = shortened(stock, PLAIN[-1], job.room.choices.label.width - 2 * PAD - CODE - BESIDE)
    return f"{stock}, {thickness_named(board.thickness, job.room.choices.paper_units)} thick"


def _where(job: Job, board: Board, up: str) -> str:
    """On the back, where nothing has to bond to it, unless the back itself is bedded."""
    arrow = "arrow up" if up == "UP" else "arrow to the top of its drawing"
    if is_bonded(job, board):
        return f"Stick on FRONT, {arrow}; peel off before sealing."
    return f"Stick on BACK, {arrow}."


def is_bonded(job: Job, board: Board) -> bool:
    """True where mortar must hold the board's back: on masonry, and where no screw may go."""
    masonry = next(w.masonry for w in job.room.walls if w.id == board.wall) is not None
    return masonry or not any(board.id in screw.board_ids for screw in job.plan.fasteners)


def _cells(paper: PaperProfile, profile: LabelProfile) -> tuple[Point, ...]:
    """Lower left corners of the labels that one sheet of upright paper takes, row by row from the upper left."""
    wide, high = sorted((paper.width, paper.height))
    across = max(1, int((wide - 2 * paper.margin) / profile.width + 1e-9))
    down = max(1, int((high - 2 * paper.margin - HEAD) / profile.height + 1e-9))
    left, top = (wide - across * profile.width) / 2, high - paper.margin - HEAD
    return tuple((left + i * profile.width, top - (j + 1) * profile.height) for j in range(down) for i in range(across))


def _page(job: Job, labels: Sequence[PartLabel], cells: Sequence[Point], number: int, of: int) -> Page:
    paper, profile = job.room.choices.papers[0], job.room.choices.label
    wide, high = sorted((paper.width, paper.height))
    ink: list[Ink] = [*_head(job, cells[0][0], (wide, high), f"{number} of {of}")]
    ink += _cut_lines(cells[: len(labels)], profile)
    for words, corner in zip(labels, cells, strict=False):
        ink += move(_drawn(words, profile), *corner)
    title = f"Labels, page {number} of {of}"
    return Page(f"L{number}", title, wide, high, "none", tuple(ink))


def _head(job: Job, left: float, size: Point, count: str) -> tuple[Ink, ...]:
    """What the page is, and on the pages of a failed room which parts are not for cutting."""
    walls = ", ".join(w.id for w in job.plan.walls if w.id in job.failed)
    failed = f"{NOT_FOR_CUTTING}: boards of {walls}. " if walls else ""
    paper = job.room.choices.papers[0]
    text = f"{failed}Labels of {job.room.name}, page {count}. Cut along the lines. Arrows point up on the wall."
    lines = wrap(text, 2.5, size[0] - 2 * left, bold=bool(failed))[:2]
    return paragraph(lines, (left, size[1] - paper.margin - 2.5), 2.5, bold=bool(failed), pitch=1.4)


def _cut_lines(corners: Sequence[Point], profile: LabelProfile) -> tuple[Line, ...]:
    """The border of the labels and the lines between them, each drawn once."""
    w, h = profile.width, profile.height
    sides = {((x, y + dy), (x + w, y + dy)) for x, y in corners for dy in (0.0, h)}
    sides |= {((x + dx, y), (x + dx, y + h)) for x, y in corners for dx in (0.0, w)}
    return tuple(Line(p, q, "register") for p, q in sorted(sides))


def _drawn(words: PartLabel, profile: LabelProfile) -> tuple[Ink, ...]:
    """One label with its lower left corner at 0, 0."""
    right, top = profile.width - PAD, profile.height - PAD
    stamped = wrap(words.stamp, STAMP, right - PAD, bold=True)
    heading = paragraph(stamped, (PAD, top - STAMP), STAMP, bold=True, pitch=PITCH)
    top -= len(stamped) * PITCH * STAMP + (1.5 if stamped else 0.0)
    return (
        *heading,
        *_words(words, profile.width - 2 * PAD - CODE - BESIDE, top),
        *_arrow(words.up, (right - CODE / 2, PAD + CODE + 1.0), top),
        *move(code_ink(words.text, CODE, profile.module), right - CODE, PAD),
    )


def _words(words: PartLabel, width: float, top: float) -> tuple[Ink, ...]:
    """The mark and the lines as large as they fit; the lines shrink first."""
    marks = [h for h in MARK if text_width(words.mark, h, bold=True) <= width] or [MARK[-1]]
    sizes = [(mark, plain) for mark in marks for plain in PLAIN]
    big, height = next((s for s in sizes if _depth(words, s, width) <= top - PAD), sizes[-1])
    mark = Text((PAD, top - big), words.mark, big, bold=True)
    return (mark, *paragraph(_wrapped(words, height, width), (PAD, top - big - GAP - height), height, pitch=PITCH))


def _depth(words: PartLabel, size: tuple[float, float], width: float) -> float:
    """mm that the mark and the lines take at these heights."""
    mark, plain = size
    return mark + GAP + len(_wrapped(words, plain, width)) * PITCH * plain


def _wrapped(words: PartLabel, height: float, width: float) -> tuple[str, ...]:
    return tuple(part for line in words.lines for part in wrap(line, height, width))


def _arrow(word: str, foot: Point, top: float) -> tuple[Ink, ...]:
    """From `foot` upwards to `top`, the word at its right."""
    (x, y), half = foot, 2.2
    shaft = Line((x, y), (x, top - half), "outline")
    head = Outline(((x - half, top - 2 * half), (x + half, top - 2 * half), (x, top)), "outline", fill=0.0)
    return (shaft, head, Text((x + half + 1.5, (y + top) / 2), word, 3.0, level="middle", bold=True))
