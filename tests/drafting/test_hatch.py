"""Hatching keeps inside its face and is as dense as its pitch says."""

from __future__ import annotations

import pytest
from shapely import LineString, Polygon

from generator.drafting.hatch import Lines, Pattern, hatched
from generator.drafting.ink import Line, move

FACE = ((0.0, 0.0), (40.0, 0.0), (40.0, 12.0), (22.0, 30.0), (0.0, 24.0))
HOLE = ((8.0, 6.0), (16.0, 6.0), (16.0, 14.0), (8.0, 14.0))


def _lines(pattern: Pattern) -> list[LineString]:
    return [LineString((i.start, i.end)) for i in hatched((FACE, HOLE), pattern) if isinstance(i, Line)]


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0, 135.0])
def test_lines_keep_inside_the_face_and_out_of_its_hole(angle: float) -> None:
    face = Polygon(FACE, [HOLE]).buffer(1e-5)
    lines = _lines(Pattern((Lines(angle, 1.7),), crossed=True))
    assert lines
    assert all(face.contains(line) for line in lines)


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0, 135.0])
def test_length_times_pitch_is_the_area(angle: float) -> None:
    """Cavalieri: parallel lines 0.05 apart measure the face."""
    length = sum(line.length for line in _lines(Pattern((Lines(angle, 0.05),))))
    assert length * 0.05 == pytest.approx(Polygon(FACE, [HOLE]).area, rel=0.01)


def test_a_face_that_is_moved_keeps_its_lines() -> None:
    pattern = Pattern((Lines(45.0, 1.7), Lines(0.0, 1.1, (0.3, 2.0))), tone=0.9)
    moved = tuple((x + 103.3, y - 17.7) for x, y in FACE)
    there = [i for i in hatched((moved,), pattern) if isinstance(i, Line)]
    here = [i for i in move(hatched((FACE,), pattern), 103.3, -17.7) if isinstance(i, Line)]
    assert len(there) == len(here)
    for a, b in zip(there, here, strict=True):
        assert (*a.start, *a.end) == pytest.approx((*b.start, *b.end), abs=1e-5)
