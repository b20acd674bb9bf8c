"""Line views of boards and sections of the room, against the plan's rings and the numbers worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import LineString, Polygon, unary_union

from generator.model.geometry import area, rectangle
from generator.model.job import Projection, SectionPart
from generator.model.plan import Opening
from generator.solids import level_section, make_bodies, projections, section, sections
from generator.solids.sections import section_at
from generator.solids.views import exploded
from tests.example_rooms import planned
from tests.solids.bodies_of import worked_bodies
from tests.worked_plan import worked_plan
from tests.worked_room import mm, rect_in


@pytest.fixture(scope="module")
def views() -> dict[str, Projection]:
    return dict(projections(worked_bodies()))


def lines(view: Projection, *, hidden: bool) -> object:
    return unary_union([LineString(s.points) for s in view.strokes if s.hidden == hidden])


@pytest.mark.parametrize("board", [b.id for b in worked_plan().boards])
def test_views_hold_the_outline_and_the_back_is_mirrored(views: dict[str, Projection], board: str) -> None:
    ring = worked_plan().board(board).outline
    for name, side in (("front", 1.0), ("back", -1.0)):
        outline = LineString([(side * u, v) for u, v in (*ring, ring[0])])
        drawn = lines(views[f"{name}:{board}"], hidden=False)
        assert outline.difference(drawn.buffer(0.01)).length < 0.01  # type: ignore[attr-defined]


def test_rabbet_is_hidden_from_the_front_and_seen_from_the_back(views: dict[str, Projection]) -> None:
    shoulder = LineString([(mm(1), mm(19.625)), (mm(31), mm(19.625))])
    back = LineString([(-u, v) for u, v in shoulder.coords])
    assert shoulder.difference(lines(views["front:B-right-1"], hidden=True).buffer(0.01)).length < 0.01  # type: ignore[attr-defined]
    assert back.difference(lines(views["back:B-right-1"], hidden=False).buffer(0.01)).length < 0.01  # type: ignore[attr-defined]


def test_no_hidden_line_doubles_a_visible_one(views: dict[str, Projection]) -> None:
    for view in views.values():
        twice = lines(view, hidden=True).intersection(lines(view, hidden=False).buffer(0.01))  # type: ignore[attr-defined]
        assert twice.length < 0.5, view.name


def parts_of(parts: tuple[SectionPart, ...], part: str) -> list[Polygon]:
    return [Polygon(p.rings[0], p.rings[1:]) for p in parts if p.part == part]


def test_section_through_the_rabbet() -> None:
    """w from 1/4 to 1/2 below the shoulder at 19 5/8, all of the board above it; flange 3/16 x 1 on the deck."""
    cut = sections(worked_bodies(), worked_plan())["B-back-1"].parts
    wanted = Polygon(rect_in(0, 18.75, 0.5, 95.875)).difference(Polygon(rect_in(0, 18.75, 0.25, 19.625)))
    (board,) = parts_of(cut, "B-back-1")
    assert board.symmetric_difference(wanted).area < 1e-3
    (base,) = parts_of(cut, "base")
    flange = base.intersection(Polygon(rect_in(-1, 18.5, 1, 30)))
    assert flange.symmetric_difference(Polygon(rect_in(0, 18.5, 3 / 16, 19.5))).area < 1e-3


def test_section_holds_only_its_wall_and_the_base() -> None:
    cut = section(worked_bodies(), "left", mm(50), "x")
    assert {p.part for p in cut.parts} == {"B-left-1", "B-left-2", "base"}


def test_section_through_an_opening_is_two_pieces() -> None:
    cut = section(worked_bodies(), "right", mm(15.875), "x").parts
    heights = sorted(p.bounds[1::2] for p in parts_of(cut, "B-right-1"))
    assert [h[1] for h in heights][:2] == pytest.approx([mm(23 - 0.4375), mm(28 - 2.5)])
    assert len(heights) == 4


def test_level_section_is_the_key_plan() -> None:
    cut = level_section(worked_bodies(), mm(50), "plan").parts
    (back,) = parts_of(cut, "B-back-1")
    assert back.bounds == pytest.approx((mm(1 / 8), -mm(0.5), mm(31), 0.0))
    assert all(p.area == pytest.approx(mm(1.5) * mm(3.5)) for p in parts_of(cut, "S-left-01"))


def test_section_keeps_clear_of_openings() -> None:
    hole = Opening("O-h", None, None, (mm(15.6), mm(30)), mm(3), ())
    window = Opening("O-w", None, "w", (mm(20), mm(40)), 0.0, rectangle(mm(17), mm(30), mm(22), mm(50)))
    board = replace(worked_plan().board("B-back-1"), openings=(hole, window))
    u = section_at(board)
    assert all(not lo <= u <= hi for lo, hi in ((mm(14.1), mm(17.1)), (mm(17), mm(22))))
    assert mm(0.25) < u < mm(31)


def test_section_of_a_board_without_rabbet_is_over_its_bottom_beside_the_leg() -> None:
    board = replace(worked_plan().board("B-left-1"), rabbets=())
    assert section_at(board) == pytest.approx(mm((28 + 59.375) / 2))


def test_section_of_a_body_with_holes_has_inner_rings() -> None:
    """The right board laid flat and cut in front of its rabbet: area worked by hand, less what the chords cut off."""
    board = worked_bodies().part("B-right-1")
    flat = replace(board, shape=board.shape.rotate((0, 0, 0), (0, 1, 0), 90))
    (part,) = level_section(replace(worked_bodies(), parts=(flat,)), -mm(59.9), "x").parts
    assert len(part.rings) == 4 and all(area(ring) > 0 for ring in part.rings)
    cut = area(part.rings[0]) - sum(area(ring) for ring in part.rings[1:])
    assert cut == pytest.approx(mm(1) ** 2 * 2781.127, abs=mm(1) ** 2 * 0.2)


def test_apart_the_boards_of_a_partition_come_off_its_framing_on_their_own_side() -> None:
    """Each board of its inside, end, other side and cap lies farther along its own face's normal than its framing."""
    bodies = make_bodies(*planned("raked-half-wall"))
    apart = {body.id: body for body in exploded(bodies)}
    at = {i: body.shape.Center() - bodies.part(i).shape.Center() for i, body in apart.items()}
    framing = next(at[s.id] for s in bodies.of_kind("stud") if s.wall == "half" and s.id in apart)
    for board in (b for b in bodies.of_kind("board") if b.wall.startswith("half")):
        w_axis = bodies.wall(board.wall).w_axis
        assert sum(a * b for a, b in zip((at[board.id] - framing).toTuple(), w_axis, strict=True)) > 100.0, board.id
    assert not [i for i in apart if bodies.part(i).same_as]
