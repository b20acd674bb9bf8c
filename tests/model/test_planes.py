"""Where planes meet, against numbers worked by hand."""

from __future__ import annotations

import pytest

from generator.model.frames import Frame, upright_frame
from generator.model.planes import Plane, face_plane, fold_between, meeting_point

BACK = upright_frame((0.0, 0.0, 0.0), 0.0)
"""Runs along x; its boards come out towards -y."""
SHELF = Frame((0.0, 0.0, 1000.0), (0.0, -0.8, -0.6), (1.0, 0.0, 0.0), (0.0, -0.6, 0.8))
"""Falls 3 in 4 from the back wall into the room."""


def test_planes_given_by_their_axes_meet_at_their_offsets() -> None:
    x, y, z = Plane((1.0, 0.0, 0.0), 3.0), Plane((0.0, 1.0, 0.0), -4.0), Plane((0.0, 0.0, 1.0), 5.0)
    assert meeting_point(x, y, z) == pytest.approx((3.0, -4.0, 5.0))


def test_a_slope_meets_a_wall_where_trigonometry_says() -> None:
    """The shelf's face 10 above its framing: z = 1000 + 10 / 0.8 at y = 0, and 3/4 less for each mm out; y = -12."""
    side = Plane((1.0, 0.0, 0.0), 7.0)
    point = meeting_point(face_plane(BACK, 12.0), face_plane(SHELF, 10.0), side)
    assert point == pytest.approx((7.0, -12.0, 1000.0 + 12.5 - 9.0))


def test_parallel_planes_meet_nowhere() -> None:
    with pytest.raises(ValueError, match="parallel"):
        meeting_point(face_plane(BACK, 0.0), face_plane(BACK, 12.0), Plane((0.0, 0.0, 1.0), 0.0))


@pytest.mark.parametrize(("outside", "angle"), [(False, 126.869898), (True, 233.130102)])
def test_a_fold_lies_on_both_faces(outside: bool, angle: float) -> None:
    """Normals (0, -1, 0) and (0, -0.6, 0.8) are acos 0.6 = 53.130102 degrees apart."""
    ends = tuple(
        meeting_point(face_plane(BACK, 12.0), face_plane(SHELF, 10.0), Plane((1.0, 0.0, 0.0), x)) for x in (7.0, 90.0)
    )
    fold = fold_between("somewhere", ("back", BACK), ("shelf", SHELF), (ends[0], ends[1]), outside)
    assert fold.angle_deg == pytest.approx(angle)
    assert (fold.faces, fold.first) == (("back", "shelf"), "back")
    for frame, line, w in ((BACK, fold.lines[0], 12.0), (SHELF, fold.lines[1], 10.0)):
        for (u, v), end in zip(line, ends, strict=True):
            assert frame.at(u, v, w) == pytest.approx(end, abs=1e-5)
