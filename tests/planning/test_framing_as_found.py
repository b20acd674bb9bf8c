"""Doubled, flat and crooked studs, fire blocks, ladders and mixed materials: bearing and screws by hand numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from generator.checks import run_plan_checks
from generator.checks.measuring import bearing
from generator.model.geometry import canonical
from generator.model.plan import Edge, Plan, Support
from generator.model.room import Room
from generator.planning.arrange import layout_task
from generator.planning.fastening import screw_for
from generator.planning.framing import plan_supports
from generator.planning.pipeline import make_plan
from generator.planning.regions import plan_walls
from generator.reading import load_catalogue
from tests.planning.finished import stud_in
from tests.reading.rooms import read
from tests.worked_room import mm

ROOM = """\
name: as found
units: in
place: {code: none}
base: {kind: none}
walls:
  - name: back
    width: 64
    height: 48
    boards: {reach: [0, 64]}
    beside: free
    supports:
      studs:
        - {profile: wood-2x4, centres: [3/4, 16, 48, 63 1/4]}
        - SECOND
choices: {sheets: [{board: foam-1-2, size: 32x48}]}
"""


def planned(stud: str) -> tuple[Room, Plan]:
    room = read(ROOM.replace("SECOND", stud))
    return room, make_plan(room)


def seam_bearings(plan: Plan) -> list[float]:
    return [round(e.bearing / 25.4, 4) for e in plan.edges if e.role == "seam" and e.bearing is not None]


def columns(plan: Plan, board: str) -> list[float]:
    return sorted({round(f.point[0] / 25.4, 4) for f in plan.fasteners if f.board_ids == (board,)})


def test_a_seam_on_a_doubled_stud_gives_each_board_a_stud_of_its_own() -> None:
    """Two of 1-1/2 in: 1-1/2 in of bearing each, screws in the middle of either, none in the joint at 32."""
    _, plan = planned("{profile: wood-2x4, centres: [32], doubled: true}")
    assert seam_bearings(plan) == [1.5, 1.5]
    assert columns(plan, "B-back-1")[-1] == 31.25
    assert columns(plan, "B-back-2")[0] == 32.75


def test_a_board_over_a_doubled_stud_is_screwed_to_one_of_the_two() -> None:
    text = "{profile: wood-2x4, centres: [32]}\n        - {profile: wood-2x4, centres: [24], doubled: true}"
    _, plan = planned(text)
    assert 23.25 in columns(plan, "B-back-1") and 24.0 not in columns(plan, "B-back-1")


def test_a_seam_on_a_flat_stud_has_half_of_its_wide_face() -> None:
    """3-1/2 in (PS 20) in two."""
    _, plan = planned("{profile: wood-2x4, centres: [32], flat: true}")
    assert seam_bearings(plan) == [1.75, 1.75]


def test_a_crooked_stud_bears_where_its_face_is_narrowest_beside_the_seam() -> None:
    """Its axis runs from 31-7/8 to 32-1/8 past a seam at 32: 3/4 less 1/8 for the left board above, the right below.

    The boards end 1/4 in above the floor and 1/8 in under the ceiling, and the stud leans by 1/4 in on 48 in.
    """
    _, plan = planned("{profile: wood-2x4, centres: [31 7/8], centres_top: [32 1/8]}")
    foot, head = 0.75 - (0.125 - 0.25 * 0.25 / 48), 0.75 - (0.125 - 0.25 * 0.125 / 48)
    assert sorted(seam_bearings(plan)) == pytest.approx(sorted((foot, head)), abs=1e-4)


@pytest.mark.parametrize(("top", "offered"), [("32 1/4", True), ("32 5/16", False)])
def test_a_seam_stands_on_a_crooked_stud_while_both_ends_of_its_axis_are_under_it(top: str, offered: bool) -> None:
    """seam-on-axis is 1/8 in: a lean of 1/4 in at most, with the seam over its middle."""
    room = read(ROOM.replace("SECOND", f"{{profile: wood-2x4, centres: [32], centres_top: [{top}]}}"))
    walls = plan_walls(room)
    seams = layout_task(room, walls, plan_supports(room, walls)).walls[0].seams
    assert any(31.9 < s.u / 25.4 < 32.4 and not s.adds for s in seams) == offered


def test_screws_of_a_crooked_stud_lie_on_it_at_every_height() -> None:
    _, plan = planned(
        "{profile: wood-2x4, centres: [32]}\n        - {profile: wood-2x4, centres: [8], centres_top: [8 3/4]}"
    )
    crooked = next(s for s in plan.supports if s.axis[0][0] != s.axis[1][0])
    face = Polygon(crooked.outline)
    own = [f for f in plan.fasteners if f.support_id == crooked.id]
    assert len(own) == 5, "48 - 1/8 - 1/4 less twice 3/4 is 46-1/8: 4 steps of at most 12 in"
    assert all(face.buffer(1e-6).contains(Point(f.point)) for f in own)
    assert {round(f.point[0] / 25.4, 2) for f in own} == {8.38}, "plumb, where the axis is half way up the board: 8-3/8"


def test_bays_are_as_wide_as_the_crooked_studs_leave_them_at_either_end() -> None:
    """From 32 to 48 it is 16 in at the foot; leaning away by 1/8 in it is 16-1/8 at the top, and a stud is missing."""
    room, plan = planned("{profile: wood-2x4, centres: [32], centres_top: [31 7/8]}")
    broken = [f for f in run_plan_checks(room, plan) if f.rule == "support-spacing" and f.verdict == "fail"]
    assert {f.phase for f in broken} == {"found"}
    assert max(f.measured or 0.0 for f in broken) == pytest.approx(mm(16.125), abs=0.05)


LEAN = st.floats(-0.75, 0.75, allow_nan=False)


@settings(max_examples=60, deadline=None)
@given(LEAN, st.floats(30.0, 34.0), st.floats(0.0, 40.0), st.booleans())
def test_bearing_is_the_least_that_a_reader_measures_up_the_edge(lean: float, u: float, low: float, left: bool) -> None:
    """Against chords of the face at 400 heights; within the 1/400 that the face leans between two of them."""
    support = _leaning(32.0, lean)
    p, q = (mm(u), mm(low)), (mm(u), mm(low + 50))
    edge = Edge("E-1", "B-1", *((q, p) if left else (p, q)), "free", None, (), 0.0)
    face, widths = Polygon(support.outline), []
    for i in range(401):
        v = mm(low + 50 * i / 400)
        ahead = LineString(((mm(u), v), (mm(u + (10 if left else -10)), v)))
        widths.append(face.intersection(ahead).length if face.distance(Point(mm(u), v)) <= 0.01 else 0.0)
    assert bearing(edge, (support,))[0] == pytest.approx(min(widths), abs=mm(0.75) / 400 + 0.02)


def _leaning(foot: float, lean: float) -> Support:
    stud = stud_in(foot, 0, 96)
    (left, low), (right, _), (_, high), _ = stud.outline
    aside = mm(lean)
    ring = canonical(((left, low), (right, low), (right + aside, high), (left + aside, high)))
    return replace(stud, outline=ring, axis=(stud.axis[0], (stud.axis[1][0] + aside, high)))


def test_a_fire_block_is_blocking_that_says_so() -> None:
    block = "{profile: wood-2x4, from: 16 3/4, to: 31 1/4, centre: 24, fire: true}"
    text = f"{{profile: wood-2x4, centres: [32]}}\n      blocking: [{block}]"
    _, plan = planned(text)
    found = next(s for s in plan.supports if s.kind == "blocking")
    assert (found.origin, found.reason) == ("found", "as found: a fire block, leave it where it is")


def test_between_the_rungs_of_a_ladder_an_edge_hangs_free() -> None:
    """Level blocks carry the edge beside them by the contract, the rest of it nothing: a stud is added at the end."""
    rungs = ", ".join(f"{{profile: wood-2x4, from: 56, to: 64, centre: {v}}}" for v in (8, 24, 40))
    text = ROOM.replace("63 1/4]", "55 1/4]").replace(
        "SECOND", f"{{profile: wood-2x4, centres: [32]}}\n      blocking: [{rungs}]"
    )
    room = read(text)
    plan = make_plan(room)
    added = [s for s in plan.supports if s.origin == "added"]
    assert [round(s.axis[0][0] / 25.4, 3) for s in added] == [63.25]
    edge = next(e for e in plan.edges if e.role == "free" and e.p[0] > mm(60))
    assert {plan.support(i).kind for i in edge.support_ids} == {"stud", "blocking"}


@pytest.mark.parametrize(("stud", "screw"), [
    ("wood-2x4", "screw-wood-1-5-8"),
    ("steel-362s125-18", "screw-sharp-1-1-4"),
    ("steel-362s125-30", "screw-sharp-1-1-4"),
    ("steel-362s125-33", "screw-drill-1-1-4"),
])  # fmt: skip
def test_each_stud_takes_the_screw_of_its_own_material(stud: str, screw: str) -> None:
    """Drill points from 33 mil up (ASTM C954, from memory); on one wall wood and steel side by side."""
    room, plan = planned(f"{{profile: {stud}, centres: [32]}}")
    own = {s.id for s in plan.supports if s.axis[0][0] == mm(32)}
    kinds = {f.length for f in plan.fasteners if f.support_id in own}
    assert kinds == {load_catalogue().fasteners[screw].length}
    others = {f.length for f in plan.fasteners if f.support_id not in own}
    assert others == {load_catalogue().fasteners["screw-wood-1-5-8"].length}
    rows = {row.profile_id: row.quantity for row in plan.takeoff if row.kind == "screw"}
    assert sum(rows.values()) == len(plan.fasteners) and screw in rows
    assert screw_for(room, plan.support(min(own))).id == screw


def test_a_seam_on_steel_among_wood_is_held_to_the_rule_of_steel() -> None:
    """A face of 1-1/4 in leaves 5/8 for each board: 1/8 in more than steel asks for."""
    room, plan = planned("{profile: steel-362s125-18, centres: [32]}")
    found = [f for f in run_plan_checks(room, plan) if f.rule == "bearing-seam-steel"]
    assert {(f.verdict, round((f.margin or 0) / 25.4, 4)) for f in found} == {("pass", 0.125)}
    wood = [f for f in run_plan_checks(room, plan) if f.rule == "bearing-seam-wood"]
    assert [f.subject for f in wood] == ["no upright seam on wood"]
