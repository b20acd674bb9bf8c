"""A detail on paper: the solids cut and hatched, and what is no solid (band, mortar, sealant, screw) from the plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from generator.drafting.hatch import Hatch
from generator.drafting.ink import Ink, Line, Outline
from generator.drafting.inview import Piece, Symbol, shifted, symbol
from generator.drawings.materials import PATTERNS, Material, material_of
from generator.model.cuts import Cut, Window
from generator.model.frames import Frame
from generator.model.geometry import TOUCH, Point, Ring
from generator.model.job import Job, Section
from generator.model.plan import (
    Band,
    Board,
    Fastener,
    PlannedWall,
)

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

BED = 1.6
"""mm that mortar and band are drawn in front of a board: thicker than they are, so that they can be seen."""
SKIN = 0.55
"""mm of paper between a board's face and the line that stands for its skin."""
SHEET_METAL = 1.3
"""mm at which the sheet of a steel stud is drawn."""
INSIDE = 0.93
"""Grey inside a steel stud."""
NEAR = 8.0
"""mm: screws this near to the plane of a cut are drawn in it."""


@dataclass(frozen=True, slots=True)
class Patch:
    """A face that no solid has: a ring in the cut's frame."""

    ring: Ring
    material: Material


@dataclass(frozen=True, slots=True)
class BandTrace:
    """A leg of a band as the cut meets it: from `p` to `q` on the face of a wall's boards, `out` away from it."""

    band: Band
    wall: str
    p: Point
    q: Point
    out: Point

    @property
    def length(self) -> float:
        return dist(self.p, self.q)

    @property
    def middle(self) -> Point:
        """On its outer side."""
        (x0, y0), (x1, y1) = self.p, self.q
        return ((x0 + x1) / 2 + self.out[0] * BED, (y0 + y1) / 2 + self.out[1] * BED)


@dataclass(frozen=True, slots=True)
class ScrewTrace:
    """A screw as the cut meets it: `head` on the board's face, `tip` in the support."""

    screw: Fastener
    head: Point
    tip: Point


@dataclass(frozen=True, slots=True)
class Seen:
    """A cut with what it meets."""

    job: Job
    cut: Cut
    section: Section
    bands: tuple[BandTrace, ...]
    screws: tuple[ScrewTrace, ...]

    def shape(self, part: str) -> BaseGeometry:
        """What the cut meets of a part; empty where nothing."""
        from shapely import Polygon, unary_union

        return unary_union([Polygon(p.rings[0], p.rings[1:]) for p in self.section.parts if p.part == part])

    def along(self, wall: str) -> float:
        """u of the cut on a wall that it crosses squarely."""
        return self.job.plan.wall(wall).frame.of(self.cut.frame.origin)[0]

    def solid(self, but: frozenset[str] = frozenset()) -> BaseGeometry:
        """Everything that the cut meets, but these parts."""
        from shapely import Polygon, unary_union

        return unary_union([Polygon(p.rings[0], p.rings[1:]) for p in self.section.parts if p.part not in but])

    def boards(self) -> tuple[Board, ...]:
        """The boards that it meets, by id."""
        met = {p.part for p in self.section.parts}
        return tuple(b for b in self.job.plan.boards if b.id in met)


def seen(job: Job, cut: Cut) -> Seen:
    """The cut with the bands and screws of the plan that it meets."""
    section = job.sections[cut.name]
    walls = {b.wall for b in job.plan.boards if any(p.part == b.id for p in section.parts)}
    traces = [
        trace
        for band in job.plan.bands
        for leg in band.rings
        for trace in _band_traces(job, cut, band, leg.wall, leg.ring)
        if leg.wall in walls
    ]
    screws = [t for f in job.plan.fasteners if f.wall in walls and (t := _screw_trace(job, cut, f))]
    return Seen(job, cut, section, tuple(traces), tuple(screws))


def _thickness(job: Job, wall: str) -> float:
    return next(b.thickness for b in job.plan.boards if b.wall == wall)


