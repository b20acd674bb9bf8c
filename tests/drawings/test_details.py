"""Details: cut where the plan says, said as the plan says, read without trouble; sizes of worked-room.md by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from generator.drafting.ink import Dimension, Line, Text
from generator.drafting.overlap import overlaps
from generator.drawings.callouts import Note, column
from generator.drawings.detail_base import base_said
from generator.drawings.detail_ink import seen
from generator.drawings.detail_joints import joint_said
from generator.drawings.details import detail_leaves, draw
from generator.drawings.exploded import exploded_leaves
from generator.drawings.leaf import bound
from generator.model.cuts import Cut
from generator.model.job import Job
from generator.planning.cuts import detail_cuts
from generator.units import Units, parse_length
from tests.drawings.set_job import detailed_job as _job
from tests.example_rooms import job as example_job
from tests.worked_room import mm, rect_in

STEP = 25.4 / 16
WIDTH = 120.0


def _cut(kind: str, job: Job | None = None) -> Cut:
    job = job or _job()
    return next(c for c in detail_cuts(job.room, job.plan) if c.kind == kind)


def _said(kind: str) -> list[str]:
    shown = seen(_job(), _cut(kind))
    return [n.text for n in (base_said(shown) if kind == "base" else joint_said(shown)).notes]


def test_a_room_has_each_of_its_conditions_once() -> None:
    """A tub with one flange, two like corners, two like ends at wallboard, one sort of screw."""
    kinds = [c.kind for c in detail_cuts(_job().room, _job().plan)]
    assert kinds == ["base", "corner", "wallboard", "screw"]


def test_the_base_is_cut_through_rabbet_flange_and_gap() -> None:
    """Board 1/2 thick from 18 3/4 up, notched 1/4 deep to 19 5/8; flange 3/16 x 1 on the deck at 18 1/2."""
    cut = _cut("base")
    left, low, right, high = cut.window
    window = Polygon(((left, low), (right, low), (right, high), (left, high)))
    shown = seen(_job(), cut)
    board = next(b for b in shown.boards() if b.wall == cut.wall)
    wanted = Polygon(rect_in(0, 18.75, 0.5, 60)).difference(Polygon(rect_in(0, 18.75, 0.25, 19.625)))
    assert shown.shape(board.id).symmetric_difference(wanted.intersection(window)).area < 1e-3
    flange = shown.shape("base").intersection(Polygon(rect_in(-1, 18.5, 1, 30)))
    assert flange.symmetric_difference(Polygon(rect_in(0, 18.5, 3 / 16, 19.5))).area < 1e-3


def test_sealant_fills_the_gap_and_nothing_else() -> None:
    """From the flange at 3/16 to the board's face at 1/2, from the deck at 18 1/2 to the edge at 18 3/4."""
    said = base_said(seen(_job(), _cut("base")))
    (patch,) = (p for p in said.patches if p.material == "sealant")
    assert Polygon(patch.ring).symmetric_difference(Polygon(rect_in(3 / 16, 18.5, 0.5, 18.75))).area < 1e-3


def test_the_base_says_what_the_plan_holds() -> None:
    words = " / ".join(_said("base"))
    for text in ('board stops 1/4" above the deck', 'rabbet in the back 1/4" deep', "clears the flange's top by 1/8\""):
        assert text in words
    assert 'band 5" wide, bedded in mortar, 5" up on the board' in words
    assert 'mortar 5" high on the board' in words


def test_the_lowest_screw_is_said_from_the_plan() -> None:
    cut = _cut("base")
    u = _job().plan.wall(cut.wall).frame.of(cut.frame.origin)[0]
    low = min(f.point[1] for f in _job().plan.fasteners if f.wall == cut.wall and abs(f.point[0] - u) < 1.0)
    (note,) = (text for text in _said("base") if text.startswith("lowest screw"))
    said = parse_length(note.removeprefix("lowest screw ").partition(" above")[0], "in").mm
    assert abs(said - (low - mm(18.5))) <= STEP / 2 + 1e-9


def test_a_screw_bites_its_length_less_the_board() -> None:
    """1 5/8 in long through 1/2 in of board: 1 1/8 in, where 3/4 in is asked for."""
    assert any('1 5/8" long bites 1 1/8", at least 3/4"' in text for text in _said("screw"))


def test_the_corner_names_who_goes_first_and_its_fit() -> None:
    (note,) = (text for text in _said("corner") if "goes up first" in text)
    assert note.startswith("B-back-") and '1/8" fit' in note


