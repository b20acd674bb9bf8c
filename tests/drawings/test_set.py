"""The drawing set of the worked room: complete, readable, at standard scales, and saying what worked-room.md says."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader

from generator.drafting.dimension import strokes
from generator.drafting.ink import Dimension, Ink, Line, Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page, text_box
from generator.drawings.confirm import measure_text
from generator.drawings.numbered import numbered
from generator.drawings.scales import standard_scales
from generator.drawings.schedules import amount, findings_blocks
from generator.drawings.sealing import spot
from generator.drawings.set import draw_set
from generator.model.findings import Finding, Place
from generator.model.geometry import box, rectangle
from generator.units import PaperUnits, Units
from generator.writers.pdf import pdf_bytes
from tests.drawings.set_job import set_job

CASES = [
    ("letter", "in", False),
    ("letter", "in", True),
    ("letter", "mm", True),
    ("tabloid", "in", True),
    ("a3", "mm", False),
]
FRAME = 10.0
"""mm: the frame's distance from the paper's edge (ISO 5457)."""


@cache
def _set(paper: str = "letter", units: Units = "in", failed: bool = False) -> tuple[Page, ...]:
    return draw_set(set_job(paper, units, failed))


def _texts(page: Page) -> list[Text]:
    flat: list[Ink] = []
    for item in page.ink:
        flat += strokes(item) if isinstance(item, Dimension) else [item]
    return [item for item in flat if isinstance(item, Text)]


def _words(page: Page) -> list[str]:
    return [t.text for t in _texts(page)]


def _page(title: str, failed: bool = False) -> Page:
    return next(p for p in _set(failed=failed) if p.title == title)


@pytest.mark.parametrize(("paper", "units", "failed"), CASES)
def test_nothing_gets_in_the_way_of_the_writing(paper: str, units: Units, failed: bool) -> None:
    assert [(p.title, overlaps(p)) for p in _set(paper, units, failed) if overlaps(p)] == []


@pytest.mark.parametrize(("paper", "units", "failed"), CASES)
def test_all_writing_is_large_enough_and_inside_the_frame(paper: str, units: Units, failed: bool) -> None:
    for page in _set(paper, units, failed):
        for text in _texts(page):
            assert text.height >= 2.5, (page.title, text)
            left, bottom, right, top = box(text_box(text))
            assert left >= FRAME and right <= page.width - FRAME, (page.title, text.text)
            assert bottom >= FRAME and top <= page.height - FRAME, (page.title, text.text)


@pytest.mark.parametrize(("paper", "units", "failed"), CASES)
def test_scales_are_standard_ones(paper: str, units: Units, failed: bool) -> None:
    names = {s.text for s in standard_scales(units)} | {"none"}
    assert {p.scale for p in _set(paper, units, failed)} <= names


def test_paper_lies_and_is_the_chosen_one() -> None:
    assert {(p.width, p.height) for p in _set("a3", "mm")} == {(420.0, 297.0)}


def test_every_wall_and_every_board_has_its_sheets() -> None:
    titles = [p.title for p in _set()]
    for wall in ("left", "back", "right"):
        assert {f"{kind} elevation, {wall} wall" for kind in ("Framing", "Board", "Sealing")} <= set(titles)
    marks = ("B-back-1", "B-back-2", "B-left-1", "B-left-2", "B-right-1")
    assert {f"Board {mark}" for mark in marks} <= set(titles)
    wanted = {"Picture, key plan, index", "Cautions, findings, values to confirm", "Cut list", "Take-off"}
    assert wanted <= set(titles)
    assert any(title.startswith("Cut sheet SH-01") for title in titles)


def test_the_index_names_every_drawing_with_its_number() -> None:
    pages = _set()
    words = " ".join(word for p in pages if p.title.startswith("Picture, key plan, index") for word in _words(p))
    for page in pages:
        if not page.title.endswith("continued"):
            assert page.title in words, page.title
    assert [p.name for p in pages] == [str(i + 1) for i in range(len(pages))]


# Values of the table in worked-room.md, from the left framing corner and the finished floor.
@pytest.mark.parametrize(
    ("wall", "wanted"),
    [
        ("back", {'1/8"', '1/4"', '60"', '60 1/8"', '18 3/4"', '19 5/8"', '95 7/8"', '31"'}),
        ("right", {'5/8"', '32"', '36"', '1/4"', '18 3/4"', '95 7/8"', '15 7/8"', '23"', '28"', '78"'}),
        ("left", {'24"', '28"', '59 3/8"', '1/4"', '18 3/4"', '95 7/8"'}),
    ],
)
def test_board_elevations_say_the_worked_numbers(wall: str, wanted: set[str]) -> None:
    assert wanted <= set(_words(_page(f"Board elevation, {wall} wall")))


def test_a_shop_drawing_measures_every_cut_from_its_own_two_edges() -> None:
    """Openings at 15-7/8 - 5/8 from A and 28, 23, 78 less 1/4 from B; diameters of worked-room.md."""
    words = set(_words(_page("Board B-right-1")))
    assert {'15 1/4"', '27 3/4"', '22 3/4"', '77 3/4"', '35 3/8"', '18 1/2"', '95 5/8"'} <= words
    assert {'1 3/32" dia.', '7/8" dia.', '5" dia.'} <= words
    assert {"FRONT", "BACK, mirrored", 'rabbet 1/4" deep'} <= words


def test_the_section_is_cut_through_the_rabbet() -> None:
    page = _page("Board B-back-1")
    sizes = {(d.axis, d.text) for d in page.ink if isinstance(d, Dimension)}
    assert {("x", '1/2"'), ("y", '7/8"')} <= sizes
    for d in page.ink:
        if isinstance(d, Dimension):
            k = 0 if d.axis == "x" else 1
            assert abs(abs(d.q[k] - d.p[k]) / d.measured - 0.5) < 1e-6  # 6" = 1'-0" is half size


def test_studs_stand_on_paper_where_the_tape_found_them() -> None:
    """1/2 in to the foot: distances on paper are 1/24 of 15-7/8, 31, 46-1/2, 59-1/2 less 3/4."""
    page = _page("Framing elevation, back wall")
    studs = sorted(
        sum(box(o.ring)[i] for i in (0, 2)) / 2 for o in page.ink if isinstance(o, Outline) and o.layer == "stud"
    )
    assert page.scale == '1/2" = 1\'-0"'
    found = [(x - studs[0]) * 24 / 25.4 for x in studs]
    assert found == pytest.approx([0, 15.125, 30.25, 45.75, 58.75], abs=1e-4)


def test_framing_repeats_what_was_entered_and_marks_the_move() -> None:
    words = _words(_page("Framing elevation, right wall", failed=True))
    assert {'16.25"*', '15-7/8"*', 'valve 28"*', 'deck 18 1/2"*'} <= set(words)
    assert 'move 02 to 12 1/2"' in words


def test_findings_carry_the_same_number_on_the_drawing_and_in_the_list() -> None:
    pages = [p for p in _set(failed=True) if p.title.startswith("Cautions, findings")]
    listed = [word for page in pages for word in _words(page)]
    drawn = _words(_page("Framing elevation, right wall", failed=True))
    assert {"1", "2", "3"} <= set(listed)
    assert {"1", "2", "3"} <= set(drawn)
    assert sum(word == "collision-pipe" for word in listed) >= 2


def test_a_failed_set_says_so_on_every_page_and_a_sound_one_on_none() -> None:
    def stamped(failed: bool) -> list[bool]:
        data = pdf_bytes(_set(failed=failed))
        return ["NOT FOR CUTTING" in page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]

    assert all(stamped(True))
    assert not any(stamped(False))


def test_only_the_failed_wall_carries_the_large_stamp() -> None:
    large = {p.title for p in _set(failed=True) if any(t.height > 3.5 and "NOT FOR" in t.text for t in _texts(p))}
    assert {"Board B-right-1", "Board elevation, right wall"} <= large
    assert not any("left" in title or "back" in title for title in large)


def test_cautions_and_open_values_are_searchable_with_their_sources() -> None:
    text = "".join(p.extract_text() for p in PdfReader(io.BytesIO(pdf_bytes(_set()))).pages)
    plain = re.sub(r"\s+", " ", text)
    for source in ("29 CFR 1926.1153", "40 CFR 745.83", "OSHA 3351", "IRC R602.6", "IRC R316.3", "TCNA EJ171"):
        assert source in plain
    assert "duty unknown" in plain
    assert "foam plastic" in plain
    assert "tile and bed" in plain


def test_a_board_that_is_moved_moves_its_numbers() -> None:
    """The seam put 1/2 in to the left: its dimension and the board's width follow."""
    job = set_job()
    board = job.plan.board("B-back-1")
    outline = tuple((u - 12.7 if abs(u - 31 * 25.4) < 0.01 else u, v) for u, v in board.outline)
    boards = tuple(replace(b, outline=outline) if b.id == board.id else b for b in job.plan.boards)
    moved = draw_set(replace(job, plan=replace(job.plan, boards=boards)))
    words = set(_words(next(p for p in moved if p.title == "Board elevation, back wall")))
    assert {'30 1/2"', '30 3/8" x 77 1/8"'} <= words


