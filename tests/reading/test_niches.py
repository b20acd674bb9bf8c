"""Niches and windows of the room file, worked by hand in inches: openings, faces, folds; and what may be wrong."""

from __future__ import annotations

import math

import pytest

from generator.model.room import Room, Wall
from tests.reading.rooms import SMALL, changed, complaints, read
from tests.worked_room import mm, rect_in

NICHE = "{name: shelf, wall: back, across: 22 1/2, up: 48, width: 12, height: 24, depth: 2 3/4}"
WINDOW = "{name: light, wall: back, across: 37 1/2, up: 50, width: 12, height: 24, depth: 3}"
FALL = 1 / 48
"""1/4 in to the foot."""


def with_niche(text: str = NICHE, *changes: tuple[str, str]) -> str:
    return changed(("fittings:", f"niches:\n  - {text}\nfittings:"), *changes)


def with_window(text: str = WINDOW, *changes: tuple[str, str]) -> str:
    return changed(("fittings:", f"windows:\n  - {text}\nfittings:"), *changes)


def face(room: Room, name: str) -> Wall:
    return next(w for w in room.walls if w.id == name)


def boards(wall: Wall) -> float:
    """Square inches that are left to board of a face: its allowances only overlap at its corners."""
    from shapely import Polygon, unary_union

    return float(
        Polygon(wall.extent).difference(unary_union([Polygon(a.ring) for a in wall.allowances])).area / 25.4**2
    )


def test_the_opening_is_the_clear_size_and_a_board_on_each_side() -> None:
    """12 x 24 clear and 1/2 in boards: 13 x 25 in the framing, from 22-1/2 - 6-1/2 = 16 and 48 - 1/2 = 47-1/2."""
    room = read(with_niche())
    mouth = face(room, "back").mouths[0]
    assert mouth.ring == rect_in(16, 47.5, 29, 72.5)
    assert (mouth.kind, mouth.feature) == ("niche", "shelf")
    assert mouth.depth == pytest.approx(mm(2.75))
    assert room.walls[1].mouths == (mouth,)


def test_a_niche_may_fill_its_bay() -> None:
    """From the stud at 15 to the stud at 30: 15-3/4 to 29-1/4."""
    room = read(with_niche(NICHE.replace("width: 12", "width: bay").replace("22 1/2", "17")))
    assert face(room, "back").mouths[0].ring == rect_in(15.75, 47.5, 29.25, 72.5)


def test_up_from_the_deck_and_across_from_the_right() -> None:
    room = read(with_niche(NICHE.replace("up: 48", "up: 32, above: deck").replace("22 1/2", "37 1/2, from: right")))
    assert face(room, "back").mouths[0].ring == rect_in(16, 47.5, 29, 72.5)


def test_the_faces_follow_the_walls_in_boarding_order() -> None:
    room = read(with_niche())
    assert [w.id for w in room.walls] == [
        "left", "back", "shelf-rear", "shelf-sill", "shelf-head", "shelf-left", "shelf-right"
    ]  # fmt: skip
    assert [w.id for w in room.chain] == ["left", "back"]
    assert room.features[0].faces == tuple(w.id for w in room.walls[2:])
    assert room.features[0].drains == ("shelf-sill",)
    assert [w.borrows for w in room.walls[2:]] == [False, False, True, True, True]


def test_the_five_boards_by_hand() -> None:
    """Fit 1/8. Rear 13 - 1/4 by 25 - 1/4. Head 2-3/4 - 1/8 (wall face to rear board, less the fit) by 13 - 1/4.

    The sill lies as deep along its slope, its square end set back by the slope: (2-3/4 - 1/8 - 1/2 sin) / cos.
    The sides stand 1/2 + 1/8 off head and sill; at the front 25 - 1-1/8 - (sqrt(1 + 1/48^2) - 1) 5/8 high and, 2-5/8
    behind it, lower by the fall.
    """
    room = read(with_niche())
    slope = math.atan(FALL)
    assert boards(face(room, "shelf-rear")) == pytest.approx(12.75 * 24.75)
    assert boards(face(room, "shelf-head")) == pytest.approx(2.625 * 12.75)
    assert boards(face(room, "shelf-sill")) == pytest.approx((2.625 - math.sin(slope) / 2) / math.cos(slope) * 12.75)
    front = 25 - 1.25 - 0.625 * (1 / math.cos(slope) - 1)
    for name in ("shelf-left", "shelf-right"):
        assert boards(face(room, name)) == pytest.approx(2.625 * (front - 2.625 * FALL / 2), abs=1e-4)


