"""Fittings of generated rooms: a valve, a spout and an arm above each other, or pipes anywhere on the boards."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Protocol


class Measures(Protocol):
    @property
    def rng(self) -> Random: ...
    @property
    def units(self) -> str: ...
    def draw(self, low: float, high: float) -> Fraction: ...
    def said(self, inches: Fraction) -> str: ...


@dataclass(frozen=True, slots=True)
class Reachable:
    """A wall and the stretch of it, from its left end, that boards cover; inches."""

    wall: str
    near: Fraction
    far: Fraction
    at_base: bool


VALVES = {"in": ("trim-5-round", "trim-6x4"), "mm": ("trim-120-round", "trim-5-round")}
PIPES = {"in": ("copper-1-2", "pex-1-2", "brass-nps-1-2", "copper-3-4"), "mm": ("copper-15-mm", "copper-22-mm")}


def fittings(tape: Measures, walls: tuple[Reachable, ...], deck: Fraction) -> str:
    """The `fittings` of a room file, "" when it has none; heights in inches."""
    wide = [w for w in walls if w.far - w.near >= 16]
    if not wide or tape.rng.random() < 0.15:
        return ""
    wall = tape.rng.choice(wide)
    across = tape.draw(float(wall.near) + 7, float(wall.far) - 7)
    rows = []
    for kind, low, high in (
        ("spout", deck + 6, deck + 8),
        ("valve", deck + 18, deck + 26),
        ("arm", Fraction(70), Fraction(74)),
    ):
        if tape.rng.random() < 0.75:
            rows.append(_row(tape, kind, wall, across, tape.draw(float(low), float(high)), kind, deck))
    if tape.rng.random() < 0.3:
        other = tape.rng.choice(wide)
        lone = tape.draw(float(other.near) + 6, float(other.far) - 6)
        if other.wall != wall.wall or abs(lone - across) > 12:
            rows.append(_row(tape, "pipe", other, lone, tape.draw(float(deck) + 8, 60), "lone", deck))
    return "fittings:\n" + "\n".join(rows) if rows else ""


def _row(tape: Measures, kind: str, wall: Reachable, across: Fraction, up: Fraction, name: str, deck: Fraction) -> str:
    profile = tape.rng.choice(VALVES[tape.units] if kind == "valve" else PIPES[tape.units])
    above = "deck" if wall.at_base and tape.rng.random() < 0.3 else "floor"
    measured = up - deck if above == "deck" else up
    return (
        f"  - {{name: {name}, wall: {wall.wall}, kind: {kind}, profile: {profile}, "
        f"across: {tape.said(across)}, from: left, up: {tape.said(measured)}, above: {above}}}"
    )
