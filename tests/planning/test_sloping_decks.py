"""Boards over a deck out of level, against plane geometry worked by hand: outlines, notches, bands, volumes.

The deck of the small recess falls from 16 1/2 in at the left end of the back wall (60 in) to 16 in at its right end:
1/2 in in 60, so 1/120. Boards end 1/8 in above it (deck-gap) and clear the 1 in flange by its own rule.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from generator.checks import run_plan_checks
from generator.model.geometry import area
from generator.model.plan import Band, Board, Plan
from generator.model.room import Room
from generator.planning.pipeline import make_plan
from generator.solids import make_bodies
from tests.reading.rooms import changed, read

INCH = 25.4
SLOPING = "decks: {left: [16 1/2, 16 1/2], back: [16 1/2, 16]}"


@cache
def planned(deck: str = SLOPING) -> tuple[Room, Plan]:
    room = read(changed(("deck: 16", deck)))
    return room, make_plan(room)


def deck_at(u: float) -> float:
    """mm, along the back wall."""
    return 16.5 * INCH - u / 120


def lowest(plan: Plan) -> list[Board]:
    boards = [b for b in plan.boards if b.wall == "back"]
    return [b for b in boards if min(v for _, v in b.outline) < 20 * INCH]


def test_bottom_edges_run_a_gap_above_the_deck() -> None:
    room, plan = planned()
    gap = room.limit("deck-gap")
    edges = [e for e in plan.edges if e.role == "bottom" and e.board in {b.id for b in lowest(plan)}]
    along = [e for e in edges if abs(e.q[0] - e.p[0]) > INCH]
    assert along
    for edge in along:
        for u, v in (edge.p, edge.q):
            assert v - deck_at(u) == pytest.approx(gap, abs=1e-5)


def test_notches_and_their_upper_edge_follow_the_flange() -> None:
    room, plan = planned()
    above = INCH + room.limit("flange-clearance")
    for board in lowest(plan):
        (rabbet,) = board.rabbets
        tops = [(u, v) for u, v in rabbet.ring if v > deck_at(u) + above - 1.0]
        assert len(tops) >= 2
        for u, v in tops:
            assert v == pytest.approx(deck_at(u) + above, abs=1e-5)


@pytest.mark.parametrize(("far_end", "rise"), [("16", 0.0), ("16 1/2", 0.0), ("17", 1 / 60)])
def test_the_nip_clears_the_flange_of_the_neighbour_at_the_corner(far_end: str, rise: float) -> None:
    """The back board is nipped over the left flange, which rises or falls by 1/2 in in 30 away from the corner.

    It clears the highest point in front of its thickness and its notch: 1/2 in, 3/16 in and the clearance of the notch.
    """
    room, plan = planned(SLOPING.replace("left: [16 1/2", f"left: [{far_end}"))
    reach = (1 / 2 + 3 / 16) * INCH + room.limit("rabbet-clearance")
    nips = [a.ring for a in plan.wall("back").allowances if a.name == "nip"]
    top = 17.5 * INCH + rise * reach + room.limit("flange-clearance")
    assert [max(v for _, v in ring) for ring in nips] == [pytest.approx(top, abs=1e-5)]


def test_screws_stay_above_the_highest_point_of_the_flange() -> None:
    room, plan = planned()
    lows = [f.point[1] - f.washer_diameter / 2 for f in plan.fasteners if f.wall == "back"]
    assert min(lows) >= 17.5 * INCH + room.limit("flange-clearance") - 1e-5


def test_the_base_band_lies_along_the_slope() -> None:
    _, plan = planned()
    rings = [r.ring for b in plan.bands if b.kind == "base" for r in b.rings if r.wall == "back"]
    assert rings
    for ring in rings:
        (u0, v0), (u1, v1) = sorted(ring)[0], sorted(ring, reverse=True)[0]
        low = min(v for u, v in ring if u == u0) - min(v for u, v in ring if u == u1)
        assert low == pytest.approx((u1 - u0) / 120, abs=1e-3), (v0, v1)


def test_nothing_is_broken_that_holds_over_a_level_deck() -> None:
    level = {f.rule for f in run_plan_checks(*planned("deck: 16")) if f.verdict == "fail"}
    assert {f.rule for f in run_plan_checks(*planned()) if f.verdict == "fail"} <= level


def test_a_band_that_leaves_the_low_end_bare_is_found() -> None:
    """The base band pushed up by half its cover at one end only."""
    room, plan = planned()

    def lifted(band: Band) -> Band:
        ring = band.rings[0].ring
        right = max(u for u, _ in ring)
        moved = tuple((u, v + (INCH if u == right else 0.0)) for u, v in ring)
        return replace(band, rings=(replace(band.rings[0], ring=moved), *band.rings[1:]))

    bands = tuple(
        lifted(b) if b.kind == "base" and b.rings[0].wall == "back" and len(b.rings) == 1 else b for b in plan.bands
    )
    assert bands != plan.bands
    broken = [f for f in run_plan_checks(room, replace(plan, bands=bands)) if f.rule == "band-cover"]
    assert any(f.verdict == "fail" and f.place.wall == "back" for f in broken)


def test_the_volume_of_a_board_with_a_sloping_bottom() -> None:
    """Prism of its outline less its notch, whose depth is the flange's 3/16 in and the clearance."""
    room, plan = planned()
    bodies = make_bodies(room, plan)
    depth = 3 / 16 * INCH + room.limit("rabbet-clearance")
    for board in lowest(plan):
        us = [u for u, _ in board.outline]
        left, right, top = min(us), max(us), max(v for _, v in board.outline)
        nips = [a.ring for a in plan.wall("back").allowances if a.name == "nip"]
        # Trapezoid: mean height over the width, less what the left wall's flange takes out of the corner.
        whole = (right - left) * (top - deck_at((left + right) / 2) - room.limit("deck-gap"))
        nipped = whole - area(board.outline)
        assert 0.0 <= nipped <= sum(area(ring) for ring in nips) + 1e-3
        rabbet = sum(area(r.ring) for r in board.rabbets)
        volume = bodies.part(board.id).shape.Volume()
        assert volume == pytest.approx((whole - nipped) * board.thickness - rabbet * depth, rel=1e-9)


def test_the_flange_and_the_deck_are_modelled_where_the_tape_found_them() -> None:
    room, plan = planned()
    bodies = make_bodies(room, plan)
    flange = next(f for f in bodies.flanges if f.wall == "back").shape.BoundingBox()
    assert (flange.zmin, flange.zmax) == pytest.approx((16 * INCH, 17.5 * INCH), abs=1e-5)
    # An oblique prism has the volume of an upright one: section times run.
    volume = next(f for f in bodies.flanges if f.wall == "back").shape.Volume()
    assert volume == pytest.approx(60 * INCH * INCH * 3 / 16 * INCH, rel=1e-9)
    assert len(bodies.decks[0].shape.Solids()) == 1
