"""LibreCAD (Debian's package, without a screen) as a reader of DXF, and the lines of any PDF in millimetres."""

from __future__ import annotations

import ctypes
import os
import subprocess
from pathlib import Path

import ezdxf
import pypdfium2
import pypdfium2.raw as raw
import shapely

from tests.readers.programs import polylines

MM = 25.4 / 72
"""mm in one point of a PDF."""


def printed(data: bytes, folder: Path, *options: str) -> Path:
    """LibreCAD's print of a DXF file as PDF, black on white, at the scale and on the paper that the file asks for."""
    file = folder / "drawing.dxf"
    file.write_bytes(data)
    home = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    command = ["librecad", "dxf2pdf", "-m", *options, file.name]
    subprocess.run(command, cwd=folder, env=home, check=True, capture_output=True, timeout=120)
    return file.with_suffix(".pdf")


def bare(data: bytes, folder: Path) -> bytes:
    """The same file with full lines, without writing, hatches, dimensions, layouts: LibreCAD draws them its own way."""
    file = folder / "whole.dxf"
    file.write_bytes(data)
    document = ezdxf.readfile(file)
    for layer in document.layers:
        layer.dxf.linetype = "Continuous"
    model = document.modelspace()
    for entity in list(model.query("TEXT MTEXT DIMENSION HATCH")):
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
    """Everything that is stroked on the first page, mm from its lower left; no fills, no writing."""
    page = pypdfium2.PdfDocument(pdf)[0]
    found: list[list[tuple[float, float]]] = []
    for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        mode, stroked = ctypes.c_int(), ctypes.c_int()
        raw.FPDFPath_GetDrawMode(thing.raw, mode, stroked)
        if stroked.value:
            found += [[(x * MM, y * MM) for x, y in line] for line in polylines(thing)]
    return shapely.MultiLineString([line for line in found if len(set(line)) > 1])
