"""Which body a camera sees at a point of its paper, and how light it is there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.solids.camera import Camera
from generator.solids.records import Body

if TYPE_CHECKING:
    from numpy import float64, int64
    from numpy.typing import NDArray

MESH = 0.5
"""mm: greatest distance of the mesh from a curved face; only colours hang on it."""
LIGHT = (-0.45, 0.5, 0.74)
"""Direction towards the light on the paper: from the left, from above, from the eye's side."""
DARKEST = 0.5
"""Shade of a face that looks straight away from the light."""


@dataclass(frozen=True, slots=True)
class Seen:
    """Index of the body and its shade there, 0 dark to 1 light."""

    body: int
    shade: float


@dataclass(frozen=True, slots=True)
class Surface:
    """All bodies as triangles on the paper: corners (n, 3 corners, x y z), shade and body of each."""

    corners: NDArray[float64]
    shades: NDArray[float64]
    owners: NDArray[int64]

    @staticmethod
    def of(bodies: tuple[Body, ...], camera: Camera) -> Surface:
        """Meshes copies, so that the bodies stay as they are."""
        import numpy as np

        meshes = [_triangles(body.shape.copy()) for body in bodies]
        room = np.concatenate(meshes)
        frame = np.array([camera.right, camera.up, camera.back])
        corners = (room - np.array(camera.target)) @ frame.T
        owners = np.repeat(np.arange(len(meshes)), [len(m) for m in meshes])
        flat, shades = _lit(corners)
        return Surface(corners[flat], shades[flat], owners[flat])

    def seen_at(self, x: float, y: float) -> Seen | None:
        """The nearest body to the eye on the ray through a point of the paper; None for the background."""
        import numpy as np

        weights = _weights(self.corners, x, y)
        inside = np.flatnonzero((weights > -1e-9).all(axis=1))
        if not len(inside):
            return None
        depths = (weights[inside] * self.corners[inside, :, 2]).sum(axis=1)
        nearest = inside[np.argmax(depths)]
        return Seen(int(self.owners[nearest]), float(self.shades[nearest]))


def _triangles(shape: Any) -> NDArray[float64]:
    import numpy as np

    vertices, triangles = shape.tessellate(MESH, 0.3)
    points = np.array([v.toTuple() for v in vertices])
    return np.asarray(points[np.array(triangles)], dtype=np.float64)


def _lit(corners: NDArray[float64]) -> tuple[NDArray[Any], NDArray[float64]]:
    """(which triangles the eye can see at all, shade of each by its slope to the light)."""
    import numpy as np

    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(cross, axis=1)
    flat = np.abs(cross[:, 2]) > 1e-6 * np.maximum(length, 1e-9)
    normals = cross / np.maximum(length, 1e-12)[:, None] * np.sign(cross[:, 2:3])
    light = np.array(LIGHT) / np.linalg.norm(LIGHT)
    return flat, np.round(DARKEST + (1.0 - DARKEST) * (normals @ light + 1.0) / 2.0, 3)


def _weights(corners: NDArray[float64], x: float, y: float) -> NDArray[float64]:
    """Barycentric coordinates of the point in each triangle."""
    import numpy as np

    (ax, ay), (bx, by), (cx, cy) = (corners[:, i, :2].T for i in range(3))
    whole = (by - cy) * (ax - cx) + (cx - bx) * (ay - cy)
    a = ((by - cy) * (x - cx) + (cx - bx) * (y - cy)) / whole
    b = ((cy - ay) * (x - cx) + (ax - cx) * (y - cy)) / whole
    return np.stack([a, b, 1.0 - a - b], axis=1)
