"""Nested sheets for a router: which face is up, what is mirrored, what runs over, what two clampings share."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import LinearRing, Polygon, unary_union
from shapely.affinity import rotate, scale, translate

from generator.drafting.ink import Circle, Line, Outline, Text
from generator.drawings.handed import sided
from generator.drawings.parts import FlatDrawing, part_drawings
from generator.drawings.sheet_files import sheet_drawings
from generator.model.choices import Shop
from generator.model.geometry import Ring, box, canonical, rectangle
from generator.model.job import Job
from generator.model.plan import (
    Band,
    Opening,
    Rabbet,
    WallRing,
)
from generator.model.purchase import Placement
from tests.drawings.worked_job import hole, with_board, worked_job

CUTTER = 6.35


def _rings(drawing: FlatDrawing, layer: str) -> list[Outline]:
    return [i for i in drawing.ink if isinstance(i, Outline) and i.layer == layer]


def _texts(drawing: FlatDrawing) -> str:
    return "\n".join(i.text for i in drawing.ink if isinstance(i, Text))


def _with_shop(job: Job, offset: str, relief: bool) -> Job:
    shop = Shop(CUTTER, offset, relief)  # type: ignore[arg-type]
    return replace(job, room=replace(job.room, choices=replace(job.room.choices, shop=shop, kerf=CUTTER)))


def _sheets(job: Job) -> dict[str, FlatDrawing]:
    return {drawing.name: drawing for drawing in sheet_drawings(job)}


def _no_rabbets(job: Job) -> Job:
    boards = tuple(replace(board, rabbets=()) for board in job.plan.boards)
    return replace(job, plan=replace(job.plan, boards=boards))


def test_only_sheets_with_a_rabbet_lie_on_their_face() -> None:
    job = worked_job()
    rabbeted = {board.sheet_id for board in job.plan.boards if board.rabbets}
    for name, drawing in _sheets(job).items():
        assert drawing.mirrored == (name in rabbeted)
        assert ("BACK FACE UP" in _texts(drawing)) == drawing.mirrored
        assert ("FRONT FACE UP" in _texts(drawing)) != drawing.mirrored
    assert {drawing.mirrored for drawing in _sheets(_no_rabbets(job)).values()} == {False}


def test_a_mirrored_sheet_is_the_plan_sheet_seen_from_behind() -> None:
    """Every outline brought to its place by shapely from the plan's placements, then the whole sheet turned over."""
    job = worked_job()
    for sheet in job.plan.sheets:
        drawing = _sheets(job)[sheet.id]
        parts = []
        for placement in sheet.placements:
            turned = rotate(Polygon(job.plan.board(placement.board_id).outline), placement.turn, origin=(0, 0))
            left, bottom, _, _ = turned.bounds
            parts.append(translate(turned, placement.x - left, placement.y - bottom))
        wanted = unary_union(parts)
        if drawing.mirrored:
            wanted = scale(wanted, -1, 1, origin=(sheet.width / 2, 0))
        drawn = unary_union([Polygon(outline.ring) for outline in _rings(drawing, "cut")])
        assert wanted.symmetric_difference(drawn).area < 1e-3


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_openings_and_pockets_are_mirrored_with_their_board(turn: int) -> None:
    """Distances of a hole and a pocket from each other and from their board stay; left and right change sides."""
    job = worked_job()
    board = replace(job.plan.board("B-back-1"), openings=(hole("pipe", 200.0, 900.0, 25.0),))
    sheet = replace(job.plan.sheets[0], placements=(Placement("B-back-1", 10.0, 20.0, turn),))  # type: ignore[arg-type]
    job = with_board(job, board)
    job = replace(job, plan=replace(job.plan, sheets=(sheet,)))
    (drawing,) = sheet_drawings(job)
    (cut,), (pocket,) = _rings(drawing, "cut"), _rings(drawing, "pocket")
    (drilled,) = [i for i in drawing.ink if isinstance(i, Circle)]
    seen = [scale(Polygon(r), -1, 1, origin=(0, 0)) for r in (cut.ring, pocket.ring)]
    back = [rotate(shape, -turn, origin=(0, 0)) for shape in seen]
    left, bottom, _, _ = back[0].bounds
    x0, y0, _, _ = box(board.outline)
    outline, taken = (translate(shape, x0 - left, y0 - bottom) for shape in back)
    assert outline.symmetric_difference(Polygon(board.outline)).area < 1e-3
    assert taken.intersection(outline).symmetric_difference(Polygon(board.rabbets[0].ring)).area < 1e-3
    assert drilled.radius == 12.5
    (centre,) = [
        translate(rotate(scale(_dot(drilled), -1, 1, origin=(0, 0)), -turn, origin=(0, 0)), x0 - left, y0 - bottom)
    ]
    assert centre.centroid.coords[0] == pytest.approx((200.0, 900.0))


def _dot(circle: Circle) -> Polygon:
    x, y = circle.centre
    return Polygon(rectangle(x - 1, y - 1, x + 1, y + 1))


def test_pockets_run_over_the_open_edges_by_the_radius_and_stay_off_other_boards() -> None:
    for drawing in _sheets(worked_job()).values():
        cuts = [Polygon(o.ring) for o in _rings(drawing, "cut")]
        for pocket in _rings(drawing, "pocket"):
            shape = Polygon(pocket.ring)
            (own,) = [cut for cut in cuts if cut.intersection(shape).area > 1.0]
            beyond = shape.difference(own)
            assert beyond.bounds[2] - beyond.bounds[0] > 300 or beyond.bounds[3] - beyond.bounds[1] > 300
            assert shape.hausdorff_distance(shape.intersection(own)) == pytest.approx(3.175 * 2**0.5, abs=1.4)
            assert pocket.depth == pytest.approx(6.35)


