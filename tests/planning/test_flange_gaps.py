"""A tub that is sold as 60 in a recess of 60 1/4: notches, nips, sealant and furring, worked by hand in inches.

The flange is 3/16 thick and stands 1 above a deck at 16; allowances as in the worked room: fit 1/8, deck gap 1/4,
rabbet clearance 1/16 in depth and 1/8 above the flange, a notch takes at most half of a 1/2 in board.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from generator.checks import base as base_checks
from generator.checks import fastening
from generator.model.geometry import box
from generator.model.plan import Plan
from generator.model.room import Room
from generator.planning.flatness.plan import flange_ties
from generator.planning.pipeline import make_plan
from generator.planning.regions import plan_walls
from generator.planning.takeoff.sealant import rabbet_terms
from generator.solids import Bodies, make_bodies
from generator.solids.measure import flange_distance, interferences, volume
from tests.reading.rooms import EXAMPLES, changed, read
from tests.reading.test_gaps import recess

IN = 25.4
NOTCHED = "gaps: {left: 1/8, back: 1/16, right: 1/8}"
FURRED = NOTCHED + ", at_flange: fur"
TO_THE_BACK = NOTCHED + ", at_flange: {left: 1/8, back: 1/16, right: 1/8}"


@cache
def planned(gaps: str) -> tuple[Room, Plan]:
    room = read(recess(gaps))
    return room, make_plan(room)


@cache
def built(gaps: str) -> Bodies:
    return make_bodies(*planned(gaps))


def depths(plan: Plan) -> dict[str, float]:
    """Depth of the notches on each wall, in inches."""
    return {b.wall: r.depth / IN for b in plan.boards for r in b.rabbets}


def test_notches_clear_the_flange_at_its_gap() -> None:
    """1/8 + 3/16 + 1/16 = 3/8 at the ends, 1/16 + 3/16 + 1/16 = 5/16 at the back."""
    assert depths(planned(NOTCHED)[1]) == pytest.approx({"left": 3 / 8, "back": 5 / 16, "right": 3 / 8})


def test_nips_are_as_wide_as_the_end_notch_less_the_fit() -> None:
    """From 1/8 to 3/8, and from the deck at 16 to 16 + 1 + 1/8; the boards' edge hangs at 16 1/4."""
    nips = [box(a.ring) for a in planned(NOTCHED)[1].wall("back").allowances if a.name == "nip"]
    inches = [[value / IN for value in nip] for nip in nips]
    assert inches == [pytest.approx((1 / 8, 16, 3 / 8, 17.125)), pytest.approx((59.875, 16, 60.125, 17.125))]


def test_no_board_goes_down_between_the_base_and_the_wall_beside_it() -> None:
    """A gap of 1/2 leaves 3/8 beyond the fit of 1/8; boards end over the deck all the same."""
    room = read(changed(("length: 60,", "length: 59 1/2,"), text=recess("gaps: {left: 1/2}")))
    back = next(wall for wall in plan_walls(room) if wall.id == "back")
    assert [box(region.ring)[1] / IN for region in back.wet_region] == [pytest.approx(16.25)]


@pytest.mark.parametrize("gaps", [NOTCHED, FURRED, TO_THE_BACK])
def test_boards_keep_off_the_flange_as_bodies(gaps: str) -> None:
    """Nothing in common, and the nearest that board and flange come in any direction is the clearance in depth."""
    bodies = built(gaps)
    assert interferences(bodies) == ()
    near = [flange_distance(bodies, board.id) for board in planned(gaps)[1].boards]
    assert min(d for d in near if d is not None) / IN == pytest.approx(1 / 16, abs=1e-6)


def test_the_flange_stands_at_its_gap() -> None:
    flanges = {body.wall: body.shape.BoundingBox() for body in built(NOTCHED).flanges}
    left, back = flanges["left"], flanges["back"]
    assert [left.xmin / IN, left.xmax / IN] == pytest.approx([1 / 8, 5 / 16], abs=1e-6)
    behind = planned(NOTCHED)[1].wall("back").origin[1]
    assert [(behind - back.ymax) / IN, (behind - back.ymin) / IN] == pytest.approx([1 / 16, 1 / 4], abs=1e-6)


def test_too_deep_a_notch_fails_and_says_how_thick_to_fur() -> None:
    """Half of 1/2 is 1/4: 1/8 too deep at the ends, 1/16 at the back. With that much furring it holds."""
    room, plan = planned(NOTCHED)
    cures = {m.place.wall: m.cure.text for m in base_checks.rabbet_share(room, plan) if m.cure}
    assert cures == {
        wall: f"fur all studs of wall {wall} by {strip} and enter that under `at_flange`"
        for wall, strip in (("left", '1/8"'), ("back", '1/16"'), ("right", '1/8"'))
    }
    room, plan = planned(TO_THE_BACK)
    assert depths(plan) == pytest.approx({"left": 1 / 4, "back": 1 / 4, "right": 1 / 4})
    assert all(m.cure is None for m in base_checks.rabbet_share(room, plan))


