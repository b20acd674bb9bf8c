"""Board elevation of each wall: marks, seams, openings, screws, and running dimensions that a tape can follow."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain

from generator.drafting.dimension import running
from generator.drafting.ink import Circle, Ink, Outline, Stop, Text, View
from generator.drafting.inview import Piece, Symbol, round_symbol
from generator.drafting.page import text_box
from generator.drafting.spot import Block, fit_block, place_block
from generator.drawings.elevation import Elevation, Margins, assembled, base_ink, elevation, strip, wall_ink
from generator.drawings.flow import Block as Strip
from generator.drawings.flow import Column, heading, prose, table
from generator.drawings.leaf import Leaf
from generator.drawings.marks import FLAG, Named, centre_mark, names_beside
from generator.drawings.numbered import SHOWN_OFF, broken_ink, finding_flags, finding_table, on_wall
from generator.drawings.said import fixings, furring_words, said, wall_name, weight_text
from generator.drawings.soffit_marks import hung_names
from generator.drawings.support_marks import short, support_symbol, supports_of
from generator.model.geometry import TOUCH, Ring, box, rectangle
from generator.model.job import Job
from generator.model.plan import Allowance, Board, Edge, Opening
from generator.model.room import Wall
from generator.units import label, label_size

KIND = "Board elevation"
KEPT_FREE = {
    "fit": "fit, left open",
    "leg-gap": "gap to floor or apron",
    "neighbour": "next wall's board and fit",
    "nip": "base's flange round the corner",
    "soffit": "soffit's framing",
}
"""What stands in an allowance, or what it is for."""
MARK = (3.5, 2.5)
"""mm: heights of a board's mark, the largest that fits."""


def board_leaves(job: Job) -> tuple[Leaf, ...]:
    """The board elevations of all walls that carry boards, left to right."""
    return tuple(leaf for wall in job.room.chain if boards_of(job, wall) for leaf in _elevation(job, wall))


def boards_of(job: Job, wall: Wall) -> tuple[Board, ...]:
    """The wall's boards, by id."""
    return tuple(b for b in job.plan.boards if b.wall == wall.id)


def openings_of(job: Job, wall: Wall) -> tuple[Opening, ...]:
    """The openings of the wall's boards."""
    return tuple(o for b in boards_of(job, wall) for o in b.openings)


def _elevation(job: Job, wall: Wall) -> tuple[Leaf, ...]:
    edges_u, edges_v = (_stops(job, _corners(job, wall, k)) for k in (0, 1))
    holes_u, holes_v = (_stops(job, _places(openings_of(job, wall), k)) for k in (0, 1))
    left, bottom = (strip(_texts(a)) + strip(_texts(b)) for a, b in ((edges_v, holes_v), (edges_u, holes_u)))
    seen = elevation(job, wall, Margins(left, bottom, SHOWN_OFF + 2 * FLAG + 2.0, 2.0))
    shown = on_wall(job, wall, ("planned", "solid"))
    model = (
        *(*base_ink(job, wall), *wall_ink(wall), *_wall_pieces(job, wall)),
        *(Outline(mouth.ring, "opening", fill=1.0) for mouth in job.plan.wall(wall.id).mouths),
        *(opening_shape(o) for o in openings_of(job, wall)),
        *broken_ink(shown),
    )
    marks = (
        *_opening_marks(seen),
        *_marks(seen),
        *hung_names(job, wall, seen.view),
        *_along("x", seen, edges_u, holes_u),
        *_along("y", seen, edges_v, holes_v),
        *finding_flags(seen, shown),
    )
    return assembled(KIND, f"{KIND}, {wall_name(wall)}", seen, model, marks, _notes(seen))


def _corners(job: Job, wall: Wall, k: int) -> tuple[float, ...]:
    return tuple(p[k] for b in boards_of(job, wall) for p in b.outline)


def _places(openings: Iterable[Opening], k: int) -> tuple[float, ...]:
    """What a tape needs of openings along axis k: the centre of a round one, both edges of any other."""
    return tuple(chain(*((o.centre[k],) if o.diameter else (box(o.ring)[k], box(o.ring)[k + 2]) for o in openings)))


