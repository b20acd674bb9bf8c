"""Plans with folds, laid out by hand in inches: a wall with a niche of five faces, and the end of a partition.

The niche: framing 14 wide and 24 high, from 20 across and 40 up; boards 1/2 thick; the finished rear 2-3/4 behind the
stud faces, so 3-1/4 behind the finished wall. Its sill falls 1/4 on that way. Frames: `u` of the left side runs into
the wall, of the right side out of it; `u` of the sill towards the room, of the head away from it, `v` to the right.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import hypot
from typing import Literal, cast

from generator.model.features import FaceKind, Fold, Segment
from generator.model.frames import Frame, upright_frame
from generator.model.geometry import Point, Ring, canonical, rectangle
from generator.model.plan import (
    Board,
    Opening,
    Plan,
    PlannedBase,
    PlannedCorner,
    PlannedWall,
    Region,
)
from generator.model.room import Base, Corner, Room, Wall
from generator.planning.edges import plan_edges
from generator.planning.shapes import polygon, regions, union
from generator.reading.recess import Recess, faces_of, folds_of
from tests.planning.finished import finished
from tests.worked_plan import worked_plan
from tests.worked_room import mm, rect_in, worked_room

SILL = hypot(3.25, 0.25)
"""From the rear to the mouth along the sill."""
Inches = tuple[float, float]
BACK = upright_frame((0.0, 0.0, 0.0), 0.0)


def ring_in(*points: Inches) -> Ring:
    return canonical((mm(u), mm(v)) for u, v in points)


def _frame(at: tuple[float, float, float], u: tuple[float, float, float], v: tuple[float, float, float]) -> Frame:
    return BACK.turned((mm(at[0]), mm(at[1]), mm(at[2])), u, v)


UP, ACROSS = (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)
LOW = 0.5 / SILL
"""Half an inch of sill board, square to its slope."""
FRAMES = {
    "back": BACK,
    "niche-rear": _frame((20, 40, -3.25), ACROSS, UP),
    "niche-sill": _frame((20, 40.75 - 3.25 * LOW, -2.75 - 0.25 * LOW), (0.0, -0.25, 3.25), ACROSS),
    "niche-head": _frame((20, 64, 0.5), (0.0, 0.0, -1.0), ACROSS),
    "niche-left": _frame((20, 40, 0.5), (0.0, 0.0, -1.0), UP),
    "niche-right": _frame((34, 40, -2.75), (0.0, 0.0, 1.0), UP),
}
MOUTH = rect_in(20, 40, 34, 64)
BOARDS = {
    "back": rect_in(0, 0.25, 60, 95.875),
    "niche-rear": rect_in(0.125, 0.125, 13.875, 23.875),
    "niche-sill": rect_in(0.125, 0.125, SILL, 13.875),
    "niche-head": rect_in(0, 0.125, 3.125, 13.875),
    "niche-left": ring_in((0, 0.625), (3.125, 0.625 + 3.125 / 13), (3.125, 23.375), (0, 23.375)),
    "niche-right": ring_in((0.125, 0.875 - 0.125 / 13), (3.25, 0.625), (3.25, 23.375), (0.125, 23.375)),
}
TILT = 4.398705
"""Degrees that the sill falls by 1/4 on 3-1/4."""
FOLDS: dict[tuple[str, str], tuple[float, tuple[Inches, Inches], tuple[Inches, Inches]]] = {
    ("rear", "sill"): (90.0 + TILT, ((0.5, 0.75), (13.5, 0.75)), ((0, 0.5), (0, 13.5))),
    ("rear", "head"): (90.0, ((0.5, 23.5), (13.5, 23.5)), ((3.25, 0.5), (3.25, 13.5))),
    ("rear", "left"): (90.0, ((0.5, 0.75), (0.5, 23.5)), ((3.25, 0.75), (3.25, 23.5))),
    ("rear", "right"): (90.0, ((13.5, 0.75), (13.5, 23.5)), ((0, 0.75), (0, 23.5))),
    ("sill", "left"): (90.0, ((0, 0.5), (SILL, 0.5)), ((3.25, 0.75), (0, 0.5))),
    ("sill", "right"): (90.0, ((0, 13.5), (SILL, 13.5)), ((0, 0.75), (3.25, 0.5))),
    ("head", "left"): (90.0, ((0, 0.5), (3.25, 0.5)), ((0, 23.5), (3.25, 23.5))),
    ("head", "right"): (90.0, ((0, 13.5), (3.25, 13.5)), ((3.25, 23.5), (0, 23.5))),
    ("wall", "sill"): (270.0 - TILT, ((20.5, 40.5), (33.5, 40.5)), ((SILL, 0.5), (SILL, 13.5))),
    ("wall", "head"): (270.0, ((20.5, 63.5), (33.5, 63.5)), ((0, 0.5), (0, 13.5))),
    ("wall", "left"): (270.0, ((20.5, 40.5), (20.5, 63.5)), ((0, 0.5), (0, 23.5))),
    ("wall", "right"): (270.0, ((33.5, 40.5), (33.5, 63.5)), ((3.25, 0.5), (3.25, 23.5))),
}


def _segment(ends: tuple[Inches, Inches]) -> Segment:
    (u0, v0), (u1, v1) = ends
    return (mm(u0), mm(v0)), (mm(u1), mm(v1))


def _id(face: str) -> str:
    return "back" if face == "wall" else f"niche-{face}"


def _folds() -> Iterable[Fold]:
    for (a, b), (angle, on_a, on_b) in sorted(FOLDS.items()):
        lines = (_segment(on_a), _segment(on_b))
        yield Fold("", f"niche-{a}-{b}", (_id(a), _id(b)), lines, angle, _id(a))


def _planned(
    name: str, frame: Frame, ring: Ring, holes: tuple[Ring, ...] = (), extent: Ring | None = None
) -> PlannedWall:
    face = name.removeprefix("niche-") if name.startswith("niche") else "wall"
    return PlannedWall(
        name, frame.origin, frame.u_axis, frame.v_axis, frame.w_axis, "finished floor", 0.0, ring, extent or ring, (),
        (Region(extent or ring, holes),), face=face, feature_id=None if face == "wall" else "niche",
    )  # fmt: skip


def board(name: str, ring: Ring, openings: tuple[Opening, ...] = ()) -> Board:
    return Board(f"B-{name}-1", name, "stock", mm(0.5), ring, openings, (), "SH-01", (), 1.0)


def measured(walls: Iterable[PlannedWall], corners: tuple[Corner, ...] = ()) -> Room:
    """The worked room's choices and rules round other walls."""
    room = worked_room()
    return replace(room, walls=tuple(_wall(wall) for wall in walls), corners=corners, fittings=(), base=_no_base(room))


