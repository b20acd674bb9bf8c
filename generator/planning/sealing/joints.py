"""Every joint that wants a band: seams, wallboard edges, corners, folds, the base, aprons and the floor."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import dist, isinf
from typing import Literal

from generator.model.features import Fold
from generator.model.geometry import TOUCH, Point, tidy
from generator.model.plan import Edge, PlannedBase, PlannedCorner
from generator.model.room import Room, Side
from generator.planning.sealing.bottoms import Run, bottom_runs, deck_at
from generator.planning.sealing.folds import fold_joints
from generator.planning.sealing.legs import Joint, Leg, longer, overlap
from generator.planning.sealing.surface import Surface, is_level, reaches, side_of

SIDES: tuple[Side, Side] = ("left", "right")


def find_joints(
    room: Room,
    corners: Sequence[PlannedCorner],
    folds: Sequence[Fold],
    base: PlannedBase,
    surfaces: Sequence[Surface],
) -> tuple[Joint, ...]:
    """All joints: wall by wall, then the corners and the folds."""
    joints: list[Joint] = []
    for surface in surfaces:
        joints += seam_joints(room, surface, "seam")
        joints += seam_joints(room, surface, "wallboard")
        joints += _base_joints(room, base, surface)
        joints += _apron_joints(room, surface)
    return (*joints, *corner_joints(room, corners, surfaces), *fold_joints(room, folds, surfaces))


def seam_joints(room: Room, surface: Surface, role: Literal["seam", "wallboard"]) -> Iterator[Joint]:
    """Seams (or wallboard edges) of a wall, in whole straight lines, the band half on either side."""
    half = room.choices.band.width / 2
    own = [edge for edge in surface.edges if edge.role == role]
    for level in (False, True):
        along = 0 if level else 1
        for line, low, high, covers in _lines((e for e in own if is_level(e) == level), along):
            if level:
                low, high = _to_faces(surface, (low, high), line, half)
            p, q = ((low, line), (high, line)) if level else ((line, low), (line, high))
            leg = _to_folds(surface, Leg(surface.wall, p, q, half, half), within=True)
            yield Joint("seam", surface.wall, covers, (leg,))


def _lines(edges: Iterable[Edge], along: int) -> list[tuple[float, float, float, tuple[str, ...]]]:
    """(position across, from, to, edge ids) of the whole lines that edges in a row make up."""
    across = 1 - along
    by_line: dict[float, list[Edge]] = {}
    for edge in sorted(edges, key=lambda e: (e.p[across] + e.q[across], e.id)):
        place = (edge.p[across] + edge.q[across]) / 2
        line = next((known for known in by_line if abs(known - place) <= TOUCH), place)
        by_line.setdefault(line, []).append(edge)
    return [(tidy(line), *span) for line, own in by_line.items() for span in _spans(own, along)]


def _spans(edges: Iterable[Edge], along: int) -> list[tuple[float, float, tuple[str, ...]]]:
    """(from, to, edge ids) of the stretches that edges of one line cover, those that touch joined."""
    joined: list[tuple[float, float, tuple[str, ...]]] = []
    for edge in sorted(edges, key=lambda e: (min(e.p[along], e.q[along]), e.id)):
        low, high = sorted((edge.p[along], edge.q[along]))
        if joined and low <= joined[-1][1] + TOUCH:
            start, end, ids = joined.pop()
            joined.append((start, max(end, high), tuple(sorted((*ids, edge.id)))))
        else:
            joined.append((low, high, (edge.id,)))
    return joined


def _to_faces(surface: Surface, span: tuple[float, float], v: float, half: float) -> tuple[float, float]:
    """A level line ends where the faces meet at a corner, and where that leans, as far out as half a band reaches."""
    low, high = span
    edges = v - half, v + half
    if surface.meets_left and reaches(surface, (low, v), "left"):
        low = min(surface.left_at(edge) for edge in edges)
    if surface.meets_right and reaches(surface, (high, v), "right"):
        high = max(surface.right_at(edge) for edge in edges)
    return low, high


def _to_folds(surface: Surface, leg: Leg, within: bool = False) -> Leg:
    """The leg up to the folds that its ends lie beside; `within`: not beside the very end of one, which hides half."""
    p, q = _fold_beside(surface, leg.q, leg.p, within), _fold_beside(surface, leg.p, leg.q, within)
    return replace(leg, p=p or leg.p, q=q or leg.q)


def _fold_beside(surface: Surface, start: Point, end: Point, within: bool = False) -> Point | None:
    """Where a line meets the fold that it ends beside: boards stop short of that, or go on behind it."""
    length = dist(start, end)
    du, dv = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    for line in surface.lines:
        closing = -(du * line.into[0] + dv * line.into[1])
        ahead = line.depth_of(end) / closing if closing > 0.5 else float("inf")
        at = tidy(end[0] + ahead * du), tidy(end[1] + ahead * dv)
        at_end = min(dist(at, line.p), dist(at, line.q)) <= TOUCH
        if (
            abs(ahead) <= surface.beside
            and not (within and at_end)
            and dist(at, line.p) + dist(at, line.q) <= dist(line.p, line.q) + TOUCH
        ):
            return at
    return None


def _base_joints(room: Room, base: PlannedBase, surface: Surface) -> Iterator[Joint]:
    """Bands from the bottom edge upwards; over a thick flange they reach down onto it as well."""
    before: Run | None = None
    for run in bottom_runs(surface, base):
        follows = before is not None and before.side is not None and abs(before.q[0] - run.p[0]) <= TOUCH
        lap = room.limit("band-lap") if follows and run.side is not None else 0.0
        left, right = (_run_on(room, surface, run, side) for side in SIDES)
        drop = drop_below(room, base, run)
        leg = Leg(run.wall, run.p, run.q, room.choices.band.width - drop, drop)
        left, right = (
            left + _lean_out(surface, run, leg.left, "left"),
            right + _lean_out(surface, run, leg.left, "right"),
        )
        yield Joint("base", surface.wall, tuple(sorted(run.edges)), (longer(leg, max(lap, left), right),))
        before = run


def _lean_out(surface: Surface, run: Run, up: float, side: Side) -> float:
    """How much farther out the faces reach at the upper edge of a band that ends in a corner which leans out."""
    if side == "left":
        at_corner = surface.meets_left and run.p[0] - run.past[0] <= surface.left_at(run.p[1]) + TOUCH
        return max(0.0, -surface.leans[0] * up) if at_corner else 0.0
    at_corner = surface.meets_right and run.q[0] + run.past[1] >= surface.right_at(run.q[1]) - TOUCH
    return max(0.0, surface.leans[1] * up) if at_corner else 0.0


def _run_on(room: Room, surface: Surface, run: Run, side: Side) -> float:
    """How far a band at the bottom edge runs on beyond its end.

    Over a leg: a lap past the apron joint, and to the leg's outer edge where it would end under that edge's
    band. At the foot of a leg narrower than a lap: onto the wallboard, so far as to make a lap.
    """
    at_left = side == "left"
    past = run.past[0 if at_left else 1]
    whole = run.p[0] - surface.left_at(run.p[1]) if at_left else surface.right_at(run.q[1]) - run.q[0]
    goes_on = isinf(surface.least if at_left else surface.most)
    if past:
        wanted = past + overlap(room)
        under = wanted >= whole - room.choices.band.width / 2 - TOUCH
        return (max(wanted, whole) if goes_on else whole) if under else wanted
    return max(0.0, room.limit("band-lap") - run.length) if goes_on and whole <= TOUCH else 0.0


def drop_below(room: Room, base: PlannedBase, run: Run) -> float:
    """How far a band hangs below the bottom edge: onto a thick flange, clear of the deck, at most half of it."""
    if base.kind != "butted" or run.side is None:
        return 0.0
    u, v = run.middle
    return max(0.0, min(room.choices.band.width / 2, v - deck_at(run.side, u) - room.limit("deck-gap")))


def apron_edges(surface: Surface) -> tuple[Edge, ...]:
    """The inner edges of the wall's legs."""
    return tuple(edge for edge in surface.edges if edge.role == "apron" and not is_level(edge))


