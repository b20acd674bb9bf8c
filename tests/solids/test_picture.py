"""The picture shows, at every point of the paper, the body that a ray really meets first."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from shapely import Point, Polygon, unary_union

from generator.model.frames import Vector
from generator.model.job import Face, Projection
from generator.solids import projections
from generator.solids.camera import Camera
from generator.solids.records import Body
from generator.solids.shown import shown
from generator.solids.views import exploded, room_camera
from tests.solids.bodies_of import bodies_of, worked_bodies
from tests.worked_plan import worked_plan
from tests.worked_room import rect_in

VIEWS = ("isometric", "exploded")


@pytest.fixture(scope="module", params=VIEWS)
def view(request: pytest.FixtureRequest) -> tuple[Projection, tuple[Body, ...]]:
    bodies = worked_bodies()
    shown = bodies.parts if request.param == "isometric" else exploded(bodies)
    return projections(bodies)[request.param], shown


def polygon(face: Face) -> Polygon:
    return Polygon(face.rings[0], face.rings[1:])


def first_met(bodies: tuple[Body, ...], camera: Camera, x: float, y: float) -> str | None:
    """The kernel's own line intersection, body by body: independent of the mesh and of hidden-line removal."""
    from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
    from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

    start = [t + r * x + u * y + b * 1e5 for t, r, u, b in zip(*camera_axes(camera), strict=True)]
    line = gp_Lin(gp_Pnt(*start), gp_Dir(*(-b for b in camera.back)))
    near: list[tuple[float, str]] = []
    for body in bodies:
        tool = IntCurvesFace_ShapeIntersector()
        tool.Load(body.shape.wrapped, 1e-6)
        tool.Perform(line, 0.0, 2e5)
        near += [(tool.WParameter(i + 1), body.id) for i in range(tool.NbPnt())]
    return min(near)[1] if near else None


def camera_axes(camera: Camera) -> tuple[Vector, Vector, Vector, Vector]:
    return camera.target, camera.right, camera.up, camera.back


def test_each_point_shows_what_a_ray_meets(view: tuple[Projection, tuple[Body, ...]]) -> None:
    picture, bodies = view
    camera = room_camera(worked_bodies())
    faces = [(polygon(f), f.part) for f in picture.faces]
    left, bottom, right, top = unary_union([p for p, _ in faces]).bounds
    spots = [
        (left + (right - left) * (i + 0.37) / 15, bottom + (top - bottom) * (j + 0.61) / 20)
        for i, j in itertools.product(range(15), range(20))
    ]
    clear = [s for s in spots if all(p.boundary.distance(Point(s)) > 0.5 for p, _ in faces)]
    shown = [next((part for p, part in faces if p.contains(Point(s))), None) for s in clear]
    assert len(clear) > 250 and shown == [first_met(bodies, camera, *s) for s in clear]


def test_faces_do_not_lie_over_each_other(view: tuple[Projection, tuple[Body, ...]]) -> None:
    shapes = [polygon(f) for f in view[0].faces]
    assert sum(s.area for s in shapes) == pytest.approx(unary_union(shapes).area, abs=0.1)


def test_faces_are_valid_and_shaded(view: tuple[Projection, tuple[Body, ...]]) -> None:
    assert all(polygon(f).is_valid for f in view[0].faces)
    assert all(0.0 <= f.shade <= 1.0 for f in view[0].faces)


def test_outlines_run_between_bodies_and_creases_within_one(view: tuple[Projection, tuple[Body, ...]]) -> None:
    """Either side of the middle of a stroke: two bodies at an outline, one at a crease."""
    faces = [(polygon(f), f.part) for f in view[0].faces]
    wrong = [s for s in view[0].strokes if _length(s.points) > 20 and (len(_sides(s.points, faces)) == 2) != s.outer]
    assert wrong == []


def _length(points: tuple[tuple[float, float], ...]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def _sides(points: tuple[tuple[float, float], ...], faces: list[tuple[Polygon, str]]) -> set[str | None]:
    (x0, y0), (x1, y1) = max(itertools.pairwise(points), key=_length)
    length = _length(((x0, y0), (x1, y1)))
    dx, dy = (y1 - y0) / length * 0.05, (x0 - x1) / length * 0.05
    spots = [Point(x0 + (x1 - x0) * 0.43 + s * dx, y0 + (y1 - y0) * 0.43 + s * dy) for s in (1, -1)]
    return {next((part for p, part in faces if p.contains(s)), None) for s in spots}


def test_same_picture_twice() -> None:
    assert projections(worked_bodies()) == projections(worked_bodies())


def test_eye_stands_where_the_fittings_are_seen() -> None:
    """All fittings are on the right wall, which looks left: the eye is left of the middle and above."""
    back = room_camera(worked_bodies()).back
    assert back[0] < -0.3 and back[1] < -0.3 and back[2] == pytest.approx(0.5)


def test_shade_tells_the_walls_apart() -> None:
    faces = projections(worked_bodies())["isometric"].faces
    largest = {f.part: f.shade for f in sorted(faces, key=lambda f: polygon(f).area)}
    assert largest["B-right-1"] - largest["B-back-1"] > 0.08


def test_studs_beside_the_boards_are_left_out_of_pictures_only() -> None:
    """A stud at 48 on the left wall, past the wallboard's stud at 36, would stand before the tub."""
    plan = worked_plan()
    stray = replace(plan.support("S-left-01"), id="S-left-00", outline=rect_in(11.25, 0, 12.75, 96))
    bodies = bodies_of(replace(plan, supports=(stray, *plan.supports)))
    assert stray.id not in {b.id for b in shown(bodies)} and stray.id in {b.id for b in bodies.parts}
    assert len(shown(bodies)) == len(bodies.parts) - 1
