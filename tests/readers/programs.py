"""Programs that read our files and share no code with us, and what each of them says it has read."""

from __future__ import annotations

import ctypes
import json
import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

FREECAD = """
import json, FreeCAD, Import, Part
found = {{}}
for path in {dxf}:
    document = FreeCAD.newDocument("part")
    Import.readDXF(path, "part")
    shapes = [o.Shape for o in document.Objects if hasattr(o, "Shape") and o.Shape.Edges]
    boxes = [s.optimalBoundingBox() for s in shapes]
    low, high = [min(b.XMin for b in boxes), min(b.YMin for b in boxes)], [max(b.XMax for b in boxes)]
    found[path] = [[*low, *high, max(b.YMax for b in boxes)], sum(e.Length for s in shapes for e in s.Edges)]
    FreeCAD.closeDocument("part")
for path in {step}:
    shape = Part.Shape()
    shape.read(path)
    found[path] = [s.Volume for s in shape.Solids]
print("FOUND" + json.dumps(found))
"""


def needs(tool: str) -> pytest.MarkDecorator:
    """Skips a test where its program is not installed; never in CI, where a missing program must not hide."""
    missing = shutil.which(tool) is None and not os.environ.get("CI")
    return pytest.mark.skipif(missing, reason=f"{tool} is not installed")


def freecad(folder: Path, dxf: Sequence[Path], step: Sequence[Path]) -> dict[str, Any]:
    """By path: of a DXF its box and the length of all its edges (mm), of a STEP the volume of each solid."""
    script = folder / "read.py"
    script.write_text(FREECAD.format(dxf=[str(p) for p in dxf], step=[str(p) for p in step]))
    done = subprocess.run(
        ["freecadcmd", str(script)],
        capture_output=True,
        text=True,
        timeout=300,
        stdin=subprocess.DEVNULL,
        env={"HOME": str(folder)},
        check=True,
    )
    found: dict[str, Any] = json.loads(done.stdout.rpartition("FOUND")[2].splitlines()[0])
    return found


def drawn_lines(pdf: Path, without: set[tuple[int, int, int]]) -> list[list[tuple[float, float]]]:
    """Polylines of the first page in points, curves in sixteen pieces, but for those in these colours."""
    page = pypdfium2.PdfDocument(pdf)[0]
    items = page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH])
    return [line for item in items if _colour(item) not in without for line in polylines(item)]


def _colour(item: Any) -> tuple[int, int, int]:
    r, g, b, a = (ctypes.c_uint() for _ in range(4))
    pdfium.FPDFPageObj_GetStrokeColor(item.raw, r, g, b, a)
    return r.value, g.value, b.value


def polylines(item: Any) -> list[list[tuple[float, float]]]:
    """Of one path of a page, in points, curves in sixteen pieces."""
    matrix, lines = item.get_matrix(), list[list[tuple[float, float]]]()
    curve: list[tuple[float, float]] = []
    for i in range(pdfium.FPDFPath_CountSegments(item.raw)):
        segment, x, y = pdfium.FPDFPath_GetPathSegment(item.raw, i), ctypes.c_float(), ctypes.c_float()
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        at, kind = matrix.on_point(x.value, y.value), pdfium.FPDFPathSegment_GetType(segment)
        if kind == pdfium.FPDF_SEGMENT_MOVETO:
            lines.append([at])
        elif kind == pdfium.FPDF_SEGMENT_LINETO:
            lines[-1].append(at)
        else:
            curve.append(at)
            if len(curve) == 3:
                lines[-1] += _bezier(lines[-1][-1], *curve)
                curve = []
        if pdfium.FPDFPathSegment_GetClose(segment):
            lines[-1].append(lines[-1][0])
    return lines


def _bezier(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> list[tuple[float, float]]:
    shares = [i / 16 for i in range(1, 17)]
    weights = [((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3) for t in shares]
    return [
        (
            sum(w * p[0] for w, p in zip(ws, (a, b, c, d), strict=True)),
            sum(w * p[1] for w, p in zip(ws, (a, b, c, d), strict=True)),
        )
        for ws in weights
    ]
