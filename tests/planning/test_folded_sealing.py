"""Bands over folds and round outside corners: every ring by hand, and bands that are taken away or too narrow."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.checks.sealing import band_cover, band_lap
from generator.model.features import Feature
from generator.model.findings import Measure
from generator.model.plan import (
    Band,
    Fastener,
    Plan,
    WallRing,
)
from generator.model.room import Room
from generator.planning.sealing.fold_lines import lines_on
from generator.planning.sealing.spots import patch_ring
from generator.planning.sealing.surface import find_surfaces
from generator.planning.takeoff.corner_pieces import corner_points
from generator.planning.takeoff.sealant import fold_terms, frame_terms
from tests.folded_plan import SILL, corner_plan, niche_plan, recess_plan, rings_in, sealed
from tests.planning.finished import as_json
from tests.verifier import bands, edges, folded, walls
from tests.worked_room import mm, rect_in

CHECKS = (
    bands.check_cover,
    bands.check_laps,
    bands.check_lengths,
    folded.check_folds_banded,
    walls.check_folds,
    walls.check_frames,
    edges.check_roles,
)
BUILDERS = (niche_plan, corner_plan)
Build = Callable[[], tuple[Room, Plan]]
HALF_ON_SLOPE = round(2.5 * SILL / 3.25, 5)
"""Half a band of 5 in, square to the sill's fall of 1/4 on 3-1/4, laid off upright."""


def _violations(room: Room, plan: Plan) -> list[str]:
    record = as_json(room, plan)
    return [v.message for check in CHECKS for v in check(record)]


def _inches(*points: tuple[float, float]) -> list[tuple[float, float]]:
    return [(round(u, 5), round(v, 5)) for u, v in points]


def _box(left: float, bottom: float, right: float, top: float) -> list[tuple[float, float]]:
    return _inches((left, bottom), (right, bottom), (right, top), (left, top))


RINGS = {
    "rear-sill": {"niche-rear": _box(0.5, 0.75, 13.5, 3.25), "niche-sill": _box(0, 0.5, 2.5, 13.5)},
    "rear-head": {"niche-rear": _box(0.5, 21, 13.5, 23.5), "niche-head": _box(0.75, 0.5, 3.25, 13.5)},
    "rear-left": {"niche-rear": _box(0.5, 0.75, 3, 23.5), "niche-left": _box(0.75, 0.75, 3.25, 23.5)},
    "rear-right": {"niche-rear": _box(11, 0.75, 13.5, 23.5), "niche-right": _box(0, 0.75, 2.5, 23.5)},
    "sill-left": {
        "niche-sill": _box(0, 0.5, SILL, 3),
        "niche-left": _inches((0, 0.5), (3.25, 0.75), (3.25, 0.75 + HALF_ON_SLOPE), (0, 0.5 + HALF_ON_SLOPE)),
    },
    "sill-right": {
        "niche-sill": _box(0, 11, SILL, 13.5),
        "niche-right": _inches((3.25, 0.5), (3.25, 0.5 + HALF_ON_SLOPE), (0, 0.75 + HALF_ON_SLOPE), (0, 0.75)),
    },
    "head-left": {"niche-head": _box(0, 0.5, 3.25, 3), "niche-left": _box(0, 21, 3.25, 23.5)},
    "head-right": {"niche-head": _box(0, 11, 3.25, 13.5), "niche-right": _box(0, 21, 3.25, 23.5)},
    "wall-sill": {"back": _box(18, 38, 36, 40.5), "niche-sill": _box(SILL - 2.5, 0.5, SILL, 13.5)},
    "wall-head": {"back": _box(18, 63.5, 36, 66), "niche-head": _box(0, 0.5, 2.5, 13.5)},
    "wall-left": {
        "back": _box(18, 38, 20.5, 66),
        "niche-left": _inches((0, 0.5), (2.5, 0.5 + 2.5 / 13), (2.5, 23.5), (0, 23.5)),
    },
    "wall-right": {
        "back": _box(33.5, 38, 36, 66),
        "niche-right": _inches((3.25, 0.5), (3.25, 23.5), (0.75, 23.5), (0.75, 0.5 + 2.5 / 13)),
    },
}
"""Half the band on either face; round the mouth half a band past each corner on the wall, where the two lap."""


