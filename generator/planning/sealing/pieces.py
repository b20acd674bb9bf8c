"""Joints cut into pieces of band: lengths within a roll, rings on the faces, laps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import ceil, dist

from generator.model.geometry import NOISE, TOUCH, Ring, area, box, canonical, tidy
from generator.model.plan import Band, WallRing
from generator.planning.sealing.fold_lines import shown
from generator.planning.sealing.legs import Joint, Leg, runs_aslant
from generator.planning.sealing.surface import Surface
from generator.planning.shapes import polygon, rings

FAR = 10.0
"""Widths of a ring beside it at which nothing is cut: faces that go on without end are cut there."""
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece as cut, with the id it will have."""

    id: str
    joint: Joint
    legs: tuple[Leg, ...]


def cut_joints(joints: Sequence[Joint], roll: float, lap: float) -> tuple[Piece, ...]:
    """All pieces, numbered by place and kind from the lowest-left joint on."""
    numbers: dict[tuple[str, str], int] = {}
    pieces = []
    for joint in sorted(joints, key=lambda j: (j.place, j.kind, j.legs[0].p, j.legs[0].q)):
        for legs in cut_legs(joint.legs, roll, lap):
            key = joint.place, joint.kind
            numbers[key] = numbers.get(key, 0) + 1
            pieces.append(Piece(f"T-{joint.place}-{joint.kind}-{numbers[key]:03d}", joint, legs))
    return tuple(pieces)


def cut_legs(legs: tuple[Leg, ...], roll: float, lap: float) -> Iterator[tuple[Leg, ...]]:
    """Equal pieces, as few as the roll allows, each lapping the next."""
    length = legs[0].length
    count = max(1, ceil((length - lap) / (roll - lap) - NOISE))
    piece = (length + (count - 1) * lap) / count
    for i in range(count):
        start = i * (piece - lap)
        yield tuple(_part(leg, start / length, (start + piece) / length) for leg in legs)


def _part(leg: Leg, start: float, end: float) -> Leg:
    (u0, v0), (u1, v1) = leg.p, leg.q
    at = [(tidy(u0 + t * (u1 - u0)), tidy(v0 + t * (v1 - v0))) for t in (start, end)]
    return replace(leg, p=at[0], q=at[1])


def piece_ring(piece: Piece, leg: Leg, surface: Surface) -> Ring:
    """The outline of one leg of a piece, cut at the folds round it.

    Boards may run on behind what stands before a wall, and so do their seams: these end at outside folds alone.
    """
    lines = [line for line in surface.lines if piece.joint.at_fold or line.outside]
    surface = _as_far_as(surface, leg) if piece.joint.at_fold else surface
    ring = shown(leg_ring(leg, surface), leg.middle, lines, max(leg.left, leg.right))
    return _on_face(ring, surface) if runs_aslant(leg.p, leg.q) else ring


def _on_face(ring: Ring, surface: Surface) -> Ring:
    """A ring less what lies beyond the face and the folds at its rim."""
    from shapely import MultiPoint

    points = [p for board in surface.boards for p in board.outline] + [p for f in surface.lines for p in (f.p, f.q)]
    return max(rings(polygon(ring).intersection(MultiPoint(points).convex_hull)), key=area)


def _as_far_as(surface: Surface, leg: Leg) -> Surface:
    """The surface with the wallboard that a fold goes on to past the boards' end, as the cap's behind a half wall."""
    low, high = sorted((leg.p[0], leg.q[0]))
    least = low if low < surface.least - surface.beside else surface.least
    return replace(surface, least=least, most=high if high > surface.most + surface.beside else surface.most)


