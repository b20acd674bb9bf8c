"""Bodies as pictures show them: no two in one place, bare masonry whole."""

from __future__ import annotations

import pytest

from generator.solids import Bodies, make_bodies
from generator.solids.shown import FRAMING, in_place, shown
from tests.example_rooms import planned


def bodies_of(name: str) -> Bodies:
    return make_bodies(*planned(name))


def test_a_tray_is_cut_out_where_a_bench_was_built_before_it() -> None:
    """Its front and its sole plate stand on the floor, 1 in and more of them in the tray."""
    bodies = bodies_of("corner-seat")
    (base,) = (b for b in in_place(bodies) if b.kind == "base")
    built = [b for b in bodies.parts if b.wall and bodies.wall(b.wall).feature_id == "seat"]
    assert max(b.shape.intersect(bodies.part("base").shape).Volume() for b in built) > 1e5
    assert max(b.shape.intersect(base.shape).Volume() for b in built) < 1e-3


def test_bare_masonry_is_one_body_and_studs_are_not() -> None:
    """The brick wall of the room file is 1200 by 2400; a pipe of 15 and a valve's body are chased into it."""
    bodies = bodies_of("brick-and-frame")
    framing = {wall.id: [b for b in shown(bodies) if b.wall == wall.id and b.kind in FRAMING] for wall in bodies.walls}
    (brick,) = framing["back"]
    strip = bodies.part(brick.id).shape.BoundingBox()
    whole = 1200.0 * 2400.0 * min(strip.xlen, strip.ylen)
    assert brick.shape.Volume() == pytest.approx(whole, rel=0.01) and brick.shape.Volume() < whole
    assert len(framing["left"]) > 3 and len(framing["right"]) > 3