@pytest.mark.parametrize("fold", RINGS)
def test_rings_over_each_fold_of_a_niche(fold: str) -> None:
    rings = rings_in(niche_plan()[1])
    assert rings[f"T-niche-{fold}-corner-001"] == RINGS[fold]


def test_each_fold_of_a_niche_has_one_piece_and_it_covers_the_edges_of_both_boards() -> None:
    """The mouth lies inside a board of the wall, which has no edge there to name."""
    plan = niche_plan()[1]
    corners = [band for band in plan.bands if band.kind == "corner"]
    assert len(corners) == 12
    walls_of = {edge.id: plan.board(edge.board).wall for edge in plan.edges}
    covered = sorted(tuple(sorted({walls_of[i] for i in band.covers})) for band in corners)
    assert covered == sorted(tuple(sorted(set(fold.faces) - {"back"})) for fold in plan.folds)


def test_lengths_as_cut_hold_the_run_past_the_corners_of_the_mouth() -> None:
    lengths = {band.id: round(band.length / 25.4, 5) for band in niche_plan()[1].bands}
    assert lengths["T-niche-wall-sill-corner-001"] == 13 + 2 * 2.5
    assert lengths["T-niche-wall-left-corner-001"] == 23 + 2 * 2.5
    assert lengths["T-niche-rear-left-corner-001"] == 22.75
    assert lengths["T-niche-sill-left-corner-001"] == round(SILL, 5)


def test_rings_round_an_outside_corner() -> None:
    """From the line where the faces meet, 1/2 in past the framing: 2-1/2 on either wall, the base's bands up to it."""
    rings = rings_in(corner_plan()[1])
    assert rings["T-side-end-corner-001"] == {"side": _box(46, 0.25, 48.5, 79), "end": _box(-0.5, 0.25, 2, 79)}
    assert rings["T-side-base-001"] == {"side": _box(0, 0.25, 48.5, 5.25)}
    assert rings["T-end-base-001"] == {"end": _box(-0.5, 0.25, 6, 5.25)}


def test_a_corner_ends_where_the_lower_wall_ends() -> None:
    """Above it the higher wall's edge meets nothing: it is free, and no corner."""
    _, plan = corner_plan(lapping_top=60.0)
    assert rings_in(plan)["T-side-end-corner-001"]["side"] == _box(46, 0.25, 48.5, 60)
    above = [e for e in plan.edges if plan.board(e.board).wall == "side" and min(e.p[1], e.q[1]) >= 60 * 25.4 - 0.01]
    assert "free" in {e.role for e in above}
    assert "corner" not in {e.role for e in above if e.p[0] == e.q[0] and e.p[0] > 40 * 25.4}


@pytest.mark.parametrize("build", BUILDERS)
def test_a_reader_of_plan_json_finds_nothing_wrong(build: Build) -> None:
    assert _violations(*build()) == []


@pytest.mark.parametrize("build", BUILDERS)
def test_the_checks_hold(build: Build) -> None:
    room, plan = build()
    for check, rule in ((band_cover, "band-cover"), (band_lap, "band-lap")):
        measures = list(check(room, plan))
        assert measures
        assert all(m.value is not None and m.value >= room.limit(rule) - 1e-6 for m in measures)


def _corner_bands() -> Iterator[tuple[Build, str]]:
    for build in BUILDERS:
        yield from ((build, band.id) for band in build()[1].bands if band.kind == "corner")


def _least_cover(room: Room, plan: Plan) -> Measure:
    return min(band_cover(room, plan), key=lambda m: m.value if m.value is not None else 1e9)