def test_furred_to_clear_the_flange_no_board_is_notched() -> None:
    """Furring 3/8, 5/16, 3/8: boards of the back from 3/8 + 1/8 to 60 1/4 - 3/8 - 1/8, of the right from
    5/16 + 1/2 + 1/8."""
    _, plan = planned(FURRED)
    assert depths(plan) == {}
    reach = {w: [v for b in plan.boards if b.wall == w for v in box(b.outline)[::2]] for w in ("back", "right")}
    assert [min(reach["back"]) / IN, max(reach["back"]) / IN] == pytest.approx([1 / 2, 59.75])
    assert min(reach["right"]) / IN == pytest.approx(15 / 16)


def test_strips_run_from_above_the_flange_to_the_ceiling_and_are_bought() -> None:
    """Deck 16 + flange 1 + clearance 1/8; up to 96 - 1/8. At the back's end stud the left wall's strip takes 3/8 of the
    face. A leg's studs go on to 1/4 above the floor."""
    _, plan = planned(FURRED)
    strips = {f.id: [value / IN for value in box(f.ring)] for f in plan.furring}
    assert strips["R-back-01"] == pytest.approx([3 / 8, 17.125, 1.5, 95.875])
    assert strips["R-back-02"] == pytest.approx([14.25, 17.125, 15.75, 95.875])
    assert strips["R-right-04"] == pytest.approx([33.25, 1 / 4, 34.75, 95.875])
    rows = [row for row in plan.takeoff if row.kind == "furring"]
    assert sum(row.quantity for row in rows) == len(plan.furring) == 13
    assert 'furring strip 5/16" thick, 1 1/2" wide, 78 3/4" long' in {row.item for row in rows}


def test_strips_are_bodies_between_studs_and_boards() -> None:
    """1 1/2 x 78 3/4 x 5/16; the stud's face lies 5/16 behind the boards."""
    bodies, (_, plan) = built(FURRED), planned(FURRED)
    assert volume(bodies, "R-back-02") / IN**3 == pytest.approx(1.5 * 78.75 * 5 / 16)
    back = plan.wall("back")
    stud = bodies.part("S-back-02").shape.BoundingBox()
    assert (back.origin[1] - stud.ymin) / IN == pytest.approx(-5 / 16, abs=1e-6)


def test_screws_bite_less_by_the_furring_and_a_longer_one_is_named() -> None:
    """1 5/8 - 1/2 - 3/8 leaves just 3/4. Of 1 1/2 the back leaves 11/16, and 1/2 + 5/16 + 3/4 = 1 9/16 would do."""
    room, plan = planned(FURRED)
    bites = {m.place.wall: (m.value or 0.0) / IN for m in fastening.screw_bite_wood(room, plan)}
    assert bites == pytest.approx({"left": 3 / 4, "back": 13 / 16, "right": 3 / 4})
    shorter = replace(plan, fasteners=tuple(replace(f, length=1.5 * IN) for f in plan.fasteners))
    short = [m for m in fastening.screw_bite_wood(room, shorter) if m.place.wall == "back"]
    assert (short[0].value or 0.0) / IN == pytest.approx(11 / 16)
    assert {m.cure.text for m in short if m.cure} == {'use screws of at least 1 9/16" on wall back'}


def test_sealant_in_front_of_the_flange_and_round_it() -> None:
    """In front: deck gap 1/4 x (1/2 - 1/8 - 3/16) at the ends. Round it, for each inch of a notch at the ends:
    3/8 deep x 7/8 high, less the flange's 3/16 from the boards' edge at 1/4 above the deck to its top: 3/4 high."""
    _, plan = planned(NOTCHED)
    sealant = next(row for row in plan.takeoff if row.kind == "sealant")
    assert sum('x 1/4" x 3/16"' in t.label for t in sealant.terms) == 2
    assert sum('x 1/4" x 1/4"' in t.label for t in sealant.terms) == 1
    board = next(b for b in plan.boards if b.wall == "right" and b.rabbets and box(b.outline)[0] / IN < 1)
    left, _, right, _ = (value / IN for value in box(board.rabbets[0].ring))
    notch, flange = right - left, min(right, 30) - left
    term = next(t for t in rabbet_terms(plan) if t.refs == (board.id,))
    assert term.value * 1000 / IN**3 == pytest.approx(notch * 3 / 8 * 7 / 8 - flange * 3 / 16 * 3 / 4, rel=1e-6)


def test_without_a_gap_nothing_is_furred_and_nothing_moves() -> None:
    whole = ("length: 60,", "length: 60 1/4,")
    zero = read(changed(whole, text=recess("gaps: {left: 0, back: 0, right: 0}")))
    plain = read(changed(whole, text=recess("flanged: [left, back, right]")))
    assert plan_walls(zero) == plan_walls(plain) and zero.base == plain.base


def test_a_string_line_ties_the_studs_to_the_flange_at_its_gap() -> None:
    """The flange's back 7/16 behind the line, the studs 1/16 behind that: their plane passes 1/2 behind the line."""
    room = read((EXAMPLES / "crooked-studs.yaml").read_text("utf-8"))
    ties = flange_ties(room, room.walls[0])
    assert [(tie.u / IN, tie.v / IN, tie.off / IN) for tie in ties] == [
        pytest.approx((0, 19.5, 1 / 2)),
        pytest.approx((59.6875, 19.5, 1 / 2)),
    ]
