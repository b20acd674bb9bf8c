"""Framing of soffits: a ladder in front and lookouts back to a ledger on the studs; all of it is to be added.

The front's lower rail lies flat and is the underside's front edge as well; the uprights of the ladder stand on it. An
end that stands free has a lookout for its bottom plate, on which a nailer stands at the wall. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil

from generator.model.geometry import NOISE, TOUCH, box, rectangle, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Side, Wall
from generator.planning.bays import fills, heights, is_upright
from generator.planning.supports import added_stud

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class _Face:
    """A face of a soffit with its lumber; `frame` and `boards`: boxes of its framing and of what is boarded."""

    room: Room
    wall: Wall
    stud: StudProfile
    frame: Box
    boards: Box

    def piece(self, around: Box, kind: str, depth: float, reason: str) -> Support:
        """Lumber with its axis along its longer side."""
        left, low, right, high = around
        made = added_stud(self.room, self.wall, (left + right) / 2, f"{reason} of {self.wall.feature}", "cure")
        middle = tidy((left + right) / 2), tidy((low + high) / 2)
        upright = high - low >= right - left
        ends = ((middle[0], low), (middle[0], high)) if upright else ((left, middle[1]), (right, middle[1]))
        outline = rectangle(left, low, right, high)
        kinds = {"plate": replace(made, kind="plate"), "stud": made, "nailer": replace(made, kind="nailer")}
        return replace(kinds[kind], outline=outline, axis=ends, depth=depth)

    def stands(self, u: float) -> tuple[float, float]:
        """u from, u to of an upright with its middle at u."""
        return tidy(u - self.stud.face / 2), tidy(u + self.stud.face / 2)


def soffit_supports(
    room: Room, wall: Wall, planned: PlannedWall, lent: Iterable[Support]
) -> tuple[Support, ...] | None:
    """All supports of a face of a soffit, with those that its neighbours lend; None for other walls."""
    if not _is_soffit(room, wall):
        return None
    boards = box([p for region in planned.wet_region for p in region.ring])
    face = _Face(room, wall, room.choices.added_stud[wall.id], box(wall.outline), boards)
    make = {"underside": _underside, "front": _front}.get(wall.face, _end)
    return (*lent, *make(face))


def _is_soffit(room: Room, wall: Wall) -> bool:
    return any(wall.id in one.faces for one in room.features if one.kind == "soffit")


def _is_open(room: Room, feature: str, side: str) -> bool:
    """True where an end of a soffit stands free."""
    return any(wall.feature == feature and wall.face == side for wall in room.walls)


def _underside(face: _Face) -> Iterator[Support]:
    """v out from the wall: ledger, lookouts, and the ladder's lower rail laid flat."""
    left, low, right, high = face.frame
    thin, wide, name = face.stud.face, face.stud.depth, face.wall.feature
    first, *between, last = _places(face)
    open_ends = {u: side for u, side in ((first, "left"), (last, "right")) if _is_open(face.room, name, side)}
    ends = left + (thin if first in open_ends else 0.0), right - (thin if last in open_ends else 0.0)
    yield face.piece((ends[0], low, ends[1], low + thin), "plate", wide, "ledger on the studs")
    yield face.piece((left, high - wide, right, high), "plate", thin, "lower rail of the ladder")
    for u in (first, *between, last):
        across = face.stands(u)
        if u in open_ends:
            what = f"bottom plate of the {open_ends[u]} end"
            yield face.piece((across[0], low, across[1], high - wide), "plate", wide, what)
        else:
            yield face.piece((across[0], low + thin, across[1], high - wide), "stud", wide, "lookout")


def _front(face: _Face) -> Iterator[Support]:
    left, low, right, high = face.frame
    thin, wide = face.stud.face, face.stud.depth
    yield face.piece((left, high - thin, right, high), "plate", wide, "upper rail of the ladder")
    for u in _places(face):
        across = face.stands(u)
        yield face.piece((across[0], low + thin, across[1], high - thin), "stud", wide, "upright of the ladder")


def _end(face: _Face) -> Iterator[Support]:
    """From the ladder, whose last upright it sees, back to a nailer at the wall."""
    places = _places(face)
    at_wall, ladder = (places[0], places[-1]) if face.wall.face == "left" else (places[-1], places[0])
    for u in places:
        if u != ladder:
            across = face.stands(u)
            kind, what = ("nailer", "nailer at the wall") if u == at_wall else ("stud", "upright")
            low, high = face.frame[1] + face.stud.depth, face.frame[3]
            yield face.piece((across[0], low, across[1], high), kind, face.stud.depth, what)


def _places(face: _Face) -> tuple[float, ...]:
    """Middles of the uprights: at both ends of the framing, or where the boards begin if that leaves them too little
    to bear on; and evenly between, no farther apart than the spacing.

    Beside the ladder's rails, which an end sees across, the board is held from its own edge on.
    """
    thin, least = face.stud.face, face.room.limit("bearing-edge")
    (left, _, right, _), (start, _, end, _) = face.frame, face.boards
    first = left if left + thin - start >= least - NOISE else start
    last = (right if end - right + thin >= least - NOISE else end) - thin
    run = last - first if face.wall.face in ("underside", "front") else max(end - first, last + thin - start) - thin / 2
    parts = max(1, ceil(run / face.room.limit("support-spacing") - NOISE))
    return tuple(tidy(first + (last - first) * i / parts + thin / 2) for i in range(parts + 1))


def between_rails(room: Room, stud: Support, supports: Iterable[Support]) -> Support:
    """A stud added for a seam; of a soffit no longer than its neighbours, which stand between rails."""
    wall = next(wall for wall in room.walls if wall.id == stud.wall)
    if not _is_soffit(room, wall):
        return stud
    low, high = next(heights(s) for s in supports if s.wall == wall.id and s.kind == "stud" and is_upright(s))
    (left, _, right, _), u = box(stud.outline), stud.axis[0][0]
    return replace(stud, outline=rectangle(left, low, right, high), axis=((u, low), (u, high)))


def soffit_edges(wall: Wall, planned: PlannedWall) -> Iterator[tuple[float, Side, float]]:
    """(u, side of the board, from) of the upright edges of a wall's boards beside the soffits before it."""
    left, _, right, _ = box([p for region in planned.wet_region for p in region.ring])
    for taken in (a for a in wall.allowances if wall.frame is None):
        start, low, end, _ = box(taken.ring)
        if start > left + TOUCH:
            yield start, "right", low
        if end < right - TOUCH:
            yield end, "left", low


def packing(
    room: Room, wall: Wall, supports: Iterable[Support], edge: tuple[float, Side], span: tuple[float, float]
) -> Iterator[Support]:
    """A strip from an edge beside a soffit to the stud that stands too near for another one, over these heights.

    Screws go into the stud: so the strip counts as level.
    """
    u, side = edge
    faces = [fills(s) for s in supports if is_upright(s) and heights(s)[0] <= span[0] and heights(s)[1] >= span[1]]
    beyond = [left - u for left, _ in faces] if side == "left" else [u - right for _, right in faces]
    gap = min((gap for gap in beyond if gap > -TOUCH), default=0.0)
    if TOUCH < gap < room.choices.added_stud[wall.id].face:
        left, right = (u, tidy(u + gap)) if side == "left" else (tidy(u - gap), u)
        strip = added_stud(room, wall, (left + right) / 2, "packs out the stud beside the soffit", "cure")
        middle = tidy((span[0] + span[1]) / 2)
        outline = rectangle(left, span[0], right, span[1])
        yield replace(strip, kind="blocking", outline=outline, axis=((left, middle), (right, middle)))