@pytest.mark.parametrize(("build", "gone"), _corner_bands(), ids=lambda x: x if isinstance(x, str) else x.__name__)
def test_a_band_taken_away_is_missed_by_both(build: Build, gone: str) -> None:
    room, plan = build()
    left = tuple(
        replace(b, lap_ids=tuple(i for i in b.lap_ids if i != gone)) for b in plan.bands if b.id != gone
    )  # fmt: skip
    plan = replace(plan, bands=left)
    assert any("under no band" in message or "no band is folded" in message for message in _violations(room, plan))
    assert _least_cover(room, plan).value == 0.0


def _reringed(plan: Plan, band_id: str, wall: str, box: tuple[float, float, float, float]) -> Plan:
    def change(band: Band) -> Band:
        rings = tuple(WallRing(wall, rect_in(*box)) if r.wall == wall else r for r in band.rings)
        return replace(band, rings=rings) if band.id == band_id else band

    return replace(plan, bands=tuple(change(band) for band in plan.bands))


@pytest.mark.parametrize(
    ("build", "band", "wall", "box"),
    [
        (niche_plan, "T-niche-rear-sill-corner-001", "niche-rear", (0.5, 0.75, 13.5, 2.25)),
        (niche_plan, "T-niche-wall-left-corner-001", "back", (19, 38, 20.5, 66)),
        (corner_plan, "T-side-end-corner-001", "side", (47, 0.25, 48.5, 79)),
        (corner_plan, "T-side-end-corner-001", "end", (-0.5, 0.25, 1, 79)),
    ],
)
def test_a_band_that_reaches_an_inch_and_a_half_is_measured(
    build: Build, band: str, wall: str, box: tuple[float, float, float, float]
) -> None:
    room, plan = build()
    plan = _reringed(plan, band, wall, box)
    worst = _least_cover(room, plan)
    assert worst.value == pytest.approx(mm(1.5))
    assert worst.place.wall == wall
    assert any("lie under no band" in message for message in _violations(room, plan))


def test_the_edge_that_shows_at_an_outside_corner_must_be_covered_too() -> None:
    """The side's band starts at its own framing, half an inch from where the faces meet."""
    room, plan = corner_plan()
    plan = _reringed(plan, "T-side-end-corner-001", "side", (45.5, 0.25, 48, 79))
    assert _least_cover(room, plan).value == 0.0
    assert any("lie under no band" in message for message in _violations(room, plan))


def test_eight_corner_pieces_in_a_niche() -> None:
    """Four inside at the rear, four outside round the mouth, each where three faces meet."""
    plan = niche_plan()[1]
    points = corner_points(plan)
    assert all(len(point.faces) == 3 for point in points)
    assert (
        sorted((point.outside, "niche-rear" in point.faces) for point in points)
        == [(False, True)] * 4 + [(True, False)] * 4
    )
    rows = [row for row in plan.takeoff if row.kind == "corner-piece"]
    assert [(row.quantity, row.unit) for row in rows] == [(4.0, "pieces"), (4.0, "pieces")]


def test_slots_at_inside_folds_take_sealant_and_outside_ones_none() -> None:
    """1/8 x 1/2 along 2 x 13 and 2 x 22-3/4 at the rear, twice the sill, twice 3-1/4 at the head.

    1 in3 is 16.387064 ml.
    """
    room, plan = niche_plan()
    terms = list(fold_terms(room, plan, find_surfaces(plan.walls, (), plan.folds, plan.boards, plan.edges)))
    assert len(terms) == 8
    length = 2 * 13 + 2 * 22.75 + 2 * SILL + 2 * 3.25
    assert sum(t.value for t in terms) == pytest.approx(length / 16 * 16.387064)


