"""What a template shows at full size: cuts, centre marks, collars, edges and lines, with words where they are free."""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.drafting.ink import Circle, Ink, Line, Text
from generator.drafting.layers import Role
from generator.drafting.page import text_box
from generator.drafting.spot import Block, fit_block, place_block
from generator.drawings.parts import board_cuts, opening_box
from generator.drawings.template_registration import Registration, largest
from generator.drawings.template_targets import Bounds, Target, spot
from generator.drawings.template_tiles import OVERLAP, Grid
from generator.drawings.template_words import edge_name, from_edges
from generator.model.geometry import TOUCH, Point, Ring, box, canonical, rectangle
from generator.model.job import Job
from generator.model.plan import Board, Rabbet
from generator.units import label

HEIGHTS = (3.0, 2.5)
BEYOND = 6.0
"""mm that a centre mark goes beyond its cut."""
X = 6.0
"""mm: half the width of the X on waste."""
ROOMY = 70.0
"""mm: an opening at least this wide holds its own words."""


def drawing(
    job: Job, board: Board, group: Sequence[Target], found: tuple[Registration, Registration], whole: Grid
) -> tuple[Ink, ...]:
    """All that lies in the windows, in the frame of the board; not yet clipped to one of them."""
    sight = _sight(whole)
    shown = (*found, *_through(group, found))
    marks = tuple(mark for target in group for mark in _mark(target))
    keep_out = [*_cut_strips(board, sight), *(_strip(r, sight) for r in shown), *_wastes(group)]
    texts: list[Text] = []
    for target in group:
        texts += _place(job, board, target, whole, [*keep_out, *_text_rings(texts)])
    for rabbet in board.rabbets if any(target.opening for target in group) else ():
        for ring in _parts_seen(rabbet.ring, whole):
            texts += _pocket(job, rabbet, ring, [*keep_out, *_text_rings(texts)])
    for r in shown:
        for ring in _strips(board, r, whole):
            texts += _beside(job, board, r, ring, [*keep_out, *_text_rings(texts)])
    lines = (_line(r, sight) for r in shown if not r.is_edge)
    return (*board_cuts(board, (0.0, 0.0)), *_collars(job, board), *lines, *marks, *texts)


def _through(group: Sequence[Target], found: Sequence[Registration]) -> tuple[Registration, ...]:
    """The plumb and the level line through the cluster's largest target that do not register it."""
    x, y = largest(group).at
    lines = (Registration("x", False, "left", x, 0.0), Registration("y", False, "bottom", y, 0.0))
    return tuple(line for line, used in zip(lines, found, strict=True) if used.is_edge)


def _cut_strips(board: Board, sight: Bounds) -> list[Ring]:
    """Where no words go: round holes, and along every straight cut that is seen."""
    rings = [board.outline, *(o.ring for o in board.openings if o.ring), *(r.ring for r in board.rabbets)]
    sides = [(p, q) for ring in rings for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)]
    return [
        *(opening_box(o) for o in board.openings if not o.ring),
        *(_along(p, q) for p, q in sides if _seen(p, q, sight)),
    ]


def _seen(p: Point, q: Point, sight: Bounds) -> bool:
    left, bottom, right, top = box((p, q))
    return left <= sight[2] and right >= sight[0] and bottom <= sight[3] and top >= sight[1]


def _along(p: Point, q: Point) -> Ring:
    """A strip 1.2 mm wide along a line."""
    far = math.dist(p, q)
    x, y = 0.6 * (q[0] - p[0]) / far, 0.6 * (q[1] - p[1]) / far
    return (
        (p[0] - x + y, p[1] - y - x),
        (q[0] + x + y, q[1] + y - x),
        (q[0] + x - y, q[1] + y + x),
        (p[0] - x - y, p[1] - y + x),
    )


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
    deep = label(rabbet.depth, job.room.choices.paper_units)
    block = Block((f"RABBET in the {rabbet.face}, {deep} deep",), mask=True)
    return fit_block(block, ring, keep_out, (2.5,), clear=0.8)


def _sight(whole: Grid) -> Bounds:
    """The box of all windows."""
    return box(point for tile in whole.tiles() for point in tile.ring)


def _line(r: Registration, sight: Bounds) -> Line:
    """Right across; one that is not drawn on the board is thinner and broken."""
    left, bottom, right, top = sight
    layer: Role = "datum" if r.distance else "centre"
    if r.axis == "x":
        return Line((r.at, bottom), (r.at, top), layer)
    return Line((left, r.at), (right, r.at), layer)


def _strip(r: Registration, sight: Bounds) -> Ring:
    """Where no words go: along the edge or line."""
    left, bottom, right, top = sight
    if r.axis == "x":
        return rectangle(r.at - 0.6, bottom, r.at + 0.6, top)
    return rectangle(left, r.at - 0.6, right, r.at + 0.6)


def _mark(target: Target) -> tuple[Ink, ...]:
    """A small ring at the point itself; through a whole opening also a cross that goes past its cut."""
    u, v = target.at
    ring = Circle((u, v), 1.0, "visible")
    if target.opening is None:
        return (ring, *(line for at in (target.waste,) if at for line in _x(at)))
    left, bottom, right, top = target.around
    return (
        Line((left - BEYOND, v), (right + BEYOND, v), "centre"),
        Line((u, bottom - BEYOND), (u, top + BEYOND), "centre"),
        ring,
    )


