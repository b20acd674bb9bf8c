"""Edge-on-stud rows of the fact table, section 6 (computed there from first principles).

Stud face f, seam offset e: smaller bearing = f/2 - |e|. Wood face 1-1/2 in (PS 20), steel flange 1-1/4 in (ASTM C645).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.checks.framing_planned import bearing_seam_steel, bearing_seam_wood, seam_on_axis
from generator.model.geometry import rectangle
from generator.model.plan import Edge, Plan, Support
from generator.model.room import Room
from generator.reading import load_catalogue
from tests.worked_plan import worked_plan
from tests.worked_room import mm, worked_room


def _room() -> Room:
    return replace(worked_room(), rules=load_catalogue().rules)


def _stud(index: int, centre: float, face: float, material: str) -> Support:
    like = worked_plan().supports[0]
    u, half = mm(centre), mm(face) / 2
    ring = rectangle(u - half, 0.0, u + half, mm(96))
    axis = ((u, 0.0), (u, mm(96)))
    key = f"S-back-{index:02d}"
    return replace(
        like, id=key, wall="back", outline=ring, axis=axis, material="wood" if material == "wood" else "steel"
    )


def _seam(at: float, studs: tuple[float, ...], face: float = 1.5, material: str = "wood") -> Plan:
    """The back wall with one seam at a place and studs at others, inches."""
    u, low, high = mm(at), mm(19.625), mm(95.875)
    edges = (
        Edge("E-1", "B-back-1", (u, low), (u, high), "seam", "B-back-2", (), None),
        Edge("E-2", "B-back-2", (u, high), (u, low), "seam", "B-back-1", (), None),
    )
    supports = tuple(_stud(i, c, face, material) for i, c in enumerate(studs, 1))
    return replace(worked_plan(), supports=supports, edges=edges)


@pytest.mark.parametrize(
    ("face", "offset", "expected", "material"),
    [(1.5, 0.0, 0.750, "wood"), (1.5, 3 / 8, 0.375, "wood"), (1.25, 0.0, 0.625, "steel")],
)
def test_smaller_bearing_at_a_seam(face: float, offset: float, expected: float, material: str) -> None:
    check = bearing_seam_wood if material == "wood" else bearing_seam_steel
    values = [m.value for m in check(_room(), _seam(32 + offset, (32,), face, material))]
    assert len(values) == 2
    assert min(v for v in values if v is not None) == pytest.approx(mm(expected), abs=1e-6)


def test_a_36_in_board_at_16_on_centre_misses_the_stud_at_32() -> None:
    """ "36 in board at 16 o.c.: seam at 36, nearest centre 32 -> trim to 32 or add a stud at 36"."""
    (measure,) = seam_on_axis(_room(), _seam(36, (0, 16, 32, 48)))
    assert measure.value == pytest.approx(mm(4), abs=1e-6)
    for at, studs in ((32, (0, 16, 32, 48)), (36, (0, 16, 32, 36, 48))):
        (measure,) = seam_on_axis(_room(), _seam(at, studs))
        assert measure.value == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("width", "spacing", "fits"),
    [
        (36, 12, True), (36, 18, True), (36, 16, False),
        (48, 12, True), (48, 16, True), (48, 24, True),
        (60, 12, True), (60, 16, False), (60, 24, False),
        (64, 16, True),
        (1200 / 25.4, 300 / 25.4, True), (1200 / 25.4, 400 / 25.4, True), (1200 / 25.4, 600 / 25.4, True),
        (600 / 25.4, 400 / 25.4, False),
        (900 / 25.4, 300 / 25.4, True), (900 / 25.4, 450 / 25.4, True),
    ],
)  # fmt: skip
def test_which_board_widths_fit_which_stud_spacings(width: float, spacing: float, fits: bool) -> None:
    """A board that starts on a stud's centre ends on one where its width divides by the spacing."""
    room = _room()
    (measure,) = seam_on_axis(room, _seam(width, tuple(spacing * i for i in range(8))))
    assert measure.value is not None
    assert (measure.value <= room.limit("seam-on-axis")) == fits
