"""What a template is made for: openings, corners of niches and windows, notches, nips, the ends of rabbets.

What is worked from the back is said as it is seen from behind, where left and right are what the eye sees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from generator.drawings.parts import opening_box
from generator.model.ends import upper_side
from generator.model.geometry import TOUCH, Point, Ring, box, tidy
from generator.model.job import Job
from generator.model.plan import (
    Board,
    Opening,
    PlannedWall,
    Rabbet,
)
from generator.units import label, label_opening, label_size

Bounds = tuple[float, float, float, float]
Face = Literal["front", "back"]
ARM = 60.0
"""mm of either side of a corner, or of a rabbet's end, that its template shows."""
WASTE = 20.0
"""mm from a corner to the middle of the X on the waste."""
PENCIL = 0.5
"""mm: a rabbet that ends so near to a nip, below a deck out of level, is marked by the same point."""
TURN = 30.0
"""Degrees: a corner that turns less than this is a bend of a line and needs no template."""


@dataclass(frozen=True, slots=True)
class Target:
    """One thing to mark: `at` its centre or corner in the frame of its board, `around` the box of what is cut there.

    `size` is what people are told to cut; `opening` only where the whole of one is meant; `waste`: a point in what
    falls away at a corner.
    """

    id: str
    name: str
    at: Point
    around: Bounds
    size: str
    opening: Opening | None = None
    waste: Point | None = None

    @property
    def point(self) -> str:
        """The trade's word for `at`."""
        return "centre" if self.opening else "corner"


def spot(opening: Opening) -> Point:
    """The point that is marked: a round hole's centre, else the middle of the opening's box."""
    if not opening.ring:
        return opening.centre
    left, bottom, right, top = box(opening.ring)
    return ((left + right) / 2, (bottom + top) / 2)


def whole(job: Job, opening: Opening) -> Target:
    """All of an opening."""
    name = opening.fitting_id or opening.feature_id or opening.id
    return Target(opening.id, name, spot(opening), box(opening_box(opening)), size_text(job, opening), opening)


def size_text(job: Job, opening: Opening) -> str:
    """The size to cut: a diameter, or width by height."""
    units = job.room.choices.paper_units
    if not opening.ring:
        return f"{label_opening(opening.diameter, units)} diameter"
    left, bottom, right, top = box(opening.ring)
    return label_size((right - left, top - bottom), units)


def corners(job: Job, opening: Opening) -> tuple[Target, ...]:
    """The corners of an opening that is too large for its paper."""
    name, size = opening.feature_id or opening.fitting_id or opening.id, f"opening {size_text(job, opening)}"
    return tuple(
        Target(
            f"{opening.id}-{i + 1}",
            f"{_where(c.at, opening.ring)} corner of {name}",
            c.at,
            c.around,
            size,
            None,
            c.waste,
        )
        for i, c in enumerate(_turns(opening.ring))
    )


def is_notched(board: Board) -> bool:
    """True where its outline has an inner corner: a notch or a nip."""
    return any(corner.turn < 0 for corner in _turns(board.outline))


def notches(board: Board, wall: PlannedWall) -> tuple[Target, ...]:
    """Inner corners of a board's outline, nips left out: of a leg, of a niche or window that the board goes round."""
    found = (c for c in _turns(board.outline) if c.turn < 0 and not _is_nip(board, wall, c.at))
    return tuple(_notch(board, wall, i, corner) for i, corner in enumerate(found))


def _notch(board: Board, wall: PlannedWall, i: int, corner: _Corner) -> Target:
    at = corner.at
    mouth = next((m for m in wall.mouths if any(math.dist(at, p) <= TOUCH for p in m.ring)), None)
    name = f"{_where(at, mouth.ring)} corner of {mouth.feature_id}" if mouth else "notch"
    return Target(f"{board.id}-{i + 1}", name, at, corner.around, "cut to both lines", None, corner.waste)


def worked_from_behind(job: Job, board: Board, wall: PlannedWall) -> tuple[Target, ...]:
    """Nips and both ends of every rabbet of the back, as seen from behind; the board as seen from the front."""
    return tuple(_from_behind(board, target) for target in nips_and_rabbets(job, board, wall))


