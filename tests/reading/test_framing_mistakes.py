# ruff: noqa: E501 (a table of mistakes reads best with one mistake to a line)
"""Mistakes in framing that is not as in the book: crooked and doubled studs, plates on one another, bare walls."""

from __future__ import annotations

import pytest

from generator.model.geometry import box
from tests.reading.rooms import SMALL, changed, complaints, read
from tests.worked_room import mm

STUDS = "{profile: wood-2x4, centres: [3/4, 15, 34]}"
BACK = "      studs:\n        - {profile: wood-2x4, centres: [3/4, 15, 30, 45, 59 1/4]}\n"
PLATES = STUDS + "\n      plates: {profile: wood-2x4, KEY}"

MISTAKES = {
    "upper ends missing": ("{profile: wood-2x4, centres: [3/4, 15, 34], centres_top: [3/4, 15]}", 13, "3 lower and 2 upper ends; every stud in `centres` has one here"),
    "leans too far": ("{profile: wood-2x4, centres: [3/4, 15, 34], centres_top: [3/4, 16, 34]}", 13, 'this stud leans by 1", more than half its face; set it plumb'),
    "leans into its neighbour": ("{profile: wood-2x4, centres: [3/4, 15, 16 3/4, 34], centres_top: [3/4, 15 1/2, 16 3/4, 34]}", 13, "stud at 16 3/4 in overlaps the stud at 15 in"),
    "doubled into its neighbour": ("{profile: wood-2x4, centres: [3/4, 15, 34]}\n        - {profile: wood-2x4, centres: [17], doubled: true}", 14, "stud at 17 in overlaps the stud at 15 in"),
    "flat into its neighbour": ("{profile: wood-2x4, centres: [3/4, 15, 34]}\n        - {profile: wood-2x4, centres: [17], flat: true}", 14, "stud at 17 in overlaps the stud at 15 in"),
    "no ply": (PLATES.replace("KEY", "top_plies: 0"), 14, "1 to 3 plates lie on one another; where there is none write `top: false`"),
    "masonry as a stud": ("{profile: masonry-brick, centres: [34]}", 13, "`masonry-brick` is no stud; of a bare wall write `masonry: {kind: ...}`"),
    "masonry with studs": (STUDS + "\n      masonry: {kind: brick}", 14, "a bare wall has no studs; a framed wall before it is listed without `masonry`"),
    "kind of masonry": (STUDS + "\n      masonry: {kind: adobe}", 14, "`adobe` is not one of the words known here; there is block, brick, concrete"),
}  # fmt: skip


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_named_on_its_line(name: str) -> None:
    text, line, message = MISTAKES[name]
    found = complaints(changed((STUDS, text)))
    assert any(at == line and message in said for at, said in found), found


def test_studs_that_lean_side_by_side_share_no_place() -> None:
    text = "{profile: wood-2x4, centres: [3/4, 15, 16 1/2, 34], centres_top: [3/4, 15 1/2, 17, 34]}"
    assert complaints(changed((STUDS, text))) == []


def test_a_stud_ends_under_a_double_top_plate() -> None:
    """96 in less two plates of 1-1/2 in is 93 in."""
    room = read(changed((STUDS, PLATES.replace("KEY", "top_plies: 2"))))
    pieces = [(s.kind, *(round(n / 25.4, 3) for n in box(s.outline)[1::2])) for s in room.walls[0].supports]
    assert {p[1:] for p in pieces if p[0] == "stud"} == {(1.5, 93.0)}
    assert sorted(p[1:] for p in pieces if p[0] == "plate") == [(0.0, 1.5), (93.0, 94.5), (94.5, 96.0)]


def test_a_sole_plate_of_its_own_height_carries_the_studs() -> None:
    """On a curb: its middle at 4-3/4 in, so its upper side at 5-1/2."""
    room = read(changed((STUDS, PLATES.replace("KEY", "bottom: false, top: false, centres: [4 3/4]"))))
    feet = [box(s.outline)[1] for s in room.walls[0].supports if s.kind == "stud"]
    assert feet == pytest.approx([mm(5.5)] * 3)


def test_faces_of_doubled_and_flat_studs_and_flat_backing() -> None:
    """2x4: 1-1/2 x 3-1/2 in (PS 20); two side by side show 3 in, one flat shows 3-1/2, a 2x6 laid flat 5-1/2."""
    text = (
        "{profile: wood-2x4, centres: [34], doubled: true}\n        - {profile: wood-2x4, centres: [20], flat: true}\n"
        "      backing: [{profile: wood-2x6, centre: 4, flat: true}]"
    )
    wall = read(changed((STUDS, text))).walls[0]
    widths = [box(s.outline)[2] - box(s.outline)[0] for s in wall.supports]
    assert widths == pytest.approx([mm(3), mm(3.5), mm(5.5)])
    assert [(s.plies, s.state) for s in wall.supports] == [
        (2, "as found, doubled"),
        (1, "as found, flat"),
        (1, "as found"),
    ]


def test_a_stud_added_to_a_wall_is_one_upright_piece_of_what_stands_there() -> None:
    room = read(changed((STUDS, "{profile: wood-2x4, centres: [34], doubled: true}")))
    assert room.choices.added_stud["left"].face == pytest.approx(mm(1.5))


def test_a_bare_wall_takes_the_place_of_its_studs() -> None:
    room = read(changed((BACK, "      masonry: {kind: block}\n"), text=SMALL))
    assert room.walls[1].masonry is not None and room.walls[1].supports == ()
    assert room.walls[1].furring == pytest.approx(mm(1 / 8)), (
        "a 1/4 in square comb: 1/4 x 1/4 over 1/2, 1/8 in (facts 8)"
    )


def test_a_niche_in_a_bare_wall_is_refused() -> None:
    niche = "niches:\n  - {name: shelf, wall: back, across: 30, up: 40, width: 12, height: 12, depth: 3}\nfittings:"
    found = complaints(changed((BACK, "      masonry: {kind: block}\n"), ("fittings:", niche)))
    assert [said for _, said in found] == [
        "a niche or window in a bare wall of masonry cannot be planned; frame it first"
    ]
