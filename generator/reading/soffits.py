"""A soffit: its underside, its front and its free ends as faces, and what it takes of the walls that it is framed to.

It is framed to the studs before any board is hung, so the walls' boards end round it, flush with its framing. Its
underside comes next and butts against their faces, then its front, which laps the underside's edge, then its ends.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.model.ends import height_at, top_line
from generator.model.features import Feature
from generator.model.frames import Frame
from generator.model.geometry import NOISE, TOUCH, Ring, box, canonical, rectangle
from generator.model.plan import Allowance
from generator.reading.benches import UP, Made, Site, free_ends
from generator.reading.facing import Against, Body, Side, above, across, below, faces_of, folds_of
from generator.reading.soffit_shapes import SoffitShape

Box = tuple[float, float, float, float]
Taken = Mapping[str, Allowance]
"""By wall: where a soffit stands before its framing, in the wall's frame."""


def soffit_at(path: str, shape: SoffitShape, site: Site) -> tuple[Made, Taken]:
    """The soffit, and what it takes of the walls that it is framed to; the shape has been judged."""
    body = _body(path, shape, site)
    faces = faces_of(body)
    feature = Feature(path, shape.name, "soffit", shape.along, tuple(face.id for face in faces), ())
    walls = [one.wall for one in body.against if one.wall]
    return (faces, folds_of(body), feature), {wall: _taken(body, wall, site) for wall in walls}


def soffit_span(shape: SoffitShape, width: float) -> tuple[float, float]:
    """u from and to of a soffit along its wall."""
    start = shape.start.mm if shape.start else 0.0
    return start, start + shape.length.mm if shape.length else width


def _body(path: str, shape: SoffitShape, site: Site) -> Body:
    wall, (start, end) = site.frames[shape.along], soffit_span(shape, site.width(shape.along))
    depth, low = shape.depth.mm, shape.height.mm
    along, out = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
    ends, beside = free_ends(shape.name, shape.along, (start, end), (0.0, depth), site)
    underside = Side(f"{shape.name}-underside", "underside", wall.turned((start, low, 0.0), along, out))
    front = Side(f"{shape.name}-front", "front", wall.turned((start, low, depth), along, UP), borrows=True)
    others = (front.id, *(end.id for end in ends))
    ceiling = Against("fit", wall.turned((start, _ceiling(shape, site), 0.0), along, out), site.fit, only=others)
    against = (site.boarded(shape.along), *beside, ceiling)
    return Body(path, shape.name, "soffit", site.board, (underside, front, *ends), against, site.fit)


def _ceiling(shape: SoffitShape, site: Site) -> float:
    """v of the ceiling over a soffit, which is level there."""
    start, end = soffit_span(shape, site.width(shape.along))
    wall = next(one for one in site.walls if one.id == shape.along)
    return height_at(top_line(wall.outline), (start + end) / 2)


def _taken(body: Body, wall: str, site: Site) -> Allowance:
    """Its section where it meets a wall, and the fit round that: there are no boards of the wall behind it."""
    own = next(one for one in site.walls if one.id == wall)
    left, low, right, high = box(_section(body, site.frames[wall], own.outline))
    faces = [box(s.outline) for s in own.supports if s.kind != "plate" and box(s.outline)[1] < low]
    ends = box(own.outline)
    left = left if left <= ends[0] + TOUCH else _to_stud(left, -1.0, faces, body)
    right = right if right >= ends[2] - TOUCH else _to_stud(right, 1.0, faces, body)
    return Allowance("soffit", rectangle(left, low, right, high))


def _to_stud(u: float, way: float, faces: Sequence[Box], body: Body) -> float:
    """An edge of the wall's boards, moved away from the soffit to the side of a stud, where that is so near that the
    soffit's own board still hides it: then the edge bears on that stud, or on one put in beside it."""
    sides = [side for left, _, right, _ in faces for side in (left, right)]
    near = [side for side in sides if 0.0 < way * (side - u) <= body.board - 2 * body.fit + NOISE]
    return min(near, key=lambda side: abs(side - u), default=u)


def _section(body: Body, frame: Frame, outline: Ring) -> Ring:
    left, low, right, high = box(outline)
    ring: tuple[tuple[float, float], ...] = ((left, low), (right, low), (right, high), (left, high))
    for side in body.sides:
        ring = below(ring, across(frame, 0.0, side.frame), body.fit)
    for one in body.against:
        if one.wall == "":
            ring = above(ring, across(frame, 0.0, one.frame), 0.0)
    return canonical(ring)