def _stops(job: Job, values: Iterable[float]) -> tuple[tuple[float, str], ...]:
    """Each place once, left to right or upwards, with what paper says of it."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > TOUCH:
            kept.append(value)
    return tuple((value, label(value, job.room.choices.paper_units)) for value in kept)


def _texts(stops: tuple[tuple[float, str], ...]) -> tuple[str, ...]:
    return tuple(text for _, text in stops)


def _along(
    axis: str, seen: Elevation, edges: tuple[tuple[float, str], ...], holes: tuple[tuple[float, str], ...]
) -> tuple[Ink, ...]:
    """Running dimensions of board edges and, further out, of the openings; both from the wall's datum."""
    place, near = (seen.view.x, seen.hull[1]) if axis == "x" else (seen.view.y, seen.hull[0])
    line, datum = near - 4.0, place(0.0)
    ink = running(axis, line, datum, [Stop(place(v), t, near - 0.8) for v, t in edges])  # type: ignore[arg-type]
    if holes:
        further = line - strip(_texts(edges))
        ink += running(axis, further, datum, [Stop(place(v), t) for v, t in holes])  # type: ignore[arg-type]
    return ink


def _wall_pieces(job: Job, wall: Wall) -> tuple[Piece, ...]:
    return (
        *(Outline(a.ring, "light", fill=0.8) for a in _kept_free(job, wall)),
        *(support_symbol(s, (Outline(s.outline, "hidden"),)) for s in supports_of(job, wall)),
        *(Outline(b.outline, "board") for b in boards_of(job, wall)),
        *screw_ink(job, wall),
    )


def _kept_free(job: Job, wall: Wall) -> tuple[Allowance, ...]:
    """What a board ends at; nothing that only the base lies against, which is drawn itself."""
    boards = [box(b.outline) for b in boards_of(job, wall)]
    allowances = (a for a in job.plan.wall(wall.id).allowances if a.name != "base")
    return tuple(a for a in allowances if any(_meet(box(a.ring), board) for board in boards))


