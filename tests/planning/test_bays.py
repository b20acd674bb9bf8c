"""Bays against a twin that walks along the wall in small steps at many heights."""

from __future__ import annotations

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.geometry import rectangle
from generator.model.plan import Region, Support
from generator.planning.bays import find_bays

LEAST = 12


def _stud(left: int, width: int, low: int, high: int) -> Support:
    middle = left + width / 2
    return Support(
        "", "w", "stud", "found", rectangle(left, low, left + width, high), ((middle, low), (middle, high)),
        89.0, "wood", "as found", "found", "wood-2x4", "",
    )  # fmt: skip


def _block(left: int, width: int, low: int) -> Support:
    return Support(
        "", "w", "blocking", "found", rectangle(left, low, left + width, low + 40),
        ((left, low + 20.0), (left + width, low + 20.0)), 89.0, "wood", "as found", "found", "wood-2x4", "",
    )  # fmt: skip


def _widest_by_walking(left: int, right: int, supports: list[Support], v: float) -> float:
    """Widest stretch without a support's axis at one height; blocking that fills the clear space closes it."""
    here = [s for s in supports if s.outline[0][1] <= v <= s.outline[2][1]]
    studs = sorted((s for s in here if s.kind == "stud"), key=lambda s: s.axis[0][0])
    crossed = [s for s in studs if min(right, s.outline[1][0]) - max(left, s.outline[0][0]) >= LEAST]
    widest, at, clear_from = 0.0, float(left), float(left)
    for stud in [*crossed, None]:
        axis = min(max(stud.axis[0][0], left), right) if stud else float(right)
        clear_to = stud.outline[0][0] if stud else float(right)
        filled = any(
            s.outline[0][0] <= clear_from and clear_to <= s.outline[1][0] for s in here if s.kind == "blocking"
        )
        widest = widest if filled else max(widest, axis - at)
        at, clear_from = axis, stud.outline[1][0] if stud else clear_to
    return widest


studs = st.builds(
    _stud, st.integers(-20, 1500), st.just(38), st.sampled_from([0, 0, 0, 500]), st.sampled_from([2400, 2400, 900])
)
plates = [_block(-20, 1600, 280), _block(-20, 1600, 2380)]
blocks = st.builds(_block, st.integers(0, 1200), st.integers(50, 700), st.integers(10, 2300))


@settings(max_examples=300, deadline=None)
@given(
    st.lists(studs, max_size=6, unique_by=lambda s: s.axis[0][0]),
    st.lists(blocks, max_size=2),
    st.sampled_from([[], plates]),
)
def test_the_widest_bay_is_what_a_walk_along_the_wall_finds(
    found: list[Support], blocking: list[Support], ends: list[Support]
) -> None:
    supports = sorted(found, key=lambda s: s.outline[0][0])
    apart = all(a.outline[1][0] <= b.outline[0][0] for a, b in itertools.pairwise(supports))
    if not apart:
        return
    everything = supports + blocking + ends
    bays = find_bays([Region(rectangle(3, 300, 1521, 2390), ())], everything, LEAST)
    edges = sorted(
        {300.0, 2390.0, *(v for s in everything for v in (s.outline[0][1], s.outline[2][1]) if 300 < v < 2390)}
    )
    heights = [a + d for a, b in itertools.pairwise(edges) for d in (0.03, (b - a) / 2) if b - a > 0.1]
    expected = max(_widest_by_walking(3, 1521, everything, v) for v in heights)
    assert max((bay.width for bay in bays), default=0.0) == expected
