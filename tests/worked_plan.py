"""A plan of the worked room, laid out by hand: what planning would hand over, for tests that come after it.

Four sheets of 48 x 96 in, two boards on the back wall with the seam on the stud at 31, the left wall in two
courses with a level seam at 60. All numbers are those of worked-room.md or follow from them.
"""

from __future__ import annotations

import math

from generator.model import plan as pl
from generator.model import purchase as pu
from generator.model import room as rm
from generator.model.frames import Vector
from generator.model.geometry import Point, Ring, area, box, canonical
from tests.worked_room import WIDTHS, mirrored, mm, rect_in, worked_room

__all__ = ["worked_plan", "worked_room"]

THICKNESS = mm(0.5)
STOCK = "foam-1-2:48x96"
SIGN = {"left": -1.0, "back": 1.0, "right": 1.0}


def _ring(wall: str, points: list[Point]) -> Ring:
    """A ring in inches across from the back corner of the wall (from the left end on the back wall)."""
    return canonical((mm(mirrored(wall, x)), mm(y)) for x, y in points)


BACK_LEFT = [(0.25, 18.75), (31.0, 18.75), (31.0, 95.875), (0.125, 95.875), (0.125, 19.625), (0.25, 19.625)]
BACK_RIGHT = [(31.0, 18.75), (60.0, 18.75), (60.0, 19.625), (60.125, 19.625), (60.125, 95.875), (31.0, 95.875)]
FOOT = [(32.0, 18.75), (32.0, 0.25), (36.0, 0.25)]
END_WHOLE = [(0.625, 18.75), *FOOT, (36.0, 95.875), (0.625, 95.875)]
END_LOWER = [(0.625, 18.75), *FOOT, (36.0, 60.0), (0.625, 60.0)]
END_UPPER = [(0.625, 60.0), (36.0, 60.0), (36.0, 95.875), (0.625, 95.875)]
OUTLINES: dict[str, tuple[str, list[Point]]] = {
    "B-back-1": ("back", BACK_LEFT),
    "B-back-2": ("back", BACK_RIGHT),
    "B-left-1": ("left", END_LOWER),
    "B-left-2": ("left", END_UPPER),
    "B-right-1": ("right", END_WHOLE),
}
RABBETS = {
    "B-back-1": (0.25, 31.0),
    "B-back-2": (31.0, 60.0),
    "B-left-1": (0.625, 31.875),
    "B-right-1": (0.625, 31.875),
}
SHEETS = {"B-back-1": "SH-01", "B-back-2": "SH-02", "B-left-1": "SH-03", "B-left-2": "SH-03", "B-right-1": "SH-04"}