def corners(depth: float, left: float, right: float, top: float, sill: float) -> set[tuple[float, ...]]:
    """Corners of the finished hollow in room inches, its front at the wall boards' face, y = 39-1/2.

    `sill`: height of the sill's face at the front; it rises by the fall. The back wall's studs are at y = 40.
    """
    return {
        (x, y, z)
        for x in (left, right)
        for y, low in ((39.5, sill), (39.5 + depth, sill + depth * FALL))
        for z in (low, top)
    }


def test_folds_are_the_twelve_edges_of_the_hollow_seen_from_both_faces() -> None:
    room = read(with_niche())
    hollow = corners(2.75, 16.5, 28.5, 72, 47.5 + math.hypot(1, FALL) / 2)
    frames = {w.id: w.frame for w in room.walls[2:]}
    seen = []
    for fold in room.folds:
        for wall, line in zip(fold.faces, fold.lines, strict=True):
            frame = frames.get(wall)
            for u, v in line if frame else ():
                at = tuple(x / 25.4 for x in frame.at(u, v, mm(0.5)))  # type: ignore[union-attr]
                assert any(at == pytest.approx(c, abs=1e-6) for c in hollow), (fold.id, wall, at)
        seen.append({wall.removeprefix("shelf-") for wall in fold.faces})
    sides = [{"sill", "left"}, {"sill", "right"}, {"head", "left"}, {"head", "right"}]
    wanted = [{where, side} for where in ("back", "rear") for side in ("sill", "head", "left", "right")]
    assert sorted(map(sorted, seen)) == sorted(map(sorted, wanted + sides))


def test_angles_of_folds_are_the_air_s() -> None:
    """The wall is plumb and the sill falls atan 1/48 = 1.193490 degrees into the room."""
    room = read(with_niche())
    angles = {fold.id: fold.angle_deg for fold in room.folds}
    assert angles["F-back-shelf-head"] == pytest.approx(270)
    assert angles["F-back-shelf-left"] == pytest.approx(270)
    assert angles["F-back-shelf-sill"] == pytest.approx(270 - 1.193489, abs=1e-5)
    assert angles["F-shelf-rear-shelf-sill"] == pytest.approx(90 + 1.193489, abs=1e-5)
    assert angles["F-shelf-sill-shelf-left"] == pytest.approx(90)


def test_frames_are_right_handed_and_look_into_the_air() -> None:
    room = read(with_niche())
    looks = {"rear": (0, -1, 0), "left": (1, 0, 0), "right": (-1, 0, 0), "head": (0, 0, -1), "sill": (0, 0, 1)}
    for wall in room.walls[2:]:
        assert wall.frame is not None
        u, v, w = wall.frame.u_axis, wall.frame.v_axis, wall.frame.w_axis
        cross = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
        assert cross == pytest.approx(w, abs=1e-9)
        assert sum(a * b for a, b in zip(w, looks[wall.face], strict=True)) > 0.999


def test_the_sill_falls_into_the_room() -> None:
    sill = face(read(with_niche()), "shelf-sill").frame
    assert sill is not None
    rear, front = sill.at(mm(-2), 0.0), sill.at(0.0, 0.0)
    assert rear[1] > front[1]
    assert (rear[2] - front[2]) / (rear[1] - front[1]) == pytest.approx(FALL)


def test_a_room_may_ask_for_another_fall_and_fit() -> None:
    room = read(with_niche(NICHE, ("fittings:", "choices: {allowances: {drain-fall: 0.05, fit: 1/4}}\nfittings:")))
    sill = face(room, "shelf-sill").frame
    assert sill is not None
    assert -sill.u_axis[2] / -sill.u_axis[1] == pytest.approx(0.05)
    assert boards(face(room, "shelf-rear")) == pytest.approx(12.5 * 24.5)


def test_cleats_are_as_deep_as_the_studs_leave_room_for() -> None:
    """Behind a niche 2 in deep a 2x4 leaves 1-1/2 in, a 2x2; behind 2-3/4 a 1x2."""
    for depth, cleat in (("2", "wood-2x2"), ("2 3/4", "wood-1x2")):
        room = read(with_niche(NICHE.replace("depth: 2 3/4", f"depth: {depth}")))
        assert room.choices.added_stud["shelf-rear"].id == cleat