def nips_and_rabbets(job: Job, board: Board, wall: PlannedWall) -> tuple[Target, ...]:
    """What is worked from the back, in the frame of the front."""
    units = job.room.choices.paper_units
    nips = {c.at: c.around for c in _turns(board.outline) if c.turn < 0 and _is_nip(board, wall, c.at)}
    found = [
        Target(f"{board.id}-rabbet-{i + 1}-{side}", "rabbet", at, around, _deep(job, rabbet))
        for i, rabbet in enumerate(r for r in board.rabbets if r.face == "back")
        for side, at, around in _ends(rabbet)
    ]
    for i, (at, around) in enumerate(nips.items()):
        wide, high = around[2] - around[0], around[3] - around[1]
        size = f"{label_size((wide, high), units)} right through"
        nip = Target(f"{board.id}-nip-{i + 1}", "nip", at, around, size)
        met = [t for t in found if math.dist(t.at, at) <= PENCIL]
        found = [t for t in found if t not in met] + [_both(t, nip) for t in met] + ([] if met else [nip])
    return tuple(found)


def _both(rabbet: Target, nip: Target) -> Target:
    """A rabbet that ends at a nip: one point, both sizes."""
    around = bounds((rabbet, nip))
    return Target(rabbet.id, "rabbet and nip", rabbet.at, around, f"rabbet {rabbet.size}; nip {nip.size}")


def _from_behind(board: Board, target: Target) -> Target:
    """In the board's own box, left and right changed, as `sheet_files.from_behind` does with the board."""
    left, _, right, _ = box(board.outline)
    (x, y), (a, low, b, high) = target.at, target.around
    turned = (tidy(left + right - b), low, tidy(left + right - a), high)
    return replace(target, at=(tidy(left + right - x), y), around=turned)


def _deep(job: Job, rabbet: Rabbet) -> str:
    return f"{label(rabbet.depth, job.room.choices.paper_units)} deep in the {rabbet.face}"


def _ends(rabbet: Rabbet) -> Iterator[tuple[str, Point, Bounds]]:
    """The upper corner at the left and at the right end, with what is to be seen of the rabbet there."""
    left, low, right, _ = box(rabbet.ring)
    for side, at, into in zip(("left", "right"), upper_side(rabbet.ring), (1.0, -1.0), strict=True):
        far = at[0] + into * min(ARM, right - left)
        yield side, at, (min(at[0], far), low, max(at[0], far), at[1])


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of a counter-clockwise ring: the box of its arms, degrees that it turns to the left, and a point
    between its arms.
    """

    at: Point
    around: Bounds
    turn: float
    waste: Point


def _turns(ring: Ring) -> list[_Corner]:
    """The corners of a ring that are more than a bend."""
    found = (_corner(*three) for three in zip((ring[-1], *ring), ring, (*ring[1:], ring[0]), strict=False))
    return [corner for corner in found if abs(corner.turn) >= TURN]


def _corner(p: Point, at: Point, q: Point) -> _Corner:
    (a, b), (c, d) = (_arm(at, end, WASTE / math.sqrt(2) / math.dist(at, end)) for end in (p, q))
    arms = (_arm(at, end, min(1.0, ARM / math.dist(at, end))) for end in (p, q))
    return _Corner(at, box((at, *arms)), _turn(p, at, q), (a + c - at[0], b + d - at[1]))


def _arm(at: Point, to: Point, share: float) -> Point:
    return (at[0] + (to[0] - at[0]) * share, at[1] + (to[1] - at[1]) * share)


def _turn(p: Point, at: Point, q: Point) -> float:
    before, after = (math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise((p, at, q)))
    return (math.degrees(after - before) + 180.0) % 360.0 - 180.0


def _is_nip(board: Board, wall: PlannedWall, at: Point) -> bool:
    """True at a corner that the plan names so, or where a rabbet of the back ends at the outline's own corner."""
    ends = (end for rabbet in board.rabbets if rabbet.face == "back" for _, end, _ in _ends(rabbet))
    if any(math.dist(at, end) <= TOUCH for end in ends):
        return True
    boxes = (box(a.ring) for a in wall.allowances if a.name == "nip")
    return any(b[0] - TOUCH <= at[0] <= b[2] + TOUCH and b[1] - TOUCH <= at[1] <= b[3] + TOUCH for b in boxes)


def _where(at: Point, ring: Ring) -> str:
    """`lower left`, seen from the middle of the ring's box."""
    left, bottom, right, top = box(ring)
    return f"{'lower' if at[1] < (bottom + top) / 2 else 'upper'} {'left' if at[0] < (left + right) / 2 else 'right'}"


def bounds(targets: Sequence[Target]) -> Bounds:
    """The common box of targets."""
    return box(point for t in targets for point in ((t.around[0], t.around[1]), (t.around[2], t.around[3])))
