"""Shop drawing of every board: front, back, section, every cut from the same two edges, what it is made of."""

from __future__ import annotations

from itertools import chain, cycle

from generator.drafting.inview import InView
from generator.drafting.page import text_width
from generator.drawings.elevation import COLUMN, pages_of
from generator.drawings.flow import Block, Box, Column, columns_of, flow, heading, prose, table
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.said import weight_text
from generator.drawings.scales import Scale, standard_scales
from generator.drawings.section import section_view
from generator.drawings.shop_views import TITLE, TITLES, Face, face_view, furniture, placed
from generator.drawings.stamp import stamp
from generator.model.ends import is_upright
from generator.model.geometry import TOUCH, Point, Ring, box
from generator.model.job import Job
from generator.model.plan import Board, Edge, Opening
from generator.units import Units, label, label_opening

KIND = "Shop drawing"
PANEL = 96.0
"""mm: width of the panel of notes."""
BETWEEN = 9.0
"""mm between views, and between views and panel."""
SECTION = 58.0
"""mm of height that the section takes."""
LEAST = 24.0
"""mm: a space that is less high is left empty."""
FACES: tuple[Face, Face] = ("front", "back")
Size = tuple[float, float]
Arrangement = tuple[Scale, tuple[Point, Point]]


def shop_leaves(job: Job) -> tuple[Leaf, ...]:
    """The shop drawings of all boards: wall by wall, then by mark."""
    order = {wall.id: i for i, wall in enumerate(job.plan.walls)}
    boards = sorted(job.plan.boards, key=lambda b: (order[b.wall], b.id))
    return tuple(leaf for board in boards for leaf in _shop(job, board))


def _shop(job: Job, board: Board) -> tuple[Leaf, ...]:
    """At the largest standard scale; at the next smaller one where that saves a further sheet of notes."""
    left, bottom, right, top = area(job, stamp(job, board.wall))
    space = (right - PANEL - BETWEEN - left, top - bottom)
    fitting = _arrangements(board, job.room.choices.drawing_units, space)[:2]
    drawn = [_drawn(job, board, arrangement) for arrangement in fitting]
    return next((leaves for leaves in drawn if len(leaves) == 1), drawn[0])


def _drawn(job: Job, board: Board, arrangement: Arrangement) -> tuple[Leaf, ...]:
    (scale, corners), warning, units = arrangement, stamp(job, board.wall), job.room.choices.drawing_units
    left, bottom, right, top = area(job, warning)
    edges = tuple(e for e in job.plan.edges if e.board == board.id)
    views: list[InView] = []
    for face, (dx, dy) in zip(FACES, corners, strict=True):
        on_paper = placed(board, face, units, scale.factor, (left + dx, top - dy))
        views.append(face_view(on_paper, edges, job.projections.get(f"{face}:{board.id}")))
    used = max(dy + _size(board, face, units, scale.factor)[1] for face, (_, dy) in zip(FACES, corners, strict=True))
    under = (left, bottom, left + PANEL, top - used - 4.0)
    panel = (right - PANEL, bottom, right, top)
    section = job.sections.get(board.id)
    if section:
        under, panel, cut = _room_for_section(under, panel)
        views.append(section_view(board, section, units, cut))
    boxes = [panel, under] if under[3] - under[1] >= LEAST else [panel]
    columns = columns_of((left, bottom, right, top), COLUMN)
    filled = flow(_notes(job, board, edges, scale, PANEL), chain(boxes, cycle(columns)))
    title, count = f"Board {board.id}", len(boxes)
    first = Leaf(KIND, title, scale.text, tuple(chain(*filled[:count])), warning, tuple(views))
    return (first, *pages_of(KIND, f"{title}{CONTINUED}", filled[count:], len(columns), warning))


def _room_for_section(under: Box, panel: Box) -> tuple[Box, Box, Box]:
    """(rest under the views, panel, section): under the views if there is room, else at the foot of the panel."""
    if under[3] - under[1] >= SECTION:
        return (under[0], under[1], under[2], under[1]), panel, under
    left, bottom, right, top = panel
    return under, (left, bottom + SECTION + 4.0, right, top), (left, bottom, right, bottom + SECTION)


def _arrangements(board: Board, units: Units, space: Size) -> tuple[Arrangement, ...]:
    """Standard scales at which both faces fit, largest first, with the offsets of the faces' upper left corners."""
    scales = standard_scales(units)
    found = tuple((scale, corners) for scale in scales if (corners := _corners(board, units, space, scale.factor)))
    return found or ((scales[-1], ((0.0, 0.0), (space[0] / 2, 0.0))),)


def _corners(board: Board, units: Units, space: Size, scale: float) -> tuple[Point, Point] | None:
    """Beside each other if they fit so, else above each other, else None."""
    (w0, h0), (w1, h1) = (_size(board, face, units, scale) for face in FACES)
    if w0 + BETWEEN + w1 <= space[0] and max(h0, h1) <= space[1]:
        return ((0.0, 0.0), (w0 + BETWEEN, 0.0))
    indent = furniture(board, "front", units)[0]
    if max(w0, indent + w1) <= space[0] and h0 + BETWEEN + h1 <= space[1]:
        return ((0.0, 0.0), (indent, h0 + BETWEEN))
    return None


