"""The card of running marks: the numbers of the worked room, in the order in which a tape passes them."""

from dataclasses import replace
from itertools import pairwise

from generator.drafting.ink import Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.tape_card import tape_card
from generator.units import parse_length
from tests.drawings.worked_job import WHY, worked_job
from tests.worked_room import mm


def _words(page: Page) -> list[str]:
    return [i.text for i in page.ink if isinstance(i, Text)]


def _page(wall: str, *failed: str) -> Page:
    return next(page for page in tape_card(worked_job(*failed)) if page.title == f"Wall {wall}")


def _column(page: Page, heading: str) -> list[str]:
    """The lengths below a heading, from the top: right-aligned writing at its x."""
    head = next(i for i in page.ink if isinstance(i, Text) and i.text == heading)
    below = [i for i in page.ink if isinstance(i, Text) and i.align == "right" and i.at[0] == head.at[0]]
    return [i.text for i in sorted(below, key=lambda i: -i.at[1]) if i.text != heading]


def test_the_back_wall_has_its_studs_and_seam_from_the_left_corner() -> None:
    """Studs at 3/4, 15-7/8, 31 (the seam), 46-1/2, 59-1/2; boards from 1/8 to 60-1/8 and from 18-3/4 to 95-7/8."""
    page = _page("back")
    along = ['1/8"', '3/4"', '15 7/8"', '31"', '46 1/2"', '59 1/2"', '60 1/8"']
    assert _column(page, "ALONG") == along
    assert _column(page, "UP") == ['18 3/4"', '95 7/8"']
    assert "seam; stud, centre" in _words(page)


def test_the_right_wall_has_its_fittings_from_the_floor_and_from_the_edges_of_their_board() -> None:
    """15-7/8 across; spout 23, valve 28, arm 78 up; board from 5/8 across and 1/4 up."""
    page = _page("right")
    assert {'23"', '28"', '78"'} <= set(_column(page, "UP"))
    assert '15 7/8"' in _column(page, "ALONG")
    words = _words(page)
    row = words.index("B-right-1", words.index("BOARD"))
    assert words[row : row + 4] == ["B-right-1", '31 3/8"', '18 1/2"', "notch: cut to both lines"]
    valve = words.index('valve, centre: 5" diameter')
    assert words[valve - 3 : valve] == ["B-right-1", '15 1/4"', '27 3/4"']


def test_marks_rise_and_pages_read_well() -> None:
    for page in tape_card(worked_job("right")):
        assert overlaps(page) == ()
        for heading in ("ALONG", "UP"):
            lengths = [parse_length(text, "in").mm for text in _column(page, heading)]
            assert all(a < b for a, b in pairwise(lengths))


def test_a_slanting_edge_is_marked_at_both_ends_on_both_tapes() -> None:
    """The left board of the back wall cut 2 in lower at the seam: from 95-7/8 at 1/8 across to 93-7/8 at 31."""
    job = worked_job()
    board = job.plan.board("B-back-1")
    lower = tuple((u, v - mm(2)) if (u, v) == max(board.outline) else (u, v) for u, v in board.outline)
    boards = tuple(replace(board, outline=lower) if b == board else b for b in job.plan.boards)
    page = next(p for p in tape_card(replace(job, plan=replace(job.plan, boards=boards))) if p.title == "Wall back")
    words = " ".join(_words(page))
    for end in ('95 7/8" up', '93 7/8" up', '1/8" along', '31" along'):
        assert f"B-back-1, corner {end}" in words
    assert "corner" not in " ".join(_words(_page("back"))).split("UP: from")[1].replace("from the left corner", "")


def test_a_failed_wall_is_stamped_and_the_others_name_it() -> None:
    assert WHY in " ".join(_words(_page("right", "right")))
    assert any(text.startswith("NOT FOR CUTTING: boards of right") for text in _words(_page("back", "right")))
    assert not any("NOT FOR CUTTING" in text for text in _words(_page("back")))
