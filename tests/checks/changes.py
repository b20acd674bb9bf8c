"""Small changes of a plan, each of which one check must notice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.geometry import Point, Ring, canonical
from generator.model.plan import (
    Band,
    Board,
    Edge,
    EdgeRole,
    Fastener,
    Opening,
    Plan,
    Support,
    WallRing,
)
from generator.model.room import Base, Room
from tests.worked_room import mirrored, mm, rect_in

Pair = tuple[Room, Plan]
Move = Callable[[Point], Point]


def sealed_plan(plan: Plan) -> Plan:
    """The hand-made plan with bands at the wallboard and round the legs, and a patch on every screw."""
    bands = [_band(f"T-more-{wall}-{i}", wall, box) for wall in ("left", "right") for i, box in enumerate(_MORE)]
    patches = [_patch(f) for f in plan.fasteners]
    own = [b for b in plan.bands if b.kind != "patch"]
    return replace(plan, bands=tuple(sorted((*own, *bands, *patches), key=lambda b: b.id)))


_MORE = ((33.5, 0.25, 38.5, 95.875), (32.0, 0.25, 34.5, 18.75), (32.0, 0.25, 36.0, 2.75))


def _band(key: str, wall: str, box: tuple[float, float, float, float]) -> Band:
    left, low, right, high = box
    ring = rect_in(mirrored(wall, left), low, mirrored(wall, right), high)
    return Band(key, "seam", (), (WallRing(wall, ring),), mm(high - low), ())


def _patch(screw: Fastener) -> Band:
    (u, v), half = screw.point, mm(2.5)
    ring = canonical(((u - half, v - half), (u + half, v - half), (u + half, v + half), (u - half, v + half)))
    return Band(f"T-patch-{screw.id[2:]}", "patch", (screw.id,), (WallRing(screw.wall, ring),), mm(5), ())


def shift(point: Point, u: float = 0.0, v: float = 0.0) -> Point:
    """The point moved by inches."""
    return point[0] + mm(u), point[1] + mm(v)


def moved_ring(ring: Ring, move: Move) -> Ring:
    return canonical(move(p) for p in ring)


def move_support(plan: Plan, support_id: str, u: float) -> Plan:
    """One support moved by inches."""
    supports = tuple(shifted(s, u) if s.id == support_id else s for s in plan.supports)
    return replace(plan, supports=supports)


def shifted(support: Support, u: float) -> Support:
    a, b = support.axis
    ring = moved_ring(support.outline, lambda p: shift(p, u))
    return replace(support, outline=ring, axis=(shift(a, u), shift(b, u)))


def drop_support(plan: Plan, support_id: str) -> Plan:
    return replace(plan, supports=tuple(s for s in plan.supports if s.id != support_id))


def add_stud(plan: Plan, like: str, u: float, cause: str = "seam") -> Plan:
    """A copy of a stud, moved by inches, that counts as added."""
    copy = replace(shifted(plan.support(like), u), id=f"{like}-added", origin="added", reason="added")
    copy = replace(copy, cause="cure" if cause == "cure" else "seam")
    return replace(plan, supports=tuple(sorted((*plan.supports, copy), key=lambda s: s.id)))


def all_steel(plan: Plan) -> Plan:
    return replace(plan, supports=tuple(replace(s, material="steel") for s in plan.supports))


def change_board(plan: Plan, board_id: str, change: Callable[[Board], Board]) -> Plan:
    return replace(plan, boards=tuple(change(b) if b.id == board_id else b for b in plan.boards))


def reshape(plan: Plan, board_id: str, move: Move) -> Plan:
    """One board's outline with its points moved."""
    return change_board(plan, board_id, lambda b: replace(b, outline=moved_ring(b.outline, move)))


def change_opening(plan: Plan, opening_id: str, change: Callable[[Opening], Opening]) -> Plan:
    def with_change(board: Board) -> Board:
        return replace(board, openings=tuple(change(o) if o.id == opening_id else o for o in board.openings))

    return replace(plan, boards=tuple(with_change(b) for b in plan.boards))


def move_edges(plan: Plan, board_id: str, role: EdgeRole, move: Move) -> Plan:
    """The edges of one board and role with their points moved."""

    def with_move(edge: Edge) -> Edge:
        wanted = edge.board == board_id and edge.role == role
        return replace(edge, p=move(edge.p), q=move(edge.q)) if wanted else edge

    return replace(plan, edges=tuple(with_move(e) for e in plan.edges))


def add_seam(plan: Plan, key: str, board_id: str, p: Point, q: Point) -> Plan:
    """A seam that is in the list of edges alone."""
    seam = Edge(key, board_id, (mm(p[0]), mm(p[1])), (mm(q[0]), mm(q[1])), "seam", None, (), None)
    return replace(plan, edges=tuple(sorted((*plan.edges, seam), key=lambda e: e.id)))


def change_screws(plan: Plan, change: Callable[[Fastener], Fastener], screw_id: str = "") -> Plan:
    """All screws changed, or the named one."""
    screws = tuple(change(f) if screw_id in ("", f.id) else f for f in plan.fasteners)
    return replace(plan, fasteners=screws)


def rebanded(plan: Plan, band_id: str, wall: str, box: tuple[float, float, float, float], laps: str = "") -> Plan:
    """One band with another ring, in inches, and another lap."""
    ring = WallRing(wall, rect_in(*box))

    def change(band: Band) -> Band:
        return replace(band, rings=(ring,), lap_ids=(laps,) if laps else ()) if band.id == band_id else band

    return replace(plan, bands=tuple(change(b) for b in plan.bands))


def lapped_to(plan: Plan, band_id: str, other: str) -> Plan:
    bands = tuple(replace(b, lap_ids=(other,)) if b.id == band_id else b for b in plan.bands)
    return replace(plan, bands=bands)


def change_base(room: Room, change: Callable[[Base], Base]) -> Room:
    return replace(room, base=change(room.base))


def butted(room: Room, top: float, thickness: float) -> Room:
    """The room with a thick flange, in inches."""
    assert room.base.flange is not None
    flange = replace(room.base.flange, kind="thick", top=mm(top), thickness=mm(thickness))
    return change_base(room, lambda b: replace(b, treatment="butted", flange=flange))
