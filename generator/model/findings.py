"""What checks say. A check yields measures; the runner compares them with the rule and makes findings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import Point

Verdict = Literal["pass", "note", "confirm", "warn", "fail"]
Phase = Literal["found", "planned", "solid"]
RANK: dict[Verdict, int] = {"pass": 0, "note": 1, "confirm": 2, "warn": 3, "fail": 4}


@dataclass(frozen=True, slots=True)
class Place:
    """Where on a wall: points in (u, v): one a spot, two a line, more a ring. `wall` "": the whole room."""

    wall: str
    geometry: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Cure:
    """The smallest change that mends a finding, in words, and as a change of the room that a test can replay.

    `kind` add_support: a stud (or blocking) of `wall` with its centre at u = `to`; move_support: the
    support whose room path is `room_path`, to u = `to`; advice: words only.
    """

    text: str
    kind: Literal["add_support", "move_support", "advice"]
    wall: str
    room_path: str
    to: float
    also: tuple[float, ...] = ()
    """Further centres (u) that the same cure adds."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One value measured for a rule. `value` None: could not be measured, `subject` says why."""

    subject: str
    value: float | None
    place: Place
    room_path: str = ""
    cure: Cure | None = None
    on_break: Verdict = "fail"
    """Verdict when the limit is broken."""
    on_hold: Verdict = "pass"
    """Verdict when it holds (a proposal that holds is still `confirm`)."""


@dataclass(frozen=True, slots=True)
class Finding:
    """A measure, judged. `margin` >= 0 means held; measured, limit, margin are None together."""

    rule: str
    phase: Phase
    verdict: Verdict
    subject: str
    measured: float | None
    limit: float | None
    margin: float | None
    place: Place
    cure: Cure | None
    room_path: str
    line: int


def judged(finding: Finding) -> bool:
    """False where its rule found nothing to judge in the room, and the finding says why."""
    return finding.verdict != "note" or finding.measured is not None


def worst(findings: tuple[Finding, ...], phases: tuple[Phase, ...]) -> Verdict:
    """The worst verdict among the findings of these phases; pass when there are none."""
    verdicts = [f.verdict for f in findings if f.phase in phases]
    return max(verdicts, key=RANK.__getitem__, default="pass")


def failed_walls(findings: tuple[Finding, ...], walls: tuple[str, ...]) -> frozenset[str]:
    """Walls with a fail as its place; a fail that names no wall fails all of them."""
    failed = {f.place.wall for f in findings if f.verdict == "fail"}
    return frozenset(walls) if "" in failed else frozenset(failed)
