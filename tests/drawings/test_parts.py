"""Part drawings of the worked room, against the numbers of worked-room.md."""

import math
from dataclasses import replace

import pytest
from shapely import Polygon

from generator.drafting.ink import Circle, Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page, text_box
from generator.drawings.parts import FlatDrawing, part_drawings
from generator.drawings.sheet_files import sheet_drawings
from generator.model.geometry import area, box, rectangle
from generator.model.plan import Rabbet
from generator.model.purchase import Placement
from tests.drawings.worked_job import WHY, with_board, worked_job

INCH = 25.4


def _part(mark: str, *failed: str) -> FlatDrawing:
    return next(p for p in part_drawings(worked_job(*failed)) if p.subject == mark)


def _rings(drawing: FlatDrawing, layer: str) -> list[Outline]:
    return [i for i in drawing.ink if isinstance(i, Outline) and i.layer == layer]


def _circles(drawing: FlatDrawing) -> list[Circle]:
    return [i for i in drawing.ink if isinstance(i, Circle)]


def _words(drawing: FlatDrawing) -> list[Text]:
    return [i for i in drawing.ink if isinstance(i, Text)]


def test_every_board_has_one_part_with_one_closed_cut_from_the_origin() -> None:
    job = worked_job()
    parts = part_drawings(job)
    assert [p.subject for p in parts] == [b.id for b in job.plan.boards]
    for part in parts:
        (cut,) = _rings(part, "cut")
        assert cut.closed
        assert box(cut.ring)[:2] == (0.0, 0.0)


def test_the_right_board_has_the_area_of_the_worked_table() -> None:
    """Right area after openings: 2781.127 in2."""
    part = _part("B-right-1")
    (cut,) = _rings(part, "cut")
    holes = sum(math.pi * c.radius**2 for c in _circles(part))
    assert (area(cut.ring) - holes) / INCH**2 == pytest.approx(2781.127, abs=0.0005)
    assert sorted(2 * c.radius / INCH for c in _circles(part)) == pytest.approx([0.875, 1.09, 5.0])


def test_the_pocket_of_the_right_board_is_where_the_worked_table_has_it() -> None:
    """From the start of the board 5/8 to 31-7/8, 7/8 high above the bottom edge at 18-3/4; the foot is at 1/4."""
    (pocket,) = _rings(_part("B-right-1"), "pocket")
    assert [x / INCH for x in box(pocket.ring)] == pytest.approx([0.0, 18.5, 31.25, 19.375])


def test_the_words_say_what_the_part_is_and_stand_clear() -> None:
    for part in part_drawings(worked_job("left")):
        (cut,) = _rings(part, "cut")
        wide, high = box(cut.ring)[2:]
        page = Page(part.subject, "", wide, high, "", part.ink)
        assert overlaps(page) == ()
        marks = [t for t in _words(part) if t.layer == "mark"]
        assert part.subject in [t.text for t in marks]
        assert all(Polygon(cut.ring).contains(Polygon(text_box(t))) for t in marks)


def test_pockets_are_named_with_face_and_depth() -> None:
    assert 'pocket in the back face, 1/4" deep' in [t.text for t in _words(_part("B-back-1"))]
    assert not any("pocket" in t.text for t in _words(_part("B-left-2")))


def test_a_failed_wall_says_not_for_cutting_and_why_and_no_other_does() -> None:
    for part in part_drawings(worked_job("right")):
        stamped = [t for t in _words(part) if t.text.startswith("NOT FOR CUTTING")]
        assert part.not_for_cutting == (part.subject == "B-right-1") == bool(stamped)
        if stamped:
            assert stamped[0].layer == "mark"
            assert WHY in " ".join(t.text for t in _words(part))


def test_a_narrow_board_still_gets_its_words() -> None:
    job = worked_job("back")
    narrow = replace(job.plan.board("B-back-1"), outline=rectangle(0, 0, 60, 1900), rabbets=(), openings=())
    part = part_drawings(with_board(job, narrow))[0]
    assert overlaps(Page("1", "", 60, 1900, "", part.ink)) == ()


def test_a_second_pocket_is_a_second_ring() -> None:
    job = worked_job()
    board = job.plan.board("B-back-1")
    left, bottom, _, _ = box(board.outline)
    extra = Rabbet(rectangle(left + 100, bottom + 200, left + 200, bottom + 300), 5.0, "front")
    part = part_drawings(with_board(job, replace(board, rabbets=(*board.rabbets, extra))))[0]
    assert len(_rings(part, "pocket")) == 2


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_board_on_its_sheet_keeps_its_shape_and_its_corner(turn: int) -> None:
    job = worked_job()
    sheet = replace(job.plan.sheets[0], placements=(Placement("B-back-1", 10.0, 20.0, turn),))  # type: ignore[arg-type]
    job = replace(job, plan=replace(job.plan, sheets=(sheet,)))
    (cut,) = _rings(sheet_drawings(job)[0], "cut")
    board = job.plan.board("B-back-1")
    assert area(cut.ring) == pytest.approx(area(board.outline))
    wide, high = (box(cut.ring)[i + 2] - box(cut.ring)[i] for i in (0, 1))
    x_from_behind = sheet.width - 10.0 - wide  # it has a rabbet in its back, so the sheet lies on its face
    assert box(cut.ring)[:2] == pytest.approx((x_from_behind, 20.0))
    assert (wide, high)[:: 1 if turn in (0, 180) else -1] == pytest.approx((30.875 * INCH, 77.125 * INCH))


def test_a_sheet_with_a_failed_board_is_not_for_cutting() -> None:
    flags = {s.subject: s.not_for_cutting for s in sheet_drawings(worked_job("left"))}
    assert flags == {"SH-01": False, "SH-02": False, "SH-03": True, "SH-04": False}
