"""Each body is what the plan says: volume, place, name, and faces equal to the plan's rings."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.geometry import Ring, area, rectangle
from generator.model.plan import (
    Board,
    Opening,
    Plan,
    PlannedWall,
    Rabbet,
)
from generator.solids.facets import facets, shadow
from generator.solids.measure import volume
from tests.solids.bodies_of import bodies_of, with_board, worked_bodies
from tests.worked_plan import worked_plan


def predicted(board: Board) -> float:
    """Area x thickness, less openings and rabbets (which do not overlap in these tests)."""
    holes = sum(area(o.ring) if o.ring else math.pi / 4 * o.diameter**2 for o in board.openings)
    return (area(board.outline) - holes) * board.thickness - sum(area(r.ring) * r.depth for r in board.rabbets)


def test_board_volumes_are_those_of_the_plan() -> None:
    for board in worked_plan().boards:
        assert volume(worked_bodies(), board.id) == pytest.approx(predicted(board), rel=1e-9)


def test_right_board_has_the_area_worked_by_hand() -> None:
    """worked-room.md: 2781.127 in2 after openings, rabbet 31 1/4 x 7/8 x 1/4."""
    cubic_inches = volume(worked_bodies(), "B-right-1") / 25.4**3
    assert cubic_inches == pytest.approx(2781.127 * 0.5 - 31.25 * 0.875 * 0.25, abs=0.001)


def test_support_volumes_are_face_times_depth() -> None:
    for support in worked_plan().supports:
        assert volume(worked_bodies(), support.id) == pytest.approx(area(support.outline) * support.depth, rel=1e-9)


def test_every_planned_thing_has_one_body() -> None:
    plan = worked_plan()
    wanted = [*(b.id for b in plan.boards), *(s.id for s in plan.supports), "base", *(f.id for f in plan.fittings)]
    assert [b.id for b in worked_bodies().parts] == wanted


def test_shapes_are_valid_single_solids() -> None:
    for body in worked_bodies().parts:
        assert body.shape.isValid() and len(body.shape.Solids()) == 1, body.id


def test_board_faces_are_the_plan_rings() -> None:
    """The front is the outline less openings; the rabbet's floor is its ring at its depth."""
    bodies = worked_bodies()
    for board in worked_plan().boards:
        flat = [f for f in facets(bodies.part(board.id).shape, bodies.wall(board.wall)) if abs(f.normal[2]) > 0.5]
        front = [f for f in flat if f.normal[2] > 0.5]
        assert [f.rings[0][0][2] for f in front] == pytest.approx([board.thickness])
        assert _same(shadow(front[0], 2).exterior.coords, board.outline)
        floors = [f for f in flat if 0.01 < f.rings[0][0][2] < board.thickness - 0.01]
        assert [f.rings[0][0][2] for f in floors] == pytest.approx([r.depth for r in board.rabbets])
        assert all(_same(shadow(f, 2).exterior.coords, r.ring) for f, r in zip(floors, board.rabbets, strict=True))


def _same(coords: object, ring: Ring) -> bool:
    from shapely import Polygon

    return bool(Polygon(coords).symmetric_difference(Polygon(ring)).area < 1e-6)  # type: ignore[arg-type]


def test_openings_are_true_cylinders() -> None:
    faces = worked_bodies().part("B-right-1").shape.Faces()
    radii = sorted(f._geomAdaptor().Cylinder().Radius() for f in faces if f.geomType() == "CYLINDER")
    assert radii == pytest.approx(sorted(o.diameter / 2 for o in worked_plan().board("B-right-1").openings), abs=1e-9)


def test_opening_with_a_ring_is_cut_through() -> None:
    window = Opening("O-w", None, "w", (300.0, 1500.0), 0.0, rectangle(200, 1400, 400, 1600))
    plan = with_board(worked_plan(), "B-back-1", lambda b: replace(b, openings=(window,)))
    assert volume(bodies_of(plan), "B-back-1") == pytest.approx(predicted(plan.board("B-back-1")), rel=1e-9)


def test_front_rabbet_is_cut_from_the_front() -> None:
    rabbet = Rabbet(rectangle(100, 1000, 300, 1200), 4.0, "front")
    plan = with_board(worked_plan(), "B-back-1", lambda b: replace(b, rabbets=(rabbet,)))
    board, bodies = plan.board("B-back-1"), bodies_of(plan)
    assert volume(bodies, board.id) == pytest.approx(predicted(board), rel=1e-9)
    depths = {round(p[2], 6) for f in facets(bodies.part(board.id).shape, bodies.wall("back")) for p in f.rings[0]}
    assert depths == {0.0, board.thickness - 4.0, board.thickness}


def turned(wall: PlannedWall, angle: float) -> PlannedWall:
    """A wall turned about its own origin, seen from above."""
    c, s = math.cos(angle), math.sin(angle)
    u, w = wall.u_axis, wall.w_axis
    return replace(
        wall,
        u_axis=(u[0] * c - u[1] * s, u[0] * s + u[1] * c, 0.0),
        w_axis=(w[0] * c - w[1] * s, w[0] * s + w[1] * c, 0.0),
    )


def only(plan: Plan, wall: str) -> Plan:
    """The plan of one wall, without a base."""
    return replace(
        plan,
        boards=tuple(b for b in plan.boards if b.wall == wall),
        supports=tuple(s for s in plan.supports if s.wall == wall),
        fittings=tuple(f for f in plan.fittings if f.wall == wall),
        base=replace(plan.base, kind="none", sides=()),
    )


@given(angle=st.floats(-3.1, 3.1), diameter=st.floats(5, 200), depth=st.floats(0.5, 12))
@settings(max_examples=25, deadline=None)
def test_volumes_hold_at_any_angle_and_size(angle: float, diameter: float, depth: float) -> None:
    plan = only(worked_plan(), "right")
    plan = replace(plan, walls=tuple(turned(w, angle) for w in plan.walls))
    hole = Opening("O-x", None, None, (500.0, 1800.0), diameter, ())

    def change(board: Board) -> Board:
        return replace(board, openings=(hole,), rabbets=tuple(replace(r, depth=depth) for r in board.rabbets))

    plan = with_board(plan, "B-right-1", change)
    assert volume(bodies_of(plan), "B-right-1") == pytest.approx(predicted(plan.board("B-right-1")), rel=1e-9)
