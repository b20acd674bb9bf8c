"""What is written beside a board's shop drawing: what it is made of, its openings, rabbets and edges."""

from __future__ import annotations

from generator.drawings.flow import Block, Column, heading, prose, table
from generator.drawings.said import weight_text
from generator.drawings.scales import Scale
from generator.model.ends import upper_side
from generator.model.geometry import TOUCH, Point, Ring, box
from generator.model.job import Job
from generator.model.plan import Board, Edge, Opening
from generator.units import PaperUnits, label, label_opening, label_size, label_thickness


def shop_notes(job: Job, board: Board, edges: tuple[Edge, ...], scale: Scale, width: float) -> tuple[Block, ...]:
    """All of it, for a panel of that width."""
    how = (
        f"A is {_A[bool(slants(board))]}: every cut runs from these two. The back is drawn as seen "
        f"from behind, so A is at its right. {'Grey: rabbet. ' if board.rabbets else ''}"
        "Double line: factory edge, never cut."
    )
    return (
        heading(f"Board {board.id}", width, 5.0),
        prose(f"Views at {scale.text}", width),
        prose(how, width),
        *table((Column("Part", 20), Column(board.id, 80)), _part_rows(job, board), width),
        *opening_table(board, job.room.choices.paper_units, width),
        *_rabbet_table(board, job.room.choices.paper_units, width),
        *_edge_table(job, board, edges, width),
    )


_A = {
    False: "the left edge of the face, B the lower edge",
    True: "an upright line at the leftmost point of the face, B a level line at its lowest: strike both square first",
}


def slants(board: Board) -> tuple[tuple[Point, Point], ...]:
    """The sides that neither stand plumb nor lie level, from end to end."""
    ring = board.outline
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    return tuple((p, q) for p, q in sides if min(abs(p[0] - q[0]), abs(p[1] - q[1])) > TOUCH)


def _part_rows(job: Job, board: Board) -> tuple[tuple[str, str], ...]:
    units = job.room.choices.paper_units
    stock = next((s for s in job.plan.stocks if s.id == board.stock_id), None)
    of = f"{board.stock_id}, {stock.material}" if stock else board.stock_id
    return (
        ("Wall", board.wall),
        ("Stock", f"{of}, {label_thickness(board.thickness, units)} thick, sheet {board.sheet_id}"),
        ("Size", size_words(board, units)),
        ("Weight", weight_text(board.weight_kg, units)),
    )


def size_words(board: Board, units: PaperUnits) -> str:
    """Width by height of the board's box."""
    return _span(board.outline, units)


def _span(ring: Ring, units: PaperUnits) -> str:
    left, bottom, right, top = box(ring)
    return label_size((right - left, top - bottom), units)


def from_edges(board: Board, point: Point, units: PaperUnits) -> tuple[str, str]:
    """What a tape shows of a point of the board, from A and from B."""
    left, bottom, _, _ = box(board.outline)
    return label(point[0] - left, units), label(point[1] - bottom, units)


def opening_table(board: Board, units: PaperUnits, width: float) -> tuple[Block, ...]:
    """Where its openings are and how large; nothing for a board without."""
    rows = [(o.id, *from_edges(board, o.centre, units), _size_of(o, units)) for o in board.openings]
    columns = (Column("Opening", 30), Column("From A", 22), Column("From B", 22), Column("Size", 26))
    return table(columns, rows, width, "Openings, to their centres") if rows else ()


def _size_of(opening: Opening, units: PaperUnits) -> str:
    if opening.diameter:
        return f"{label_opening(opening.diameter, units)} dia."
    return _span(opening.ring, units)


def _rabbet_table(board: Board, units: PaperUnits, width: float) -> tuple[Block, ...]:
    rows = []
    for r in board.rabbets:
        left, bottom, right, top = box(r.ring)
        (u0, v0), (u1, v1) = from_edges(board, (left, bottom), units), from_edges(board, (right, top), units)
        tops = [from_edges(board, point, units)[1] for point in upper_side(r.ring)]
        high = v1 if tops[0] == tops[1] else f"{tops[0]} at left, {tops[1]} at right"
        rows.append((r.face, f"{u0} to {u1}", f"{v0} to {high}", label(r.depth, units)))
    columns = (Column("Face", 14), Column("From A", 36), Column("From B", 30), Column("Depth", 20))
    return table(columns, rows, width, "Rabbets") if rows else ()


def _edge_table(job: Job, board: Board, edges: tuple[Edge, ...], width: float) -> tuple[Block, ...]:
    units = job.room.choices.paper_units
    rows = [
        (
            ", ".join(from_edges(board, e.p, units)),
            ", ".join(from_edges(board, e.q, units)),
            e.role,
            "factory" if e.id in board.factory_edges else "cut",
        )
        for e in edges
    ]
    columns = (Column("Edge from A, B", 32), Column("to A, B", 32), Column("Is", 20), Column("Made", 16))
    return table(columns, rows, width, "Edges") if rows else ()