def _band_traces(job: Job, cut: Cut, band: Band, wall_id: str, ring: Ring) -> Iterator[BandTrace]:
    """Where the plane of the cut crosses a band's leg on the boards' face, as far as the window shows it."""
    from shapely import LineString
    from shapely import box as rectangle

    wall, face = job.plan.wall(wall_id), _thickness(job, wall_id)
    points = [cut.frame.of(wall.frame.at(u, v, face)) for u, v in ring]
    crossed = sorted(
        (x0 + (x1 - x0) * z0 / (z0 - z1), y0 + (y1 - y0) * z0 / (z0 - z1))
        for (x0, y0, z0), (x1, y1, z1) in pairwise((*points, points[0]))
        if (z0 < 0) != (z1 < 0)
    )
    out = direction(cut.frame, wall)
    for p, q in zip(crossed[::2], crossed[1::2], strict=False):
        shape = LineString((p, q)).intersection(rectangle(*cut.window))
        if shape.geom_type == "LineString" and shape.length > 1.0:
            ends = shape.coords
            yield BandTrace(band, wall_id, (ends[0][0], ends[0][1]), (ends[-1][0], ends[-1][1]), out)


def direction(frame: Frame, wall: PlannedWall) -> Point:
    """A wall's w in the plane of a cut, as a unit vector there."""
    x, y = (sum(a * b for a, b in zip(axis, wall.w_axis, strict=True)) for axis in (frame.u_axis, frame.v_axis))
    size = (x * x + y * y) ** 0.5 or 1.0
    return x / size, y / size


def _screw_trace(job: Job, cut: Cut, screw: Fastener) -> ScrewTrace | None:
    """The screw in the plane; None where it stands elsewhere or is not square to the reader."""
    wall, face = job.plan.wall(screw.wall), _thickness(job, screw.wall)
    head, tip = (cut.frame.of(wall.frame.at(*screw.point, w)) for w in (face, face - screw.length))
    left, low, right, high = cut.window
    inside = left < head[0] < right and low < head[1] < high
    if not inside or abs(head[2]) > NEAR or abs(tip[2] - head[2]) > 1.0:
        return None
    return ScrewTrace(screw, (head[0], head[1]), (tip[0], tip[1]))


def detail_ink(shown: Seen, patches: Sequence[Patch], scale: float) -> tuple[Piece, ...]:
    """Everything cut, from the back to the front, in the frame of the cut; `scale` is that of the paper."""
    return shifted(
        (
            *(piece for patch in patches for piece in _patch_ink(patch, shown.cut.window)),
            *_parts_ink(shown, SKIN / scale),
            *_floor(shown.cut),
            *(_screw(trace) for trace in shown.screws),
            *(piece for trace in shown.bands for piece in _band_ink(trace)),
        ),
        (0.0, 0.0),
    )


def _floor(cut: Cut) -> tuple[Ink, ...]:
    """The floor's line, where an upright cut shows it."""
    left, low, right, high = cut.window
    level = -cut.frame.origin[2]
    if cut.frame.v_axis[2] < 0.99 or not low < level < high:
        return ()
    return (Line((left, level), (right, level), "board"),)


def _parts_ink(shown: Seen, inset: float) -> Iterator[Piece]:
    for part in shown.section.parts:
        if part.part in undrawn(shown.job):
            continue
        material = material_of(shown.job, shown.cut.frame, part)
        if material == "steel":
            yield Outline(part.rings[0], "light", fill=INSIDE, edge=False)
        faces = _sheet(part.rings, shown.cut.window) if material == "steel" else (part.rings,)
        for rings in faces:
            yield Hatch(rings, PATTERNS[material])
        if material == "board":
            yield from _skins(shown, part.part, inset)
        for ring in part.rings:
            yield from _edges(ring, shown.cut.window)


def polygons(shape: BaseGeometry) -> list[Polygon]:
    """The polygons of a shape."""
    from shapely import Polygon

    return [g for g in getattr(shape, "geoms", (shape,)) if isinstance(g, Polygon) and not g.is_empty]


def undrawn(job: Job) -> frozenset[str]:
    """Supports that are not drawn as bodies: second sides of one piece of lumber, and rows of plugs in a bare wall."""
    return frozenset(s.id for s in job.plan.supports if s.same_as or s.material == "masonry")


