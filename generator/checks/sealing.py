"""Bands: every joint covered far enough, every fastener covered, every lap long enough."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from math import cos, hypot, radians, sin
from typing import TYPE_CHECKING

from generator.checks.fold_cover import fold_covers
from generator.checks.measuring import (
    edge_wall,
    edges_of,
    inwards,
    is_upright_edge,
    line_place,
    or_note,
    room_wall,
    tightest,
    unmeasured,
    wall_path,
)
from generator.model.ends import Side, foot, lean
from generator.model.findings import Measure, Place
from generator.model.geometry import TOUCH, Ring, box, rectangle, tidy
from generator.model.plan import (
    Band,
    Edge,
    EdgeRole,
    Fastener,
    Plan,
)
from generator.model.room import Room, Wall
from generator.planning.folds import fold_lines, runs_along
from generator.planning.sealing.fold_lines import lines_on

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Box = tuple[float, float, float, float]
BANDED: tuple[EdgeRole, ...] = ("seam", "corner", "wallboard", "bottom", "apron")


def band_lap(room: Room, plan: Plan) -> Iterator[Measure]:
    """Bands that follow each other lap far enough."""
    bands = {band.id: band for band in plan.bands}
    pairs = sorted({tuple(sorted((b.id, other))) for b in plan.bands for other in b.lap_ids})
    boards = sorted(plan.boards, key=lambda b: b.wall)
    faces = {wall: box(p for b in own for p in b.outline) for wall, own in groupby(boards, lambda b: b.wall)}
    measures = (_lap(bands[a], bands[b], faces) for a, b in pairs if a in bands and b in bands)
    return or_note(tightest(room.rules["band-lap"], measures), "no two bands meet in this plan")


def _lap(one: Band, other: Band, faces: Mapping[str, Box]) -> Measure:
    """The smaller side of the box that the two bands have in common, the best of their legs; 0 unless mutual.

    Where they lie over each other across the whole of a face, as on the narrow returns of a window, that side
    cannot be greater: there it is the other one. `faces`: the box of the boards of each wall.
    """
    mutual = one.id in other.lap_ids and other.id in one.lap_ids
    commons = [
        (wall.wall, common)
        for wall in one.rings
        for b in other.rings
        if b.wall == wall.wall and (common := _common(box(wall.ring), box(b.ring)))
    ]
    best = max(commons, key=lambda c: _lap_side(c[1], faces[c[0]]), default=None)
    wall, ring = best or (one.rings[0].wall, one.rings[0].ring)
    lap = _lap_side(ring, faces[wall]) if best and mutual else 0.0
    return Measure(f"{one.id} over {other.id}", tidy(lap), Place(wall, ring), "choices.band")


def _common(a: Box, b: Box) -> Ring | None:
    left, low, right, high = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    return rectangle(left, low, right, high) if right - left > TOUCH and high - low > TOUCH else None


def _lap_side(ring: Ring, face: Box) -> float:
    left, low, right, high = box(ring)
    across = left <= face[0] + TOUCH and right >= face[2] - TOUCH, low <= face[1] + TOUCH and high >= face[3] - TOUCH
    sides = right - left, high - low
    return min((side for side, whole in zip(sides, across, strict=True) if not whole), default=max(sides))


def band_cover(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each joint, in a wall, a corner or fold, at base and wallboard, lies under a band that reaches far enough."""
    sealed = {wall.id: _sealed(plan, wall.id) for wall in plan.walls}
    edges = [e for e in edges_of(plan, *BANDED) if not _on_fold(plan, e)]
    joints = (m for e in edges for m in _covers(room, plan, e, sealed[edge_wall(plan, e)]))
    measures = (*joints, *fold_covers(room, plan, sealed))
    return or_note(tightest(room.rules["band-cover"], measures), "no joint in this plan")


def _on_fold(plan: Plan, edge: Edge) -> bool:
    """True for an edge along a fold: there the band is measured from the fold."""
    board = plan.board(edge.board)
    lines = fold_lines(plan.folds, board.wall)
    return edge.role == "corner" and any(runs_along((edge.p, edge.q), line, 2 * board.thickness) for line in lines)


def _sealed(plan: Plan, wall: str) -> BaseGeometry:
    from generator.planning.shapes import polygon, union

    return union(polygon(r.ring) for band in plan.bands for r in band.rings if r.wall == wall)