def test_added_studs_are_drawn_and_said() -> None:
    job = set_job()
    stud = replace(job.plan.support("S-back-02"), origin="added", cause="cure", reason="bay too wide")
    supports = tuple(stud if s.id == stud.id else s for s in job.plan.supports)
    pages = draw_set(replace(job, plan=replace(job.plan, supports=supports)))
    page = next(p for p in pages if p.title == "Framing elevation, back wall")
    assert {"ADD 02", '15 7/8" add', "ADD: bay too wide"} <= set(_words(page))
    assert sum(isinstance(o, Outline) and o.layer == "added" for o in page.ink) == 1


def test_the_same_job_gives_the_same_bytes() -> None:
    assert pdf_bytes(draw_set(set_job())) == pdf_bytes(_set())


def test_leaders_of_flags_start_at_their_findings() -> None:
    """The valve at 15-7/8 across and 28 up, at 1/24 size, from the wall's lower left corner."""
    page = _page("Framing elevation, right wall", failed=True)
    wall = next(o for o in page.ink if isinstance(o, Outline) and o.layer == "visible" and len(o.ring) == 4)
    left, bottom, _, _ = box(wall.ring)
    spot = (left + 15.875 * 25.4 / 24, bottom + 28 * 25.4 / 24)
    starts = [item.start for item in page.ink if isinstance(item, Line) and item.layer == "dimension"]
    assert any(abs(x - spot[0]) < 0.01 and abs(y - spot[1]) < 0.01 for x, y in starts)