def _size(board: Board, face: Face, units: Units, scale: float) -> Size:
    left, bottom, right, top = box(board.outline)
    beside, below = furniture(board, face, units)
    width = max((right - left) * scale, text_width(TITLES[face], 2.5, bold=True))
    return (width + beside, (top - bottom) * scale + below + TITLE)


def _notes(job: Job, board: Board, edges: tuple[Edge, ...], scale: Scale, width: float) -> tuple[Block, ...]:
    how = (
        f"A is {_A[_is_skew(board)]}: every cut runs from these two. The back is drawn as seen "
        "from behind, so A is at its right. Grey: rabbet. Double line: factory edge, never cut."
    )
    return (
        heading(f"Board {board.id}", width, 5.0),
        prose(f"Views at {scale.text}", width),
        prose(how, width),
        *_part_table(job, board, width),
        *_opening_table(board, job.room.choices.drawing_units, width),
        *_rabbet_table(board, job.room.choices.drawing_units, width),
        *_edge_table(job, board, edges, width),
    )


_A = {
    False: "the left edge of the face, B the lower edge",
    True: "an upright line at the leftmost point of the face, B a level line at its lowest: strike both square first",
}


def _is_skew(board: Board) -> bool:
    """True where a side neither stands plumb nor lies level."""
    ring = board.outline
    return any(min(abs(p[0] - q[0]), abs(p[1] - q[1])) > TOUCH for p, q in zip(ring, (*ring[1:], ring[0]), strict=True))


def _part_table(job: Job, board: Board, width: float) -> tuple[Block, ...]:
    units = job.room.choices.drawing_units
    left, bottom, right, top = box(board.outline)
    stock = next((s for s in job.plan.stocks if s.id == board.stock_id), None)
    of = f"{board.stock_id}, {stock.material}" if stock else board.stock_id
    rows = (
        ("Wall", board.wall),
        ("Stock", f"{of}, {label(board.thickness, units)} thick, sheet {board.sheet_id}"),
        ("Size", f"{label(right - left, units)} x {label(top - bottom, units)}"),
        ("Weight", weight_text(board.weight_kg, units)),
    )
    return table((Column("Part", 20), Column(board.id, 80)), rows, width)


def _from_edges(board: Board, point: Point, units: Units) -> tuple[str, str]:
    left, bottom, _, _ = box(board.outline)
    return label(point[0] - left, units), label(point[1] - bottom, units)


def _opening_table(board: Board, units: Units, width: float) -> tuple[Block, ...]:
    rows = [(o.id, *_from_edges(board, o.centre, units), _size_of(o, units)) for o in board.openings]
    columns = (Column("Opening", 30), Column("From A", 22), Column("From B", 22), Column("Size", 26))
    return table(columns, rows, width, "Openings, to their centres") if rows else ()


def _size_of(opening: Opening, units: Units) -> str:
    if opening.diameter:
        return f"{label_opening(opening.diameter, units)} dia."
    left, bottom, right, top = box(opening.ring)
    return f"{label(right - left, units)} x {label(top - bottom, units)}"


def _rabbet_table(board: Board, units: Units, width: float) -> tuple[Block, ...]:
    rows = []
    for r in board.rabbets:
        left, bottom, right, top = box(r.ring)
        (u0, v0), (u1, v1) = _from_edges(board, (left, bottom), units), _from_edges(board, (right, top), units)
        tops = [_from_edges(board, point, units)[1] for point in _upper_ends(r.ring)]
        high = v1 if tops[0] == tops[1] else f"{tops[0]} at left, {tops[1]} at right"
        rows.append((r.face, f"{u0} to {u1}", f"{v0} to {high}", label(r.depth, units)))
    columns = (Column("Face", 14), Column("From A", 36), Column("From B", 30), Column("Depth", 20))
    return table(columns, rows, width, "Rabbets") if rows else ()


def _upper_ends(ring: Ring) -> tuple[Point, Point]:
    """Left and right end of the upper side of a ring."""
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    upper = [point for p, q in sides if q[0] < p[0] and not is_upright(p, q) for point in (p, q)]
    return min(upper), max(upper)


def _edge_table(job: Job, board: Board, edges: tuple[Edge, ...], width: float) -> tuple[Block, ...]:
    units = job.room.choices.drawing_units
    rows = [
        (
            ", ".join(_from_edges(board, e.p, units)),
            ", ".join(_from_edges(board, e.q, units)),
            e.role,
            "factory" if e.id in board.factory_edges else "cut",
        )
        for e in edges
    ]
    columns = (Column("Edge from A, B", 32), Column("to A, B", 32), Column("Is", 20), Column("Made", 16))
    return table(columns, rows, width, "Edges") if rows else ()
