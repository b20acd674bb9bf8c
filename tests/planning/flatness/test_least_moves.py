"""Shims against hand cases, against every choice tried, and against the bound of another linear program."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from generator.planning.flatness.faces import Face, Flatness
from generator.planning.flatness.solve import Moves, Tied, flattest_plane, least_moves
from generator.units import INCH
from tests.planning.flatness.fields import LARGE, SMALL, STEP, face, least_volume, pairs, random_field

TIGHT = 1e-5
"""mm: what the solver's own tolerance may leave."""


def moves_of(faces: tuple[Face, ...], wanted: Flatness = LARGE, tied: tuple[Tied, ...] = ()) -> Moves:
    moves = least_moves(faces, wanted, STEP, tied)
    assert moves is not None
    return moves


def is_flat(faces: tuple[Face, ...], steps: tuple[int, ...], wanted: Flatness) -> bool:
    """Both sentences of the standard, read at the plane that suits the finished faces best."""
    done = tuple(replace(f, off=f.off - n * STEP) for f, n in zip(faces, steps, strict=True))
    plane, _ = flattest_plane(done, wanted)
    behind = [f.off - plane.off(f.u, f.v) for f in done]
    close = all(abs(behind[i] - behind[j]) <= most + TIGHT for i, j, most in pairs(done, wanted))
    return close and min(behind) >= -TIGHT and max(behind) <= wanted.far + TIGHT


@pytest.mark.parametrize("wanted", [LARGE, SMALL])
@pytest.mark.parametrize("lean", [(0, 0), (1 / 8, 0), (0, 1 / 12), (-1 / 16, 1 / 24)])
def test_a_flat_wall_wants_nothing_however_it_leans(wanted: Flatness, lean: tuple[float, float]) -> None:
    faces = tuple(face(u, v, 20 + lean[0] * u + lean[1] * v) for u in (1, 17, 33) for v in (12, 48, 84))
    assert moves_of(faces, wanted).steps == (0,) * 9


@pytest.mark.parametrize(("wanted", "steps"), [(LARGE, 3), (SMALL, 2)])
def test_a_hollow_stud_between_flat_ones(wanted: Flatness, steps: int) -> None:
    """1/4 in hollow, 24 in from both neighbours. Large tile: 1/16 may stay, so 3/16; small: 2 x 1/16 may, so 1/8."""
    faces = tuple(face(u, v, 4 if u == 25 else 0) for u in (1, 25, 49) for v in (12, 84))
    assert moves_of(faces, wanted).steps == (0, 0, steps, steps, 0, 0)


@pytest.mark.parametrize(("most", "least", "steps"), [(2, -2, 4), (0, 0, 8)])
def test_a_proud_stud_is_planed_where_that_is_allowed(most: int, least: int, steps: int) -> None:
    """3/16 in proud: 1/16 may stay. Planing takes 2 steps at 2 heights; on steel 4 are shimmed at one or both sides."""
    faces = tuple(face(u, v, 0 if u == 25 else 3, most) for u in (1, 25, 49) for v in (12, 84))
    moves = moves_of(faces)
    assert min(moves.steps) == least and sum(map(abs, moves.steps)) == steps
    assert is_flat(faces, moves.steps, LARGE)


def test_a_plane_tied_to_the_flange_brings_the_far_stud_forward() -> None:
    """The wall leans 1/2 in across, which costs nothing; tied level at both ends it costs shims on the hollow side."""
    faces = tuple(face(u, v, u / 6) for u in (0, 24, 48) for v in (12, 84))
    assert moves_of(faces).steps == (0,) * 6
    tied = (Tied(0.0, 12 * INCH, 0.0), Tied(48 * INCH, 12 * INCH, 0.0))
    assert moves_of(faces, LARGE, tied).steps == (0, 0, 3, 3, 6, 6)


def test_what_the_limits_do_not_allow_has_no_schedule() -> None:
    faces = tuple(face(u, v, 8 if u == 25 else 0, 0, 2) for u in (1, 25, 49) for v in (12, 84))
    assert least_moves(faces, LARGE, STEP) is None


@pytest.mark.parametrize("wanted", [LARGE, SMALL])
@pytest.mark.parametrize("seed", range(25))
def test_random_fields_end_flat_and_never_below_the_bound(seed: int, wanted: Flatness) -> None:
    faces = random_field(seed)
    moves = moves_of(faces, wanted)
    assert all(-f.most_plane <= n for f, n in zip(faces, moves.steps, strict=True))
    assert is_flat(faces, moves.steps, wanted)
    bound = least_volume(faces, wanted)
    assert bound is not None
    assert bound - 1.0 <= moves.bound <= moves.material + 1e-6
    assert moves.material == pytest.approx(
        sum(abs(n) * STEP * f.width * (f.high - f.low) for f, n in zip(faces, moves.steps, strict=True))
    )


@pytest.mark.parametrize("seed", range(6))
def test_no_choice_of_whole_steps_is_cheaper(seed: int) -> None:
    """Every choice of at most three steps for five faces, cheapest first, until a plane suits one."""
    faces = random_field(seed)[:5]
    choices = product(*(range(-f.most_plane, 4) for f in faces))
    for choice in sorted(choices, key=lambda c: sum(abs(n) * f.area for n, f in zip(c, faces, strict=True))):
        if least_volume(faces, LARGE, tuple(n * STEP for n in choice)) is not None:
            cheapest = sum(abs(n) * f.area for n, f in zip(choice, faces, strict=True)) * STEP
            assert moves_of(faces).material == pytest.approx(cheapest)
            return
    assert max(moves_of(faces).steps) > 3


def test_the_same_field_gives_the_same_schedule() -> None:
    assert moves_of(random_field(3)) == moves_of(random_field(3))
