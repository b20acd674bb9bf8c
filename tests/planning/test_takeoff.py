"""The take-off: sums, packages, counts, and quantities worked out another way."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import ceil, pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from generator.model.plan import Plan, PlannedCorner, Support
from generator.model.purchase import TakeoffRow
from generator.model.room import Room
from generator.planning.lumber.plan import plan_lumber
from generator.planning.sealing.surface import find_surfaces
from generator.planning.takeoff import plan_takeoff, shortfall
from generator.planning.takeoff.coverings import base_runs
from generator.planning.takeoff.rows import make_row, term
from generator.planning.takeoff.sealant import base_terms, middle_length
from generator.planning.takeoff.words import amount_text
from tests.planning.finished import as_json, finished, finished_worked, limited, stud_in
from tests.verifier import lists as verifier
from tests.worked_plan import worked_plan
from tests.worked_room import mm, worked_room


def _rows(plan: Plan, kind: str) -> list[TakeoffRow]:
    return [row for row in plan.takeoff if row.kind == kind]


def _row(plan: Plan, kind: str) -> TakeoffRow:
    (row,) = _rows(plan, kind)
    return row


def test_kinds_of_the_worked_room_in_the_order_of_buying() -> None:
    kinds = [row.kind for row in finished_worked().takeoff]
    assert kinds == ["sheet", "screw", "washer", "band", "collar", "collar", "collar", "sealant", "mortar", "masking"]


def test_quantities_are_the_sums_of_their_terms_to_the_last_digit() -> None:
    for row in finished_worked().takeoff:
        assert sum((Decimal(repr(t.value)) for t in row.terms), Decimal(0)) == Decimal(repr(row.quantity))
        assert row.packages == ceil(row.quantity / row.package_size)
    assert list(verifier.check_takeoff(as_json(worked_room(), finished_worked()))) == []


def test_references_are_ids_of_the_plan() -> None:
    plan = finished_worked()
    groups = (plan.boards, plan.edges, plan.fasteners, plan.bands, plan.sheets, plan.supports)
    ids = {record.id for group in groups for record in group}
    refs = [ref for row in plan.takeoff for t in row.terms for ref in t.refs]
    assert refs and set(refs) <= ids
    screws = [ref for t in _row(plan, "screw").terms for ref in t.refs]
    assert sorted(screws) == sorted(f.id for f in plan.fasteners)


def test_counts_of_the_worked_room() -> None:
    plan = finished_worked()
    counts = {kind: sum(r.quantity for r in _rows(plan, kind)) for kind in ("sheet", "screw", "washer", "collar")}
    assert counts == {"sheet": 4, "screw": 137, "washer": 137, "collar": 3}
    assert _row(plan, "screw").packages == 2


def test_band_is_the_length_of_all_pieces_as_cut() -> None:
    """Worked by hand, inches: seams 77-1/8 + 35-1/2, wallboard 191-1/4, corners 154-1/4, base 59-1/4 + 2 x 35-1/2,
    aprons 2 x (18-1/2 + 2-1/2), feet 2 x 4, and 53 patches of 5."""
    plan = finished_worked()
    by_hand = 77.125 + 35.5 + 191.25 + 154.25 + 59.25 + 71 + 42 + 8 + 53 * 5
    assert _row(plan, "band").quantity / 25.4 == pytest.approx(by_hand)
    assert sum(band.kind == "patch" for band in plan.bands) == 53


def test_mortar_is_the_combed_bed_under_every_ring() -> None:
    """V notch 3/16 x 3/16 at 1/4 pitch, held at 45 degrees: mean bed w h / 2p x sin 45."""
    room, plan = worked_room(), finished_worked()
    bed = mm(3 / 16) ** 2 / 2 / mm(1 / 4) * 0.5**0.5
    rings = sum(Polygon(r.ring).area for band in plan.bands for r in band.rings)
    waste = 1 + room.choices.mortar.waste
    assert _row(plan, "mortar").quantity == pytest.approx(rings * bed / 1000 * waste, rel=1e-6)


def test_a_narrow_band_leaves_some_of_the_mortar_strip_to_fill() -> None:
    room = worked_room()
    room = replace(room, choices=replace(room.choices, band=replace(room.choices.band, width=mm(4.5))))
    strips = [t for t in _row(finished_worked(room), "mortar").terms if t.label.startswith("strip above")]
    bed = mm(3 / 16) ** 2 / 2 / mm(1 / 4) * 0.5**0.5
    assert sum(t.value for t in strips) == pytest.approx(mm(121.75) * mm(0.5) * bed / 1000, rel=1e-6)


def test_what_is_in_the_van_is_short_or_left_over() -> None:
    room = worked_room()
    room = replace(room, choices=replace(room.choices, in_van={"screw": 1.0, "collar": 2.0, "band": 5.0}))
    plan = finished_worked(room)
    assert shortfall(_row(plan, "screw")) == 1
    assert shortfall(_row(plan, "band")) == -2
    assert [row.in_van for row in _rows(plan, "collar")] == [2.0, 0.0, 0.0]
    assert shortfall(_row(plan, "mortar")) == 1


def test_sheets_that_are_there_count_as_in_the_van() -> None:
    room = worked_room()
    stock = replace(room.choices.stocks[0], available=3)
    plan = finished_worked(replace(room, choices=replace(room.choices, stocks=(stock,))))
    assert shortfall(_row(plan, "sheet")) == 1


def test_added_supports_are_bought_cut_to_length_where_no_stock_is_known() -> None:
    def added(key: str, centre: float, top: float) -> Support:
        return replace(stud_in(centre, 0, top, key), origin="added", reason="seam", cause="seam")

    plan = worked_plan()
    supports = (*plan.supports, added("S-x1", 22, 96), added("S-x2", 40, 96), added("S-x3", 52, 80))
    done = replace(plan, supports=tuple(sorted(supports, key=lambda s: s.id)))
    lumber, _ = plan_lumber(worked_room(), done.supports)
    rows = [row for row in plan_takeoff(worked_room(), replace(done, lumber=lumber)) if row.kind == "lumber"]
    assert [(row.item, row.quantity) for row in rows] == [
        ('wood stud 2x4, 80" long', 1.0),
        ('wood stud 2x4, 96" long', 2.0),
    ]
    assert [term.refs for term in rows[1].terms] == [("S-x1",), ("S-x2",)]


def _butted() -> tuple[Room, Plan]:
    room, plan = worked_room(), worked_plan()
    sides = tuple(
        replace(s, deck=tuple((u, mm(17.625)) for u, _ in s.deck), flange_top=mm(18.625)) for s in plan.base.sides
    )
    section = ((0.0, 0.0), (mm(0.5), 0.0), (mm(0.5), mm(1)), (0.0, mm(1)))
    return room, replace(plan, base=replace(plan.base, kind="butted", sides=sides, flange_section=section))


def test_on_a_thick_flange_the_bed_has_the_section_of_the_profile() -> None:
    """Middle of the board, 1/4 in from the framing: 59-3/4 + 2 x 31-1/2; bed 1/2 x 1/8."""
    room, plan = _butted()
    surfaces = find_surfaces(plan.walls, plan.corners, plan.folds, plan.boards, plan.edges)
    ml = sum(t.value for t in base_terms(room, plan, surfaces))
    assert ml == pytest.approx((59.75 + 2 * 31.5) * 0.5 * 0.125 * 25.4**3 / 1000)


@pytest.mark.parametrize("kind", ["tray", "lapped"])
def test_without_a_flange_the_whole_gap_is_filled(kind: str) -> None:
    room, plan = worked_room(), worked_plan()
    sides = tuple(replace(s, flange_top=mm(18.5)) for s in plan.base.sides)
    plan = replace(plan, base=replace(plan.base, kind=kind, sides=sides))  # type: ignore[arg-type]
    surfaces = find_surfaces(plan.walls, plan.corners, plan.folds, plan.boards, plan.edges)
    ml = sum(t.value for t in base_terms(room, plan, surfaces))
    assert ml == pytest.approx((59.75 + 2 * 31.5) * 0.25 * 0.5 * 25.4**3 / 1000)


@pytest.mark.parametrize("angle", [90.0, 120.0, 135.0])
def test_a_middle_line_meets_its_neighbours_on_the_line_that_halves_the_corner(angle: float) -> None:
    """Each end in a corner is w / tan(A / 2) from the framing; so the back wall's line is 60-1/4 less twice that."""
    plan = worked_plan()
    corners = tuple(PlannedCorner(c.id, c.left_wall, c.right_wall, angle, c.first) for c in plan.corners)
    surfaces = find_surfaces(plan.walls, corners, plan.folds, plan.boards, plan.edges)
    plan = replace(plan, corners=corners)
    run = next(run for run in base_runs(plan, surfaces) if run.wall == "back")
    surface = next(s for s in surfaces if s.wall == "back")
    length = middle_length(plan, surfaces, surface, run, mm(0.3))
    assert length == pytest.approx(mm(60.25) - 2 * mm(0.3) / tan(angle * pi / 360), abs=1e-5)


