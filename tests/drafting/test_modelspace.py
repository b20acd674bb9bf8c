"""Views side by side in model space: as on paper where their scales agree, apart where not, the first unmoved."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.drafting.hatch import Hatch, Pattern
from generator.drafting.ink import Ink, Line, Outline, Text, View
from generator.drafting.inview import InView, Piece, placed, symbol
from generator.drafting.modelspace import once, windows
from generator.model.geometry import Point, rectangle

FACE = Outline(rectangle(0, 0, 400, 300), "board")
STUD = symbol("stud", (30, 20), (Outline(rectangle(30, 20, 68, 280), "stud"),), "S-1")


def _view(scale: float, at: Point, origin: Point = (0.0, 0.0)) -> InView:
    """A face with a stud, and a line on paper from its lower left corner outwards."""
    view = View(scale, at, origin)
    corner = view.point((0.0, 0.0))
    return InView(view, (FACE, STUD), (Line(corner, (corner[0] - 5.0, corner[1]), "dimension"),))


def _drawn(model: tuple[Piece, ...]) -> tuple[Ink, ...]:
    return placed(View(1.0, (0.0, 0.0)), model)


def test_the_first_view_keeps_its_frame_and_paper_becomes_its_scale() -> None:
    (window,) = windows([_view(1 / 8, (40, 50), (-10, 20))])
    assert window.model == (FACE, STUD)
    (line,) = window.marks
    assert line == Line((0.0, 0.0), (-40.0, 0.0), "dimension")
    (left, low, right, high), (x0, y0, x1, y1) = window.paper, window.seen
    assert (x1 - x0, y1 - y0) == pytest.approx(((right - left) * 8, (high - low) * 8))


def test_views_of_one_scale_lie_as_on_paper() -> None:
    first, second = _view(1 / 10, (40, 50)), _view(1 / 10, (120, 80), (7, 0))
    one, two = windows([first, second])
    faces = [piece for window in (one, two) for piece in _drawn(window.model) if piece.layer == "board"]
    assert faces[0] == FACE
    assert faces[1] == replace(FACE, ring=rectangle(793, 300, 1193, 600)), "80 and 30 mm further at 1:10, less 7"
    (stud,) = [piece for piece in _drawn(two.model) if piece.layer == "stud"]
    assert isinstance(stud, Outline)
    assert stud.ring[0] == (823.0, 320.0)


def test_each_view_has_its_window_and_two_of_one_scale_keep_their_distance() -> None:
    one, two = windows([_view(1 / 10, (40, 50)), _view(1 / 10, (120, 80), (7, 0))])
    assert one.paper != two.paper
    shift = [b - a for a, b in zip(one.seen, two.seen, strict=True)]
    assert shift == pytest.approx([10 * (b - a) for a, b in zip(one.paper, two.paper, strict=True)])


def test_a_hatched_face_moves_with_its_view() -> None:
    ring = rectangle(0, 0, 40, 30)
    views = [
        InView(View(1 / 2, (x, 50.0)), (Hatch((ring,), Pattern()),), (Line((x, 50), (x + 1, 50), "text"),))
        for x in (20.0, 90.0)
    ]
    (first,), (second,) = (w.model for w in windows(views))
    assert isinstance(first, Hatch) and isinstance(second, Hatch)
    assert first.rings == (ring,)
    assert second.rings == (rectangle(140, 0, 180, 30),), "70 mm of paper at 1:2"


def test_what_lies_on_its_like_is_drawn_once() -> None:
    """A line from its other end, a ring from another corner or the other way round, a word twice."""
    line, word = Line((0, 0), (5, 3), "outline"), Text((1, 1), "stud", 2.5)
    pieces = (line, FACE, word, Line((5, 3), (0, 0), "outline"), replace(FACE, ring=FACE.ring[::-1]), word)
    other = (replace(line, layer="light"), replace(FACE, closed=False), Line((0, 0), (5, 3.001), "outline"))
    assert once((*pieces, *other)) == (line, FACE, word, *other)


def test_a_view_of_another_scale_stands_clear_to_the_right() -> None:
    near, far = windows([_view(1 / 10, (40, 50)), _view(1 / 2, (120, 80))])
    assert far.scale == 1 / 2
    assert far.seen[0] >= near.seen[2] + 499.0
    (ring,) = [piece.ring for piece in _drawn(far.model) if isinstance(piece, Outline) and piece.layer == "board"]
    assert (ring[2][0] - ring[0][0], ring[2][1] - ring[0][1]) == pytest.approx((400.0, 300.0)), "at true size"
    assert all(far.seen[0] <= x <= far.seen[2] and far.seen[1] <= y <= far.seen[3] for x, y in ring)
