"""Measuring on the solids what the plan predicted. Lengths in mm, volumes in mm3; no limits live here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING, Any

from generator.model.geometry import TOUCH, Point, box
from generator.model.plan import PlannedWall
from generator.solids.facets import facets, gap, shadow
from generator.solids.records import Bodies, Body

if TYPE_CHECKING:
    from shapely import Polygon

U, V, W = 0, 1, 2
UPRIGHT = ("stud", "nailer")
HAIR = TOUCH / 200
"""mm inside a stretch at which its end is measured: the head of a stud cut to 1 in 100 moves by a hundred times it."""
Box = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Interference:
    """Two bodies that fill the same room; `volume` of what both fill."""

    first: str
    second: str
    volume: float


def volume(bodies: Bodies, part_id: str) -> float:
    """Volume of a body; KeyError when there is none of that id."""
    return float(bodies.part(part_id).shape.Volume())


def rabbet_depths(bodies: Bodies, board_id: str) -> tuple[float, ...]:
    """Depth of each step between a board's faces, measured from the face it is cut from, ascending."""
    board = bodies.part(board_id)
    flat = [f for f in facets(board.shape, bodies.wall(board.wall)) if abs(f.normal[W]) > 1.0 - 1e-9]
    front = max(f.rings[0][0][W] for f in flat)
    inner = [(f.rings[0][0][W], f.normal[W]) for f in flat if TOUCH < f.rings[0][0][W] < front - TOUCH]
    return tuple(sorted(w if looks < 0 else front - w for w, looks in inner))


def deck_gap(bodies: Bodies, board_id: str) -> float | None:
    """Least height of a board's lower faces over the deck; None where the board is not over the deck."""
    return _gap(bodies, board_id, bodies.decks, V)


def flange_gap_above(bodies: Bodies, board_id: str) -> float | None:
    """Least height of a board's lower faces (rabbets and nips too) over the tops of the flanges; None: not over one."""
    return _gap(bodies, board_id, bodies.flanges, V)


def flange_gap_in_depth(bodies: Bodies, board_id: str) -> float | None:
    """Least distance out of the wall from its own flange's front to a board's back or rabbet; None: not before it."""
    board = bodies.part(board_id)
    return _gap(bodies, board_id, tuple(f for f in bodies.flanges if f.wall == board.wall), W)


def flange_distance(bodies: Bodies, board_id: str) -> float | None:
    """Least distance in any direction between a board and the flanges; None where the base has none."""
    board = bodies.part(board_id).shape
    return min((float(board.distance(f.shape)) for f in bodies.flanges), default=None)


def _gap(bodies: Bodies, board_id: str, others: tuple[Body, ...], axis: int) -> float | None:
    board = bodies.part(board_id)
    wall = bodies.wall(board.wall)
    own = facets(board.shape, wall)
    gaps = [gap(own, facets(other.shape, wall), axis) for other in others]
    return min((g for g in gaps if g is not None), default=None)


def bearing(bodies: Bodies, board_id: str, p: Point, q: Point, support_ids: tuple[str, ...]) -> float | None:
    """Least width of stud faces under a board along its upright edge p to q (counter-clockwise on the board).

    Only the named supports count; stretches that a plate or blocking carries are left out. Zero where no face
    reaches the edge within 0.01 mm; None where level supports carry all of it.
    """
    board = bodies.part(board_id)
    wall = bodies.wall(board.wall)
    outline = _silhouette(board, wall)
    side = -1.0 if q[1] > p[1] else 1.0
    seen = [(body, _stud_face(body, wall)) for body in map(bodies.part, support_ids)]
    faces = [(_stands(body, face), face) for body, face in seen]
    left, _, right, _ = box(wall.outline)  # an edge that laps another board bears from the framing's end on
    widths = [
        _width(faces, min(max(_edge_at(outline, p, q, v), left), right), v, side)
        for v in _heights([f for _, f in faces], p[1], q[1])
    ]
    return min((w for w in widths if w is not None), default=None)


def _stands(support: Body, face: Polygon) -> bool:
    """True of studs and nailers, and of other pieces that this wall sees standing, as a header from below."""
    left, low, right, high = face.bounds if not face.is_empty else (0.0, 0.0, 0.0, 0.0)
    return support.kind in UPRIGHT or high - low > right - left


