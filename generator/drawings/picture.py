"""The picture of the room, flat and shaded, and the key plan of its walls and base."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from generator.drafting.ink import Circle, Ink, Line, Outline, Text, View
from generator.drafting.inview import InView
from generator.drafting.page import Page, text_box
from generator.drafting.spot import Block, fit_block
from generator.drawings.flow import Box
from generator.drawings.scales import Scale, fitting_scale
from generator.drawings.soffit_marks import rings_above
from generator.model.features import Feature
from generator.model.geometry import Point, Ring, area, box
from generator.model.job import Face, Job, Projection
from generator.model.placing import floor_point
from generator.model.plan import PlannedWall

ALONE, BORDER = 200.0, 5.0
"""mm: width of the picture where it stands by itself, and the white around it."""
STROKE = 0.1
"""mm: width of a stroke where marks keep clear of it."""
MARKED = (3.5, 2.5)
"""mm: heights of a board's mark in the picture; it is left out where it does not fit."""
BEHIND = 90.0
"""mm of the room: thickness at which the key plan draws a wall's framing when it has no studs."""
REACHES = (4.0, 7.0, 10.0, 13.0)
"""From a corner to its angle's text, in sums of the two walls' w axes at 1 mm: the first that is clear wins."""
APART = 9.0
"""mm between the middles of two angles' texts."""
FLAT = 0.6
"""Upward part of the direction of a face that one sits or sets things on."""
MARGIN = 9.0
"""mm of paper around the key plan for the names of walls."""


def picture_view(projection: Projection, space: Box) -> InView:
    """The projection as large as the space allows (a picture has no scale), with the marks of boards."""
    points = [p for f in projection.faces for ring in f.rings for p in ring]
    points += [p for s in projection.strokes for p in s.points]
    view = _view_into(box(points), space)
    faces = sorted(projection.faces, key=lambda f: (-abs(area(f.rings[0])), f.part, f.rings[0]))
    fills = [ink for f in faces for ink in _face_ink(f)]
    strokes = [
        Outline(s.points, "visible" if s.outer else "light", closed=False) for s in projection.strokes if not s.hidden
    ]
    drawn = [tuple(view.point(p) for p in stroke.ring) for stroke in strokes]
    marks = [text for f in _largest(faces) for text in _mark(f, view, drawn)]
    return InView(view, (*fills, *strokes), tuple(marks), patched=False)


def room_picture(job: Job) -> Page | None:
    """The picture of the room by itself, on paper of its own shape; None where there is no view of it."""
    projection = job.projections.get("isometric")
    if projection is None or not projection.faces:
        return None
    left, bottom, right, top = box(p for f in projection.faces for ring in f.rings for p in ring)
    height = ALONE * (top - bottom) / (right - left)
    space = (BORDER, BORDER, BORDER + ALONE, BORDER + height)
    size = (ALONE + 2 * BORDER, height + 2 * BORDER)
    return Page("", f"Picture of {job.room.name}", *size, "none", picture_view(projection, space).on_paper)


def _view_into(bounds: Box, space: Box) -> View:
    width, height = bounds[2] - bounds[0], bounds[3] - bounds[1]
    scale = min((space[2] - space[0]) / width, (space[3] - space[1]) / height)
    left = (space[0] + space[2] - width * scale) / 2
    return View(scale, (left, space[3] - height * scale), (bounds[0], bounds[1]))


def _face_ink(face: Face) -> tuple[Ink, ...]:
    grey = 0.35 + 0.63 * face.shade
    holes = tuple(Outline(ring, "light", fill=1.0, edge=False) for ring in face.rings[1:])
    return (Outline(face.rings[0], "light", fill=grey, edge=False), *holes)


def _largest(faces: list[Face]) -> list[Face]:
    """The largest visible patch of each board; the faces come the largest first."""
    found: dict[str, Face] = {}
    for face in faces:
        if face.kind == "board":
            found.setdefault(face.part, face)
    return [found[part] for part in sorted(found)]


def _mark(face: Face, view: View, strokes: Sequence[Ring]) -> tuple[Text, ...]:
    """Clear of the patch's own holes and of every stroke that is drawn over it."""
    rings = [tuple(view.point(p) for p in ring) for ring in face.rings]
    near = (
        strip for stroke in strokes for p, q in pairwise(stroke) if p != q and _meet(strip := _strip(p, q), rings[0])
    )
    return fit_block(Block((face.part,), bold=True), rings[0], (*rings[1:], *near), MARKED, clear=1.0)


def _strip(p: Point, q: Point) -> Ring:
    """A stroke as a ring, as narrow as makes it one."""
    length = math.dist(p, q) or 1.0
    x, y = (q[1] - p[1]) / length * STROKE, (p[0] - q[0]) / length * STROKE
    return p, q, (q[0] + x, q[1] + y), (p[0] + x, p[1] + y)