def test_rules_that_found_nothing_to_judge_are_told_with_their_reason_once() -> None:
    """Three that do not apply for one reason, and a fourth for its own; no row of the list is theirs."""
    job = set_job("letter", "in", False)
    note = Finding("fit", "found", "note", "not asked for", None, None, None, Place("", ()), None, "", 0)
    notes = (note, replace(note, rule="square"), replace(note, subject="no curb"), replace(note, rule="stagger"))
    blocks = findings_blocks(replace(job, findings=notes), 300.0)
    words = [one.text for block in blocks for one in block.ink if isinstance(one, Text)]
    assert words[-1] == "fit, square, stagger: not asked for; fit: no curb."
    assert "No findings but passes." in words


def test_amounts_have_the_units_and_the_sign_before_decimals_that_lengths_have() -> None:
    """A US fluid ounce is 29.5735 ml: 82.7 ml are 2.796 of them."""
    assert amount(82.7, "ml", PaperUnits("mm", comma=True)) == "83 ml"
    assert amount(82.7, "ml", PaperUnits("in", "mm")) == "2.8 fl oz [83 ml]"
    assert amount(4.5, "rolls", PaperUnits("mm", comma=True)) == "4,5 rolls"


def test_limits_are_not_rounded_away_and_shares_are_in_per_cent() -> None:
    """The gauge of steel (33 mil) and a flush face (1/32 in) are less than the step of lengths on paper."""
    metric = PaperUnits("mm", comma=True)
    assert (measure_text(0.8382, "mm", metric), measure_text(12.7, "mm", metric)) == ("0,8", "13")
    assert measure_text(0.79375, "mm", PaperUnits("in")) == '1/32"'
    assert (measure_text(0.0, "mm", metric), measure_text(-1e-9, "mm", metric)) == ("0", "0")
    assert (measure_text(0.25, "ratio", metric), measure_text(1 / 48, "ratio", metric)) == ("25 %", "2,08 %")
    assert measure_text(0.1, "mm2", metric) == "0,1 mm²"


def test_what_was_judged_is_numbered_without_a_gap() -> None:
    job = set_job("letter", "in", False)
    idle = Finding("fit", "found", "note", "not asked for", None, None, None, Place("", ()), None, "", 0)
    told = replace(idle, rule="washer-gap", subject="washers", measured=-1.0, limit=0.0, place=Place("right", ()))
    assert [n.finding.rule for n in numbered(replace(job, findings=(idle, told)))] == ["washer-gap", "fit"]


def test_the_leader_of_a_band_starts_where_no_other_laps_it() -> None:
    """A band 1000 high, its middle under a level band; where all of it is lapped, at its own place all the same."""
    band, level = rectangle(0.0, 0.0, 100.0, 1000.0), rectangle(-500.0, 450.0, 500.0, 550.0)
    assert spot(band, 0) == (50.0, 500.0)
    assert spot(band, 0, [level]) == (50.0, 620.0)
    assert spot(band, 0, [rectangle(-500.0, 0.0, 500.0, 1000.0)]) == (50.0, 500.0)
