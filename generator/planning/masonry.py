"""Walls of concrete or masonry: boards are bedded in mortar over the whole face, and plugs hold them.

The wall's supports are upright strips of it where the rows of plugs stand: at the ends of the boards, at the edges of
legs, under every upright seam wherever the sheets put it, and between those no farther apart than supports may stand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil

from generator.model.ends import foot
from generator.model.geometry import NOISE, TOUCH, rectangle, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.room import Room, Wall
from generator.planning.bays import Span
from generator.planning.framing import end_span, leg_edges, with_borrowed
from generator.planning.layout.task import Piece
from generator.planning.supports import stud_heights, taken_spans


def with_masonry(
    room: Room, walls: Sequence[PlannedWall], supports: tuple[Support, ...], pieces: Iterable[Piece] = ()
) -> tuple[Support, ...]:
    """The supports with the strips of every wall of masonry, seams of the pieces included; ids given anew."""
    bare = [(wall, planned) for wall, planned in zip(room.walls, walls, strict=True) if wall.masonry]
    if not bare:
        return supports
    ids, boards = {wall.id for wall, _ in bare}, tuple(pieces)
    kept = [s for s in supports if s.wall not in ids]
    strips = [s for wall, planned in bare for s in _strips(room, wall, planned, _seams(wall, boards))]
    return with_borrowed(room, tuple(walls), (*kept, *strips))


def _seams(wall: Wall, pieces: Iterable[Piece]) -> tuple[float, ...]:
    """Every u at which one board of the wall ends and another begins."""
    sides: dict[bool, set[float]] = {True: set(), False: set()}
    for piece in (piece for piece in pieces if piece.wall == wall.id):
        ring = piece.outline
        for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if u0 == u1:
                sides[v1 > v0].add(tidy(u0))
    return tuple(sorted(sides[True] & sides[False]))


def _strips(room: Room, wall: Wall, planned: PlannedWall, seams: Iterable[float]) -> Iterator[Support]:
    fixed = fixed_faces(room, wall, planned, seams)
    rows = (_between(room, wall, a, b) for a, b in pairwise(fixed))
    for face in sorted((*fixed, *(face for row in rows for face in row))):
        yield _strip(wall, face)


def _strip(wall: Wall, face: Span) -> Support:
    assert wall.masonry is not None
    (left, right), (low, high) = face, stud_heights(wall, face)
    middle = tidy((left + right) / 2)
    return Support(
        id="",
        wall=wall.id,
        kind="nailer",
        origin="found",
        outline=rectangle(left, low, right, high),
        axis=((middle, low), (middle, high)),
        depth=wall.masonry.depth,
        material="masonry",
        reason="as found: a row of plugs",
        cause="found",
        profile_id=wall.masonry.id,
        room_path=f"{wall.path}.supports.masonry",
    )


def fixed_faces(room: Room, wall: Wall, planned: PlannedWall, seams: Iterable[float] = ()) -> list[Span]:
    """Faces of the strips that cannot stand elsewhere, left to right: under seams and edges of the boards.

    Those of seams are as wide on either side; others give way to them, and to one another half way.
    """
    assert wall.masonry is not None
    wide = wall.masonry.face
    centred = [*seams, *(_end(wall, planned, i) for i in (0, 1) if wall.beside[i] == "wallboard")]
    faces = {(tidy(u - wide / 2), tidy(u + wide / 2)): True for u in centred}
    for u, from_left in _sided(room, wall, planned):
        faces.setdefault((u, tidy(u + wide)) if from_left else (tidy(u - wide), u), False)
    return _apart(sorted(faces.items()))


def _end(wall: Wall, planned: PlannedWall, index: int) -> float:
    """Where the boards end at the left or right: the outermost place of their edge."""
    return end_span(wall, planned, "left" if index == 0 else "right")[index]


def _sided(room: Room, wall: Wall, planned: PlannedWall) -> Iterator[tuple[float, bool]]:
    """u of a strip's side, and whether it is the left one: at corners, free ends and the inner edges of legs."""
    for index in (0, 1):
        if wall.beside[index] != "wallboard":
            corner = foot(planned.outline, "left" if index == 0 else "right")
            yield (corner if wall.beside[index] == "corner" else _end(wall, planned, index)), index == 0
    for u, side, _, _ in leg_edges(room, wall, planned):
        yield tidy(u), side == "left"


def _apart(faces: Sequence[tuple[Span, bool]]) -> list[Span]:
    """Faces that overlap, parted: `True` stays as it is, two others meet half way."""
    found = [faces[0]]
    for (left, right), stays in faces[1:]:
        (before, until), stayed = found[-1]
        if left < until - NOISE:
            limit = until if stayed else left if stays else tidy((left + until) / 2)
            found[-1] = ((before, limit), stayed)
            left = max(left, limit)
        found.append(((left, right), stays))
    return [face for face, _ in found if face[1] - face[0] > TOUCH]


def _between(room: Room, wall: Wall, before: Span, after: Span) -> Iterator[Span]:
    """Strips between two others, as even as what is chased into the wall allows."""
    assert wall.masonry is not None
    at, end = sum(before) / 2, sum(after) / 2
    half, spacing, last = wall.masonry.face / 2, room.limit("support-spacing"), before[1]
    while end - at > spacing + NOISE:
        at = _clear(room, wall, at, at + (end - at) / ceil((end - at) / spacing - NOISE), at + spacing)
        reach = min(half, at - last, after[0] - at)
        yield tidy(at - reach), tidy(at + reach)
        last = at + reach


def _clear(room: Room, wall: Wall, start: float, wanted: float, end: float) -> float:
    """The place nearest to the wanted one, past start and up to end, whose plugs miss every valve and riser."""
    radius = room.choices.screws["masonry"].washer_diameter / 2
    spans = [span for f in room.fittings if f.wall == wall.id for span in taken_spans(room, f)]
    grown = [(a - radius, b + radius) for a, b in spans]
    places = [wanted, *(u for span in grown for u in span if start + 2 * radius < u <= end)]
    free = [u for u in places if not any(a + NOISE < u < b - NOISE for a, b in grown)]
    return tidy(min(free, key=lambda u: (abs(u - wanted), u), default=wanted))


def seams_offered(room: Room, wall: Wall, planned: PlannedWall, wanted: Iterable[float]) -> Iterator[float]:
    """Those of the wanted places, first come first served, where a seam's strip overlaps no other strip."""
    assert wall.masonry is not None
    half, taken = wall.masonry.face / 2, fixed_faces(room, wall, planned)
    for u in wanted:
        if all(u + half <= a + NOISE or b <= u - half + NOISE for a, b in taken):
            taken.append((u - half, u + half))
            yield u
