"""LibreCAD (Debian's package, without a screen) as a reader of DXF, and the lines of any PDF in millimetres."""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path

import ezdxf
import pypdfium2
import pypdfium2.raw as raw
import pytest
import shapely

MM = 25.4 / 72
"""mm in one point of a PDF."""
_CURVE = 16
Segment = tuple[tuple[float, float], tuple[float, float]]

needed = pytest.mark.skipif(shutil.which("librecad") is None, reason="needs Debian's librecad")


def printed(data: bytes, folder: Path, *options: str) -> Path:
    """LibreCAD's print of a DXF file as PDF, black on white, at the scale and on the paper that the file asks for."""
    file = folder / "drawing.dxf"
    file.write_bytes(data)
    home = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    command = ["librecad", "dxf2pdf", "-m", *options, file.name]
    subprocess.run(command, cwd=folder, env=home, check=True, capture_output=True, timeout=120)
    return file.with_suffix(".pdf")


def bare(data: bytes, folder: Path) -> bytes:
    """The same file with full lines and without writing, dimensions and layouts, which LibreCAD draws its own way."""
    file = folder / "whole.dxf"
    file.write_bytes(data)
    document = ezdxf.readfile(file)
    for layer in document.layers:
        layer.dxf.linetype = "Continuous"
    model = document.modelspace()
    for entity in list(model.query("TEXT MTEXT DIMENSION")):
        model.delete_entity(entity)
    for name in document.layouts.names_in_taborder()[1:]:
        document.layout(name).delete_all_entities()
    document.saveas(file)
    return file.read_bytes()


def page_size(pdf: Path) -> tuple[float, float]:
    """Of the first page, mm."""
    width, height = pypdfium2.PdfDocument(pdf)[0].get_size()
    return (width * MM, height * MM)


def lines_of(pdf: Path | bytes) -> shapely.MultiLineString:
    """Everything that is stroked on the first page, curves flattened, mm from its lower left; no fills, no writing."""
    page = pypdfium2.PdfDocument(pdf)[0]
    found: list[Segment] = []
    for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        mode, stroked = ctypes.c_int(), ctypes.c_int()
        raw.FPDFPath_GetDrawMode(thing.raw, mode, stroked)
        if stroked.value:
            turn = thing.get_matrix()
            found += [(_mm(turn.on_point(*a)), _mm(turn.on_point(*b))) for a, b in _segments(thing.raw)]
    return shapely.MultiLineString([s for s in found if s[0] != s[1]])


def _mm(point: tuple[float, float]) -> tuple[float, float]:
    return (point[0] * MM, point[1] * MM)


def _segments(path: object) -> list[Segment]:
    found: list[Segment] = []
    start = at = (0.0, 0.0)
    curve: list[tuple[float, float]] = []
    for i in range(raw.FPDFPath_CountSegments(path)):
        piece = raw.FPDFPath_GetPathSegment(path, i)
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(piece, x, y)
        to, kind = (x.value, y.value), raw.FPDFPathSegment_GetType(piece)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            start = at = to
        elif kind == raw.FPDF_SEGMENT_LINETO:
            found.append((at, to))
            at = to
        else:
            curve.append(to)
            if len(curve) == 3:
                found += pairwise(_bezier(at, *curve))
                at, curve = to, []
        if raw.FPDFPathSegment_GetClose(piece):
            found.append((at, start))
            at = start
    return found


def _bezier(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> list[tuple[float, float]]:
    def at(t: float, k: int) -> float:
        s = 1 - t
        return s**3 * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t**3 * d[k]

    return [(at(i / _CURVE, 0), at(i / _CURVE, 1)) for i in range(_CURVE + 1)]
