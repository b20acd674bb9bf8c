"""A row of level blocking: pieces laid flat from stud to stud, clear of everything that is already in the bay."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from generator.model.geometry import NOISE, TOUCH, box, rectangle, tidy
from generator.model.plan import Support
from generator.model.profiles import StudProfile
from generator.model.room import Fitting, Room, Wall
from generator.planning.bays import Span, fills_between, heights, is_upright
from generator.planning.supports import taken_spans

Supports = tuple[Support, ...]
Box = tuple[float, float, float, float]
SHORTEST = 25.4
"""mm: a shorter gap between two studs takes no block; it names things and limits no trade."""


@dataclass(frozen=True, slots=True)
class Row:
    """What must be solid: heights `need`, from stud to stud in every bay that `across` reaches into.

    `centre`: where the middle of the pieces is wanted. `set_back`: how far their faces stand behind the studs'.
    """

    wall: str
    across: Span
    need: Span
    centre: float
    lumber: StudProfile
    reason: str
    cause: Literal["mount", "seam"]
    room_path: str
    set_back: float = 0.0


def flat(lumber: StudProfile) -> StudProfile:
    """Lumber with its wide side to the room."""
    return replace(lumber, face=lumber.depth, depth=lumber.face)


def named(kind: str, name: str) -> str:
    """A thing by its kind and its name, once where they are the same."""
    return kind if name == kind else f"{kind} {name}"


def bays_of(supports: Supports, row: Row) -> Iterator[tuple[Span, Supports]]:
    """The gaps between neighbouring uprights that a row reaches into, each with the uprights at its sides."""
    low, high = row.need
    standing = [s for s in supports if s.wall == row.wall and is_upright(s)]
    tall = [s for s in standing if heights(s)[0] <= low + TOUCH and high - TOUCH <= heights(s)[1]]
    faces = sorted(((fills_between(s, low, high), s) for s in tall), key=lambda pair: (pair[0], pair[1].id))
    reached = float("-inf")
    for (span, left), (next_span, right) in pairwise(faces):
        reached = max(reached, span[1])
        gap = (reached, next_span[0])
        if gap[1] - gap[0] >= SHORTEST and min(gap[1], row.across[1]) - max(gap[0], row.across[0]) > NOISE:
            yield gap, (left, right)


def fill(room: Room, wall: Wall, row: Row, supports: Supports) -> Iterator[Support]:
    """One piece for each bay of a row; none where something found there serves, or stands in the way."""
    for gap, _ in bays_of(supports, row):
        around = tuple(_in_the_way(room, wall, row, supports))
        if not any(_serves(s, gap, row) for s in supports):
            places = (_piece_box(gap, centre, row) for centre in _centres(row))
            free = next((p for p in places if _inside(wall, p) and not any(_meet(p, b) for b in around)), None)
            if free is not None:
                yield _piece(row, free)


def _centres(row: Row) -> tuple[float, ...]:
    """As wanted, else as low or as high as still covers what must be solid."""
    spare = max(0.0, row.lumber.face - (row.need[1] - row.need[0])) / 2
    middle = (row.need[0] + row.need[1]) / 2
    return row.centre, middle - spare, middle + spare


def _piece_box(gap: Span, centre: float, row: Row) -> Box:
    half = row.lumber.face / 2
    return tidy(gap[0]), tidy(centre - half), tidy(gap[1]), tidy(centre + half)


def _inside(wall: Wall, piece: Box) -> bool:
    _, low, _, high = box(wall.outline)
    return low - NOISE <= piece[1] and piece[3] <= high + NOISE


def _meet(a: Box, b: Box) -> bool:
    return min(a[2], b[2]) - max(a[0], b[0]) > NOISE and min(a[3], b[3]) - max(a[1], b[1]) > NOISE


def _serves(support: Support, gap: Span, row: Row) -> bool:
    """True where a level piece spans the bay and is solid over all that the row asks for.

    Behind a fitting, any piece that reaches behind its middle serves.
    """
    if support.wall != row.wall or is_upright(support) or support.set_back > row.set_back + TOUCH:
        return False
    left, low, right, high = box(support.outline)
    if row.set_back:
        return _meet((left, low, right, high), (gap[0], row.need[0], gap[1], row.need[1]))
    across = left <= gap[0] + TOUCH and gap[1] - TOUCH <= right
    return across and low <= row.need[0] + TOUCH and row.need[1] - TOUCH <= high


def _in_the_way(room: Room, wall: Wall, row: Row, supports: Supports) -> Iterator[Box]:
    """Level pieces, mouths of niches and windows, what runs in the bays, and fittings that reach behind the row."""
    yield from (box(s.outline) for s in supports if s.wall == wall.id and not is_upright(s))
    yield from (box(mouth.ring) for mouth in wall.mouths)
    yield from (box(found.ring) for found in wall.in_bays if found.kind != "insulation")
    for fitting in room.fittings:
        if fitting.wall == wall.id and depth_of(room, fitting) > row.set_back + NOISE:
            yield _taken(room, fitting)


def depth_of(room: Room, fitting: Fitting) -> float:
    """How far behind the stud faces a fitting reaches: its body, else the elbow of its pipe."""
    return fitting.body.depth if fitting.body else room.limit("elbow-depth")


def _taken(room: Room, fitting: Fitting) -> Box:
    spans = taken_spans(room, fitting)
    half_v = max(fitting.diameter / 2 + room.limit("pipe-clearance"), fitting.body.height / 2 if fitting.body else 0.0)
    v = fitting.centre[1]
    return min(a for a, _ in spans), v - half_v, max(b for _, b in spans), v + half_v


def _piece(row: Row, piece: Box) -> Support:
    left, low, right, high = piece
    middle = tidy((low + high) / 2)
    return Support(
        id="",
        wall=row.wall,
        kind="blocking",
        origin="added",
        outline=rectangle(*piece),
        axis=((left, middle), (right, middle)),
        depth=row.lumber.depth,
        material=row.lumber.material,
        reason=row.reason,
        cause=row.cause,
        profile_id=row.lumber.id,
        room_path=row.room_path,
        set_back=row.set_back,
    )