def _silhouette(body: Body, wall: PlannedWall) -> Polygon:
    """A body as seen from the room, in (u, v)."""
    from shapely import unary_union

    outline: Polygon = unary_union([shadow(f, W) for f in facets(body.shape, wall) if f.normal[W] > 0.5])  # type: ignore[assignment]
    return outline


def _stud_face(support: Body, wall: PlannedWall) -> Polygon:
    """The face of a support in the plane of the stud faces, behind any furring; empty where it stands off it."""
    from shapely import Polygon

    touching = [
        f
        for f in facets(support.shape, wall)
        if f.normal[W] > 1.0 - 1e-9 and abs(max(p[W] for p in f.rings[0]) + wall.furring) < TOUCH
    ]
    return shadow(touching[0], W) if touching else Polygon()


def _heights(faces: list[Polygon], start: float, end: float) -> Iterator[float]:
    """Heights just inside both ends of each stretch in which the same supports are met."""
    low, high = sorted((start, end))
    corners = {v for f in faces for _, v in f.exterior.coords}
    levels = sorted({low, high, *(v for v in corners if low + TOUCH < v < high - TOUCH)})
    for a, b in pairwise(levels):
        inside = min((b - a) / 4, HAIR)
        yield a + inside
        yield b - inside


def _chord(face: Polygon, v: float) -> tuple[float, float] | None:
    """The least and greatest u of a polygon at a height; None where it is not met."""
    from shapely import LineString

    met = face.intersection(LineString([(-1e6, v), (1e6, v)]))
    return None if met.is_empty else (met.bounds[0], met.bounds[2])


def _edge_at(outline: Polygon, p: Point, q: Point, v: float) -> float:
    """The u of the board's own edge at a height: where its outline passes nearest to the line p to q."""
    from shapely import LineString

    wanted = p[0] + (q[0] - p[0]) * (v - p[1]) / (q[1] - p[1])
    met: Any = outline.boundary.intersection(LineString([(-1e6, v), (1e6, v)]))
    crossings = [float(c[0]) for g in getattr(met, "geoms", [met]) for c in g.coords]
    return min(crossings, key=lambda u: (abs(u - wanted), u))


def _width(faces: list[tuple[bool, Polygon]], u: float, v: float, side: float) -> float | None:
    """Widest bearing at a height on the board's side of u; None where a level support carries the edge there."""
    reach = [(upright, c) for upright, c in ((up, _chord(f, v)) for up, f in faces) if c is not None]
    met = [(upright, c) for upright, c in reach if c[0] - TOUCH <= u <= c[1] + TOUCH]
    if any(not upright for upright, _ in met):
        return None
    return max((max(0.0, c[1] - u if side > 0 else u - c[0]) for _, c in met), default=0.0)


def interferences(bodies: Bodies) -> tuple[Interference, ...]:
    """Every two bodies that fill the same room by more than a touch, in the order of the bodies."""
    boxes = [_bounds(body.shape) for body in bodies.parts]
    near = [(i, j) for i, j in combinations(range(len(boxes)), 2) if _meet(boxes[i], boxes[j])]
    return tuple(found for i, j in near if (found := _common(bodies.parts[i], bodies.parts[j])) is not None)


def _bounds(shape: Any) -> Box:
    """Least and greatest coordinate along each axis."""
    b = shape.BoundingBox()
    return (b.xmin, b.xmax), (b.ymin, b.ymax), (b.zmin, b.zmax)


def _meet(a: Box, b: Box) -> bool:
    """True where two boxes share more than a touch along every axis."""
    return all(min(p[1], q[1]) - max(p[0], q[0]) > TOUCH for p, q in zip(a, b, strict=True))


def _common(a: Body, b: Body) -> Interference | None:
    """What two bodies share; a film thinner than a touch over the common part's own faces is nothing."""
    common = a.shape.intersect(b.shape)
    shared = float(common.Volume()) if common.Solids() else 0.0
    if shared <= 0.0 or shared < TOUCH * float(common.Area()) / 2:
        return None
    return Interference(a.id, b.id, shared)