def leg_ring(leg: Leg, surface: Surface) -> Ring:
    """The band's outline on the wall, cut where the faces meet or the boards end free.

    Widths are laid off level from an upright line and upright from a level one, so that the ends of a band
    along a sloping deck stand upright, in the line of the corner.
    """
    level = abs(leg.q[0] - leg.p[0]) > abs(leg.q[1] - leg.p[1])
    sign = 1.0 if (leg.q[0] > leg.p[0] if level else leg.q[1] < leg.p[1]) else -1.0
    du, dv = (0.0, sign) if level else (sign, 0.0)
    quad = canonical(
        (u + du * by, v + dv * by)
        for (u, v), by in ((leg.p, leg.left), (leg.p, -leg.right), (leg.q, -leg.right), (leg.q, leg.left))
    )
    return _clipped(quad, surface)


def _clipped(ring: Ring, surface: Surface) -> Ring:
    """Within the reach of the faces, which lean with the ends of the wall."""
    us, vs = [u for u, _ in ring], [v for _, v in ring]
    wide = max(us) - min(us)
    least, most = max(surface.least, min(us) - FAR * wide), min(surface.most, max(us) + FAR * wide)
    ends = [(least + surface.leans[0] * v, most + surface.leans[1] * v) for v in (min(vs), max(vs))]
    if all(low <= min(us) + NOISE and high >= max(us) - NOISE for low, high in ends):
        return ring
    keep = ((ends[0][0], min(vs)), (ends[0][1], min(vs)), (ends[1][1], max(vs)), (ends[1][0], max(vs)))
    return canonical(polygon(ring).intersection(polygon(keep)).exterior.coords[:-1])  # type: ignore[attr-defined]


def bands_of(pieces: Sequence[Piece], surfaces: Mapping[str, Surface], lap: float) -> tuple[Band, ...]:
    """The pieces as bands, with the ids of those that each meets or lies over by at least a lap."""
    bare = [_band(piece, surfaces) for piece in pieces]
    laps: dict[str, list[str]] = {piece.id: [] for piece in pieces}
    for (a, band_a), (b, band_b) in combinations(zip(pieces, bare, strict=True), 2):
        if _meet(a, b) or common(band_a, band_b) >= lap - NOISE:
            laps[a.id].append(b.id)
            laps[b.id].append(a.id)
    return tuple(replace(band, lap_ids=tuple(sorted(laps[band.id]))) for band in bare)


def _band(piece: Piece, surfaces: Mapping[str, Surface]) -> Band:
    """Before its laps are known. One that lies aslant on a seat is as long as the folds round it leave it."""
    rings_of = tuple(WallRing(leg.wall, piece_ring(piece, leg, surfaces[leg.wall])) for leg in piece.legs)
    lengths = [leg.length for leg in piece.legs]
    if any(runs_aslant(leg.p, leg.q) for leg in piece.legs):
        lengths = [_side_along(leg, own.ring) for leg, own in zip(piece.legs, rings_of, strict=True)]
    return Band(piece.id, piece.joint.kind, piece.joint.covers, rings_of, tidy(max(lengths)), ())


def _side_along(leg: Leg, ring: Ring) -> float:
    """mm: the longest side of a ring that runs as its leg does."""
    du, dv = (leg.q[0] - leg.p[0]) / leg.length, (leg.q[1] - leg.p[1]) / leg.length
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    return max(dist(p, q) for p, q in sides if abs((q[0] - p[0]) * dv - (q[1] - p[1]) * du) <= TOUCH)


def _meet(a: Piece, b: Piece) -> bool:
    """True where the lines of the pieces touch on one wall."""
    from shapely import LineString

    pairs = [(p, q) for p in a.legs for q in b.legs if p.wall == q.wall]
    return any(LineString((p.p, p.q)).distance(LineString((q.p, q.q))) <= TOUCH for p, q in pairs)


def common(a: Band, b: Band) -> float:
    """The lap of two bands: the smaller side of their rings' common box, the best of their walls; below 0 apart."""
    sizes = [_common(box(p.ring), box(q.ring)) for p in a.rings for q in b.rings if p.wall == q.wall]
    return max(sizes, default=float("-inf"))


def _common(a: Box, b: Box) -> float:
    return min(min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1]))