def _x(at: Point) -> tuple[Line, Line]:
    """The carpenter's mark on waste."""
    (x, y), r = at, X
    return Line((x - r, y - r), (x + r, y + r), "visible"), Line((x - r, y + r), (x + r, y - r), "visible")


def _wastes(group: Sequence[Target]) -> list[Ring]:
    return [rectangle(t.waste[0] - X, t.waste[1] - X, t.waste[0] + X, t.waste[1] + X) for t in group if t.waste]


def _collars(job: Job, board: Board) -> tuple[Ink, ...]:
    sizes = {fitting.id: fitting.collar_diameter for fitting in job.plan.fittings}
    found = ((o, sizes.get(o.fitting_id or "", 0.0)) for o in board.openings)
    return tuple(Circle(spot(o), diameter / 2, "collar") for o, diameter in found if diameter > 0)


def _place(job: Job, board: Board, target: Target, whole: Grid, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """The words of a target: inside an opening that is roomy, else as near as there is space."""
    left, _, right, top = target.around
    u, v = target.at
    tile = _window_of(whole, (u, v))
    if target.opening is None or right - left < ROOMY:
        return _near(
            (*f"{target.name}: {target.size}".split("; "), *from_edges(job, board, target)), target, tile, keep_out
        )
    wide, high = 0.66 * (right - u), 0.66 * (top - v)
    inside = (max(u - wide, tile[0]), max(v - high, tile[1]), min(u + wide, tile[2]), min(v + high, tile[3]))
    block = Block((target.name, *target.size.rsplit(" ", 1)), bold=True, mask=True)
    return place_block(block, rectangle(*inside), _cross(target), (4.0, 3.0, 2.5), 1.0)


def _cross(target: Target) -> list[Ring]:
    """Where the centre lines of a target run."""
    left, bottom, right, top = target.around
    u, v = target.at
    level = rectangle(left - BEYOND, v - 0.5, right + BEYOND, v + 0.5)
    return [level, rectangle(u - 0.5, bottom - BEYOND, u + 0.5, top + BEYOND)]


def _near(lines: tuple[str, ...], target: Target, tile: Bounds, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """As near as there is room, else further off, else over whatever is there."""
    near, further = _around(target, tile, (70.0, 40.0)), _around(target, tile, (160.0, 120.0))
    block, around = Block(lines, mask=True), [*keep_out, *_cross(target)]
    found = (fit_block(block, ring, around, HEIGHTS, clear=1.0) for ring in (near, further))
    return next((texts for texts in found if texts), None) or place_block(block, near, around, HEIGHTS, 1.0)


def _around(target: Target, tile: Bounds, reach: Point) -> Ring:
    """What lies so far sideways and up or down from a target, inside its sheet."""
    left, bottom, right, top = target.around
    return rectangle(
        max(left - reach[0], tile[0] + 1.0),
        max(bottom - reach[1], tile[1] + 1.0),
        min(right + reach[0], tile[2] - 1.0),
        min(top + reach[1], tile[3] - 1.0),
    )


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


def _strips(board: Board, r: Registration, whole: Grid) -> list[Ring]:
    """Strips beside an edge or line where its name may stand, one for each page that shows it."""
    low, high = _stretch(board, r)
    strips = []
    for left, bottom, right, top in _free_of_joints(whole):
        start, end = (bottom, top) if r.axis == "x" else (left, right)
        start, end = max(start + 2.0, low), min(end - 2.0, high)
        if r.axis == "x" and left < r.at < right and start + 2.0 < end:
            strips.append(rectangle(max(r.at - 7.0, left), start, min(r.at + 7.0, right), end))
        if r.axis == "y" and bottom < r.at < top and start + 2.0 < end:
            strips.append(rectangle(start, max(r.at - 7.0, bottom), end, min(r.at + 7.0, top)))
    return strips


def _stretch(board: Board, r: Registration) -> tuple[float, float]:
    """From where to where an edge runs that is plumb or level; without end for a line."""
    k = 0 if r.axis == "x" else 1
    ends = [p[1 - k] for p in board.outline if r.is_edge and abs(p[k] - r.at) <= TOUCH]
    return (min(ends), max(ends)) if len(ends) > 1 else (-math.inf, math.inf)


def _beside(job: Job, board: Board, r: Registration, ring: Ring, keep_out: Sequence[Ring]) -> tuple[Text, ...]:
    """The name of an edge or line along it, with its distance where there is room for that."""
    angles = (90.0, 0.0) if r.axis == "x" else (0.0,)
    blocks = [Block((text,), bold=True, mask=True) for text in (_long_title(job, board, r), _title(r))]
    found = (fit_block(block, ring, keep_out, (2.5,), angles, 0.6) for block in blocks)
    return next((texts for texts in found if texts), ())


def _title(r: Registration) -> str:
    if r.is_edge:
        return f"{r.side.upper()} EDGE"
    line = "PLUMB" if r.axis == "x" else "LEVEL"
    return f"{line} LINE" if r.distance else line


def _long_title(job: Job, board: Board, r: Registration) -> str:
    if r.is_edge:
        return f"{_title(r)} of {board.id}: fold the paper here"
    if not r.distance:
        return "PLUMB" if r.axis == "x" else "LEVEL"
    away = label(r.distance, job.room.choices.paper_units)
    start = edge_name(board, r.side, r.at - r.distance)
    return f"{_title(r)} {away} {'from' if r.axis == 'x' else 'above'} {start}"


def _text_rings(texts: Sequence[Text]) -> list[Ring]:
    return [canonical(text_box(text)) for text in texts]