def _walls() -> tuple[pl.PlannedWall, ...]:
    up = (0.0, 0.0, 1.0)
    frames: dict[str, tuple[Vector, Vector, Vector]] = {
        "left": ((0.0, -mm(60), 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
        "back": ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
        "right": ((mm(60.25), 0.0, 0.0), (0.0, -1.0, 0.0), (-1.0, 0.0, 0.0)),
    }
    wet = {"left": END_WHOLE, "right": END_WHOLE, "back": [*BACK_LEFT[:1], *BACK_RIGHT[1:5], *BACK_LEFT[3:]]}
    reach = {"left": (24.0, 60.0), "back": (0.0, 60.25), "right": (0.0, 36.0)}
    return tuple(
        pl.PlannedWall(
            id=wall,
            origin=origin,
            u_axis=u_axis,
            v_axis=up,
            w_axis=w_axis,
            datum_name="finished floor",
            datum_v=0.0,
            outline=rect_in(0, 0, WIDTHS[wall], 96),
            extent=rect_in(reach[wall][0], 0, reach[wall][1], 96),
            allowances=(pl.Allowance("ceiling-fit", rect_in(reach[wall][0], 95.875, reach[wall][1], 96)),),
            wet_region=(pl.Region(_ring(wall, wet[wall]), ()),),
        )
        for wall, (origin, u_axis, w_axis) in frames.items()
    )


def _base(room: rm.Room) -> pl.PlannedBase:
    sides = tuple(pl.PlannedSide(s.wall, s.start, s.end, s.deck, mm(19.5)) for s in room.base.sides)
    return pl.PlannedBase("lapped", rect_in(0, 0, 3 / 16, 1), sides)


def _supports(room: rm.Room) -> tuple[pl.Support, ...]:
    found = []
    for wall in room.walls:
        for i, s in enumerate(sorted(wall.supports, key=lambda s: s.axis[0][0])):
            key = f"S-{wall.id}-{i + 1:02d}"
            found.append(
                pl.Support(
                    key, wall.id, s.kind, "found", s.outline, s.axis, s.profile.depth, "wood", "as found", "found",
                    s.profile.id, s.path,
                )
            )  # fmt: skip
    return tuple(sorted(found, key=lambda s: s.id))


def _opening(fitting: rm.Fitting) -> pl.Opening:
    diameter = fitting.diameter + (mm(0.25) if fitting.is_pipe else 0.0)
    return pl.Opening(f"O-{fitting.id}", fitting.id, None, fitting.centre, diameter, ())


def _board(room: rm.Room, mark: str) -> pl.Board:
    wall, points = OUTLINES[mark]
    outline = _ring(wall, points)
    span = RABBETS.get(mark)
    ring = _ring(wall, [(x, y) for y in (18.75, 19.625) for x in (span[:: 1 if y < 19 else -1])]) if span else ()
    openings = tuple(_opening(f) for f in room.fittings) if wall == "right" else ()
    return pl.Board(
        id=mark,
        wall=wall,
        stock_id=STOCK,
        thickness=THICKNESS,
        outline=outline,
        openings=openings,
        rabbets=(pl.Rabbet(ring, mm(0.25), "back"),) if ring else (),
        sheet_id=SHEETS[mark],
        factory_edges=(),
        weight_kg=area(outline) * THICKNESS * 40e-9,
    )


def _role(board: pl.Board, p: Point, q: Point) -> tuple[pl.EdgeRole, str | None]:
    """Role of an edge by its place, in inches across from the back corner."""
    (x0, y0), (_, y1) = ((mirrored(board.wall, u / 25.4), v / 25.4) for u, v in (p, q))
    if math.isclose(y0, y1):
        if math.isclose(y0, 95.875):
            return "top", None
        if math.isclose(y0, 60):
            return "seam", "B-left-1" if board.id == "B-left-2" else "B-left-2"
        return "bottom", None
    if math.isclose(x0, 31):
        return "seam", "B-back-2" if board.id == "B-back-1" else "B-back-1"
    if math.isclose(x0, 36):
        return "wallboard", None
    if math.isclose(x0, 32):
        return "apron", None
    return ("bottom", None) if max(y0, y1) < 20 else ("corner", None)


def _bearing(board: pl.Board, supports: tuple[pl.Support, ...], p: Point, q: Point) -> tuple[str, float]:
    """Support under an upright edge and the width of its face on the board's side."""
    side = 1.0 if p[1] > q[1] else -1.0
    for s in supports:
        left, _, right, _ = box(s.outline)
        if s.wall == board.wall and left - 0.01 <= p[0] <= right + 0.01:
            return s.id, (right - p[0]) if side > 0 else (p[0] - left)
    raise AssertionError(f"no support under an edge of {board.id}")


def _edges(board: pl.Board, supports: tuple[pl.Support, ...]) -> list[pl.Edge]:
    ring = board.outline
    edges = []
    for i, p in enumerate(ring):
        q = ring[(i + 1) % len(ring)]
        role, neighbour = _role(board, p, q)
        upright = abs(p[0] - q[0]) < 0.01 and role not in ("bottom", "top")
        held = _bearing(board, supports, p, q) if upright else None
        ids, bearing = ((held[0],), held[1]) if held else ((), None)
        edges.append(pl.Edge(f"E-{board.id}-{i + 1:02d}", board.id, p, q, role, neighbour, ids, bearing))
    return edges


def _rows(board: pl.Board, supports: tuple[pl.Support, ...]) -> list[tuple[str, float]]:
    """(support, u) of each row of screws of a board."""
    left, _, right, _ = box(board.outline)
    wall_end = mm(WIDTHS[board.wall])
    rows = []
    for s in (s for s in supports if s.wall == board.wall):
        face = box(s.outline)
        if min(face[2], right) - max(face[0], left) >= mm(0.5):
            low = max(left + mm(0.375), mm(1.125))
            high = min(right - mm(0.375), wall_end - mm(1.125))
            rows.append((s.id, min(max(s.axis[0][0], low), high)))
    return rows


def _screws(board: pl.Board, supports: tuple[pl.Support, ...]) -> list[pl.Fastener]:
    spots = []
    for support, u in _rows(board, supports):
        on_leg = mirrored(board.wall, u / 25.4) > 32 and board.wall != "back"
        bottom = min(v for _, v in board.outline) if on_leg else mm(18.75)
        low = bottom + mm(0.75) if on_leg else max(box(board.outline)[1] + mm(0.75), mm(20.25))
        high = box(board.outline)[3] - mm(0.75)
        count = math.ceil((high - low) / mm(12) - 1e-9)
        spots += [(support, u, low + (high - low) * i / count) for i in range(count + 1)]
    return [
        pl.Fastener(f"F-{board.id}-{i + 1:03d}", board.wall, (u, v), (board.id,), support, mm(1.625), mm(1.25))
        for i, (support, u, v) in enumerate(sorted(spots, key=lambda s: (s[1], s[2])))
    ]


def _band(key: str, kind: str, covers: tuple[str, ...], rings: dict[str, Ring], length: float) -> pl.Band:
    return pl.Band(key, kind, covers, tuple(pl.WallRing(w, r) for w, r in rings.items()), mm(length), ())  # type: ignore[arg-type]


def _bands(fasteners: tuple[pl.Fastener, ...], fittings: tuple[pl.PlannedFitting, ...]) -> tuple[pl.Band, ...]:
    corner_left = {"left": rect_in(57, 18.75, 59.5, 95.875), "back": rect_in(0.5, 18.75, 3, 95.875)}
    corner_right = {"back": rect_in(57.25, 18.75, 59.75, 95.875), "right": rect_in(0.5, 18.75, 3, 95.875)}
    bands = [
        _band("T-base-1", "base", (), {"back": rect_in(0.5, 18.5, 59.75, 21)}, 59.25),
        _band("T-base-2", "base", (), {"left": rect_in(28, 18.5, 59.5, 21)}, 31.5),
        _band("T-base-3", "base", (), {"right": rect_in(0.5, 18.5, 32, 21)}, 31.5),
        _band("T-corner-1", "corner", (), corner_left, 77.125),
        _band("T-corner-2", "corner", (), corner_right, 77.125),
        _band("T-seam-1", "seam", (), {"back": rect_in(28.5, 18.75, 33.5, 95.875)}, 77.125),
        _band("T-seam-2", "seam", (), {"left": rect_in(24, 57.5, 59.5, 62.5)}, 35.5),
    ]
    rings = [(r.wall, box(r.ring)) for b in bands for r in b.rings]
    bands += [_collar(f) for f in fittings]
    bands += [_patch(f) for f in fasteners if not any(w == f.wall and _within(f.point, b) for w, b in rings)]
    return tuple(sorted(bands, key=lambda b: b.id))


def _within(point: Point, bounds: tuple[float, float, float, float]) -> bool:
    return bounds[0] <= point[0] <= bounds[2] and bounds[1] <= point[1] <= bounds[3]


def _square(centre: Point, side: float) -> Ring:
    (u, v), h = centre, side / 2
    return canonical(((u - h, v - h), (u + h, v - h), (u + h, v + h), (u - h, v + h)))


def _patch(f: pl.Fastener) -> pl.Band:
    return _band(f"T-patch-{f.id[2:]}", "patch", (f.id,), {f.wall: _square(f.point, mm(5))}, 5.0)


def _collar(f: pl.PlannedFitting) -> pl.Band:
    return _band(f"T-collar-{f.id}", "collar", (f.id,), {f.wall: _square(f.centre, f.collar_diameter)}, 8.0)


def _fitting(f: rm.Fitting) -> pl.PlannedFitting:
    body = (f.body.width, f.body.height, f.body.depth) if f.body else None
    pipe, cutout = (f.diameter, None) if f.is_pipe else (None, f.diameter)
    return pl.PlannedFitting(f.id, f.wall, f.kind, f.centre, pipe, cutout, (), body, f.collar_diameter)


def _leaf(x: float, y: float, width: float, height: float, mark: str | None) -> pu.CutNode:
    return pu.CutNode(x, y, width, height, None, 0.0, (), mark)


def _sheet(sheet: str, boards: tuple[pl.Board, ...]) -> pu.Sheet:
    """Boards stacked up the sheet: a cut along its length, then one above each board."""
    kerf, width, height = mm(0.125), mm(48), mm(96)
    column = max(box(b.outline)[2] - box(b.outline)[0] for b in boards)
    placements, node = [], _leaf(0.0, 0.0, 0.0, 0.0, None)
    heights = [box(b.outline)[3] - box(b.outline)[1] for b in boards]
    starts = [sum(heights[:i]) + i * kerf for i in range(len(boards) + 1)]
    node = _leaf(0.0, starts[-1], column, height - starts[-1], None)
    for b, y, h in reversed(list(zip(boards, starts, heights, strict=False))):
        placements.append(pu.Placement(b.id, 0.0, y, 0))
        part = _leaf(0.0, y, column, h, b.id)
        node = pu.CutNode(0.0, y, column, height - y, "y", y + h, (part, node), None)
    rest = _leaf(column + kerf, 0.0, width - column - kerf, height, None)
    tree = pu.CutNode(0.0, 0.0, width, height, "x", column, (node, rest), None)
    return pu.Sheet(sheet, STOCK, width, height, kerf, tuple(reversed(placements)), tree)


def _takeoff() -> tuple[pu.TakeoffRow, ...]:
    term = pu.Term("sheets cut", 4.0, ("SH-01", "SH-02", "SH-03", "SH-04"))
    return (pu.TakeoffRow("sheet", "foam-1-2", "foam-core board 48x96", 4.0, "sheets", (term,), 1.0, 4, 0.0),)


def worked_plan(room: rm.Room | None = None) -> pl.Plan:
    """The plan by hand; `room` may be the worked room with other end studs."""
    room = room or worked_room()
    supports = _supports(room)
    boards = tuple(_board(room, mark) for mark in sorted(OUTLINES))
    fasteners = tuple(f for b in boards for f in _screws(b, supports))
    fittings = tuple(_fitting(f) for f in room.fittings)
    sheets = sorted(set(SHEETS.values()))
    return pl.Plan(
        room=room.name,
        walls=_walls(),
        corners=tuple(pl.PlannedCorner(c.id, c.left_wall, c.right_wall, c.angle_deg, c.first) for c in room.corners),
        base=_base(room),
        stocks=(pu.PlannedStock(STOCK, "foam-core", THICKNESS, mm(48), mm(96), 40.0),),
        supports=supports,
        boards=boards,
        edges=tuple(sorted((e for b in boards for e in _edges(b, supports)), key=lambda e: e.id)),
        fittings=fittings,
        fasteners=fasteners,
        bands=_bands(fasteners, fittings),
        sheets=tuple(_sheet(s, tuple(b for b in boards if b.sheet_id == s)) for s in sheets),
        takeoff=_takeoff(),
        proof=pu.Proof("sheet area", 4 * mm(48) * mm(96), 4 * mm(48) * mm(96), True, "laid out by hand"),
        sequence=("B-back-1", "B-back-2", "B-left-1", "B-left-2", "B-right-1"),
    )
