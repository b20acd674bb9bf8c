"""The room's bodies as binary glTF 2.0 (Khronos; ISO/IEC 12113): metres, y up, one named node for each body.

Normals are left out: a viewer then shades every face flat, as the specification demands of it.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from generator.model.frames import Vector
from generator.model.job import Job, Mesh

Json = dict[str, object]
MAGIC, VERSION = b"glTF", 2
FLOAT, UNSIGNED = 5126, 5125
"""Component types of the specification: 32-bit floats and unsigned integers."""
VERTICES, INDICES = 34962, 34963
"""Targets of buffer views in the specification."""


@dataclass(frozen=True, slots=True)
class Look:
    """Colour (linear red, green, blue), how metallic and how rough, 0 to 1."""

    colour: tuple[float, float, float]
    metallic: float = 0.0
    roughness: float = 0.9


LOOKS: Mapping[str, Look] = MappingProxyType(
    {
        "board": Look((0.50, 0.60, 0.58)),
        "framing": Look((0.62, 0.44, 0.24)),
        "framing to add": Look((0.80, 0.22, 0.06)),
        "base": Look((0.86, 0.87, 0.88), roughness=0.4),
        "pipework": Look((0.60, 0.32, 0.20), metallic=0.7, roughness=0.4),
    }
)
"""The materials by name; what is to be added stands out."""
KINDS: Mapping[str, str] = MappingProxyType({"board": "board", "base": "base", "pipe": "pipework", "valve": "pipework"})


def glb_bytes(job: Job) -> bytes:
    """One GLB of the job's meshes: a node named after the room, below it one for each body, named by its id."""
    points = b"".join(_packed_points(mesh) for mesh in job.meshes)
    corners = b"".join(
        struct.pack(f"<{3 * len(m.triangles)}I", *(i for t in m.triangles for i in t)) for m in job.meshes
    )
    content = json.dumps(_content(job, len(points), len(corners)), ensure_ascii=False, separators=(",", ":"))
    chunks = _chunk(b"JSON", content.encode(), b" ") + _chunk(b"BIN\0", points + corners, b"\0")
    return struct.pack("<4sII", MAGIC, VERSION, 12 + len(chunks)) + chunks


def _chunk(kind: bytes, data: bytes, pad: bytes) -> bytes:
    """Length and kind before the data, which ends on a multiple of four bytes."""
    full = data + pad * (-len(data) % 4)
    return struct.pack("<I4s", len(full), kind) + full


def _content(job: Job, points: int, corners: int) -> Json:
    names = tuple(LOOKS)
    added = {support.id for support in job.plan.supports if support.origin == "added"}
    count = len(job.meshes)
    children = [{"name": mesh.part, "mesh": i, "extras": {"kind": mesh.kind}} for i, mesh in enumerate(job.meshes)]
    views = (
        {"buffer": 0, "byteLength": points, "target": VERTICES},
        {"buffer": 0, "byteOffset": points, "byteLength": corners, "target": INDICES},
    )
    return {
        "asset": {"version": "2.0", "generator": "boardwright"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"name": job.room.name, "children": list(range(1, count + 1))}, *children],
        "meshes": [_mesh(mesh, i, names.index(_look(mesh, added))) for i, mesh in enumerate(job.meshes)],
        "materials": [_material(name, look) for name, look in LOOKS.items()],
        "accessors": _accessors(job.meshes),
        "bufferViews": views,
        "buffers": [{"byteLength": points + corners}],
    }


def _look(mesh: Mesh, added: set[str]) -> str:
    return KINDS.get(mesh.kind, "framing to add" if mesh.part in added else "framing")


def _mesh(mesh: Mesh, number: int, material: int) -> Json:
    primitive = {"attributes": {"POSITION": 2 * number}, "indices": 2 * number + 1, "material": material}
    return {"name": mesh.part, "primitives": [primitive]}


def _material(name: str, look: Look) -> Json:
    surface = {
        "baseColorFactor": [*look.colour, 1.0],
        "metallicFactor": look.metallic,
        "roughnessFactor": look.roughness,
    }
    return {"name": name, "pbrMetallicRoughness": surface}


def _accessors(meshes: tuple[Mesh, ...]) -> list[Json]:
    """Two for each mesh, its points and its corners, one mesh behind the other in the two views."""
    found: list[Json] = []
    at = [0, 0]
    for mesh in meshes:
        numbers = struct.unpack(f"<{3 * len(mesh.points)}f", _packed_points(mesh))
        axes = [numbers[i::3] for i in range(3)]
        points: Json = {"bufferView": 0, "byteOffset": at[0], "componentType": FLOAT, "count": len(mesh.points)}
        corners: Json = {"bufferView": 1, "byteOffset": at[1], "componentType": UNSIGNED}
        found.append({**points, "type": "VEC3", "min": [min(a) for a in axes], "max": [max(a) for a in axes]})
        found.append({**corners, "count": 3 * len(mesh.triangles), "type": "SCALAR"})
        at = [at[0] + 12 * len(mesh.points), at[1] + 12 * len(mesh.triangles)]
    return found


def _packed_points(mesh: Mesh) -> bytes:
    return struct.pack(f"<{3 * len(mesh.points)}f", *(x for point in mesh.points for x in _metres(point)))


def _packed_corners(mesh: Mesh) -> bytes:
    return struct.pack(f"<{3 * len(mesh.triangles)}I", *(i for triangle in mesh.triangles for i in triangle))


def _metres(point: Vector) -> Vector:
    """From the room's frame (z up, mm) to glTF's (y up, metres): turned by a quarter about x."""
    x, y, z = point
    return (x / 1000.0, z / 1000.0, -y / 1000.0 + 0.0)
