"""Notching, boring and shield-plate rows of the fact table, section 1 (IRC R602.6, P2603.2.1 / IPC 305, NEC 300.4).

"2x4 .875/1.400, 2x6 1.375/2.200" (notch 25 / 40 % of the actual depth); "2x4 1.4/2.1; 2x6 2.2/3.3" (hole 40 / 60 %);
"1-1/2 in hole in bearing 2x4 -> FAIL unless doubled"; "2x4 centred hole 1.00 -> 1.250 no plate; 1.25 -> 1.125 plate".
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks import stud_damage
from generator.checks.measuring import Check
from generator.checks.runner import judge
from generator.model.findings import Finding
from generator.model.room import Room
from generator.model.stud_work import ShieldPlate
from generator.planning.framing import plan_supports
from generator.planning.plates import plan_plates
from generator.planning.regions import plan_walls
from generator.planning.takeoff.stud_work import plate_rows
from tests.reading.rooms import changed, read
from tests.worked_plan import worked_plan
from tests.worked_room import mm

HAIR = 0.01
"""Inches: just over and just under a limit."""


def room_with(damage: str, duty: str = "bearing", stud: str = "wood-2x4", code: str = "irc") -> Room:
    """The small room with holes or notches in the back wall."""
    keys = f"        - {{profile: {stud}, centres: [3/4, 15, 30, 45, 59 1/4]}}\n      {damage}\n"
    return read(
        changed(
            ("code: none", f"code: {code}"),
            ("  - name: back\n", f"  - name: back\n    duty: {duty}\n"),
            ("        - {profile: wood-2x4, centres: [3/4, 15, 30, 45, 59 1/4]}\n", keys),
        )
    )


def findings(room: Room, rule: str, check: Check) -> list[Finding]:
    return [judge(room, rule, "found", m) for m in check(room, worked_plan())]


def plates_of(room: Room) -> tuple[ShieldPlate, ...]:
    return plan_plates(room, plan_supports(room, plan_walls(room)))


def notch(depth: float) -> str:
    return f"notches: [{{stud: 15, at: 40, height: 2, depth: {depth:.4f}}}]"


def hole(diameter: float, more: str = "") -> str:
    return f"holes: [{{stud: 15, at: 40, diameter: {diameter:.4f}{more}}}]"


@pytest.mark.parametrize(
    ("stud", "duty", "most"),
    [
        ("wood-2x4", "bearing", 0.875),
        ("wood-2x4", "non_bearing", 1.400),
        ("wood-2x6", "bearing", 1.375),
        ("wood-2x6", "non_bearing", 2.200),
        ("wood-2x4", "unknown", 0.875),
    ],
)
def test_notches(stud: str, duty: str, most: float) -> None:
    bears = duty != "non_bearing"
    rule = "notch-bearing" if bears else "notch-nonbearing"
    check = stud_damage.notch_bearing if bears else stud_damage.notch_nonbearing
    for depth, verdict in ((most, "pass"), (most + HAIR, "fail")):
        (found,) = findings(room_with(notch(depth), duty, stud), rule, check)
        assert found.verdict == verdict
    assert ("judged as bearing" in found.subject) == (duty == "unknown")


@pytest.mark.parametrize(
    ("stud", "duty", "doubled", "most"),
    [
        ("wood-2x4", "bearing", False, 1.4),
        ("wood-2x4", "bearing", True, 2.1),
        ("wood-2x4", "non_bearing", False, 2.1),
        ("wood-2x6", "bearing", False, 2.2),
        ("wood-2x6", "unknown", True, 3.3),
        ("wood-2x6", "non_bearing", False, 3.3),
    ],
)
def test_holes(stud: str, duty: str, doubled: bool, most: float) -> None:
    if duty == "non_bearing":
        rule, check = "bore-nonbearing", stud_damage.bore_nonbearing
    elif doubled:
        rule, check = "bore-doubled", stud_damage.bore_doubled
    else:
        rule, check = "bore-bearing", stud_damage.bore_bearing
    more = ", doubled: true" if doubled else ""
    for diameter, verdict in ((most, "pass"), (most + HAIR, "fail")):
        (found,) = findings(room_with(hole(diameter, more), duty, stud), rule, check)
        assert found.verdict == verdict


def test_a_hole_of_1_1_2_in_a_bearing_2x4_fails_unless_the_stud_is_doubled() -> None:
    (single,) = findings(room_with(hole(1.5)), "bore-bearing", stud_damage.bore_bearing)
    assert single.verdict == "fail"
    assert single.measured == pytest.approx(1.5 / 3.5, abs=1e-6)
    doubled = room_with(hole(1.5, ", doubled: true"))
    (found,) = findings(doubled, "bore-doubled", stud_damage.bore_doubled)
    assert found.verdict == "pass"
    (none,) = findings(doubled, "bore-bearing", stud_damage.bore_bearing)
    assert (none.verdict, none.measured) == ("note", None)


@pytest.mark.parametrize(("neighbours", "verdict"), [((15,), "pass"), ((15, 30), "pass"), ((15, 30, 45), "fail")])
def test_at_most_two_successive_doubled_studs(neighbours: tuple[int, ...], verdict: str) -> None:
    holes = ", ".join(f"{{stud: {c}, at: 40, diameter: 1 1/2, doubled: true}}" for c in neighbours)
    (found,) = findings(room_with(f"holes: [{holes}]"), "bore-run", stud_damage.bore_run)
    assert (found.verdict, found.measured) == (verdict, float(len(neighbours)))


def test_two_runs_with_a_sound_stud_between_them_are_two() -> None:
    holes = ", ".join(f"{{stud: {c}, at: 40, diameter: 1 1/2, doubled: true}}" for c in (15, 45))
    found = findings(room_with(f"holes: [{holes}]"), "bore-run", stud_damage.bore_run)
    assert [f.measured for f in found] == [1.0, 1.0]


@pytest.mark.parametrize(
    ("from_face", "edge", "verdict"),
    [(1.125, 0.625, "pass"), (1.0625, 0.5625, "fail"), (2.375, 0.625, "pass"), (2.5, 0.5, "fail")],
)
def test_the_edge_of_a_hole_keeps_five_eighths_from_either_face(from_face: float, edge: float, verdict: str) -> None:
    room = room_with(hole(1, f", from_face: {from_face}"))
    (found,) = findings(room, "bore-edge", stud_damage.bore_edge)
    assert found.verdict == verdict
    assert found.measured == pytest.approx(mm(edge), abs=1e-6)


def test_a_hole_is_not_bored_beside_a_notch() -> None:
    both = "notches: [{{stud: 15, at: {at}, height: 2, depth: 1/2}}]\n      " + hole(1).replace("{", "{{").replace(
        "}", "}}"
    )
    for at, apart, verdict in ((41, -0.5, "fail"), (41.5, 0.0, "pass"), (60, 18.5, "pass")):
        (found,) = findings(room_with(both.format(at=at)), "bore-notch", stud_damage.bore_notch)
        assert found.verdict == verdict
        assert at == 41 or found.measured == pytest.approx(mm(apart), abs=1e-6)


@pytest.mark.parametrize(
    ("damage", "distance"),
    [
        (hole(1.0), 1.250),
        (hole(1.25), 1.125),
        (hole(1.25, ", carries: cable"), 1.125),
        (hole(0.75, ", from_face: 1"), 0.625),
        (notch(0.5), 0.0),
        ("notches: [{stud: 15, at: 40, height: 2, depth: 1, face: back}]", 2.5),
    ],
)
@pytest.mark.parametrize("code", ["irc", "ipc"])
def test_shield_plates(damage: str, distance: float, code: str) -> None:
    room = room_with(damage, code=code)
    (found,) = findings(room, "shield-plate", stud_damage.shield_plate)
    assert found.measured == pytest.approx(mm(distance), abs=1e-6)
    assert found.verdict == ("pass" if distance >= 1.25 else "warn")
    plates = plates_of(room)
    rows = plate_rows(room, replace(worked_plan(), plates=plates))
    assert [row.quantity for row in rows] == ([] if distance >= 1.25 else [1.0])
    assert [(p.v, p.support_id) for p in plates] == ([] if distance >= 1.25 else [(mm(40), "S-back-02")])


@pytest.mark.parametrize("carried", ["steel_pipe", "nothing"])
def test_what_a_screw_cannot_hurt_needs_no_plate(carried: str) -> None:
    room = room_with(hole(1.25, f", carries: {carried}"))
    (found,) = findings(room, "shield-plate", stud_damage.shield_plate)
    assert (found.verdict, found.measured) == ("note", None)
    assert plates_of(room) == ()
    assert plates_of(room_with(hole(1.25), code="none")) == ()


def test_steel_studs_are_not_judged_and_that_is_said() -> None:
    room = room_with(hole(1.5), stud="steel-362s125-18")
    for rule, check in (("bore-bearing", stud_damage.bore_bearing), ("shield-plate", stud_damage.shield_plate)):
        (found,) = findings(room, rule, check)
        assert (found.verdict, found.measured) == ("note", None)
        assert "steel" in found.subject


def test_a_place_without_the_code_does_not_judge_studs() -> None:
    (found,) = findings(room_with(hole(3), code="ipc"), "bore-bearing", stud_damage.bore_bearing)
    assert (found.verdict, found.measured) == ("note", None)
