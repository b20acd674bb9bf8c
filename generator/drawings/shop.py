"""Shop drawing of every board: front, back, section, every cut from the same two edges, what it is made of."""

from __future__ import annotations

from itertools import chain, cycle

from generator.drafting.inview import InView
from generator.drawings.elevation import COLUMN, pages_of
from generator.drawings.flow import Box, columns_of, flow
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.scales import Scale, standard_scales
from generator.drawings.section import section_view
from generator.drawings.shop_notes import shop_notes
from generator.drawings.shop_small import cell_of, small_leaves
from generator.drawings.shop_views import FACES, face_view, furniture, placed, size_on_paper
from generator.drawings.stamp import stamp
from generator.model.geometry import Point
from generator.model.job import Job
from generator.model.plan import Board
from generator.units import PaperUnits

KIND = "Shop drawing"
PANEL = 96.0
"""mm: width of the panel of notes."""
BETWEEN = 9.0
"""mm between views, and between views and panel."""
SECTION = 58.0
"""mm of height that the section takes."""
LEAST = 24.0
"""mm: a space that is less high is left empty."""
Arrangement = tuple[Scale, tuple[Point, Point]]


def shop_leaves(job: Job) -> tuple[Leaf, ...]:
    """The shop drawings of all boards, wall by wall, then by mark; small ones after the large, several to a sheet."""
    order = {wall.id: i for i, wall in enumerate(job.plan.walls)}
    boards = sorted(job.plan.boards, key=lambda b: (order[b.wall], b.id))
    small = {board.id: cell for board in boards if (cell := cell_of(job, board))}
    cells = small if len(small) > 1 else {}  # a small board with none to share a sheet with is drawn as large ones are
    large = (leaf for board in boards if board.id not in cells for leaf in _shop(job, board))
    return (*large, *small_leaves(job, KIND, tuple(cells.values())))


def _shop(job: Job, board: Board) -> tuple[Leaf, ...]:
    """At the largest standard scale; at the next smaller one where that saves a further sheet of notes."""
    left, bottom, right, top = area(job, stamp(job, board.wall))
    space = (right - PANEL - BETWEEN - left, top - bottom)
    fitting = _arrangements(board, job.room.choices.paper_units, space)[:2]
    drawn = [_drawn(job, board, arrangement) for arrangement in fitting]
    return next((leaves for leaves in drawn if len(leaves) == 1), drawn[0])


def _drawn(job: Job, board: Board, arrangement: Arrangement) -> tuple[Leaf, ...]:
    (scale, corners), warning, units = arrangement, stamp(job, board.wall), job.room.choices.paper_units
    left, bottom, right, top = area(job, warning)
    edges = tuple(e for e in job.plan.edges if e.board == board.id)
    views: list[InView] = []
    for face, (dx, dy) in zip(FACES, corners, strict=True):
        on_paper = placed(board, face, units, scale.factor, (left + dx, top - dy))
        views.append(face_view(on_paper, edges, job.projections.get(f"{face}:{board.id}")))
    heights = (size_on_paper(board, face, units, scale.factor)[1] for face in FACES)
    used = max(dy + height for height, (_, dy) in zip(heights, corners, strict=True))
    under = (left, bottom, left + PANEL, top - used - 4.0)
    panel = (right - PANEL, bottom, right, top)
    section = job.sections.get(board.id)
    if section:
        under, panel, cut = _room_for_section(under, panel)
        views.append(section_view(job, board, section, cut))
    boxes = [panel, under] if under[3] - under[1] >= LEAST else [panel]
    columns = columns_of((left, bottom, right, top), COLUMN)
    filled = flow(shop_notes(job, board, edges, scale, PANEL), chain(boxes, cycle(columns)))
    title, count = f"Board {board.id}", len(boxes)
    first = Leaf(KIND, title, scale.text, tuple(chain(*filled[:count])), warning, tuple(views))
    return (first, *pages_of(KIND, f"{title}{CONTINUED}", filled[count:], len(columns), warning))


def _room_for_section(under: Box, panel: Box) -> tuple[Box, Box, Box]:
    """(rest under the views, panel, section): under the views if there is room, else at the foot of the panel."""
    if under[3] - under[1] >= SECTION:
        return (under[0], under[1], under[2], under[1]), panel, under
    left, bottom, right, top = panel
    return under, (left, bottom + SECTION + 4.0, right, top), (left, bottom, right, bottom + SECTION)


def _arrangements(board: Board, units: PaperUnits, space: Point) -> tuple[Arrangement, ...]:
    """Standard scales at which both faces fit, largest first, with the offsets of the faces' upper left corners."""
    scales = standard_scales(units)
    found = tuple((scale, corners) for scale in scales if (corners := _corners(board, units, space, scale.factor)))
    return found or ((scales[-1], ((0.0, 0.0), (space[0] / 2, 0.0))),)


def _corners(board: Board, units: PaperUnits, space: Point, scale: float) -> tuple[Point, Point] | None:
    """Beside each other if they fit so, else above each other, else None."""
    (w0, h0), (w1, h1) = (size_on_paper(board, face, units, scale) for face in FACES)
    if w0 + BETWEEN + w1 <= space[0] and max(h0, h1) <= space[1]:
        return ((0.0, 0.0), (w0 + BETWEEN, 0.0))
    indent = furniture(board, "front", units)[0]
    if max(w0, indent + w1) <= space[0] and h0 + BETWEEN + h1 <= space[1]:
        return ((0.0, 0.0), (indent, h0 + BETWEEN))
    return None
