"""Bands folded over the lines where the faces of niches, benches and half walls meet each other and the walls."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from generator.model.features import Fold
from generator.model.geometry import TOUCH, Point, tidy
from generator.model.room import Room
from generator.planning.folds import runs_along
from generator.planning.sealing.fold_lines import FoldLine
from generator.planning.sealing.legs import Joint, Leg, longer, overlap, runs_aslant
from generator.planning.sealing.surface import Surface


def fold_joints(room: Room, folds: Sequence[Fold], surfaces: Sequence[Surface]) -> Iterator[Joint]:
    """One for each fold between two boarded faces, half the band on either.

    At a corner that stands out of a wall's face, as round the mouth of a niche, both bands run on past it on that
    face, so that they lap; elsewhere they lie over each other in the corner as they are. What lies aslant on a seat
    fills the corners there: its ends are cut by the folds, not level or upright.
    """
    by_wall = {surface.wall: surface for surface in surfaces}
    for fold in folds:
        faces = [by_wall[face] for face in fold.faces if face in by_wall]
        sides = [(face, line) for face in faces for line in face.lines if line.fold is fold]
        if len(sides) == 2:
            before, after = (max(_run_on(room, s, line, at_end) for s, line in sides) for at_end in (False, True))
            legs = tuple(_long_enough(fold_leg(line, room.choices.band.width / 2), before, after) for _, line in sides)
            covers = tuple(sorted({i for s, line in sides for i in covered(s, line)}))
            yield Joint("corner", fold.id.removeprefix("F-"), covers, legs, at_fold=True)


def _long_enough(leg: Leg, before: float, after: float) -> Leg:
    """The leg run on at its ends; what lies aslant so far that its far side reaches the folds that it is cut at."""
    slant = 2 * max(leg.left, leg.right) if runs_aslant(leg.p, leg.q) else 0.0
    return longer(leg, slant or before, slant or after)


def fold_leg(line: FoldLine, width: float) -> Leg:
    """The band's part on one face. Legs lay their widths off level or upright: a sloped line asks for more there."""
    length = dist(line.p, line.q)
    du, dv = (line.q[0] - line.p[0]) / length, (line.q[1] - line.p[1]) / length
    on_left = line.into[1] * du - line.into[0] * dv > 0.0
    laid = width / max(abs(du), abs(dv))
    return Leg(line.wall, line.p, line.q, laid if on_left else 0.0, 0.0 if on_left else laid)


def covered(surface: Surface, line: FoldLine) -> tuple[str, ...]:
    """Ids of the board edges along the line; a mouth inside a board has no edges of its own to name."""
    apart = surface.beside
    own = (e for e in surface.edges if e.role == "corner" and runs_along((e.p, e.q), (line.p, line.q), apart))
    return tuple(e.id for e in own)


def _run_on(room: Room, surface: Surface, line: FoldLine, at_end: bool) -> float:
    """How far a band goes on past an end of its fold on one face: not at all, or a lap if the face goes on there.

    The face goes on at an arris that stands out of it, and where the arris of a cap meets the corner below it.
    Negative where the boards end before the fold does, as beside the frame of a window.
    """
    end, start = (line.q, line.p) if at_end else (line.p, line.q)
    turning = (o for o in surface.lines if o is not line and o.depth_of(line.middle) < 0.0)
    goes_on = any(min(dist(end, o.p), dist(end, o.q)) <= TOUCH for o in turning) or _comes_in(surface, start, end)
    across = line.into[1] * room.choices.band.width / 2
    return min(overlap(room) if goes_on else 0.0, _room_left(surface, start, end, across))


def _comes_in(surface: Surface, start: Point, end: Point) -> bool:
    """True where a line comes from behind the corner of a lower wall, as that of its cap, and ends in the corner."""
    left, right = surface.left_at(end[1]), surface.right_at(end[1])
    from_left = surface.meets_left and abs(end[0] - left) <= TOUCH and start[0] < left - surface.beside
    return from_left or (surface.meets_right and abs(end[0] - right) <= TOUCH and start[0] > right + surface.beside)


def _room_left(surface: Surface, start: Point, end: Point, across: float) -> float:
    """From the end of a line, straight on to the rim of the face; negative beyond it.

    `across`: how far up (or down) a band along the line reaches: where a rim leans, to the farther of its edges.
    """
    ways = ((end[i] - start[i]) / dist(start, end) for i in (0, 1))
    heights = (end[1], end[1] + across)
    least = surface.least + min(surface.leans[0] * v for v in heights)
    most = surface.most + max(surface.leans[1] * v for v in heights)
    rims = ((least, most), (surface.bottom, surface.top))
    rooms = [
        ((rim[1] if way > 0 else rim[0]) - at) / way
        for way, rim, at in zip(ways, rims, end, strict=True)
        if abs(way) > 0.5
    ]
    return tidy(min(rooms))