def test_a_window_has_four_returns_and_stands_on_its_rough_sill() -> None:
    """A strip 3/4 thick, tilted, on the rough sill at 50: its front lower edge there, the boards' opening above it."""
    room = read(with_window())
    assert [w.id for w in room.walls[2:]] == ["light-sill", "light-head", "light-left", "light-right"]
    left, bottom, right, top = (x / 25.4 for x in (*room.walls[1].mouths[0].ring[0], *room.walls[1].mouths[0].ring[2]))
    assert (left, right, top) == pytest.approx((31.5, 43.5, 74))
    sill = face(room, "light-sill").frame
    assert sill is not None
    assert sill.at(0.0, 0.0, -mm(0.75))[2] == pytest.approx(mm(50), abs=1e-5)
    assert bottom == pytest.approx(50.75 / 1, abs=0.02)
    assert len(room.folds) == 8
    assert {fold.angle_deg > 180 for fold in room.folds[:4]} == {True}


def test_returns_of_a_window_end_a_fit_short_of_its_frame() -> None:
    """3 deep behind the studs, 1/2 of the wall's board, less 1/8; the head 12 - 1/4 long."""
    room = read(with_window())
    assert boards(face(room, "light-head")) == pytest.approx((3 + 0.5 - 0.125) * 11.75)
    assert {a.name for a in face(room, "light-head").allowances} == {"fit"}


BAYS = (
    "height: 96\n    supports:\n      studs",
    "height: 96\n    outside: true\n"
    "    in_bays: [{kind: pipe, from: 20, to: 21, bottom: 0, top: 90}]\n    supports:\n      studs",
)


def test_what_is_in_the_bays_is_read() -> None:
    back = face(read(changed(BAYS)), "back")
    assert back.outside
    assert [(one.kind, one.ring) for one in back.in_bays] == [("pipe", rect_in(20, 0, 21, 90))]


TWO = NICHE + "\n  - " + NICHE.replace("shelf", "second")
HIGHER = "second, wall: back, across: 22 1/2, up: 48"
MISTAKES = {
    "unknown wall": (NICHE.replace("wall: back", "wall: bak"), "unknown wall `bak`; did you mean `back`?"),
    "its name is taken": (NICHE.replace("shelf", "valve"), 'there is a fitting "valve" already'),
    "outside its wall": (NICHE.replace("22 1/2", "58"), 'reaches past the boards of wall "back", 0" to 60"'),
    "its side in a stud": (NICHE.replace("22 1/2", "21"), 'a side of niche "shelf" runs through the stud 15"'),
    "no such bay": (NICHE.replace("width: 12", "width: bay").replace("22 1/2", "15"), "no bay here"),
    "no width": (NICHE.replace("width: 12", "width: wide"), "`bay` or the width between the faces"),
    "up into the ceiling": (NICHE.replace("up: 48", "up: 71"), 'and its header end at 97", above the 96 in ceiling'),
    "down into the tub": (NICHE.replace("up: 48", "up: 17"), "too low for its wall"),
    "a niche of no depth": (NICHE.replace("depth: 2 3/4", "depth: 3/8"), 'no deeper than a board, 1/2"'),
    "two overlap": (TWO, 'niche "second" overlaps niche "shelf"'),
    "two too close": (TWO.replace(HIGHER, HIGHER.replace("up: 48", "up: 75")), "no room for the framing between niche"),
    "over a valve": (NICHE.replace("back, across: 22 1/2, up: 48", "left, across: 18, up: 20"), 'lies over "valve"'),
    "above no deck": (NICHE.replace("up: 48", "up: 30, above: dek"), "above: `dek` is not one of the words known here"),
    "no such key": (NICHE.replace("depth", "deep"), "unknown key `deep`; did you mean `depth`?"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "words"), MISTAKES.values(), ids=MISTAKES)
def test_mistakes_of_niches_are_told_on_their_line(text: str, words: str) -> None:
    told = complaints(with_niche(text))
    assert any(words in message and line in (21, 22) for line, message in told), told


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (WINDOW.replace("37 1/2", "30"), 'the stud 30" from the left end of the wall stands in window "light"'),
        (WINDOW.replace("37 1/2", "36"), 'a side of window "light" runs through the stud'),
        (WINDOW.replace("up: 50", "up: 80"), "above the 96 in ceiling"),
    ],
)
def test_mistakes_of_windows_are_told(text: str, words: str) -> None:
    told = complaints(with_window(text))
    assert any(words in message and line == 21 for line, message in told), told


def test_the_small_room_has_neither() -> None:
    room = read(SMALL)
    assert not room.features
    assert not room.folds
    assert room.walls == room.chain