def test_a_sheet_worked_from_both_faces_is_a_pair_with_one_datum() -> None:
    job = worked_job()
    board = job.plan.board("B-back-1")
    left, bottom, _, _ = box(board.outline)
    front = Rabbet(rectangle(left + 100, bottom + 200, left + 200, bottom + 300), 5.0, "front")
    job = with_board(job, replace(board, rabbets=(*board.rabbets, front)))
    back_file, front_file = (_sheets(job)[f"{board.sheet_id}-{end}"] for end in ("1-back", "2-front"))
    assert (back_file.mirrored, front_file.mirrored) == (True, False)
    assert not _rings(back_file, "cut")
    assert {p.depth for p in _rings(back_file, "pocket")} == {board.rabbets[0].depth}
    assert {p.depth for p in _rings(front_file, "pocket")} == {5.0}
    assert len(_rings(front_file, "cut")) == len([b for b in job.plan.boards if b.sheet_id == board.sheet_id])
    width = next(round(s.width, 6) for s in job.plan.sheets if s.id == board.sheet_id)
    tips = [{i.start for i in d.ink if isinstance(i, Line) and i.layer == "datum"} for d in (back_file, front_file)]
    assert tips == [{(width, 0.0)}, {(0.0, 0.0)}]
    assert "flip the sheet about its upright axis" in _texts(back_file)


def test_part_files_are_never_offset_or_relieved() -> None:
    plain = [[i for i in p.ink if not isinstance(i, Text)] for p in part_drawings(worked_job())]
    shop = [
        [i for i in p.ink if not isinstance(i, Text)] for p in part_drawings(_with_shop(worked_job(), "outside", True))
    ]
    assert shop == plain


def test_offset_sheets_leave_the_boards_that_the_plain_ones_draw() -> None:
    """The cutter's disc swept along each way, taken from the sheet: what stays of it is the board."""
    job = _with_shop(worked_job(), "outside", False)
    plain = _sheets(_with_shop(worked_job(), "none", False))
    for name, drawing in _sheets(job).items():
        for way, edge in zip(_rings(drawing, "cut"), _rings(plain[name], "cut"), strict=True):
            left = Polygon(way.ring).difference(LinearRing(way.ring).buffer(CUTTER / 2, quad_segs=64))
            fillets = Polygon(edge.ring).buffer(CUTTER / 2, quad_segs=64).buffer(-CUTTER / 2, quad_segs=64)
            assert left.boundary.hausdorff_distance(fillets.boundary) < 0.02
        holes = [[i for i in d.ink if isinstance(i, Circle)] for d in (drawing, plain[name])]
        assert [(c.centre, c.radius + CUTTER / 2) for c in holes[0]] == [(c.centre, c.radius) for c in holes[1]]


def _leg_job(covered: bool) -> tuple[Job, Ring]:
    """One board with a leg, sealed at the leg's corner or not at all."""
    job = worked_job()
    board = next(b for b in job.plan.boards if b.id == "B-right-1")
    corner = next(p for p in board.outline if p not in _hull(board.outline))
    around = rectangle(corner[0] - 20, corner[1] - 20, corner[0] + 20, corner[1] + 20)
    band = Band("K-1", "base", (), (WallRing("right", around),), 40.0, ())
    return replace(
        _with_shop(job, "none", True), plan=replace(job.plan, bands=(band,) if covered else ())
    ), board.outline


def _hull(ring: Ring) -> set[tuple[float, float]]:
    hull = Polygon(ring).convex_hull
    assert isinstance(hull, Polygon)
    return {(x, y) for x, y, *_ in hull.exterior.coords}


def test_a_legs_inner_corner_is_relieved_only_under_the_sealing() -> None:
    for covered in (True, False):
        job, outline = _leg_job(covered)
        sheet = _sheets(job)[job.plan.board("B-right-1").sheet_id]
        areas = [Polygon(o.ring).area for o in _rings(sheet, "cut")]
        bitten = min(abs(area - Polygon(outline).area) for area in areas)
        assert (bitten > 1.0) == covered
        assert ("cut out for the cutter: 1 of 1" in _texts(sheet)) == covered
        assert ("cut out for the cutter: 0 of 1" in _texts(sheet)) != covered


def test_an_opening_no_wider_than_the_cutter_is_left_for_a_drill() -> None:
    job = _with_shop(worked_job(), "outside", False)
    slot = Opening("O-slot", None, "slot", (0.0, 0.0), 0.0, canonical(((300, 900), (305, 900), (305, 960), (300, 960))))
    job = with_board(job, replace(job.plan.board("B-back-1"), openings=(hole("small", 200.0, 900.0, 6.0), slot)))
    sheet = _sheets(job)[job.plan.board("B-back-1").sheet_id]
    assert "drill them: O-small, O-slot" in _texts(sheet)
    assert [i.radius for i in sheet.ink if isinstance(i, Circle)].count(3.0) == 1


def test_legs_on_the_end_walls_are_left_and_right() -> None:
    job = worked_job()
    hands = sided(job.room, job.plan)
    assert hands["B-right-1"].hand == "right"
    names = {part.subject: part.name for part in part_drawings(job)}
    assert names["B-right-1"] == "B-right-1-RIGHT-x1"
    assert names["B-back-2"] == "B-back-2-x1", "a plain rectangle with a level rabbet is alike both ways"
    text = _texts(next(p for p in part_drawings(job) if p.subject == "B-right-1"))
    assert "FRONT FACE UP" in text
    assert "RIGHT HAND" in text
