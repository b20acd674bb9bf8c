"""A curb along the open side of a tray: both faces and a top that slopes in, bonded to stacked lumber."""

from __future__ import annotations

from generator.model.features import Feature
from generator.reading.bench_shapes import CurbShape
from generator.reading.benches import Made, Site, free_ends
from generator.reading.facing import BEVEL, Against, Body, Side, faces_of, folds_of


def curb_at(path: str, shape: CurbShape, site: Site) -> Made:
    """The curb; the shape has been judged. Its faces run along their lumber: v along the curb, u across it."""
    body = _body(path, shape, site)
    faces = faces_of(body)
    ids = tuple(face.id for face in faces)
    feature = Feature(path, shape.name, "curb", shape.along, ids, (f"{shape.name}-cap",))
    return faces, folds_of(body), feature


def curb_span(shape: CurbShape, width: float) -> tuple[float, float]:
    """u from and to of a curb along its wall."""
    start = shape.start.mm if shape.start else 0.0
    return start, start + shape.length.mm if shape.length else width


def _body(path: str, shape: CurbShape, site: Site) -> Body:
    wall, (start, end) = site.frames[shape.along], curb_span(shape, site.width(shape.along))
    near = shape.out.mm if shape.out else site.base.width
    far, height = near + shape.thickness.mm, shape.height.mm
    up, along, back = (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)
    inside = Side(f"{shape.name}-inside", "inside", wall.turned((start, 0.0, near), up, along))
    outside = Side(f"{shape.name}-outside", "outside", wall.turned((end, 0.0, far), up, back))
    cap = Side(f"{shape.name}-cap", "cap", wall.turned((start, height, near), (0.0, site.fall, 1.0), along))
    ends, beside = free_ends(shape.name, shape.along, (start, end), (near, far), site)
    # Both faces end at one height: the lumber is level, and the bevel on it is bedded under the top.
    others = (outside.id, *(end.id for end in ends))
    level = Against(BEVEL, wall.turned((start, height, near), along, (0.0, 0.0, 1.0)), 0.0, only=(outside.id,))
    against = (*beside, level, site.floor((inside.id,), tray=True), site.floor((*others, cap.id)))
    return Body(path, shape.name, "curb", site.board, (inside, outside, *ends, cap), against, site.fit)
