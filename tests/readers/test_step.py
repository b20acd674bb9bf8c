"""The STEP file read back: by a reader of its bare text, by the kernel's reader, by FreeCAD where it is installed."""

from __future__ import annotations

import json
import math
import os
import shutil
import subprocess
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from generator.model.geometry import area
from generator.model.plan import Board
from generator.solids import step_bytes
from tests.readers.step_text import flat_solids
from tests.solids.bodies_of import worked_bodies
from tests.worked_plan import worked_plan

FREECAD = """
import json, Part
shape = Part.Shape()
shape.read("{path}")
print("VOLUMES" + json.dumps([s.Volume for s in shape.Solids]))
"""


def predicted(board: Board) -> float:
    """Area x thickness, less openings, rabbets; nips are in the outline. From the plan's numbers alone."""
    holes = sum(math.pi / 4 * o.diameter**2 for o in board.openings)
    return (area(board.outline) - holes) * board.thickness - sum(area(r.ring) * r.depth for r in board.rabbets)


def wanted() -> dict[str, float]:
    """Volume of every board and support, by id."""
    plan = worked_plan()
    supports = {s.id: area(s.outline) * s.depth for s in plan.supports}
    return {**{b.id: predicted(b) for b in plan.boards}, **supports}


@cache
def step() -> bytes:
    return step_bytes(worked_bodies())


def by_text() -> dict[str, float]:
    return {name: solid.volume for name, solid in flat_solids(step(), frozenset(wanted())).items()}


def by_kernel() -> dict[str, float]:
    """The part names and volumes that a reader of assemblies finds, all rooms' parts below one root."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDF import TDF_LabelSequence
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

    document = TDocStd_Document(TCollection_ExtendedString("read"))
    reader = STEPCAFControl_Reader()
    with TemporaryDirectory() as folder:
        path = Path(folder) / "room.step"
        path.write_bytes(step())
        reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    roots, parts = TDF_LabelSequence(), TDF_LabelSequence()
    tool.GetFreeShapes(roots)
    assert roots.Length() == 1
    XCAFDoc_ShapeTool.GetComponents_s(roots.Value(1), parts)
    found = {}
    for i in range(1, parts.Length() + 1):
        name, mass = TDataStd_Name(), GProp_GProps()
        parts.Value(i).FindAttribute(TDataStd_Name.GetID_s(), name)
        BRepGProp.VolumeProperties_s(XCAFDoc_ShapeTool.GetShape_s(parts.Value(i)), mass)
        found[name.Get().ToExtString()] = mass.Mass()
    return found


def by_freecad() -> dict[str, float]:
    """FreeCAD's volumes in the order of the file; it keeps no names without its windows."""
    with TemporaryDirectory() as folder:
        path, script = Path(folder) / "room.step", Path(folder) / "read.py"
        path.write_bytes(step())
        script.write_text(FREECAD.format(path=path))
        command = ["freecadcmd", str(script)]
        run = subprocess.run(
            command, capture_output=True, text=True, timeout=120, stdin=subprocess.DEVNULL, env={"HOME": folder}
        )
    volumes = json.loads(run.stdout.rpartition("VOLUMES")[2].splitlines()[0])
    return dict(zip((b.id for b in worked_bodies().parts), volumes, strict=True))


READERS: list[Callable[[], dict[str, float]]] = [by_text, by_kernel]
if shutil.which("freecadcmd") or os.environ.get("CI"):  # in CI a missing tool must not hide
    READERS.append(by_freecad)


@pytest.mark.parametrize("read", READERS, ids=lambda r: r.__name__)
def test_volumes_read_back_are_those_of_the_plan(read: Callable[[], dict[str, float]]) -> None:
    found = read()
    for name, volume in wanted().items():
        assert found[name] == pytest.approx(volume, rel=1e-6), name


def test_names_read_back_are_the_ids_of_the_plan() -> None:
    plan = worked_plan()
    ids = [*(b.id for b in plan.boards), *(s.id for s in plan.supports), "base", *(f.id for f in plan.fittings)]
    assert list(by_kernel()) == ids


@pytest.mark.parametrize("board", [b for b in worked_plan().boards if b.rabbets], ids=lambda b: b.id)
def test_rabbet_depth_by_its_faces(board: Board) -> None:
    """Parallel planes along the wall's w in the file's own text: back, rabbet floor, front."""
    wall = worked_plan().wall(board.wall)
    solid = flat_solids(step(), frozenset({board.id}))[board.id]
    toward = [(p, sum(a * b for a, b in zip(p.normal, wall.w_axis, strict=True))) for p in solid.planes]
    start = sum(o * w for o, w in zip(wall.origin, wall.w_axis, strict=True))
    levels = sorted(p.offset * k - start for p, k in toward if abs(k) > 0.999)
    assert levels == pytest.approx([0.0, board.rabbets[0].depth, board.thickness], abs=0.01)
