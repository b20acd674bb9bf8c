"""Templates: what they are laid on, what they say, how they go over pages."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon, unary_union

from generator.drafting.ink import Circle, Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.template_clusters import edge_at
from generator.drawings.template_targets import Face, nips_and_rabbets
from generator.drawings.template_tiles import OVERLAP, column_name, grid
from generator.drawings.templates import Template, templates
from generator.model.geometry import rectangle
from generator.model.job import Job
from generator.model.plan import Opening
from generator.model.profiles import PaperProfile
from generator.reading import load_catalogue
from tests.drawings.worked_job import A4, PAPERS, WHY, hole, with_openings, worked_job
from tests.example_rooms import job as example_job
from tests.worked_room import LETTER, TABLOID

INCH = 25.4
A3 = load_catalogue(()).papers["a3"]
ROLL = load_catalogue(()).papers["roll-24"]
ALL = (*PAPERS, TABLOID, A3, ROLL)
BACK = "B-back-2"
"""31 to 60-1/8 across, 18-3/4 to 95-7/8 up (inches), openings put in by the tests."""


def _words(page: Page) -> str:
    return " ".join(i.text for i in page.ink if isinstance(i, Text))


def _of(job: Job, paper: PaperProfile, board: str, face: Face = "front") -> Template:
    (found,) = (t for t in templates(job, paper) if (t.board, t.face) == (board, face))
    return found


def _one(paper: PaperProfile, *openings: Opening) -> Template:
    job = with_openings(worked_job(), BACK, *openings)
    return _of(replace(job, plan=replace(job.plan, boards=(job.plan.board(BACK),))), paper, BACK)


def _right(paper: PaperProfile, *failed: str) -> Template:
    """Valve, spout, arm and the leg's notch."""
    return _of(worked_job(*failed), paper, "B-right-1")


@pytest.mark.parametrize("paper", PAPERS)
def test_the_worked_board_has_one_template_for_valve_and_spout_and_one_for_the_arm(paper: PaperProfile) -> None:
    file = _right(paper)
    assert [page.name for page in file.pages] == ["T1-A1", "T2-A1", "T2-A2", "T3-A1"]
    assert "notch" in _words(file.pages[0])
    assert "spout, valve" in _words(file.pages[1])
    assert "arm" in _words(file.pages[3])


def test_distances_are_those_of_the_worked_room() -> None:
    """Centres 15-7/8 across, boards start at 5/8; spout 23 up, valve 28 up, bottom edge at 18-3/4."""
    words = _words(_right(LETTER).pages[1])
    assert 'Draw a PLUMB LINE 15 1/4" from the left edge' in words
    assert 'valve: 5" diameter; centre 15 1/4" from the left edge, 9 1/4" above the edge over the base (28"' in words
    assert 'spout: 7/8" diameter' in words
    assert '4 1/4" above the edge over the base (23"' in words


def test_an_opening_near_a_corner_is_laid_on_two_edges() -> None:
    page = _one(LETTER, hole("pipe", 57 * INCH, 22 * INCH, 22)).pages[0]
    words = _words(page)
    assert "Lay its RIGHT EDGE on the board's right edge" in words
    assert "Lay its BOTTOM EDGE on the board's bottom edge" in words
    assert "LINE" not in words
    assert {"PLUMB", "LEVEL"} <= set(words.split())


def test_an_opening_far_from_every_edge_is_laid_on_two_lines() -> None:
    words = _words(_one(A4, hole("pipe", 45 * INCH, 57 * INCH, 22)).pages[0])
    assert 'PLUMB LINE 14" from the left edge' in words
    assert 'LEVEL LINE 38 1/4" above the bottom edge' in words


def _cut_circle(page: Page) -> Circle:
    return next(i for i in page.ink if isinstance(i, Circle) and i.layer == "opening")


