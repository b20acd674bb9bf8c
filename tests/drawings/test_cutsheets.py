"""Cut sheets: the list of cuts, carried out on a blank sheet, must give the boards."""

from dataclasses import replace

import pytest

from generator.drafting.ink import Text
from generator.drafting.overlap import overlaps
from generator.drawings.cutsheets import cut_sheet_inks, cut_sheets
from generator.drawings.nesting import steps
from generator.drawings.parts import board_size
from generator.drawings.template_targets import is_notched
from generator.model.geometry import box, rectangle
from generator.model.job import Job
from generator.model.purchase import CutNode, Placement, Sheet
from tests.drawings.worked_job import worked_job

Rect = tuple[float, float, float, float]
"""x, y, width, height."""


def _saw(sheet: Sheet) -> list[Rect]:
    """A saw that knows only the list: it takes each piece, cuts it, and keeps both parts less the kerf."""
    pieces: list[Rect] = [(0.0, 0.0, sheet.width, sheet.height)]
    for step in steps(sheet):
        x, y, w, h = wanted = (step.piece.x, step.piece.y, step.piece.width, step.piece.height)
        pieces.remove(next(p for p in pieces if p == pytest.approx(wanted)))
        far = step.measure + sheet.kerf
        if step.axis == "x":
            pieces += [(x, y, step.measure, h), (x + far, y, w - far, h)]
        else:
            pieces += [(x, y, w, step.measure), (x, y + far, w, h - far)]
    return pieces


def test_the_list_of_cuts_frees_every_board() -> None:
    plan = worked_job().plan
    for sheet in plan.sheets:
        pieces = _saw(sheet)
        for placement in sheet.placements:
            left, bottom, right, top = box(plan.board(placement.board_id).outline)
            wanted = (placement.x, placement.y, right - left, top - bottom)
            assert any(piece == pytest.approx(wanted, abs=1e-6) for piece in pieces), placement.board_id


def _texts(job: Job) -> list[list[str]]:
    return [[i.text for i in page.ink if isinstance(i, Text)] for page in cut_sheets(job)]


def test_measures_are_those_of_the_worked_boards() -> None:
    """SH-03: width 35-3/8; lower board 60 - 1/4 high, upper 95-7/8 - 60."""
    words = _texts(worked_job())[2]
    for text in ('35 3/8" from its left edge', '59 3/4" from its lower edge', '35 7/8" from its lower edge'):
        assert text in words
    assert 'offcut 12 1/2" x 96"' in " ".join(words)


def test_every_page_reads_well_with_and_without_a_stamp() -> None:
    for job in (worked_job(), worked_job("back", "left", "right")):
        for page in cut_sheets(job):
            assert overlaps(page) == (), page.name


def test_only_sheets_with_a_failed_board_are_stamped() -> None:
    for page, words in zip(cut_sheet_inks(worked_job("right")), _texts(worked_job("right")), strict=True):
        assert bool(page.stamp) == (page.sheet == "SH-04")
        assert any(w.startswith("NOT FOR CUTTING") for w in words) == (page.sheet == "SH-04")


def test_a_long_list_goes_on_over_the_page() -> None:
    """Sixty slices of one sheet: every cut is listed once, in order, on pages that read well."""
    job = worked_job()
    sheet = job.plan.sheets[0]
    node = CutNode(0.0, 60 * 20.0, sheet.width, sheet.height - 60 * 20.0, None, 0.0, (), None)
    for i in reversed(range(60)):
        slice_ = CutNode(0.0, i * 20.0, sheet.width, 17.0, None, 0.0, (), None)
        node = CutNode(0.0, i * 20.0, sheet.width, sheet.height - i * 20.0, "y", i * 20.0 + 17.0, (slice_, node), None)
    plan = replace(job.plan, sheets=(replace(sheet, kerf=3.0, placements=(), cut_tree=node),))
    pages = cut_sheets(replace(job, plan=plan))
    assert len(pages) > 1
    rows = [
        i.text for page in pages for i in page.ink if isinstance(i, Text) and i.text == '11/16" from its lower edge'
    ]
    assert len(rows) == 60
    assert overlaps(pages[1]) == ()


