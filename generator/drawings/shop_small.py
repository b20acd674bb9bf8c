"""Shop drawings of small boards, several to a sheet: faces of niches, caps, sides of curbs, strips beside doors."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from generator.drafting.ink import Ink, Line, move
from generator.drafting.inview import InView
from generator.drawings.flow import Block, Box, Column, flow, heading, prose, table
from generator.drawings.leaf import Leaf, area
from generator.drawings.scales import Scale, standard_scales
from generator.drawings.shop_notes import from_edges, opening_table, size_words, slants
from generator.drawings.shop_views import FACES, face_view, furniture, placed, size_on_paper
from generator.drawings.stamp import stamp
from generator.model.geometry import Point
from generator.model.job import Job
from generator.model.plan import Board, Edge
from generator.units import PaperUnits, label_thickness

SHARE = 0.33
"""Of a sheet: a board that needs more has a sheet of its own."""
LEAST = 1 / 12
"""Smallest scale: a board that needs its sheet for itself at this scale is not small."""
LARGE = 1 / 8
"""Scale at which a sixth of a sheet will do."""
TABLE = 50.0
"""mm: width of the short table."""
HEAD = 13.5
"""mm above a board's views for its heading and scale."""
BETWEEN = 8.0
"""mm between views, and between a view and the table beside it."""
AROUND = 9.0
"""mm between two boards."""
HOW = (
    "A is the left edge of the face, B the lower edge; where a side is askew, an upright line at its leftmost point "
    "and a level line at its lowest: strike both square first. Every cut runs from these two. The back is drawn as "
    "seen from behind, so A is at its right. Slant: from A, B to A, B. Double line: factory edge, never cut."
)


@dataclass(frozen=True, slots=True)
class Cell:
    """A board at its scale with its table: `faces` and `notes` are upper left corners, from the cell's own."""

    board: Board
    scale: Scale
    faces: tuple[Point, Point]
    notes: Point
    size: Point


def cell_of(job: Job, board: Board) -> Cell | None:
    """The board's place on a shared sheet, a sixth of it if that will do; None: too large.

    A board with a rabbet is never small: its section needs room.
    """
    if board.rabbets:
        return None
    left, bottom, right, top = _space(job, stamp(job, board.wall))
    wide, high = right - left, top - bottom
    row = (high - AROUND) / 2
    spaces = (((wide - 2 * AROUND) / 3, row, LARGE), ((wide - AROUND) / 2, row, LEAST), (wide, high, LEAST))
    found = (_largest(job, board, (w, h), SHARE * wide * high, least) for w, h, least in spaces)
    return next((cell for cell in found if cell), None)


def _largest(job: Job, board: Board, space: Point, most: float, least: float) -> Cell | None:
    """At the largest scale at which it fits the space and takes no more than so many square mm."""
    for scale in (s for s in standard_scales(job.room.choices.paper_units) if s.factor >= least - 1e-9):
        inside = (c for c in _cells(job, board, scale) if c.size[0] <= space[0] and c.size[1] <= space[1])
        if small := [c for c in inside if c.size[0] * c.size[1] <= most]:
            return min(small, key=lambda c: c.size[0] * c.size[1])
    return None


def _cells(job: Job, board: Board, scale: Scale) -> Iterator[Cell]:
    """Faces beside or above each other, the table beside or below them."""
    units, high = job.room.choices.paper_units, sum(block.height for block in _notes(job, board))
    for faces, (w, h) in _faces(board, units, scale.factor):
        down = tuple((x, y + HEAD) for x, y in faces)
        yield Cell(board, scale, down, (w + BETWEEN, 0.0), (w + BETWEEN + TABLE, max(HEAD + h, high)))  # type: ignore[arg-type]
        yield Cell(board, scale, down, (0.0, HEAD + h + 3.0), (max(w, TABLE), HEAD + h + 3.0 + high))  # type: ignore[arg-type]


def _faces(board: Board, units: PaperUnits, scale: float) -> Iterator[tuple[tuple[Point, Point], Point]]:
    """Upper left corners of front and back, and the size of both together."""
    (w0, h0), (w1, h1) = (size_on_paper(board, face, units, scale) for face in FACES)
    yield ((0.0, 0.0), (w0 + BETWEEN, 0.0)), (w0 + BETWEEN + w1, max(h0, h1))
    indent = furniture(board, "front", units)[0]
    yield ((0.0, 0.0), (indent, h0 + BETWEEN)), (max(w0, indent + w1), h0 + BETWEEN + h1)


