"""Bearing measured on the bodies of rooms that lean and slope: as planned, and after a change worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from generator.checks import run_solid_checks
from generator.model.geometry import Point, canonical
from generator.model.plan import Board, Edge, Plan
from generator.model.room import Room
from generator.solids import Bodies, make_bodies
from generator.solids import measure as on
from tests.example_rooms import planned as example
from tests.solids.bodies_of import with_board, with_support

POST = "S-back-01"


@cache
def planned(name: str) -> tuple[Room, Plan, Bodies]:
    room, plan = example(name)
    return room, plan, make_bodies(room, plan)


def measured(bodies: Bodies, edge: Edge) -> float | None:
    return on.bearing(bodies, edge.board, edge.p, edge.q, edge.support_ids)


@pytest.mark.parametrize("name", ["recess-out-of-square", "attic-shower"])
def test_bearings_of_a_skewed_room_are_those_of_its_plan(name: str) -> None:
    _, plan, bodies = planned(name)
    edges = [e for e in plan.edges if e.bearing is not None]
    assert len(edges) >= 4
    for edge in edges:
        assert measured(bodies, edge) == pytest.approx(edge.bearing, abs=5e-4), edge.id


def leaning_edge(plan: Plan) -> Edge:
    """The left edge of the lowest board in the corner that leans: it runs downwards."""
    found = [e for e in plan.edges if plan.board(e.board).wall == "back" and e.role == "corner"]
    return min((e for e in found if e.p[1] > e.q[1] and abs(e.p[0] - e.q[0]) > 1.0), key=lambda e: e.q[1])


def test_a_post_that_leans_bears_less_where_it_leans_away() -> None:
    """The post's face ends at 3 1/2 in; tipped out by 1 in over 96, its right side is v / 96 farther left at v."""
    room, plan, _ = planned("recess-out-of-square")
    edge = leaning_edge(plan)
    tall = 96 * 25.4
    tipped = with_support(
        plan, POST, lambda s: replace(s, outline=canonical((u - 25.4 * v / tall, v) for u, v in s.outline))
    )
    top, bottom = edge.p, edge.q

    def width(at: Point) -> float:
        return 3.5 * 25.4 - 25.4 * at[1] / tall - at[0]

    assert measured(make_bodies(room, tipped), edge) == pytest.approx(min(width(top), width(bottom)), abs=5e-4)


@pytest.mark.parametrize("slip", [3.0, -3.0])
def test_a_board_cut_with_another_skew_is_found(slip: float) -> None:
    """Its upper left point lies `slip` mm farther in than the plan says: so much less bearing at the top."""
    room, plan, _ = planned("recess-out-of-square")
    edge = leaning_edge(plan)

    def cut(board: Board) -> Board:
        ring = ((u + slip, v) if (u, v) == edge.p else (u, v) for u, v in board.outline)
        return replace(board, outline=canonical(ring))

    bodies = make_bodies(room, with_board(plan, edge.board, cut))
    assert edge.bearing is not None
    least = min(edge.bearing - slip, 3.5 * 25.4 - edge.q[0])
    assert measured(bodies, edge) == pytest.approx(least, abs=5e-4)
    findings = [f for f in run_solid_checks(room, plan, bodies) if f.rule == "solid-bearing"]
    assert "fail" in {f.verdict for f in findings}
    assert max(f.measured or 0.0 for f in findings) == pytest.approx(abs(edge.bearing - least), abs=5e-4)


def test_bodies_under_a_slope_fill_what_the_plan_says() -> None:
    room, plan, bodies = planned("attic-shower")
    verdicts = {f.verdict for f in run_solid_checks(room, plan, bodies)}
    assert verdicts <= {"pass", "note", "confirm"}
