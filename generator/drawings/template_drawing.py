"""What a template shows at full size: cuts, centre marks, collars, edges and lines, with words where they are free."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drafting.ink import Circle, Ink, Line, Text
from generator.drafting.page import text_box
from generator.drafting.spot import Block, fit_block, place_block
from generator.drawings.parts import board_cuts, opening_box
from generator.drawings.template_clusters import Bounds, bounds, spot
from generator.drawings.template_registration import Registration
from generator.drawings.template_tiles import OVERLAP, Grid
from generator.drawings.template_words import edge_name, from_edges, opening_name, size_text
from generator.model.geometry import Point, Ring, box, canonical, rectangle
from generator.model.job import Job
from generator.model.plan import Board, Opening, Rabbet
from generator.units import label

HEIGHTS = (3.0, 2.5)
BEYOND = 6.0
"""mm that a centre mark goes beyond its cut."""
ROOMY = 70.0
"""mm: an opening at least this wide holds its own words."""


def drawing(
    job: Job, board: Board, group: Sequence[Opening], found: tuple[Registration, Registration], whole: Grid
) -> tuple[Ink, ...]:
    """All that lies in the windows, in the wall frame; not yet clipped to one of them."""
    sight = _sight(whole)
    lines = tuple(_line(r, sight) for r in found if not r.is_edge)
    marks = tuple(mark for opening in group for mark in _centre(opening))
    keep_out = [opening_box(o) for o in board.openings] + [_strip(r, sight) for r in found]
    texts: list[Text] = []
    for opening in group:
        texts += _place(job, board, opening, whole, [*keep_out, *_text_rings(texts)])
    for rabbet in board.rabbets:
        for ring in _parts_seen(rabbet.ring, whole):
            texts += _pocket(job, rabbet, ring, [*keep_out, *_text_rings(texts)])
    for r in found:
        for ring in _strips(r, whole):
            texts += _beside(job, board, r, ring, [*keep_out, *_text_rings(texts)])
    return (*board_cuts(board, (0.0, 0.0)), *_collars(job, group), *lines, *marks, *texts)


def _parts_seen(ring: Ring, whole: Grid) -> list[Ring]:
    """The box of a ring as far as each window shows it, where it shows more than a sliver."""
    a, b, c, d = box(ring)
    seen = []
    for left, bottom, right, top in _free_of_joints(whole):
        part = (max(a, left), max(b, bottom), min(c, right), min(d, top))
        if part[2] - part[0] > 5.0 and part[3] - part[1] > 5.0:
            seen.append(rectangle(*part))
    return seen


def _pocket(job: Job, rabbet: Rabbet, ring: Ring, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    deep = label(rabbet.depth, job.room.choices.drawing_units)
    block = Block((f"notch in the {rabbet.face} of the board, {deep} deep",), mask=True)
    return fit_block(block, ring, keep_out, (2.5,), clear=0.8)


def _sight(whole: Grid) -> Bounds:
    """The box of all windows."""
    return box(point for tile in whole.tiles() for point in tile.ring)


def _line(r: Registration, sight: Bounds) -> Line:
    left, bottom, right, top = sight
    if r.axis == "x":
        return Line((r.at, bottom), (r.at, top), "datum")
    return Line((left, r.at), (right, r.at), "datum")


def _strip(r: Registration, sight: Bounds) -> Ring:
    """Where no words go: along the edge or line."""
    left, bottom, right, top = sight
    if r.axis == "x":
        return rectangle(r.at - 0.6, bottom, r.at + 0.6, top)
    return rectangle(left, r.at - 0.6, right, r.at + 0.6)


def _centre(opening: Opening) -> tuple[Ink, ...]:
    """Cross through the whole opening and past its cut, with a small ring at the point itself."""
    u, v = spot(opening)
    left, bottom, right, top = bounds((opening,))
    return (
        Line((left - BEYOND, v), (right + BEYOND, v), "centre"),
        Line((u, bottom - BEYOND), (u, top + BEYOND), "centre"),
        Circle((u, v), 1.0, "visible"),
    )


def _collars(job: Job, group: Sequence[Opening]) -> tuple[Ink, ...]:
    sizes = {fitting.id: fitting.collar_diameter for fitting in job.plan.fittings}
    found = ((o, sizes.get(o.fitting_id or "", 0.0)) for o in group)
    return tuple(Circle(spot(o), diameter / 2, "collar") for o, diameter in found if diameter > 0)


def _place(job: Job, board: Board, opening: Opening, whole: Grid, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """The words of an opening: inside it when it is roomy, else as near as there is space."""
    left, _, right, top = bounds((opening,))
    u, v = spot(opening)
    tile = _window_of(whole, (u, v))
    name, size = opening_name(opening), size_text(job, opening)
    if right - left < ROOMY:
        return _near((f"{name}: {size}", *from_edges(job, board, opening)), opening, tile, keep_out)
    wide, high = 0.66 * (right - u), 0.66 * (top - v)
    inside = (max(u - wide, tile[0]), max(v - high, tile[1]), min(u + wide, tile[2]), min(v + high, tile[3]))
    block = Block((name, *size.rsplit(" ", 1)), bold=True, mask=True)
    return place_block(block, rectangle(*inside), _cross(opening), (4.0, 3.0, 2.5), 1.0)


def _cross(opening: Opening) -> list[Ring]:
    """Where the centre lines of an opening run."""
    left, bottom, right, top = bounds((opening,))
    u, v = spot(opening)
    level = rectangle(left - BEYOND, v - 0.5, right + BEYOND, v + 0.5)
    return [level, rectangle(u - 0.5, bottom - BEYOND, u + 0.5, top + BEYOND)]


def _near(lines: tuple[str, ...], opening: Opening, tile: Bounds, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    left, bottom, right, top = bounds((opening,))
    ring = rectangle(
        max(left - 70.0, tile[0] + 1.0),
        max(bottom - 40.0, tile[1] + 1.0),
        min(right + 70.0, tile[2] - 1.0),
        min(top + 40.0, tile[3] - 1.0),
    )
    block, around = Block(lines, mask=True), [*keep_out, *_cross(opening)]
    return fit_block(block, ring, around, HEIGHTS, clear=1.0) or place_block(block, ring, around, HEIGHTS, 1.0)


def _free_of_joints(whole: Grid) -> list[Bounds]:
    """Every window less what it shares with its neighbours."""
    shared = OVERLAP + 2.0
    return [
        (
            left + shared * (tile.column > 0),
            bottom + shared * (tile.row > 0),
            right - shared * (tile.column + 1 < whole.columns),
            top - shared * (tile.row + 1 < whole.rows),
        )
        for tile in whole.tiles()
        for left, bottom, right, top in (box(tile.ring),)
    ]


def _window_of(whole: Grid, point: Point) -> Bounds:
    """Of the windows that show the point, the one whose middle is nearest to it, less what it shares."""

    def distance(b: Bounds) -> float:
        return round((b[0] + b[2] - 2 * point[0]) ** 2 + (b[1] + b[3] - 2 * point[1]) ** 2, 6)

    return min(_free_of_joints(whole), key=distance)


def _strips(r: Registration, whole: Grid) -> list[Ring]:
    """Strips beside an edge or line where its name may stand, one for each page that shows it."""
    strips = []
    for left, bottom, right, top in _free_of_joints(whole):
        if r.axis == "x" and left < r.at < right:
            strips.append(rectangle(max(r.at - 7.0, left), bottom + 2.0, min(r.at + 7.0, right), top - 2.0))
        if r.axis == "y" and bottom < r.at < top:
            strips.append(rectangle(left + 2.0, max(r.at - 7.0, bottom), right - 2.0, min(r.at + 7.0, top)))
    return strips


def _beside(job: Job, board: Board, r: Registration, ring: Ring, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """The name of an edge or line along it, with its distance where there is room for that."""
    angles = (90.0, 0.0) if r.axis == "x" else (0.0,)
    blocks = [Block((text,), bold=True, mask=True) for text in (_long_title(job, board, r), _title(r))]
    found = (fit_block(block, ring, keep_out, (2.5,), angles, 0.6) for block in blocks)
    return next((texts for texts in found if texts), ())


def _title(r: Registration) -> str:
    if r.is_edge:
        return f"{r.side.upper()} EDGE"
    return "PLUMB LINE" if r.axis == "x" else "LEVEL LINE"


def _long_title(job: Job, board: Board, r: Registration) -> str:
    if r.is_edge:
        return f"{_title(r)} of {board.id}: fold the paper here"
    away = label(r.distance, job.room.choices.drawing_units)
    start = edge_name(board, r.side, r.at - r.distance)
    return f"{_title(r)} {away} {'from' if r.axis == 'x' else 'above'} {start}"


def _text_rings(texts: Sequence[Text]) -> list[Ring]:
    return [canonical(text_box(text)) for text in texts]