def _no_base(room: Room) -> Base:
    return replace(room.base, kind="none", treatment="none", sides=(), flange=None)


def _wall(wall: PlannedWall) -> Wall:
    us, vs = zip(*wall.outline, strict=True)
    frame = None if wall.face == "wall" else wall.frame
    return Wall(
        f"walls.{wall.id}", wall.id, wall.outline, (min(us), max(us)), max(vs), False, "framing", "unknown",
        ("free", "free"), (), frame=frame, face=cast(FaceKind, wall.face), feature=wall.feature_id or "",
        extent=wall.extent,
    )  # fmt: skip


def _empty(walls: tuple[PlannedWall, ...], boards: tuple[Board, ...]) -> Plan:
    return replace(
        worked_plan(), walls=walls, corners=(), base=PlannedBase("none", (), ()), supports=(), boards=boards, edges=(),
        fittings=(), fasteners=(), bands=(), sheets=(), takeoff=(), sequence=(),
    )  # fmt: skip


def niche_plan() -> tuple[Room, Plan]:
    """The wall with the niche, sealed and counted; without framing and screws."""
    walls = tuple(_planned(n, FRAMES[n], ring, (MOUTH,) if n == "back" else ()) for n, ring in BOARDS.items())
    mouth = Opening("O-niche", None, "niche", (mm(27), mm(52)), 0.0, MOUTH)
    boards = tuple(board(n, ring, (mouth,) if n == "back" else ()) for n, ring in BOARDS.items())
    room, folds = measured(walls), tuple(_folds())
    return room, sealed(room, replace(_empty(walls, boards), folds=folds))


