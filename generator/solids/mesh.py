"""Bodies as triangles, for pictures that can be turned."""

from __future__ import annotations

from generator.model.frames import Vector
from generator.model.geometry import tidy
from generator.model.job import Mesh
from generator.solids.records import Bodies, Body

DISTANCE = 0.25
"""mm: greatest distance of the mesh from a curved face."""
ANGLE = 0.2
"""Radians that a curved face turns between two neighbouring triangles at most."""


def meshes(bodies: Bodies) -> tuple[Mesh, ...]:
    """A closed mesh for every body, in order. Meshes copies, so that the bodies stay as they are."""
    return tuple(_mesh(body) for body in bodies.parts)


def _mesh(body: Body) -> Mesh:
    """The kernel meshes face by face; points that faces share become one."""
    corners, triangles = body.shape.copy().tessellate(DISTANCE, ANGLE)
    numbers: dict[Vector, int] = {}
    own = [numbers.setdefault((tidy(c.x), tidy(c.y), tidy(c.z)), len(numbers)) for c in corners]
    shared = ((own[a], own[b], own[c]) for a, b, c in triangles)
    return Mesh(body.id, body.kind, tuple(numbers), tuple(t for t in shared if len(set(t)) == 3))