def test_the_cut_is_at_full_size_and_at_its_distance_from_the_drawn_edges() -> None:
    """Edge lines and circle on paper, against the entered place of the pipe: 3-1/8 from the right, 3-1/4 up."""
    page = _one(LETTER, hole("pipe", 57 * INCH, 22 * INCH, 22)).pages[0]
    circle = _cut_circle(page)
    assert circle.radius == 11
    corner = next(i for i in page.ink if isinstance(i, Outline) and i.layer == "cut")
    right, low = max(x for x, _ in corner.ring), min(y for _, y in corner.ring)
    assert right - circle.centre[0] == pytest.approx(3.125 * INCH, abs=1e-5)
    assert circle.centre[1] - low == pytest.approx(3.25 * INCH, abs=1e-5)


NICHE = Opening("O-niche", None, "niche", (0.0, 0.0), 0.0, rectangle(40 * INCH, 40 * INCH, 54 * INCH, 70 * INCH))
"""14 x 30 in, 9 in from the board's left edge, 21-1/4 above its lower one."""


def test_a_window_larger_than_paper_is_laid_out_by_its_corners() -> None:
    """Each of the four has a page; where two lines cross there, the cut turns, as far from the edges as entered."""
    pages = _one(LETTER, NICHE).pages
    assert [page.name for page in pages] == ["T1-A1", "T2-A1", "T3-A1", "T4-A1"]
    said = [_words(page) for page in pages]
    for words, corner in zip(said, ("lower left", "lower right", "upper left", "upper right"), strict=True):
        assert f'{corner} corner of niche: opening 14" x 30"; corner ' in words
    assert all(overlaps(page) == () for page in pages)
    assert 'PLUMB LINE 9" from the left edge' in said[0]
    assert 'LEVEL LINE 21 1/4" above the bottom edge' in said[0]
    assert '51 1/4" above the bottom edge' in said[3]


def test_a_roll_holds_a_window_whole_on_one_piece_no_longer_than_needed() -> None:
    (page,) = _one(ROLL, NICHE).pages
    (cut,) = (i for i in page.ink if isinstance(i, Outline) and i.layer == "opening")
    left, right = min(x for x, _ in cut.ring), max(x for x, _ in cut.ring)
    low, high = min(y for _, y in cut.ring), max(y for _, y in cut.ring)
    assert (right - left, high - low) == pytest.approx((14 * INCH, 30 * INCH))
    assert cut.closed
    assert overlaps(page) == ()


def test_a_circle_larger_than_paper_goes_over_pages_that_meet_and_have_a_plan() -> None:
    """The pieces of a cut 20 in round, put together by their windows, are its whole circumference."""
    file = _one(LETTER, hole("drum", 45 * INCH, 57 * INCH, 20 * INCH))
    plan, *rest = file.pages
    assert plan.name == "T1-PLAN"
    assert plan.bars == ()
    assert all(label.split("-")[1] in _words(plan) for label in (page.name for page in rest))
    cut = sum(
        sum(math.dist(p, q) for p, q in zip(i.ring, i.ring[1:], strict=False))
        for page in rest
        for i in page.ink
        if isinstance(i, Outline) and i.layer == "opening"
    )
    assert math.pi * 20 * INCH < cut * 1.0001 < math.pi * 20 * INCH + 8 * 2 * OVERLAP
    assert all("overlaps up to here" in _words(page) for page in rest)
    assert all(overlaps(page) == () for page in file.pages)


def test_the_back_is_the_front_mirrored_and_says_so() -> None:
    """Nip 1/8 x 7/8 at either lower corner of the back wall's boards, rabbet 1/4 deep and 7/8 high (worked room)."""
    job = worked_job()
    nipped = [t for t in templates(job, LETTER) if t.face == "back" and t.board.startswith("B-back")]
    assert nipped
    for file in nipped:
        for page in file.pages:
            words = _words(page)
            assert "LAY IT ON THE BACK" in words
            assert "BACK, MIRRORED" in words
            assert '1/4" deep in the back' in words
            assert '7/8" above the bottom edge' in words
    first = _of(job, LETTER, "B-back-1", "back")
    (page,) = (p for p in first.pages if "nip" in _words(p))
    outline = next(i for i in page.ink if isinstance(i, Outline) and i.layer == "cut")
    right = max(x for x, _ in outline.ring)
    low = min(y for _, y in outline.ring)
    assert min(x for x, _ in outline.ring) < right
    assert (right - INCH / 8, low + 7 / 8 * INCH) in [pytest.approx(p) for p in outline.ring]
    assert 'nip 1/8" x 7/8" right through' in _words(page)


