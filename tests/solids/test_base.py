"""The base: where it stands, its flange along each side, and the corners where flanges meet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.plan import Plan, PlannedSide
from generator.model.profiles import TrayProfile
from generator.model.room import Room
from generator.solids import Bodies, make_bodies
from generator.solids.kernel import in_wall
from tests.solids.bodies_of import worked_bodies
from tests.solids.test_bodies import turned
from tests.worked_plan import worked_plan, worked_room
from tests.worked_room import ORIGIN, mm, rect_in

FLANGE = mm(1) * mm(3 / 16)


def box_of(bodies: Bodies) -> list[float]:
    b = bodies.part("base").shape.BoundingBox()
    return [b.xmin, b.xmax, -b.ymax, -b.ymin, b.zmin, b.zmax]


def with_sides(plan: Plan, *sides: PlannedSide) -> Plan:
    return replace(plan, base=replace(plan.base, sides=sides))


def with_base(room: Room, **changes: object) -> Room:
    return replace(room, base=replace(room.base, **changes))  # type: ignore[arg-type]


def test_tub_fills_the_recess_up_to_its_flange() -> None:
    wanted = [0, mm(60.25), 0, mm(31.75), 0, mm(19.5)]
    assert box_of(worked_bodies()) == pytest.approx(wanted, abs=1e-5)


def test_flange_runs_along_three_sides_once() -> None:
    """Union of three runs: the two corners, 3/16 square, are counted once."""
    bodies = worked_bodies()
    above = bodies.part("base").shape.Volume() - bodies.decks[0].shape.Volume()
    assert above == pytest.approx(FLANGE * (mm(60.25) + 2 * mm(31.75) - 2 * mm(3 / 16)), rel=1e-6)


def test_tub_is_hollow_but_its_rim_is_whole() -> None:
    deck = worked_bodies().decks[0].shape
    block = mm(60.25) * mm(31.75) * mm(18.5)
    assert 0.3 * block < deck.Volume() < 0.7 * block
    rim = [f for f in deck.Faces() if f.geomType() == "PLANE" and f.Center().z > mm(18.5) - 1e-6]
    assert len(rim) == 1 and len(rim[0].innerWires()) == 1


def test_no_base_has_no_body() -> None:
    plan = worked_plan()
    bodies = make_bodies(worked_room(), replace(plan, base=replace(plan.base, kind="none", sides=())))
    assert bodies.decks == bodies.flanges == () and not bodies.of_kind("base")


def test_flange_follows_a_sloping_deck() -> None:
    left, back, right = worked_plan().base.sides
    sloping = replace(back, deck=((0.0, mm(18.5)), (mm(30), mm(18.75)), (mm(60.25), mm(18.5))), flange_top=mm(19.75))
    bodies = make_bodies(worked_room(), with_sides(worked_plan(), left, sloping, right))
    assert box_of(bodies)[5] == pytest.approx(mm(19.75), abs=1e-5)
    flange = next(f for f in bodies.flanges if f.wall == "back")
    assert flange.shape.Volume() == pytest.approx(FLANGE * mm(60.25), rel=1e-6)
    assert len(bodies.part("base").shape.Solids()) == 1


@pytest.mark.parametrize("angle", [70.0, 80.0])
def test_acute_corner_keeps_the_flange_out_of_the_neighbour_wall(angle: float) -> None:
    """The left wall leans in over the tub: neither flange nor deck may pass behind its stud faces."""
    import math

    plan = worked_plan()
    end = math.radians(90.0 - angle)
    left = turned(plan.wall("left"), end)
    corner = tuple(-mm(60) * a for a in left.u_axis)
    left = replace(left, origin=(corner[0], corner[1], 0.0))
    corners = tuple(replace(c, angle_deg=angle) if c.left_wall == "left" else c for c in plan.corners)
    plan = replace(plan, walls=(left, *plan.walls[1:]), corners=corners)
    bodies = make_bodies(worked_room(), replace(plan, boards=(), supports=(), fittings=()))
    vertices = [in_wall(left, v.toTuple()) for v in bodies.part("base").shape.Vertices()]
    assert min(w for _, _, w in vertices) > -1e-6


def test_shower_base_in_a_corner_of_two_walls() -> None:
    size = {"length": mm(48), "width": mm(36), "footprint": rect_in(0, 0, 48, 36)}
    plan, room = worked_plan(), with_base(worked_room(), kind="shower_base", **size)
    deck = mm(4)
    sides = (
        PlannedSide("left", mm(24), mm(60), ((mm(24), deck), (mm(60), deck)), deck + mm(1)),
        PlannedSide("back", 0.0, mm(48), ((0.0, deck), (mm(48), deck)), deck + mm(1)),
    )
    bodies = make_bodies(room, with_sides(plan, *sides))
    assert box_of(bodies) == pytest.approx([0, mm(48), 0, mm(36), 0, mm(5)], abs=1e-5)


def test_tray_made_after_the_boards_ends_at_their_faces() -> None:
    tray = TrayProfile("tray", "tray", ORIGIN, {}, "boards_first", mm(3))
    room = with_base(worked_room(), kind="tray", treatment="tray", flange=None, tray=tray)
    plan = worked_plan()
    sides = tuple(replace(s, flange_top=mm(21.5)) for s in plan.base.sides)
    plan = replace(plan, base=replace(plan.base, kind="tray", flange_section=(), sides=sides))
    bodies = make_bodies(room, plan)
    assert bodies.flanges == ()
    assert box_of(bodies)[:3] == pytest.approx([mm(0.5), mm(59.75), mm(0.5)], abs=1e-5)


def test_section_of_the_flange_need_not_be_a_rectangle() -> None:
    plan = worked_plan()
    tapered = ((0.0, 0.0), (mm(3 / 16), 0.0), (mm(1 / 8), mm(1)), (0.0, mm(1)))
    bodies = make_bodies(worked_room(), replace(plan, base=replace(plan.base, flange_section=tapered)))
    back = next(f for f in bodies.flanges if f.wall == "back")
    assert back.shape.Volume() == pytest.approx(mm(60.25) * mm(1) * mm(5 / 32), rel=1e-6)


def test_flange_with_its_back_off_the_studs() -> None:
    plan = worked_plan()
    bodies = make_bodies(
        worked_room(), replace(plan, base=replace(plan.base, flange_section=rect_in(1 / 16, 0, 1 / 4, 1)))
    )
    back = next(f for f in bodies.flanges if f.wall == "back").shape.BoundingBox()
    assert [-back.ymax, -back.ymin] == pytest.approx([mm(1 / 16), mm(1 / 4)], abs=1e-5)