def corner_plan(lapping_top: float = 80.0) -> tuple[Room, Plan]:
    """The end of a partition: walls "side" (48 wide, 80 high) and "end" turn away from each other by a right angle.

    The end's boards lap the side's edge: they start 1/2 before its framing.
    """
    side, end = upright_frame((0.0, 0.0, 0.0), 0.0), upright_frame((mm(48), 0.0, 0.0), 90.0)
    outlines = {"side": rect_in(0, 0, 48, 80), "end": rect_in(0, 0, 6, lapping_top)}
    lapping = _planned("end", end, outlines["end"], extent=rect_in(-0.5, 0, 6, lapping_top))
    walls = (_planned("side", side, outlines["side"]), lapping)
    boards = (board("side", rect_in(0, 0.25, 48, 79)), board("end", rect_in(-0.5, 0.25, 6, lapping_top - 1)))
    corner = Corner("corners.0", "C-side-end", "side", "end", 270.0, "side")
    room = measured(walls, (corner,))
    beside = {"side": ("free", "corner"), "end": ("corner", "free")}
    room = replace(room, walls=tuple(replace(w, beside=beside[w.id]) for w in room.walls))  # type: ignore[arg-type]
    plan = replace(_empty(walls, boards), corners=(PlannedCorner("C-side-end", "side", "end", 270.0, "side"),))
    return room, sealed(room, plan)


def recess_plan(
    kind: Literal["niche", "window"], size: tuple[float, float, float], fall: float, heading: float
) -> tuple[Room, Plan]:
    """A wall 96 wide and high with a niche or window, faces and folds made by the reader; not sealed yet."""
    width, height, depth = (mm(n) for n in size)
    frame, around = upright_frame((100.0, -200.0, 0.0), heading), rect_in(0, 0, 96, 96)
    host = _planned("back", frame, around)
    opening = (mm(30), mm(30), mm(30) + width, mm(30) + height)
    recess = Recess("", "niche", kind, _wall(host), frame, opening, depth, mm(0.5), mm(0.125), fall)
    mouth = rectangle(*opening)
    faces = [
        replace(_planned(f.id, f.frame or frame, f.outline, extent=f.extent), face=f.face) for f in faces_of(recess)
    ]
    holes = (Region(around, (mouth,)),)
    cut = [replace(f, wet_region=_less(f, wall)) for f, wall in zip(faces, faces_of(recess), strict=True)]
    walls = (replace(host, wet_region=holes), *cut)
    own = Opening("O-niche", None, "niche", (opening[0] + width / 2, opening[1] + height / 2), 0.0, mouth)
    boards = (board("back", around, (own,)), *(board(f.id, f.wet_region[0].ring) for f in cut))
    folds = sorted(folds_of(recess), key=lambda f: f.id)
    return measured(walls), replace(_empty(walls, boards), folds=tuple(folds))


def _less(face: PlannedWall, wall: Wall) -> tuple[Region, ...]:
    return regions(polygon(face.extent).difference(union(polygon(a.ring) for a in wall.allowances)))


def sealed(room: Room, plan: Plan) -> Plan:
    """The plan with its edges, bands and take-off made anew."""
    edges = plan_edges(room, plan.walls, plan.folds, plan.boards, plan.supports)
    return finished(room, replace(plan, edges=edges))


def rings_in(plan: Plan) -> dict[str, dict[str, list[Inches]]]:
    """By band and wall, the ring in inches to five decimals."""
    return {band.id: {r.wall: [_in(p) for p in r.ring] for r in band.rings} for band in plan.bands}


def _in(point: Point) -> Inches:
    return round(point[0] / 25.4, 5), round(point[1] / 25.4, 5)
