"""Cuts through the solids: an upright one for each board, a level one for the key plan, and those of the details."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from generator.model.cuts import Cut
from generator.model.frames import Vector
from generator.model.geometry import TOUCH, Point, Ring, box, canonical
from generator.model.job import Section, SectionPart
from generator.model.plan import Board, Opening, Plan
from generator.solids.facets import wire_points
from generator.solids.kernel import at, in_wall, kernel, wire
from generator.solids.records import Bodies, Body

FAR = 2e4
"""mm: half the side of a cutting plane; more than any room."""
PLANE = ((-FAR, -FAR), (FAR, -FAR), (FAR, FAR), (-FAR, FAR))
KEY_PLAN = "plan"
KEY_PLAN_SHARE = 0.6
"""The key plan is cut at this share of the height of the boards' top."""
CLEAR = 1.0
"""mm by which a detail's cut keeps clear of openings."""


def sections(bodies: Bodies, plan: Plan, details: Sequence[Cut] = ()) -> Mapping[str, Section]:
    """By board id: an upright cut through its longest rabbet, else its bottom; under "plan": the room cut level.

    By the names of the cuts of details: what their windows meet, each in the cut's own frame.
    """
    cuts = {b.id: section(bodies, b.wall, section_at(b), b.id) for b in plan.boards}
    top = max((box(b.outline)[3] for b in plan.boards), default=0.0)
    larger = {cut.name: cut_section(bodies, cut) for cut in details}
    return {**cuts, **larger, KEY_PLAN: level_section(bodies, top * KEY_PLAN_SHARE, KEY_PLAN)}


def section(bodies: Bodies, wall_id: str, u: float, name: str) -> Section:
    """What the upright plane at `u` of a wall meets of that wall and the base: x = w (stud faces at 0), y = v."""
    wall = bodies.wall(wall_id)
    near = tuple(b for b in bodies.parts if b.wall in (wall_id, ""))

    def flat(point: Vector) -> Point:
        _, v, w = in_wall(wall, point)
        return w, v

    return _cut(near, [at(wall, u, v, w) for w, v in PLANE], flat, name)


def level_section(bodies: Bodies, v: float, name: str) -> Section:
    """Everything that the level plane at `v` meets, from above, in the room's own x and y."""
    wall = bodies.walls[0]
    return _cut(bodies.parts, [at(wall, u, v, w) for u, w in PLANE], lambda p: (p[0], p[1]), name)


def cut_section(bodies: Bodies, cut: Cut) -> Section:
    """What the window of a cut meets of all bodies; nothing beyond the window."""
    left, low, right, high = cut.window
    corners = [cut.frame.at(x, y) for x, y in ((left, low), (right, low), (right, high), (left, high))]
    near = tuple(b for b in bodies.parts if _reaches(b, corners))

    def flat(point: Vector) -> Point:
        x, y, _ = cut.frame.of(point)
        return x, y

    return _cut(near, corners, flat, cut.name)


def _reaches(body: Body, corners: Sequence[Vector]) -> bool:
    """False where the body's box and the box of the window stand apart."""
    b = body.shape.BoundingBox()
    spans = ((b.xmin, b.xmax), (b.ymin, b.ymax), (b.zmin, b.zmax))
    windows = [(min(p[i] for p in corners), max(p[i] for p in corners)) for i in range(3)]
    return all(
        low <= top + TOUCH and bottom <= high + TOUCH for (low, high), (bottom, top) in zip(spans, windows, strict=True)
    )


def section_at(board: Board) -> float:
    """The u of a board's detail: the middle of its longest rabbet (else bottom side), moved clear of openings."""
    spans = [box(r.ring) for r in board.rabbets]
    left, right = max(((b[0], b[2]) for b in spans), key=_length, default=_bottom(board.outline))
    holes = [_across(o) for o in board.openings]
    spots = [left + (right - left) * (0.5 + side * k / 20) for k in range(10) for side in (1, -1)]
    return next((u for u in spots if not any(a - CLEAR < u < b + CLEAR for a, b in holes)), spots[0])


def _length(span: tuple[float, float]) -> float:
    return span[1] - span[0]


def _bottom(ring: Ring) -> tuple[float, float]:
    """The longest side that the ring runs along to the right: its lower side, or the part beside a leg."""
    sides = ((p[0], q[0]) for p, q in zip(ring, (*ring[1:], ring[0]), strict=True))
    return max(sides, key=_length)


def _across(opening: Opening) -> tuple[float, float]:
    if opening.ring:
        left, _, right, _ = box(opening.ring)
        return left, right
    return opening.centre[0] - opening.diameter / 2, opening.centre[0] + opening.diameter / 2


def _cut(bodies: tuple[Body, ...], corners: list[Vector], flat: Callable[[Vector], Point], name: str) -> Section:
    plane = kernel().Face.makeFromWires(wire(corners))
    parts = ((body, plane.intersect(body.shape).Faces()) for body in bodies if _meets(body, corners))
    return Section(name, tuple(p for body, faces in parts for p in _parts(body, faces, flat)))


def _meets(body: Body, corners: list[Vector]) -> bool:
    """False where all of the body's box lies on one side of the plane."""
    cq = kernel()
    start, right, up = (cq.Vector(*corners[i]) for i in (0, 1, 3))
    normal = (right - start).cross(up - start).normalized()
    b = body.shape.BoundingBox()
    spots = [cq.Vector(x, y, z) for x in (b.xmin, b.xmax) for y in (b.ymin, b.ymax) for z in (b.zmin, b.zmax)]
    heights = [(spot - start).dot(normal) for spot in spots]
    return bool(min(heights) <= 0.0 <= max(heights))


def _parts(body: Body, faces: list[Any], flat: Callable[[Vector], Point]) -> tuple[SectionPart, ...]:
    """One part per patch that is cut, holes as further rings, in a fixed order."""
    patches = [
        (
            _ring(face.outerWire(), face, flat),
            tuple(sorted(_ring(hole, face, flat) for hole in face.innerWires())),
        )
        for face in faces
    ]
    return tuple(SectionPart(body.id, body.kind, (outer, *holes)) for outer, holes in sorted(patches))


def _ring(outline: Any, face: Any, flat: Callable[[Vector], Point]) -> Ring:
    return canonical(flat(p) for p in wire_points(outline, face))