def test_boards_of_a_window_are_sealed_to_its_frame() -> None:
    """The niche without its rear: 13-3/4 at sill and head; beside, from 5/8 and the rise on 3-1/8 up to 23-3/8."""
    room, plan = niche_plan()
    kept = tuple(wall for wall in plan.walls if wall.id != "niche-rear")
    plan = replace(
        plan,
        walls=kept,
        boards=tuple(b for b in plan.boards if b.wall != "niche-rear"),
        folds=tuple(f for f in plan.folds if "niche-rear" not in f.faces),
    )
    room = replace(
        room,
        walls=tuple(wall for wall in room.walls if wall.id != "niche-rear"),
        features=(Feature("windows.0", "niche", "window", "back", (), ()),),
    )
    plan = sealed(room, plan)
    terms = list(frame_terms(room, plan, find_surfaces(plan.walls, (), plan.folds, plan.boards, plan.edges)))
    assert [t.label.split(":")[0].split()[-1] for t in terms] == [
        "niche-sill", "niche-head", "niche-left", "niche-right",
    ]  # fmt: skip
    length = 2 * 13.75 + 2 * (23.375 - 0.625 - 3.125 / 13)
    assert sum(t.value for t in terms) == pytest.approx(length / 16 * 16.387064)
    assert _violations(room, plan) == []


def test_the_side_of_a_fold_that_shows_is_the_side_of_the_boards() -> None:
    """Twin: the side with more of the face's boards within an inch, mouths left out."""
    from shapely import Polygon

    plan = niche_plan()[1]
    for wall in plan.walls:
        (board,) = (b for b in plan.boards if b.wall == wall.id)
        face = Polygon(board.outline, [o.ring for o in board.openings])
        for line in lines_on(wall, plan.walls, plan.folds):
            ahead, behind = (face.intersection(Polygon(line.strip(d))).area for d in (mm(1), -mm(1)))
            assert ahead > behind


@pytest.mark.parametrize(
    ("screw", "patch"),
    [
        ((18.3, 65.9), _box(15.8, 63.5, 20.8, 68.5)),
        ((10, 20), _box(7.5, 17.5, 12.5, 22.5)),
        ((59, 20), _box(55, 17.5, 60, 22.5)),
    ],
)
def test_a_patch_slides_off_a_mouth_and_stays_on_the_wall(
    screw: tuple[float, float], patch: list[tuple[float, float]]
) -> None:
    """Over a screw up and left of the mouth, whose finished corner is at 20-1/2 and 63-1/2: a tenth up is enough."""
    plan = niche_plan()[1]
    surface = find_surfaces(plan.walls, (), plan.folds, plan.boards, plan.edges)[0]
    point = (mm(screw[0]), mm(screw[1]))
    fastener = Fastener("F-1", "back", point, ("B-back-1",), "S-1", mm(1.625), mm(1.25))
    ring = patch_ring(fastener, mm(5), surface)
    assert _inches(*((u / 25.4, v / 25.4) for u, v in ring)) == patch


def test_a_patch_is_no_wider_than_its_face() -> None:
    """The right side of the niche is 3-1/4 deep between its folds."""
    plan = niche_plan()[1]
    surface = find_surfaces(plan.walls, (), plan.folds, plan.boards, plan.edges)[-1]
    fastener = Fastener("F-1", "niche-right", (mm(1.5), mm(12)), ("B",), "S-1", mm(1.625), mm(1.25))
    ring = patch_ring(fastener, mm(5), surface)
    assert _inches(*((u / 25.4, v / 25.4) for u, v in ring)) == _box(0, 9.5, 3.25, 14.5)


@settings(max_examples=25, deadline=None)
@given(
    kind=st.sampled_from(("niche", "window")),
    width=st.floats(8, 30),
    height=st.floats(10, 40),
    depth=st.floats(3.25, 6),
    fall=st.floats(0.0, 0.05),
    band=st.floats(4.5, 8),
    ways=st.integers(0, 3),
)
def test_any_niche_or_window_is_sealed(
    kind: Literal["niche", "window"], width: float, height: float, depth: float, fall: float, band: float, ways: int
) -> None:
    """Faces and folds as a room file's would be, anywhere on a wall of any heading; inches."""
    room, plan = recess_plan(kind, (width, height, depth), fall, 37.0 * ways)
    choices = replace(room.choices, band=replace(room.choices.band, width=mm(band)))
    room = replace(room, choices=choices)
    assert _violations(room, sealed(room, plan)) == []