def _meet(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    """True of boxes that touch or overlap."""
    return all(one[i] <= other[i + 2] + TOUCH and other[i] <= one[i + 2] + TOUCH for i in (0, 1))


def screw_ink(job: Job, wall: Wall) -> tuple[Symbol, ...]:
    """The wall's screws, each as large as its washer, in the wall frame."""
    screws = (f for f in job.plan.fasteners if f.wall == wall.id)
    return tuple(round_symbol("screw", f.point, f.washer_diameter, "screw", f.id) for f in screws)


def screw_spots(job: Job, wall: Wall, view: View) -> tuple[Ring, ...]:
    """What the wall's screws take on paper."""
    screws = [f for f in job.plan.fasteners if f.wall == wall.id]
    circles = ((view.point(f.point), f.washer_diameter / 2 * view.scale) for f in screws)
    return tuple(rectangle(x - r, y - r, x + r, y + r) for (x, y), r in circles)


def opening_shape(opening: Opening) -> Ink:
    """Round or by its ring, in the wall frame."""
    if opening.diameter:
        return Circle(opening.centre, opening.diameter / 2, "opening", fill=1.0)
    return Outline(opening.ring, "opening", fill=1.0)


def _opening_marks(seen: Elevation) -> tuple[Ink, ...]:
    openings = openings_of(seen.job, seen.wall)
    crosses = (centre_mark(seen.view.point(o.centre), _reach(seen, o)) for o in openings if o.diameter)
    return (*chain(*crosses), *_opening_names(seen))


def _reach(seen: Elevation, opening: Opening) -> float:
    return max(2.0, opening.diameter / 2 * seen.scale.factor + 1.2)


def _opening_names(seen: Elevation) -> tuple[Text, ...]:
    """Beside round openings; in the middle of all others."""
    openings = [(o, seen.view.point(o.centre)) for o in openings_of(seen.job, seen.wall)]
    beside = [Named(at, _reach(seen, o), o.id) for o, at in openings if o.diameter]
    within = (Text(at, o.id, 2.5, "centre", "middle") for o, at in openings if not o.diameter)
    return (*names_beside(beside), *within)


def _marks(seen: Elevation) -> tuple[Ink, ...]:
    return tuple(ink for b in boards_of(seen.job, seen.wall) for ink in _mark(seen, b))


def _mark(seen: Elevation, board: Board) -> tuple[Ink, ...]:
    """The board's mark, clear of its openings, their names and the mouths of the wall."""
    names = [box(text_box(text)) for text in _opening_names(seen)]
    mouths = [tuple(seen.view.point(p) for p in m.ring) for m in seen.job.plan.wall(seen.wall.id).mouths]
    taken = [*(rectangle(*b) for b in names), *(_keep_out(seen, o) for o in board.openings), *mouths]
    words = Block((board.id,), bold=True, mask=True)
    inside = tuple(seen.view.point(p) for p in board.outline)
    clear = fit_block(words, inside, [*taken, *screw_spots(seen.job, seen.wall, seen.view)], MARK, (0.0,), 0.6)
    return clear or fit_block(words, inside, taken, MARK, (0.0,), 1.0) or place_block(words, inside, taken, MARK, 1.0)


def _keep_out(seen: Elevation, opening: Opening) -> Ring:
    if not opening.diameter:
        return tuple(seen.view.point(p) for p in opening.ring)
    (x, y), r = seen.view.point(opening.centre), _reach(seen, opening)
    return rectangle(x - r, y - r, x + r, y + r)


def size_text(job: Job, board: Board) -> str:
    """Width by height of the board's box."""
    left, bottom, right, top = box(board.outline)
    units = job.room.choices.paper_units
    return label_size((right - left, top - bottom), units)


def _notes(seen: Elevation) -> tuple[Strip, ...]:
    job, wall = seen.job, seen.wall
    width = seen.panel[0][2] - seen.panel[0][0]
    how = (
        f"Faces of the boards, seen from their side. Widths run from the wall's left framing corner, heights from "
        f"the {job.plan.wall(wall.id).datum_name}; the outer row of dimensions gives the centres of round openings "
        f"and the edges of others. Dashed: supports behind. Small circles: {fixings(wall)} with their washers. "
        f"{furring_words(job, wall)}"
    ).rstrip()
    return (
        heading(f"Boards, {wall_name(wall)}", width, 5.0),
        prose(f"Scale {seen.scale.text}", width),
        prose(how, width),
        *_board_table(job, wall, width),
        *_screw_notes(job, wall, width),
        *finding_table(job, on_wall(job, wall, ("planned", "solid")), width, "Findings, as planned"),
        *_edge_table(job, wall, width),
        *_allowance_table(job, wall, width),
    )


def _board_table(job: Job, wall: Wall, width: float) -> tuple[Strip, ...]:
    rows = []
    for b in boards_of(job, wall):
        order = str(job.plan.sequence.index(b.id) + 1) if b.id in job.plan.sequence else ""
        rows.append(
            (b.id, order, size_text(job, b), b.sheet_id, weight_text(b.weight_kg, job.room.choices.paper_units))
        )
    columns = (
        Column("Board", 24),
        Column("Goes up", 18),
        Column("Size", 30),
        Column("Sheet", 14),
        Column("Weight", 16),
    )
    return table(columns, rows, width, "Boards")


def _screw_notes(job: Job, wall: Wall, width: float) -> tuple[Strip, ...]:
    screws = [f for f in job.plan.fasteners if f.wall == wall.id]
    if not screws:
        return ()
    units = job.room.choices.paper_units
    kinds = sorted({(f.length, f.washer_diameter) for f in screws})
    sizes = "; ".join(f"{label(n, units)} long, washer {label(d, units)}" for n, d in kinds)
    spacing = said(job, job.room.limit("screw-spacing"))
    text = f"{len(screws)} {fixings(wall)} with washers ({sizes}), at most {spacing} apart, heads flush in the skin."
    return (prose(text, width),)


def _edge_table(job: Job, wall: Wall, width: float) -> tuple[Strip, ...]:
    marks = {b.id for b in boards_of(job, wall)}
    upright = [e for e in job.plan.edges if e.board in marks and e.bearing is not None]
    ordered = sorted(upright, key=lambda e: (min(e.p[0], e.q[0]), min(e.p[1], e.q[1]), e.id))
    columns = (Column("Edge at", 20), Column("Of", 24), Column("Is", 22), Column("On", 16), Column("Bearing", 18))
    rows = [_edge_row(job, e) for e in ordered]
    return table(columns, rows, width, "Upright edges and what they bear on") if rows else ()


def _edge_row(job: Job, edge: Edge) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    on = ", ".join(short(job.plan.support(s)) for s in edge.support_ids)
    foot, head = sorted((edge.p, edge.q), key=lambda point: point[1])
    at = " to ".join(dict.fromkeys((label(foot[0], units), label(head[0], units))))
    return (at, edge.board, edge.role, on or "none", label(edge.bearing or 0.0, units))


def _allowance_table(job: Job, wall: Wall, width: float) -> tuple[Strip, ...]:
    units = job.room.choices.paper_units
    rows = []
    for a in _kept_free(job, wall):
        left, bottom, right, top = box(a.ring)
        within = "" if a.ring == rectangle(*box(a.ring)) else "within "
        size = within + label_size((right - left, top - bottom), units)
        rows.append((KEPT_FREE.get(a.name, a.name), label(left, units), label(bottom, units), size))
    columns = (Column("Kept free", 42), Column("From left", 18), Column("From floor", 18), Column("Width x height", 28))
    return table(columns, rows, width, "Allowances (grey)") if rows else ()