def _apron_joints(room: Room, surface: Surface) -> Iterator[Joint]:
    """Bands on the legs along the base's apron, run up past its top so that the base's band laps them.

    On the face of a curb its foot is such an edge, and ends at folds.
    """
    for edge in apron_edges(surface):
        low, high = sorted((edge.p, edge.q), key=lambda point: point[1])
        up = 0.0 if _fold_beside(surface, low, high) else _up_past(room, surface, high)
        before, after = (0.0, up) if edge.q == high else (up, 0.0)
        leg = longer(Leg(surface.wall, edge.p, edge.q, room.choices.band.width, 0.0), before, after)
        yield Joint("base", surface.wall, (edge.id,), (_to_folds(surface, leg),))


def _up_past(room: Room, surface: Surface, top: Point) -> float:
    """How far the band on a leg runs on above its edge: a lap, and where it would end in the band over a seat or a
    deck that stands before the wall, a lap past that band's fold."""
    up, lap = overlap(room), room.limit("band-lap")
    over = [line for line in surface.lines if line.into[1] > 0.5 and min(line.p[0], line.q[0]) < top[0] + TOUCH]
    for line in (line for line in over if max(line.p[0], line.q[0]) > top[0] - TOUCH):
        past = max(line.p[1], line.q[1]) - top[1]
        if past < up < past + lap:
            up = past + lap
    return up


def corner_joints(room: Room, corners: Sequence[PlannedCorner], surfaces: Sequence[Surface]) -> Iterator[Joint]:
    """Bands folded into or round the corners, half on either wall, as high as the boards of either wall."""
    by_wall = {surface.wall: surface for surface in surfaces}
    half = room.choices.band.width / 2
    for corner in corners:
        left, right = by_wall.get(corner.left_wall), by_wall.get(corner.right_wall)
        if left is None or right is None or not (left.meets_right and right.meets_left):
            continue
        for low, high, covers in corner_spans(left, right):
            on_left = Leg(left.wall, (left.right_at(low), low), (left.right_at(high), high), half, 0.0)
            on_right = Leg(right.wall, (right.left_at(low), low), (right.left_at(high), high), 0.0, half)
            legs = tuple(
                _over_cap(room, surface, _to_folds(surface, leg))
                for surface, leg in ((left, on_left), (right, on_right))
            )
            yield Joint("corner", corner.id.removeprefix("C-"), covers, legs)


def _over_cap(room: Room, surface: Surface, leg: Leg) -> Leg:
    """Over a lower wall with a cap the band goes on, on the higher wall, up to the cap's arris and a lap past it."""
    for line in surface.lines:
        ends = [end for end in (line.p, line.q) if dist(end, leg.q) <= surface.beside]
        if line.into[1] > 0.5 and ends:
            return longer(leg, 0.0, ends[0][1] - leg.q[1] + overlap(room))
    return leg


def corner_spans(left: Surface, right: Surface) -> list[tuple[float, float, tuple[str, ...]]]:
    """(v from, v to, edge ids) of the stretches of a corner where either wall has a board."""
    edges = [e for e in left.ends if side_of(e) == "right"]
    edges += [e for e in right.ends if side_of(e) == "left"]
    return _spans(edges, along=1)