def test_a_leg_has_a_template_of_its_inner_corner() -> None:
    """Leg from 32, 18-1/2 above its foot (worked room); board from 5/8."""
    words = _words(_right(LETTER).pages[0])
    assert 'corner 31 3/8" from the left edge, 18 1/2" above the bottom edge (18 3/4" above' in words


def test_below_a_deck_out_of_level_a_rabbet_ends_at_its_nips() -> None:
    """The deck falls from left to right and the left end leans: each end of the rabbet is one point with its nip."""
    job = example_job("recess-out-of-square")
    board, wall = job.plan.board("B-back-1"), job.plan.wall("back")
    found = sorted(nips_and_rabbets(job, board, wall), key=lambda target: target.at)
    assert [target.name for target in found] == ["rabbet and nip"] * 2
    assert found[0].at[1] - found[1].at[1] == pytest.approx(25.4 / 4, abs=0.1), "the deck's fall"


def test_beside_a_corner_the_farthest_edge_counts() -> None:
    outline = worked_job().plan.board("B-right-1").outline
    corner = (32 * INCH, 18.75 * INCH)
    assert edge_at(outline, corner, "left") == pytest.approx(0.625 * INCH)
    assert edge_at(outline, corner, "bottom") == pytest.approx(0.25 * INCH)
    assert edge_at(outline, corner, "right") == pytest.approx(36 * INCH)


def test_near_openings_share_a_template_and_far_ones_do_not() -> None:
    a, b, c = (hole(n, 45 * INCH, v * INCH, 22) for n, v in (("a", 40), ("b", 44), ("c", 60)))
    assert [page.name for page in _one(LETTER, a, b, c).pages] == ["T1-A1", "T2-A1"]


@pytest.mark.parametrize("paper", ALL)
def test_every_page_reads_well_and_has_both_bars_on_paper(paper: PaperProfile) -> None:
    for job in (worked_job(), worked_job("right")):
        for page in (page for template in templates(job, paper) for page in template.pages):
            assert overlaps(page) == (), page.name
            assert [bar.length for bar in page.bars] == [4 * INCH, 100.0]
            for bar in page.bars:
                assert math.dist(bar.p, bar.q) == pytest.approx(bar.length)
                assert paper.margin <= bar.p[0] < bar.q[0] <= page.width - paper.margin
            if paper.roll:
                assert page.width == paper.width
                assert page.height < paper.height
            else:
                assert sorted((page.width, page.height)) == sorted((paper.width, paper.height))


def test_every_page_of_a_failed_wall_is_not_for_cutting_and_no_other() -> None:
    bad, good = _right(A4, "right"), _right(A4, "left")
    assert bad.not_for_cutting
    assert not good.not_for_cutting
    assert all(f"NOT FOR CUTTING: {WHY}"[:15] in _words(page) and WHY in _words(page) for page in bad.pages)
    assert not any("NOT FOR CUTTING" in _words(page) for page in good.pages)


def test_nothing_is_printed_outside_the_printable_area() -> None:
    for paper in ALL:
        for page in _right(paper, "right").pages:
            inner = Page(page.name, "", page.width - paper.margin, page.height - paper.margin, "", page.ink)
            assert [text for text in overlaps(inner) if "beyond" in text] == []