def _meet(one: Ring, other: Ring) -> bool:
    a, b = box(one), box(other)
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def key_plan(job: Job, space: Box) -> tuple[InView, Scale]:
    """Walls from above with their names, the base and the fittings, at a standard scale; the scale."""
    walls = _standing(job)
    framing = {w.id: _framing_ring(job, w) for w in walls}
    base, tops = _base_ring(job), [ring for _, ring in _tops(job)]
    bounds = box([p for ring in (*framing.values(), base, *tops) for p in ring])
    size = (bounds[2] - bounds[0], bounds[3] - bounds[1])
    room = (space[2] - space[0] - 4 * MARGIN, space[3] - space[1] - 2 * MARGIN)
    scale = fitting_scale(size, room, job.room.choices.paper_units)
    left = (space[0] + space[2] - size[0] * scale.factor) / 2
    view = View(scale.factor, (left, space[3] - MARGIN - size[1] * scale.factor), (bounds[0], bounds[1]))
    ink: list[Ink] = [Outline(ring, "visible", fill=0.85) for ring in framing.values()]
    ink += [Line(floor_point(w, _ends(w)[0], 0.0), floor_point(w, _ends(w)[1], 0.0), "outline") for w in walls]
    if base:
        ink.append(Outline(base, "base", fill=0.95))
    ink += [Outline(ring, "visible", fill=1.0) for ring in tops]
    ink += [Outline(ring, "hidden") for _, ring in rings_above(job)]
    ink += [
        Circle(floor_point(job.plan.wall(f.wall), f.centre[0], 0.0), 30.0, "fitting", fill=0.0)
        for f in job.plan.fittings
    ]
    return InView(view, tuple(ink), _names(job, view, base)), scale


def _standing(job: Job) -> tuple[PlannedWall, ...]:
    """The walls of the chain: faces of niches and the like stand in or before them."""
    return tuple(job.plan.wall(wall.id) for wall in job.room.chain)


def _ends(wall: PlannedWall) -> tuple[float, float]:
    left, _, right, _ = box(wall.outline)
    return left, right


def _depth(job: Job, wall: PlannedWall) -> float:
    return max((s.depth for s in job.plan.supports if s.wall == wall.id), default=BEHIND)


def _framing_ring(job: Job, wall: PlannedWall) -> Ring:
    (left, right), depth = _ends(wall), _depth(job, wall)
    corners = ((left, 0.0), (right, 0.0), (right, -depth), (left, -depth))
    return tuple(floor_point(wall, u, w) for u, w in corners)


def _base_ring(job: Job) -> Ring:
    """The base from above."""
    base = job.room.base
    if not base.footprint:
        return ()
    wall = job.plan.wall(base.along)
    return tuple(floor_point(wall, u, w - wall.furring) for u, w in base.footprint)


def _tops(job: Job) -> Iterator[tuple[Feature, Ring]]:
    """Benches, decks and curbs from above, in the room's x and y."""
    for feature in (one for one in job.room.features if one.kind in ("bench", "deck", "curb")):
        for wall in (job.plan.wall(face) for face in feature.faces if job.plan.wall(face).w_axis[2] > FLAT):
            corners = (wall.frame.at(u, v) for u, v in wall.outline)
            yield feature, tuple((x, y) for x, y, _ in corners)


def _names(job: Job, view: View, base: Ring) -> tuple[Ink, ...]:
    """Names behind the walls, angles of corners that are not square, the kind of base on the base."""
    ink: list[Ink] = []
    wrapped = _wrapped(job)
    for wall in _standing(job):
        left, right = _ends(wall)
        # A partition has no back to write behind: the names of its faces stand before them.
        behind = 0.0 if wall.id in wrapped else -_depth(job, wall)
        x, y = view.point(floor_point(wall, (left + right) / 2, behind))
        way = 1.0 if wall.id in wrapped else -1.0
        out = (way * wall.w_axis[0], way * wall.w_axis[1])
        align = "left" if out[0] > 0.5 else "right" if out[0] < -0.5 else "centre"
        level = "base" if out[1] > 0.5 else "top" if out[1] < -0.5 else "middle"
        ink.append(Text((x + out[0] * 2.0, y + out[1] * 2.0), wall.id, 3.5, align, level, bold=True))  # type: ignore[arg-type]
    ink += _angles(job, view)
    tops = list(_tops(job))
    named = [(f"{feature.id} above", ring) for feature, ring in rings_above(job)]
    named += [(feature.id, ring) for feature, ring in tops]
    if base:
        named.append((job.room.base.kind.replace("_", " "), base))
    for name, ring in named:
        taken: list[Ring] = [text_box(t) for t in ink if isinstance(t, Text)]
        taken += [tuple(view.point(p) for p in top) for _, top in tops if top != ring]
        ink += fit_block(Block((name,)), tuple(view.point(p) for p in ring), taken, (2.5,), clear=0.6)
    return tuple(ink)


def _wrapped(job: Job) -> set[str]:
    """Ids of the faces of partitions, which have boards on both sides."""
    far = {wall.id for wall in job.room.chain if wall.borrows}
    outside = [{c.left_wall, c.right_wall} for c in job.plan.corners if c.angle_deg > 180.0]
    return far.union(*(pair for pair in outside if pair & far))


def _angles(job: Job, view: View) -> list[Text]:
    """Angles of the corners that are not square, inside the room and clear of each other; a partition's say nothing."""
    found: list[Text] = []
    wrapped = _wrapped(job)
    told = (c for c in job.plan.corners if not {c.left_wall, c.right_wall} & wrapped)
    for corner in (c for c in told if abs(c.angle_deg - 90.0) > 0.05):
        left, right = job.plan.wall(corner.left_wall), job.plan.wall(corner.right_wall)
        x, y = view.point(floor_point(left, _ends(left)[1], 0.0))
        way = (left.w_axis[0] + right.w_axis[0], left.w_axis[1] + right.w_axis[1])
        spots = [(x + way[0] * reach, y + way[1] * reach) for reach in REACHES]
        free = [s for s in spots if all(math.dist(s, t.at) > APART for t in found)]
        found.append(Text((free or spots)[0], f"{corner.angle_deg:g}°", 2.5, "centre", "middle"))
    return found
