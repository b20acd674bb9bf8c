"""LibreCAD (Debian's package, without a screen) as a reader of DXF, and the lines of any PDF in millimetres."""

from __future__ import annotations

import ctypes
import os
import subprocess
from collections.abc import Sequence
from pathlib import Path

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
    _run(folder, "-m", *options, file.name)
    return file.with_suffix(".pdf")


def printed_all(files: Sequence[Path], folder: Path) -> list[Path]:
    """The same of many files in `folder`, in one run of the program."""
    _run(folder, "-m", *(file.name for file in files))
    return [file.with_suffix(".pdf") for file in files]


def fitted_all(files: Sequence[Path], folder: Path) -> list[Path]:
    """Prints in `folder`, in colour, fitted to a sheet so large that the rounding (1/1200 in) is small.

    It takes the sides of the sheet in the unit of the drawing.
    """
    _run(folder, "-a", "-p", "1189x841", "-t", str(folder), *map(str, files))
    return [folder / f"{file.stem}.pdf" for file in files]


def _run(folder: Path, *words: str) -> None:
    home = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    command = ["librecad", "dxf2pdf", *words]
    subprocess.run(command, cwd=folder, env=home, check=True, capture_output=True, timeout=300)


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