def narrow_job() -> Job:
    """The worked room with its first sheet cut into a wide board and two rippings of 2 and 3 in, one turned."""
    job = worked_job()
    inch, first = 25.4, job.plan.sheets[0]
    widths, kerf = (30.0 * inch, 2.0 * inch, 3.0 * inch), first.kerf
    starts = (0.0, widths[0] + kerf, widths[0] + widths[1] + 2 * kerf)
    tall = replace(job.plan.board("B-left-1"), outline=rectangle(0.0, 0.0, widths[1], first.height), rabbets=())
    turned = replace(job.plan.board("B-left-2"), outline=rectangle(0.0, 0.0, first.height, widths[2]))
    whole = replace(job.plan.board("B-back-1"), outline=rectangle(0.0, 0.0, widths[0], first.height), rabbets=())
    boards = {b.id: b for b in (tall, turned, whole)}
    rest = CutNode(
        starts[2] + widths[2] + kerf, 0.0, first.width - starts[2] - widths[2] - kerf, first.height, None, 0.0, (), None
    )
    node = rest
    for i, mark in ((2, "B-left-2"), (1, "B-left-1"), (0, "B-back-1")):
        leaf = CutNode(starts[i], 0.0, widths[i], first.height, None, 0.0, (), mark)
        node = CutNode(
            starts[i], 0.0, first.width - starts[i], first.height, "x", starts[i] + widths[i], (leaf, node), None
        )
    placements = (
        Placement("B-back-1", starts[0], 0.0, 0),
        Placement("B-left-1", starts[1], 0.0, 0),
        Placement("B-left-2", starts[2], 0.0, 90),
    )
    plan = replace(
        job.plan,
        boards=tuple(boards.get(b.id, b) for b in job.plan.boards),
        sheets=(replace(first, placements=placements, cut_tree=node),),
    )
    return replace(job, plan=plan)


def test_rippings_too_narrow_for_words_have_them_beside_the_sheet() -> None:
    job = narrow_job()
    (page,) = cut_sheets(job)
    assert overlaps(page) == ()
    words = " ".join(_texts(job)[0])
    assert 'B-left-1, 2" x 96", top is up' in words
    assert 'B-left-2, 96" x 3", top is to the left' in words


def test_a_rest_no_wider_than_the_saw_is_said_as_a_trim() -> None:
    job = worked_job()
    sheet = next(s for s in job.plan.sheets if len(s.placements) == 1)
    width, height = board_size(job.plan.board(sheet.placements[0].board_id))
    leaf = CutNode(0.0, 0.0, width + 2.0, height, None, 0.0, (), sheet.placements[0].board_id)
    plan = replace(job.plan, sheets=(replace(sheet, cut_tree=leaf),))
    said = [text for page in _texts(replace(job, plan=plan)) for text in page if text.startswith("trim to")]
    assert len(said) == 1


def test_a_side_below_a_rake_remains_to_be_cut() -> None:
    """The saw of the list knows level and upright cuts only."""
    job = worked_job()
    board = next(b for b in job.plan.boards if len(b.outline) == 4 and not b.openings)
    raked = replace(
        board, outline=(*board.outline[:2], (board.outline[2][0], board.outline[2][1] - 50.0), board.outline[3])
    )
    boards = tuple(raked if b is board else b for b in job.plan.boards)
    pages = _texts(replace(job, plan=replace(job.plan, boards=boards)))
    assert sum("slanting" in text for page in pages for text in page) == 1
    assert not any("slanting" in text for page in _texts(job) for text in page)


def test_what_falls_under_a_rake_is_no_notch() -> None:
    board = worked_job().plan.boards[0]
    raked = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (200.0, 380.0), (0.0, 300.0))
    notched = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (200.0, 300.0), (200.0, 200.0), (0.0, 200.0))
    assert [is_notched(replace(board, outline=ring)) for ring in (raked, notched)] == [False, True]
