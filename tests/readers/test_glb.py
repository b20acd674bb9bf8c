"""The GLB file as an independent reader (trimesh) sees it, and the bytes against the specification.

glTF 2.0 (Khronos Group; ISO/IEC 12113): 12-byte header, JSON chunk, binary chunk; metres, y up, right-handed.
"""

from __future__ import annotations

import io
import json
import struct
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
import trimesh

from generator.model.geometry import area
from generator.model.job import Job
from generator.model.plan import Board
from generator.solids.mesh import meshes
from generator.writers.glb import glb_bytes
from tests.solids.bodies_of import worked_bodies
from tests.worked_plan import worked_plan, worked_room

INCH = 0.0254


@cache
def _job() -> Job:
    return Job(worked_room(), worked_plan(), (), frozenset(), {}, {}, meshes(worked_bodies()))


@cache
def _scene() -> Any:
    return trimesh.load(io.BytesIO(glb_bytes(_job())), file_type="glb")


def _placed(name: str) -> Any:
    transform, geometry = _scene().graph[name]
    return _scene().geometry[geometry].copy().apply_transform(transform)


def _chunks(data: bytes) -> list[tuple[bytes, bytes]]:
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    found, at = [], 12
    while at < len(data):
        size, kind = struct.unpack_from("<I4s", data, at)
        assert size % 4 == 0
        found.append((kind, data[at + 8 : at + 8 + size]))
        at += 8 + size
    return found


def _volume(board: Board) -> float:
    """m3 by the plan's rings alone."""
    holes = sum(abs(area(o.ring)) if o.ring else o.diameter**2 * 0.7853981634 for o in board.openings)
    pockets = sum(abs(area(r.ring)) * r.depth for r in board.rabbets)
    return ((abs(area(board.outline)) - holes) * board.thickness - pockets) / 1e9


def test_every_body_is_a_node_of_its_name() -> None:
    plan = worked_plan()
    wanted = {b.id for b in plan.boards} | {s.id for s in plan.supports} | {"base"} | {f.id for f in plan.fittings}
    assert set(_scene().graph.nodes_geometry) == wanted


@pytest.mark.parametrize("board", worked_plan().boards, ids=lambda b: b.id)
def test_boards_have_the_plans_volume_and_are_closed(board: Board) -> None:
    mesh = _placed(board.id)
    assert mesh.is_watertight
    assert mesh.volume == pytest.approx(_volume(board), rel=1e-3)


def test_the_room_stands_upright_in_metres() -> None:
    """Worked room: 60 1/4 in between the end walls' studs, boards up to 95 7/8 in, on the back wall's own plane."""
    low, high = _placed("B-back-1").bounds
    assert (low[1], high[1]) == pytest.approx((18.75 * INCH, 95.875 * INCH), abs=1e-6)
    assert (low[0], high[0]) == pytest.approx((0.125 * INCH, 31 * INCH), abs=1e-6)
    assert (low[2], high[2]) == pytest.approx((0.0, 0.5 * INCH), abs=1e-6)
    left, right = _placed("B-left-1").bounds, _placed("B-right-1").bounds
    assert right[1][0] - left[0][0] == pytest.approx(60.25 * INCH, abs=1e-6)


def test_every_mesh_is_closed_and_turned_outwards() -> None:
    for name in _scene().graph.nodes_geometry:
        mesh = _placed(name)
        assert mesh.is_watertight and mesh.volume > 0, name


def test_the_file_is_made_of_two_chunks_whose_numbers_agree() -> None:
    """Bounds of every accessor are those of its own numbers, as the specification demands."""
    (kind, text), (binary, data) = _chunks(glb_bytes(_job()))
    assert (kind, binary) == (b"JSON", b"BIN\0")
    content = json.loads(text)
    assert content["asset"]["version"] == "2.0"
    assert len(data) - content["buffers"][0]["byteLength"] in range(4)
    ends = [0, 0]
    for accessor in content["accessors"]:
        view = content["bufferViews"][accessor["bufferView"]]
        start = view.get("byteOffset", 0) + accessor["byteOffset"]
        size = 3 if accessor["type"] == "VEC3" else 1
        code = "f" if accessor["componentType"] == 5126 else "I"
        numbers = struct.unpack_from(f"<{size * accessor['count']}{code}", data, start)
        if size == 3:
            assert [min(numbers[i::3]) for i in range(3)] == accessor["min"]
            assert [max(numbers[i::3]) for i in range(3)] == accessor["max"]
        assert accessor["byteOffset"] == ends[accessor["bufferView"]]
        ends[accessor["bufferView"]] += 4 * len(numbers)
    assert ends == [view["byteLength"] for view in content["bufferViews"]]


def test_what_is_to_be_added_has_a_material_of_its_own() -> None:
    job = _job()
    stud = replace(job.plan.supports[0], origin="added")
    plan = replace(job.plan, supports=(stud, *job.plan.supports[1:]))
    content = json.loads(_chunks(glb_bytes(replace(job, plan=plan)))[0][1])
    names = [material["name"] for material in content["materials"]]
    looks = {m["name"]: names[m["primitives"][0]["material"]] for m in content["meshes"]}
    assert [name for name, look in looks.items() if look == "framing to add"] == [stud.id]
    assert looks["B-back-1"] == "board" and looks["base"] == "base"


def test_the_same_room_gives_the_same_bytes() -> None:
    again = replace(_job(), meshes=meshes(worked_bodies()))
    assert glb_bytes(again) == glb_bytes(_job())
