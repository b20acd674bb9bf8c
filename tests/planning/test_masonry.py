"""Boards bonded to a bare wall: where plugs stand, what the mortar under them takes, and what is not asked of it."""

from __future__ import annotations

from itertools import pairwise

import pytest

from generator.checks import run_plan_checks
from generator.drawings.cautions import cautions
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.plan import Plan, Support
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from tests.example_rooms import findings_of
from tests.example_rooms import planned as example
from tests.properties.light import wholly
from tests.reading.rooms import read

BARE = """\
name: bare
units: mm
place: {code: irc}
base: {kind: none}
walls:
  - name: back
    width: 1000
    height: 2400
    boards: {reach: [0, 1000], top: 1800}
    beside: free
    supports: {masonry: {kind: concrete}}
choices: {sheets: [{board: foam-12-5-mm, size: 1200x2400}]}
"""
WIDE = BARE.replace("1000", "2600").replace("1200x2400", "900x1500")
VALVE = (
    "fittings:\n  - {name: valve, wall: back, kind: valve, profile: trim-120-round, across: 350, up: 1000}\nchoices:"
)


def planned(text: str) -> tuple[Room, Plan]:
    room = read(text)
    with wholly():
        return room, make_plan(room)


def rows(plan: Plan) -> list[float]:
    return sorted({round(f.point[0], 3) for f in plan.fasteners})


def test_one_board_on_concrete_by_hand() -> None:
    """Strips of 100 mm at both ends, axes at 50 and 950; 900 between them in three, at 350 and 650.

    The board stands 6.35 mm (1/4 in, the gap over the floor) to 1800 mm: rows from 19.05 (3/4 in) above its lower
    edge to as far under its upper one, 1755.55 mm: six steps of at most 304.8 mm (12 in), seven plugs each.
    """
    _, plan = planned(BARE)
    assert rows(plan) == [50.0, 350.0, 650.0, 950.0]
    assert len(plan.fasteners) == 4 * 7
    (plugs,) = [row for row in plan.takeoff if row.kind == "screw"]
    assert (plugs.profile_id, plugs.quantity, plugs.packages) == ("plug-60-mm", 28.0, 1)


def test_mortar_under_a_board_by_hand() -> None:
    """A square comb of 6 x 6 mm with 6 mm between leaves 6 x 6 / 12 = 3 mm; 1000 x 1793.65 mm of it is 5380.95 ml."""
    room, plan = planned(BARE)
    assert room.walls[0].furring == pytest.approx(3.0)
    (mortar,) = [row for row in plan.takeoff if row.kind == "mortar"]
    (bed,) = [term for term in mortar.terms if term.label.startswith("under the boards of back")]
    assert bed.value == pytest.approx(1000 * 1793.65 * 3 / 1000)
    assert bed.refs == ("B-back-1",)


def test_a_hole_in_the_board_takes_no_mortar() -> None:
    """The valve's opening is 120 mm across: pi x 60 x 60 x 3 mm less."""
    _, plan = planned(BARE.replace("choices:", VALVE))
    (mortar,) = [row for row in plan.takeoff if row.kind == "mortar"]
    bed = next(term.value for term in mortar.terms if term.label.startswith("under the boards"))
    assert bed == pytest.approx(5380.95 - 3.141592653589793 * 60**2 * 3 / 1000, abs=1e-3)


def strips(plan: Plan) -> list[Support]:
    return sorted((s for s in plan.supports if s.wall == "back"), key=lambda s: box(s.outline)[0])


def test_every_seam_has_a_strip_under_it_and_no_two_strips_overlap() -> None:
    room, plan = planned(WIDE)
    axes = [s.axis[0][0] for s in strips(plan)]
    seams = {e.p[0] for e in plan.edges if e.role == "seam" and e.p[0] == e.q[0]}
    assert seams and all(min(abs(u - axis) for axis in axes) < 1e-6 for u in seams)
    assert all(box(a.outline)[2] <= box(b.outline)[0] + 1e-6 for a, b in pairwise(strips(plan)))
    assert all(b - a <= room.limit("support-spacing") + 1e-6 for a, b in pairwise(axes))
    assert {(s.origin, s.material, s.kind) for s in plan.supports} == {("found", "masonry", "nailer")}


def test_plugs_keep_off_the_line_of_a_valve() -> None:
    """Over a valve of 120 mm at 350 an even row would stand just in its middle; its body is wider still."""
    room, plan = planned(BARE.replace("choices:", VALVE))
    body = room.fittings[0].body
    assert body is not None
    half = max(body.width, 120.0) / 2 + 35 / 2
    assert all(abs(u - 350) >= half - 1e-6 for u in rows(plan))
    assert all(b - a <= room.limit("support-spacing") + 1e-6 for a, b in pairwise(rows(plan)))


@pytest.mark.parametrize("text", [BARE, WIDE, BARE.replace("choices:", VALVE)])
def test_nothing_of_wood_is_asked_of_a_bare_wall(text: str) -> None:
    room, plan = planned(text)
    findings = run_plan_checks(room, plan)
    assert {f.rule for f in findings if f.verdict in ("fail", "warn")} == set()
    assert {f.rule for f in findings if f.verdict == "confirm"} == {"masonry-ready", "foam-listing"}
    assert all(s.origin == "found" for s in plan.supports)


def test_plugs_reach_through_board_and_mortar() -> None:
    """60 - 12.5 - 3 = 44.5 mm, 9.5 more than the 35 of the rule."""
    room, plan = planned(BARE)
    found = [f for f in run_plan_checks(room, plan) if f.rule == "plug-depth"]
    assert [(f.verdict, f.measured, f.margin) for f in found] == [("pass", 44.5, 9.5)]


def test_boards_beside_a_bedded_wall_start_at_its_board_faces() -> None:
    """From the bare brick: 3 mm of mortar, 12.5 mm of board, 1/8 in (3.175 mm) of fit."""
    _, plan = example("brick-and-frame")
    starts = {round(box(b.outline)[0], 3) for b in plan.boards if b.wall == "right"}
    assert starts == {18.675}


def test_in_a_mixed_room_each_screw_suits_what_it_goes_into() -> None:
    """Wood 40 mm, light steel 1-1/4 in, brick a plug of 60 mm; all three with rows of the take-off that add up."""
    _, plan = example("brick-and-frame")
    materials = {s.id: s.material for s in plan.supports}
    lengths = {(materials[f.support_id], f.length) for f in plan.fasteners}
    assert lengths == {("wood", 40.0), ("steel", 31.75), ("masonry", 60.0)}
    counted = {row.profile_id: row.quantity for row in plan.takeoff if row.kind == "screw"}
    assert set(counted) == {"screw-wood-40-mm", "screw-sharp-1-1-4", "plug-60-mm"}
    assert sum(counted.values()) == len(plan.fasteners)


def test_the_example_room_builds_without_a_fail() -> None:
    assert {f.verdict for f in findings_of("brick-and-frame")} <= {"pass", "note", "confirm"}


def test_drilling_is_cautioned_where_it_is_asked_for() -> None:
    room, plan = planned(BARE)
    said = {c.subject: c.text for c in cautions(Job(room, plan, (), frozenset(), {}, {}))}
    assert "silica" in said["Drilling masonry"] and "chased" in said["In masonry"]
