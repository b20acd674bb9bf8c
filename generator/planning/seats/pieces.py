"""A new piece of lumber of a seat, and the lines along its outline."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist, radians, tan

from generator.model.ends import is_upright
from generator.model.features import Feature, Segment
from generator.model.geometry import NOISE, Point, Ring, box, canonical, tidy
from generator.model.plan import Support, SupportKind
from generator.model.room import Room, Wall
from generator.planning.folds import runs_along
from generator.reading.facing import Line

KINDS = ("bench", "deck")
STANDS = ("front", "left", "right")
"""Faces of a seat that stand."""
LEDGER = "ledger"
"""What a piece along a wall is called, in its reason."""
RIGHT = 90.0
"""Degrees: boards and lumber meet square there."""


@dataclass(frozen=True, slots=True)
class Rim:
    """A side of a seat's outline. `inwards`: distance from it as a line; `open`: a front or an end stands under it."""

    p: Point
    q: Point
    inwards: Line
    open: bool

    @property
    def upright(self) -> bool:
        """True where it runs as the joists do."""
        return abs(self.p[0] - self.q[0]) <= NOISE

    @property
    def level(self) -> bool:
        """True where it runs square to the joists."""
        return abs(self.p[1] - self.q[1]) <= NOISE


def feature_of(room: Room, wall: Wall) -> Feature:
    """The bench or deck that a wall is a face of."""
    return next(one for one in room.features if wall.id in one.faces)


def face_of(room: Room, feature: Feature, kind: str) -> Wall | None:
    """The face of a kind of a feature; None where it has none."""
    return next((wall for wall in room.walls if wall.feature == feature.id and wall.face == kind), None)


def span(room: Room) -> float:
    """mm that joists and knee studs stand apart, at most."""
    return min(room.limit("support-spacing"), room.limit("seat-span"))


def rims(room: Room, seat: Wall) -> tuple[Rim, ...]:
    """The sides of a seat's framing, counter-clockwise."""
    outside = [line for angle, line in _folds(room, seat) if angle > 180.0]
    return tuple(
        _rim(p, q, outside, room) for p, q in zip(seat.outline, (*seat.outline[1:], seat.outline[0]), strict=True)
    )


def _rim(p: Point, q: Point, outside: Sequence[Segment], room: Room) -> Rim:
    length, apart = dist(p, q), 2 * room.choices.stocks[0].board.thickness
    a, b = (p[1] - q[1]) / length, (q[0] - p[0]) / length
    along = any(runs_along((p, q), line, apart) for line in outside)
    return Rim(p, q, (a, b, -(a * p[0] + b * p[1])), along)


def _folds(room: Room, wall: Wall) -> Iterator[tuple[float, Segment]]:
    for fold in room.folds:
        for face, line in zip(fold.faces, fold.lines, strict=True):
            if face == wall.id:
                yield fold.angle_deg, line


def end_bevels(room: Room, wall: Wall) -> tuple[float, float]:
    """How far lumber at the left and right end of a front or an end runs in for each mm of its depth.

    Plane trigonometry: against boards that meet its own at an angle A in the room it stands in a wedge of 180 - A,
    and is cut to it; where two such faces turn a corner of the seat (A over 180) both are mitred to half of 360 - A.
    Square corners are not mitred: there one face's lumber runs past the other's.
    """
    left, _, right, _ = box(wall.outline)
    found = [0.0, 0.0]
    for angle, (p, q) in _folds(room, wall):
        if is_upright(p, q):
            found[0 if p[0] + q[0] < left + right else 1] = _bevel(angle)
    return found[0], found[1]


def _bevel(angle_deg: float) -> float:
    wedge = 180.0 - angle_deg if angle_deg < 180.0 else (360.0 - angle_deg) / 2
    if angle_deg > 180.0 and abs(2 * wedge - RIGHT) < NOISE:
        return 0.0
    return max(0.0, tidy(tan(radians(RIGHT - wedge))))


def piece(
    room: Room,
    wall: Wall,
    kind: SupportKind,
    ring: Sequence[Point],
    axis: Segment,
    reason: str,
    *,
    flat: bool = False,
    bevels: tuple[float, float] = (0.0, 0.0),
) -> Support:
    """A piece of the lumber that this room adds; `flat`: its broad side is its face."""
    stud = room.choices.added_stud[wall.id]
    outline: Ring = canonical(ring)
    (u0, v0), (u1, v1) = axis
    return Support(
        id="",
        wall=wall.id,
        kind=kind,
        origin="added",
        outline=outline,
        axis=((tidy(u0), tidy(v0)), (tidy(u1), tidy(v1))),
        depth=stud.face if flat else stud.depth,
        material=stud.material,
        reason=f"{reason} of {wall.feature}",
        cause="cure",
        profile_id=stud.id,
        room_path=wall.path,
        bevels=bevels,
    )