def _covers(room: Room, plan: Plan, edge: Edge, sealed: BaseGeometry) -> Iterator[Measure]:
    wall = edge_wall(plan, edge)
    side = _side(edge)
    subject = f"{edge.role} of {edge.board}: band from the joint inwards"
    place, path = line_place(wall, edge.p, edge.q), wall_path(room, wall)
    cover = _cover(room, plan, edge, side, sealed)
    if cover is not None:
        yield Measure(subject, cover, place, path)
    if edge.role == "wallboard":
        width = room.choices.band.width
        outer = _reach(_strip(edge, _line(edge), -side, width), _line(edge), -side, edge, sealed, width)
        yield Measure(f"{edge.role} of {edge.board}: band onto the wallboard", outer, place, path)


def _side(edge: Edge) -> float:
    """+1 where the board lies to the right of an upright edge or above a level one, else -1."""
    if is_upright_edge(edge):
        return inwards(edge)
    return 1.0 if edge.q[0] > edge.p[0] else -1.0


def _line(edge: Edge) -> float:
    """u of an upright edge (of its line on the floor where it leans), v of a level one (at u = 0 where it slopes)."""
    u, v = edge.p
    return u - _slope(edge) * v if is_upright_edge(edge) else v - _slope(edge) * u


def _cover(room: Room, plan: Plan, edge: Edge, side: float, sealed: BaseGeometry) -> float | None:
    """How far the band reaches over the board's face from the joint, mm; None where all of it is hidden.

    At a corner it is measured from the line where the two board faces meet; at an outside one the edge of the
    neighbour's boards, which lap this wall's, shows between them.
    """
    from generator.planning.shapes import polygon, union

    start, width = _line(edge), room.choices.band.width
    lip = 0.0
    if edge.role == "corner":
        start = _meeting_line(room, plan, edge_wall(plan, edge), side > 0)
        lip = max(0.0, (_line(edge) - start) * side)
    boards = _straight(union(polygon(b.outline) for b in plan.boards if b.wall == edge_wall(plan, edge)), edge)
    shows = union((boards, _strip(edge, start, side, lip))) if lip > TOUCH else boards
    strip = _strip(edge, start, side, width)
    seen = strip.intersection(shows).difference(_straight(_hidden(room, plan, edge), edge))
    if seen.area <= TOUCH:
        return None
    return tidy(_reach(seen, start, side, edge, _straight(sealed, edge), width) / hypot(1.0, _slope(edge)))


def _straight(shape: BaseGeometry, edge: Edge) -> BaseGeometry:
    """The shape pushed over so that an edge that leans stands upright, or one that slopes lies level.

    Points on the floor stay where they are in the one case, points on u = 0 in the other.
    """
    from shapely.affinity import affine_transform

    slope = _slope(edge)
    if not slope:
        return shape
    matrix = (1.0, -slope, 0.0, 1.0) if is_upright_edge(edge) else (1.0, 0.0, -slope, 1.0)
    return affine_transform(shape, (*matrix, 0.0, 0.0))


def _slope(edge: Edge) -> float:
    """mm that an upright edge leans in u for each mm upwards, or that another rises for each mm to the right."""
    du, dv = edge.q[0] - edge.p[0], edge.q[1] - edge.p[1]
    return du / dv if is_upright_edge(edge) else dv / du


def _strip(edge: Edge, start: float, side: float, width: float) -> BaseGeometry:
    from generator.planning.shapes import polygon

    along = sorted((edge.p[1], edge.q[1]) if is_upright_edge(edge) else (edge.p[0], edge.q[0]))
    near, far = sorted((start, start + side * width))
    if is_upright_edge(edge):
        return polygon(rectangle(near, along[0], far, along[1]))
    return polygon(rectangle(along[0], near, along[1], far))


def _reach(seen: BaseGeometry, start: float, side: float, edge: Edge, sealed: BaseGeometry, width: float) -> float:
    """Distance from the joint's line to the nearest bare spot of the strip; `width` where there is none."""
    from shapely import get_parts

    bare = [part.bounds for part in get_parts(seen.difference(sealed)) if part.area > TOUCH]
    axis = 0 if is_upright_edge(edge) else 1
    ends = [b[axis] if side > 0 else b[axis + 2] for b in bare]
    return tidy(min((abs(e - start) for e in ends), default=width))