def _sheet(rings: tuple[Ring, ...], window: Window) -> tuple[tuple[Ring, ...], ...]:
    """The sheet of a steel stud along the edges that are no ends of the window: which way it opens is not known."""
    from shapely import LineString, Polygon, unary_union

    edges = [LineString(e) for e in pairwise((*rings[0], rings[0][0])) if not on_border(*e, window)]
    metal = unary_union(edges).buffer(SHEET_METAL, cap_style="flat", join_style="mitre").intersection(Polygon(rings[0]))
    return tuple(
        tuple(tuple((x, y) for x, y in r.coords[:-1]) for r in (p.exterior, *p.interiors)) for p in polygons(metal)
    )


def _skins(shown: Seen, board_id: str, inset: float) -> Iterator[Ink]:
    """A line inside each face of a board, as far as the board is as thick as its sheet there."""
    out = direction(shown.cut.frame, shown.job.plan.wall(shown.job.plan.board(board_id).wall))
    shape = shown.shape(board_id)
    for points in (tuple(r.coords) for p in polygons(shape) for r in (p.exterior, *p.interiors)):
        for p, q in pairwise(points):
            normal = ((q[1] - p[1]) / (dist(p, q) or 1.0), -(q[0] - p[0]) / (dist(p, q) or 1.0))
            facing = normal[0] * out[0] + normal[1] * out[1]
            if abs(facing) > 0.99 and not on_border(p, q, shown.cut.window):
                way = _inwards(shape, p, q, out, inset)
                yield Line(_moved(p, way), _moved(q, way), "visible")


def _inwards(shape: BaseGeometry, p: Point, q: Point, out: Point, inset: float) -> Point:
    from shapely import Point as Spot

    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    inner = shape.contains(Spot(_moved(middle, (out[0] * inset / 2, out[1] * inset / 2))))
    sign = inset if inner else -inset
    return (out[0] * sign, out[1] * sign)


def _moved(p: Point, by: Point) -> Point:
    return (p[0] + by[0], p[1] + by[1])


def _edges(ring: Ring, window: Window) -> Iterator[Ink]:
    """The outline of a cut face, less what is there only because the window ends."""
    for p, q in pairwise((*ring, ring[0])):
        if not on_border(p, q, window):
            yield Line(p, q, "outline")


def on_border(p: Point, q: Point, window: Window) -> bool:
    """True for a side that lies on the border of the window."""
    return any(abs(p[i % 2] - window[i]) < TOUCH and abs(q[i % 2] - window[i]) < TOUCH for i in range(4))


def _patch_ink(patch: Patch, window: Window) -> Iterator[Piece]:
    yield Hatch((patch.ring,), PATTERNS[patch.material])
    for p, q in pairwise((*patch.ring, patch.ring[0])):
        if not on_border(p, q, window):
            yield Line(p, q, "visible")


def _screw(trace: ScrewTrace) -> Symbol:
    """Washer across the head, shank down to a point."""
    (hx, hy), (tx, ty) = trace.head, trace.tip
    length = dist(trace.head, trace.tip)
    ax, ay = (tx - hx) / length, (ty - hy) / length
    nx, ny, half = -ay, ax, trace.screw.washer_diameter / 2

    def spot(along: float, aside: float) -> Point:
        return (hx + ax * along + nx * aside, hy + ay * along + ny * aside)

    washer = (spot(0.0, -half), spot(0.0, half), spot(1.0, half), spot(1.0, -half))
    shank = (spot(1.0, -2.0), spot(1.0, 2.0), spot(length - 5.0, 1.4), spot(length, 0.0), spot(length - 5.0, -1.4))
    ink = (Outline(shank, "screw", fill=0.55), Outline(washer, "screw", fill=0.2))
    return symbol("screw from the side", trace.head, ink, trace.screw.id)


def _band_ink(trace: BandTrace) -> Iterator[Ink]:
    """The mortar that beds it, and the band in front."""
    way = (trace.out[0] * BED, trace.out[1] * BED)
    outer = (_moved(trace.p, way), _moved(trace.q, way))
    yield Outline((trace.p, trace.q, outer[1], outer[0]), "light", fill=0.7)
    yield Line(*outer, "board")
