"""A small reader of STEP files that knows nothing of any modelling kernel: volumes and plane faces of flat solids.

It reads the text into entities and sums p . n dA / 3 over the faces of each named solid. Faces are planes bounded by
straight edges and whole circles, and round holes whose axis is at right angles to both their ends: all that boards and
studs have. Written from the entity definitions of ISO 10303-42.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

Vec = tuple[float, float, float]
ENTITY = re.compile(r"#(\d+)\s*=\s*([A-Z_0-9]+)\s*\((.*?)\)\s*;", re.DOTALL)
TOKEN = re.compile(r"#\d+|'(?:[^']|'')*'|\.[A-Z_]+\.|[-+]?\d[\d.]*(?:E[-+]?\d+)?")


@dataclass(frozen=True)
class Entity:
    name: str
    values: tuple[str, ...]
    refs: tuple[str, ...]


@dataclass(frozen=True)
class Loop:
    """Corners of a loop of straight edges, or a whole circle (`radius` > 0)."""

    points: tuple[Vec, ...]
    radius: float


@dataclass(frozen=True)
class PlaneFace:
    normal: Vec
    """Out of the solid."""
    offset: float
    """Distance of the plane from the origin along the normal."""


@dataclass(frozen=True)
class FlatSolid:
    name: str
    volume: float
    planes: tuple[PlaneFace, ...]


def read_entities(data: bytes) -> dict[str, Entity]:
    """Entities by reference (`#12`); complex ones are left out."""
    text = data.decode("ascii").partition("DATA;")[2]
    found = {}
    for number, name, body in ENTITY.findall(text):
        tokens = tuple(TOKEN.findall(body))
        found[f"#{number}"] = Entity(name, tokens, tuple(t for t in tokens if t.startswith("#")))
    return found


def flat_solids(data: bytes, names: frozenset[str]) -> dict[str, FlatSolid]:
    """The solids of these names."""
    entities = read_entities(data)
    solids = [e for e in entities.values() if e.name == "MANIFOLD_SOLID_BREP" and e.values[0].strip("'") in names]
    return {s.values[0].strip("'"): _solid(entities, s) for s in solids}


def _solid(entities: dict[str, Entity], solid: Entity) -> FlatSolid:
    shell = entities[solid.refs[0]]
    faces = [entities[r] for r in shell.refs]
    plane_faces = [f for f in faces if entities[f.refs[-1]].name == "PLANE"]
    parts = [_plane(entities, f) for f in plane_faces]
    volume = sum(area * p.offset / 3 for p, area in parts)
    volume += sum(_cylinder(entities, f) for f in faces if entities[f.refs[-1]].name == "CYLINDRICAL_SURFACE")
    kinds = {entities[f.refs[-1]].name for f in faces}
    assert kinds <= {"PLANE", "CYLINDRICAL_SURFACE"}, kinds
    return FlatSolid(solid.values[0].strip("'"), volume, tuple(p for p, _ in parts))


def _triple(entities: dict[str, Entity], ref: str) -> Vec:
    x, y, z = (float(v) for v in entities[ref].values[-3:])
    return x, y, z


def _placement(entities: dict[str, Entity], ref: str) -> tuple[Vec, Vec]:
    """Origin and axis of an AXIS2_PLACEMENT_3D."""
    place = entities[ref]
    return _triple(entities, place.refs[0]), _triple(entities, place.refs[1])


def _same_sense(face: Entity) -> float:
    return 1.0 if face.values[-1] == ".T." else -1.0


def _plane(entities: dict[str, Entity], face: Entity) -> tuple[PlaneFace, float]:
    """The face's plane, and its area: the largest loop less the others."""
    origin, axis = _placement(entities, entities[face.refs[-1]].refs[0])
    x, y, z = (a * _same_sense(face) for a in axis)
    areas = sorted((_area(_loop(entities, bound), (x, y, z)) for bound in face.refs[:-1]), reverse=True)
    return PlaneFace((x, y, z), _dot(origin, (x, y, z))), areas[0] - sum(areas[1:])


def _loop(entities: dict[str, Entity], bound: str) -> Loop:
    loop = entities[entities[bound].refs[0]]
    points, radius = [], 0.0
    for oriented in (entities[r] for r in loop.refs):
        edge = entities[oriented.refs[-1]]
        curve = _space_curve(entities, edge.refs[2])
        ends = edge.refs[:2] if oriented.values[-1] == ".T." else edge.refs[1::-1]
        if curve.name == "CIRCLE":
            assert ends[0] == ends[1], "only whole circles"
            radius = float(curve.values[-1])
        points.append(_triple(entities, entities[ends[0]].refs[0]))
    return Loop(tuple(points), radius)


def _space_curve(entities: dict[str, Entity], ref: str) -> Entity:
    """The curve itself where it comes with its images on the faces."""
    curve = entities[ref]
    return entities[curve.refs[0]] if curve.name in ("SURFACE_CURVE", "SEAM_CURVE") else curve


def _area(loop: Loop, normal: Vec) -> float:
    if loop.radius:
        return math.pi * loop.radius**2
    total = (0.0, 0.0, 0.0)
    for p, q in zip(loop.points, (*loop.points[1:], loop.points[0]), strict=True):
        c = (p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0])
        total = (total[0] + c[0], total[1] + c[1], total[2] + c[2])
    return abs(_dot(total, normal)) / 2


def _cylinder(entities: dict[str, Entity], face: Entity) -> float:
    """Share of the volume of a full round hole (or pin): + - 2 pi r2 h / 3."""
    surface = entities[face.refs[-1]]
    _, axis = _placement(entities, surface.refs[0])
    heights = [_dot(p, axis) for bound in face.refs[:-1] for p in _loop_points(entities, bound)]
    radius = float(surface.values[-1])
    return _same_sense(face) * 2 * math.pi * radius**2 * (max(heights) - min(heights)) / 3


def _loop_points(entities: dict[str, Entity], bound: str) -> list[Vec]:
    edges = [entities[entities[r].refs[-1]] for r in entities[entities[bound].refs[0]].refs]
    return [_triple(entities, entities[v].refs[0]) for edge in edges for v in edge.refs[:2]]


def _dot(a: Vec, b: Vec) -> float:
    return sum(p * q for p, q in zip(a, b, strict=True))