def _hidden(room: Room, plan: Plan, edge: Edge) -> BaseGeometry:
    """What the neighbouring walls' and soffits' boards stand in front of; at an outside corner they do not."""
    from generator.planning.shapes import polygon, union

    wall = room_wall(room, edge_wall(plan, edge))
    _, low, _, high = box(wall.outline)
    strips = []
    sides: tuple[Side, Side] = ("left", "right")
    for index, at in enumerate(sides):
        if wall.beside[index] == "corner":
            line, slope = _meeting_line(room, plan, wall.id, index == 0), lean(wall.outline, at)
            end = foot(wall.outline, at)
            near, far = sorted((end, line))
            if far - near > TOUCH and (line > end) == (index == 0):
                ends = ((near, low), (far, low), (far, high), (near, high))
                strips.append(polygon(tuple((u + slope * v, v) for u, v in ends)))
    return union((*strips, *_behind_soffits(room, plan, wall)))


def _behind_soffits(room: Room, plan: Plan, wall: Wall) -> Iterator[BaseGeometry]:
    """What soffits before a wall hide of its boards, beyond the lines where the board faces meet."""
    from generator.planning.shapes import polygon

    thickness = max((b.thickness for b in plan.boards if b.wall == wall.id), default=0.0)
    soffits = {face for one in room.features if one.kind == "soffit" for face in one.faces}
    lines = lines_on(plan.wall(wall.id), plan.walls, plan.folds) if wall.frame is None else ()
    yield from (polygon(line.strip(-thickness)) for line in lines if soffits & set(line.fold.faces))


def _meeting_line(room: Room, plan: Plan, wall_id: str, left_end: bool) -> float:
    """u on the floor of the line in which the board faces of two walls meet: plane trigonometry at the corner's angle.

    A point of this wall's faces lies u sin A - t cos A from the neighbour's stud faces, t its own thickness.
    """
    wall = room_wall(room, wall_id)
    side: Side = "left" if left_end else "right"
    end = foot(wall.outline, side)
    own = "right_wall" if left_end else "left_wall"
    corner = next((c for c in room.corners if getattr(c, own) == wall_id), None)
    if corner is None:
        return end
    other = corner.left_wall if left_end else corner.right_wall
    here, there = (max((b.thickness for b in plan.boards if b.wall == w), default=0.0) for w in (wall_id, other))
    angle = radians(corner.angle_deg)
    along = tidy((there + here * cos(angle)) / sin(angle) * hypot(1.0, lean(wall.outline, side)))
    return end + along if left_end else end - along


def fastener_cover(room: Room, plan: Plan) -> Iterator[Measure]:
    """The washer of every fastener lies under a band, a patch or a collar."""
    shapes = _band_shapes(plan)
    for wall in plan.walls:
        screws = [f for f in plan.fasteners if f.wall == wall.id]
        bare = [f for f in screws if not _is_covered(f, shapes)]
        for screw in bare:
            yield Measure(f"{screw.id}: bare", 1.0, Place(wall.id, (screw.point,)), wall_path(room, wall.id))
        if screws and not bare:
            place = Place(wall.id, (screws[0].point,))
            yield Measure(f"{wall.id}: bare ones of {len(screws)} fasteners", 0.0, place, wall_path(room, wall.id))
        if not screws:
            yield unmeasured(f"{wall.id}: no fastener", "note", wall.id, wall_path(room, wall.id))


def _band_shapes(plan: Plan) -> dict[str, list[tuple[tuple[float, ...], BaseGeometry]]]:
    """Box and polygon of each leg of a band, by wall."""
    from generator.planning.shapes import polygon

    shapes: dict[str, list[tuple[tuple[float, ...], BaseGeometry]]] = {}
    for band in plan.bands:
        for r in band.rings:
            shapes.setdefault(r.wall, []).append((box(r.ring), polygon(r.ring)))
    return shapes


def _is_covered(screw: Fastener, shapes: dict[str, list[tuple[tuple[float, ...], BaseGeometry]]]) -> bool:
    """True where one piece holds the whole washer, within 0.01 mm."""
    from shapely import Point

    (u, v), radius = screw.point, screw.washer_diameter / 2 - TOUCH
    near = [s for b, s in shapes.get(screw.wall, []) if b[0] <= u <= b[2] and b[1] <= v <= b[3]]
    spot = Point(u, v)
    return any(shape.contains(spot) and shape.boundary.distance(spot) >= radius for shape in near)