def _notes(job: Job, board: Board) -> tuple[Block, ...]:
    units, edges = job.room.choices.paper_units, tuple(e for e in job.plan.edges if e.board == board.id)
    rows = (
        ("Size", f"{size_words(board, units)}, {label_thickness(board.thickness, units)} thick"),
        ("Sheet", f"{board.sheet_id}, {board.stock_id}"),
        ("Wall", board.wall),
        ("Edges", _made(board, edges)),
        *(("Slant", " to ".join(", ".join(from_edges(board, p, units)) for p in side)) for side in slants(board)),
    )
    columns = (Column("Part", 13), Column(board.id, 37))
    return (*table(columns, rows, TABLE), *opening_table(board, units, TABLE))


def _made(board: Board, edges: Sequence[Edge]) -> str:
    factory = sum(e.id in board.factory_edges for e in edges)
    return f"{factory} of {len(edges)} factory, others cut" if factory else f"all {len(edges)} cut"


def small_leaves(job: Job, kind: str, cells: Sequence[Cell]) -> tuple[Leaf, ...]:
    """Sheets of small boards; boards of failed walls keep to sheets with their own stamp."""
    stamps = dict.fromkeys(stamp(job, cell.board.wall) for cell in cells)
    return tuple(
        _sheet(job, kind, text, placed_cells)
        for text in stamps
        for placed_cells in _sheets([c for c in cells if stamp(job, c.board.wall) == text], _space(job, text))
    )


def _space(job: Job, warning: str) -> Box:
    """What the line of explanation leaves of a sheet."""
    left, bottom, right, top = area(job, warning)
    return left, bottom, right, top - prose(HOW, right - left).height - 2.0


@dataclass(slots=True)
class _Row:
    """Boards beside each other while they are being placed: their sheet, upper edge, and where the next begins."""

    sheet: int
    top: float
    used: float


Set = tuple[tuple[Cell, Point], ...]
"""The cells of one sheet, each with its upper left corner on paper."""


def _sheets(cells: Iterable[Cell], space: Box) -> tuple[Set, ...]:
    """In rows, high boards first: each board in the first row, each row on the first sheet, that has room for it."""
    left, bottom, right, top = space
    rows: list[_Row] = []
    free: list[float] = []
    sheets: list[list[tuple[Cell, Point]]] = []
    for cell in sorted(cells, key=lambda c: -c.size[1]):
        row = next((r for r in rows if r.used + cell.size[0] <= right + 1e-6), None)
        if row is None:
            number = next((i for i, y in enumerate(free) if y - cell.size[1] >= bottom - 1e-6), len(free))
            if number == len(free):
                free.append(top)
                sheets.append([])
            row = _Row(number, free[number], left)
            rows.append(row)
            free[number] -= cell.size[1] + AROUND
        sheets[row.sheet].append((cell, (row.used, row.top)))
        row.used += cell.size[0] + AROUND
    return tuple(tuple(sheet) for sheet in sheets)


def _sheet(job: Job, kind: str, warning: str, cells: Set) -> Leaf:
    left, _, right, top = area(job, warning)
    title = f"Board{'s' * (len(cells) > 1)} {', '.join(cell.board.id for cell, _ in cells)}"
    texts = {cell.scale.text for cell, _ in cells}
    scale = "as shown" if len(texts) > 1 else texts.pop()
    views = tuple(view for cell, at in cells for view in _views(job, cell, at))
    said = flow((prose(HOW, right - left),), [(left, 0.0, right, top)])[0]
    return Leaf(kind, title, scale, (*said, *chain(*(_words(job, cell, at) for cell, at in cells))), warning, views)


def _views(job: Job, cell: Cell, at: Point) -> Iterator[InView]:
    board, units = cell.board, job.room.choices.paper_units
    edges = tuple(e for e in job.plan.edges if e.board == board.id)
    for face, (dx, dy) in zip(FACES, cell.faces, strict=True):
        on_paper = placed(board, face, units, cell.scale.factor, (at[0] + dx, at[1] - dy))
        yield face_view(on_paper, edges, job.projections.get(f"{face}:{board.id}"))


def _words(job: Job, cell: Cell, at: Point) -> tuple[Ink, ...]:
    """Heading and scale over the views, the table in its place, a thin line above all."""
    (x, y), (dx, dy), (w, h) = at, cell.notes, cell.size
    head = (heading(f"Board {cell.board.id}", w), prose(f"Views at {cell.scale.text}", w))
    told = flow(head, [(x, y - HEAD, x + w, y)])
    notes = flow(_notes(job, cell.board), [(x + dx, y - h, x + dx + TABLE, y - dy)])
    rule = Line((0.0, 2.5), (w, 2.5), "light")
    return (*chain(*told, *notes), *move((rule,), x, y))