def test_a_raised_edge_is_said_and_dimensioned_anew() -> None:
    """Every lower edge over the deck lifted by 1/8: the gap is 3/8."""
    job = _job()
    lifted = tuple(
        replace(b, outline=tuple((u, v + mm(0.125) if abs(v - mm(18.75)) < 0.01 else v) for u, v in b.outline))
        for b in job.plan.boards
    )
    changed = replace(job, plan=replace(job.plan, boards=lifted))
    cut = _cut("base")
    words = [n.text for n in base_said(seen(changed, cut)).notes]
    assert any('board stops 3/8" above the deck' in text for text in words)
    assert any(s.axis == "y" and abs(s.mm - mm(0.375)) < 1e-6 for s in base_said(seen(changed, cut)).sizes)


@pytest.mark.parametrize("kind", ["base", "corner", "wallboard", "screw"])
def test_dimensions_measure_on_paper_what_they_say(kind: str) -> None:
    drawn = draw(_job(), _cut(kind), 1, WIDTH)
    found = [i for i in drawn.block.ink if isinstance(i, Dimension)]
    assert found
    for d in found:
        k = 0 if d.axis == "x" else 1
        on_paper = abs(d.q[k] - d.p[k]) / drawn.scale.factor
        assert abs(parse_length(d.text, "in").mm - on_paper) <= STEP / 2 + 1e-6
        assert abs(on_paper - d.measured) < 1e-3


def test_a_band_is_drawn_where_the_plan_has_it() -> None:
    """The corner's legs: as wide on each wall as their rings."""
    shown = seen(_job(), _cut("corner"))
    legs = sorted(round(t.length, 3) for t in shown.bands if t.band.kind == "corner")
    rings = [r.ring for t in shown.bands if t.band.kind == "corner" for r in t.band.rings if r.wall == t.wall]
    assert legs == sorted(round(max(u for u, _ in r) - min(u for u, _ in r), 3) for r in rings)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 60), st.floats(-90, 0)), min_size=2, max_size=9, unique=True))
def test_leaders_do_not_cross(points: list[tuple[float, float]]) -> None:
    ink = column([Note(p, f"note {i}") for i, p in enumerate(points)], 65.0, 50.0, 0.0, -90.0)
    lines = [LineString((i.start, i.end)) for i in ink if isinstance(i, Line)]
    assert not any(a.crosses(b) for a, b in combinations(lines, 2))
    tops = [t.at[1] for t in ink if isinstance(t, Text)]
    assert all(a - b > 3.0 for a, b in pairwise(tops))


def test_of_two_points_at_one_height_no_leader_runs_through_the_other_s_dot() -> None:
    """A stud behind its board, named in either order."""
    notes = (Note((10.0, 50.0), "stud"), Note((20.0, 50.0), "board"))
    for order in (notes, notes[::-1]):
        leaders = [LineString((i.start, i.end)) for i in column(order, 40.0, 30.0, 80.0, 0.0) if isinstance(i, Line)]
        assert sum(line.distance(Point(n.at)) < 0.3 for line in leaders for n in notes) == 2


@pytest.mark.parametrize(
    ("paper", "units", "failed"), [("letter", "in", True), ("letter", "mm", False), ("a3", "mm", True)]
)
def test_they_read_well_on_any_paper(paper: str, units: Units, failed: bool) -> None:
    job = _job(paper, units, failed)
    pages = bound(job, (*detail_leaves(job), *exploded_leaves(job)))
    assert [(p.title, overlaps(p)) for p in pages if overlaps(p)] == []


@pytest.mark.parametrize("room", ["walk-in", "seat-and-curb", "brick-and-frame", "tub-deck"])
def test_details_of_built_in_rooms_read_well(room: str) -> None:
    job = example_job(room)
    pages = bound(job, (*detail_leaves(job), *exploded_leaves(job)))
    assert [(p.title, overlaps(p)) for p in pages if overlaps(p)] == []
    marks = {t.text for p in pages for t in p.ink if isinstance(t, Text)}
    assert {b.id for b in job.plan.boards} <= marks
    for cut in detail_cuts(job.room, job.plan):
        assert job.sections[cut.name].parts, cut.name


def test_a_deck_is_cut_at_its_front_and_at_the_tub() -> None:
    """Its top stops a quarter inch beside the tub's end, which stands at the right."""
    job = example_job("tub-deck")
    kinds = [c.kind for c in detail_cuts(job.room, job.plan) if c.feature == "deck"]
    assert kinds == ["nosing", "seat", "rim"]
    shown = seen(job, _cut("rim", job))
    board, tub = shown.shape("B-deck-top-1"), shown.shape("base")
    assert tub.bounds[0] - board.bounds[2] == pytest.approx(25.4 / 4, abs=0.01)
    words = [n.text for n in joint_said(shown).notes]
    assert 'B-deck-top-1 stops 1/4" beside the tub; sealant fills the joint, mask the tub first' in words