@given(values=st.lists(st.floats(0, 1e6), min_size=1, max_size=40), package=st.floats(0.5, 1e5))
def test_packages_hold_the_quantity_and_one_less_would_not(values: list[float], package: float) -> None:
    row = make_row("x", "p", "item", "mm", [term("t", v, ()) for v in values], package)
    assert sum(Decimal(repr(t.value)) for t in row.terms) == pytest.approx(
        Decimal(repr(row.quantity)), abs=Decimal("1e-6")
    )
    assert row.packages * row.package_size >= row.quantity - 1e-6 * row.package_size - 1e-6
    assert (row.packages - 1) * row.package_size < row.quantity or row.packages == 0


def test_fewer_screws_make_a_shorter_list() -> None:
    wide, close = (finished_worked(limited(worked_room(), screw_spacing=mm(s))).takeoff for s in (12.0, 8.0))
    counts = [next(row.quantity for row in rows if row.kind == "screw") for rows in (wide, close)]
    assert counts[0] < counts[1]


def test_a_count_that_is_off_does_not_go_unseen() -> None:
    plan = finished_worked()
    record = as_json(worked_room(), replace(plan, fasteners=plan.fasteners[1:]))
    assert [v.code for v in verifier.check_takeoff(record)] == ["takeoff-count", "takeoff-count"]


def test_nothing_is_listed_that_is_not_needed() -> None:
    room, plan = worked_room(), worked_plan()
    bare = replace(plan, boards=(), edges=(), sheets=(), fittings=())
    assert finished(room, bare).takeoff == ()


@pytest.mark.parametrize(
    ("value", "unit", "units", "text"),
    [
        (3092.45, "mm", "in", "10.1 ft"),
        (3092.45, "mm", "mm", "3.09 m"),
        (298.692648, "ml", "in", "10.1 fl oz"),
        (298.692648, "ml", "mm", "0.299 l"),
        (137.0, "pieces", "in", "137 pieces"),
    ],
)
def test_amounts_as_people_say_them(value: float, unit: str, units: str, text: str) -> None:
    assert amount_text(value, unit, units) == text  # type: ignore[arg-type]