@settings(deadline=None)
@given(st.floats(60, 1500), st.floats(60, 1500), st.floats(80, 250), st.floats(80, 280))
def test_windows_cover_what_must_be_shown_with_no_row_to_spare(w: float, h: float, wide: float, high: float) -> None:
    found = grid((10.0, 20.0, 10.0 + w, 20.0 + h), (wide, high), ())
    covered = unary_union([Polygon(tile.ring) for tile in found.tiles()])
    assert covered.buffer(1e-3).covers(Polygon(rectangle(10.0, 20.0, 10.0 + w, 20.0 + h)))
    for count, size, need in ((found.columns, wide, w), (found.rows, high, h)):
        assert count == 1 or (count - 1) * (size - OVERLAP) + OVERLAP < need + 1e-6


def test_windows_are_moved_so_that_no_opening_is_cut_where_that_can_be() -> None:
    extent, openings = (0.0, 0.0, 100.0, 300.0), [(20.0, 20.0, 80.0, 90.0), (20.0, 160.0, 80.0, 280.0)]
    found = grid(extent, (180.0, 180.0), openings)
    tiles = [Polygon(tile.ring) for tile in found.tiles()]
    assert all(any(tile.covers(Polygon(rectangle(*o))) for tile in tiles) for o in openings)


def test_columns_are_named_like_a_spreadsheet() -> None:
    assert [column_name(i) for i in (0, 1, 25, 26, 27)] == ["A", "B", "Z", "AA", "AB"]


def test_the_edge_over_a_leg_is_the_one_straight_below() -> None:
    outline = worked_job().plan.board("B-right-1").outline
    assert edge_at(outline, (15.875 * INCH, 28 * INCH), "bottom") == pytest.approx(18.75 * INCH)
    assert edge_at(outline, (34 * INCH, 28 * INCH), "bottom") == pytest.approx(0.25 * INCH)
    assert edge_at(outline, (15.875 * INCH, 28 * INCH), "right") == pytest.approx(36 * INCH)
    with pytest.raises(ValueError, match="not inside"):
        edge_at(outline, (200 * INCH, 28 * INCH), "right")


def test_collars_are_drawn_but_cut_nothing() -> None:
    rings = [i for i in _right(A4).pages[3].ink if isinstance(i, Circle) and i.layer == "collar"]
    assert [round(2 * c.radius / INCH, 6) for c in rings] == [4.5]


def test_metric_drawings_speak_metric() -> None:
    job = worked_job()
    choices = replace(job.room.choices, drawing_units="mm")
    job = replace(job, room=replace(job.room, choices=choices))
    words = _words(_of(job, A4, "B-right-1").pages[1])
    assert "valve: 127 diameter; centre 387 from the left edge, 235 above the edge over the base (711 above" in words


PLACES = st.lists(
    st.tuples(st.floats(33 * INCH, 58 * INCH), st.floats(21 * INCH, 93 * INCH), st.sampled_from([16.0, 22.0, 127.0])),
    min_size=1,
    max_size=4,
)


@settings(deadline=None, max_examples=20)
@given(PLACES, st.sampled_from(PAPERS))
def test_any_openings_are_each_shown_whole_and_once_named(
    places: list[tuple[float, float, float]], paper: PaperProfile
) -> None:
    """Openings anywhere in the board, not touching: every one has its cut on some page, and the pages read well."""
    rings = [Point(u, v).buffer(d / 2 + 15) for u, v, d in places]
    apart = [all(not rings[i].intersects(rings[j]) for j in range(i)) for i in range(len(rings))]
    kept = [p for p, ok in zip(places, apart, strict=True) if ok]
    file = _one(paper, *(hole(f"h{i}", u, v, d) for i, (u, v, d) in enumerate(kept)))
    assert [overlaps(page) for page in file.pages if overlaps(page)] == []
    for i, (_, _, d) in enumerate(kept):
        named = [page for page in file.pages if f"h{i}: " in _words(page)]
        cuts = [x for page in named for x in page.ink if getattr(x, "layer", "") == "opening"]
        assert any(isinstance(x, Circle) and math.isclose(x.radius, d / 2) for x in cuts) or len(named) > 1
