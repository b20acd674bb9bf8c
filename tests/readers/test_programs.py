"""Every file of every example room as others open it: LibreCAD, FreeCAD, GDAL, ezdxf, qpdf, pdfium."""

from __future__ import annotations

import json
import math
import re
import subprocess
from fractions import Fraction
from pathlib import Path
from typing import Any

import ezdxf
import ezdxf.path
import pyogrio.raw
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import shapely
import shapely.affinity

from generator.drafting.layers import layers
from tests.example_rooms import NAMES, files
from tests.readers.bare_dxf import bare
from tests.readers.librecad import fitted_all
from tests.readers.programs import drawn_lines, freecad, needs, polylines

APART = 0.3
"""mm of the real thing: how far a print may be off."""
UNIT = {1: 25.4, 4: 1.0}
"""mm, by $INSUNITS."""
WRITING = {(0, 255, 0), (0, 255, 255)}
"""Colours of the layers that carry writing, which LibreCAD draws as strokes: mark and datum."""
PT = 72 / 25.4


@pytest.fixture(scope="module", params=NAMES)
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a build."""
    out = tmp_path_factory.mktemp("build") / str(request.param)
    for path, data in files(request.param)[0].items():
        (out / path).parent.mkdir(parents=True, exist_ok=True)
        (out / path).write_bytes(data)
    return out


def _plan(built: Path) -> dict[str, Any]:
    plan: dict[str, Any] = json.loads((built / "plan.json").read_bytes())
    return plan


def _flat_files(built: Path, folder: Path) -> list[Path]:
    """Parts, nested sheets, and templates, those with full lines for dashed ones."""
    for file in sorted((built / "templates").glob("*.dxf")):
        (folder / file.name).write_bytes(bare(file.read_bytes()))
    folders = (built / "parts", built / "sheets", folder)
    return [file for one in folders for file in sorted(one.glob("*.dxf"))]


def _geometry(file: Path, without: set[str]) -> shapely.MultiLineString:
    """What a DXF draws in model space but for layers of writing, in mm, circles in chords of 0.01 mm."""
    document = ezdxf.readfile(file)
    unit = UNIT[document.units]
    entities = [e for e in document.modelspace() if e.dxf.layer not in without]
    paths = [ezdxf.path.make_path(e) for e in entities]
    lines = [[(p.x * unit, p.y * unit) for p in path.flattening(0.01 / unit)] for path in paths]
    return shapely.MultiLineString(lines)


def _fitted(print_of: shapely.MultiLineString, like: shapely.MultiLineString) -> shapely.MultiLineString:
    """The print at the drawing's size: one scale from its width, moved by its lower left corner."""
    (x0, y0, x1, _), (u0, v0, u1, _) = print_of.bounds, like.bounds
    size = (u1 - u0) / (x1 - x0)
    return shapely.affinity.affine_transform(print_of, [size, 0, 0, size, u0 - x0 * size, v0 - y0 * size])


@needs("librecad")
def test_librecad_prints_every_file_for_cutting_as_it_is_drawn(built: Path, tmp_path: Path) -> None:
    flat = _flat_files(built, tmp_path)
    written = {"ncs": layers("ncs"), "iso13567": layers("iso13567")}
    writing = {names[role] for names in written.values() for role in ("mark", "datum")}
    assert len(flat) >= len(_plan(built)["boards"]) + len(_plan(built)["sheets"])
    for file, pdf in zip(flat, fitted_all(flat, tmp_path), strict=True):
        assert len(pypdfium2.PdfDocument(pdf)) == 1
        want = _geometry(file, writing)
        got = _fitted(shapely.MultiLineString(drawn_lines(pdf, WRITING)), want)
        assert got.hausdorff_distance(want) < APART, file.name
        assert want.difference(got.buffer(APART)).is_empty, file.name
        assert got.difference(want.buffer(APART)).is_empty, file.name


@needs("freecadcmd")
def test_freecad_reads_parts_and_solids_at_their_size(built: Path, tmp_path: Path) -> None:
    """Boxes and lengths of edges of parts against the plan; volumes of the first solids, which are its boards."""
    plan = _plan(built)
    parts = {built / f["path"]: f["subject"] for f in plan["files"] if f["kind"] == "part-dxf"}
    boards = {board["id"]: board for board in plan["boards"]}
    found = freecad(tmp_path, list(parts), [built / "room.step"])
    for path, mark in parts.items():
        box, length = found[str(path)]
        ring = shapely.Polygon(boards[mark]["outline"])
        left, bottom, right, top = ring.bounds
        assert box == pytest.approx([0, 0, right - left, top - bottom], abs=0.001), mark
        assert length - _datum_length(path) == pytest.approx(_cut_length(boards[mark]), abs=0.01), mark
    solids = found[str(built / "room.step")]
    for board, volume in zip(plan["boards"], solids, strict=False):
        assert volume == pytest.approx(_volume(board), rel=1e-6), board["id"]


def _cut_length(board: dict[str, Any]) -> float:
    rings = [
        board["outline"],
        *(r["ring"] for r in board["rabbets"]),
        *(o["ring"] for o in board["openings"] if "ring" in o),
    ]
    circles = [o["diameter"] for o in board["openings"] if o["shape"] == "circle"]
    return float(sum(shapely.Polygon(ring).length for ring in rings) + math.pi * sum(circles))


def _datum_length(path: Path) -> float:
    document = ezdxf.readfile(path)
    lines = document.modelspace().query("LINE")
    return float(sum(math.dist(e.dxf.start, e.dxf.end) for e in lines) * UNIT[document.units])


def _volume(board: dict[str, Any]) -> float:
    holes = [
        math.pi / 4 * o["diameter"] ** 2 if o["shape"] == "circle" else shapely.Polygon(o["ring"]).area
        for o in board["openings"]
    ]
    pockets = sum(shapely.Polygon(r["ring"]).area * r["depth"] for r in board["rabbets"])
    return float((shapely.Polygon(board["outline"]).area - sum(holes)) * board["thickness"] - pockets)


@needs("qpdf")
def test_qpdf_finds_no_fault_in_any_pdf(built: Path) -> None:
    pdfs = sorted(built.rglob("*.pdf"))
    assert pdfs
    for pdf in pdfs:
        done = subprocess.run(["qpdf", "--check", str(pdf)], capture_output=True, text=True, timeout=120, check=False)
        assert done.returncode == 0, done.stdout + done.stderr
        assert "No syntax or stream encoding errors found" in done.stdout


def test_every_page_of_every_pdf_can_be_searched(built: Path) -> None:
    """Every page names its room or its board in text."""
    plan = _plan(built)
    subjects = {f["path"]: f["subject"] for f in plan["files"]}
    for pdf in sorted(built.rglob("*.pdf")):
        wanted = {subjects[str(pdf.relative_to(built))], plan["room"]["name"]}
        for number, page in enumerate(pypdfium2.PdfDocument(pdf)):
            text = page.get_textpage().get_text_range()
            assert any(word in text for word in wanted), (pdf.name, number)


def test_the_bars_that_the_plan_lists_are_as_long_as_it_says(built: Path) -> None:
    """Measured in pictures of every template's pages: the ticks 1 mm below a bar, at 20 pixels in a mm."""
    for file in (f for f in _plan(built)["files"] if f["kind"] == "template-pdf"):
        assert file["bars"]
        document = pypdfium2.PdfDocument(built / file["path"])
        for bar in file["bars"]:
            row = _row(document[bar["page"] - 1], bar)
            dark = [x for x, value in enumerate(row) if value < 128]
            tick = next(i for i, x in enumerate(dark) if x != dark[0] + i)
            assert (dark[-1] - dark[0] - tick + 1) / 20 == pytest.approx(bar["length"], abs=0.1)


def _row(page: Any, bar: dict[str, Any]) -> Any:
    """Grey values from 1 mm before a bar to 1 mm behind it, 1 mm below it."""
    (left, y), right = bar["p"], bar["q"][0]
    rest = (left - 1, y - 1.5, page.get_width() / PT - right - 1, page.get_height() / PT - y + 0.5)
    picture = page.render(scale=20 / PT, grayscale=True, crop=tuple(side * PT for side in rest)).to_numpy().squeeze()
    return picture[len(picture) // 2]


def test_boards_stand_in_the_set_at_the_scale_that_its_page_says(built: Path) -> None:
    """The size on paper of a rectangular board of each elevation, in pdfium's paths, by the scale in its text."""
    plan, pages = _plan(built), pypdfium2.PdfDocument(built / "drawings.pdf")
    walls = {board["wall"] for board in plan["boards"]}
    found = 0
    for page in pages:
        text = page.get_textpage().get_text_range()
        title = re.search(r"(?m)\bBoards, (.+?) wall\s*$", text)
        if title and title[1] in walls:
            boxes = [shapely.LineString(line).bounds for line in _paths(page) if len(set(line)) == 4]
            sizes = [((x1 - x0) / PT, (y1 - y0) / PT) for x0, y0, x1, y1 in boxes]
            for board in (b for b in plan["boards"] if b["wall"] == title[1] and len(b["outline"]) == 4):
                left, low, right, high = shapely.Polygon(board["outline"]).bounds
                want = [side * _factor(text) for side in (right - left, high - low)]
                assert any(size == pytest.approx(want, abs=0.05) for size in sizes), (board["id"], want)
                found += 1
    assert found or not any(len(board["outline"]) == 4 for board in plan["boards"] if board["wall"] in walls)


def _paths(page: Any) -> list[list[tuple[float, float]]]:
    return [line for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]) for line in polylines(item)]


def _factor(text: str) -> float:
    """Of the scale in a title block: 1:20, or so many inches to the foot."""
    found = re.search(r"Scale (?:1:(\d+)|([\d/-]+)\" = 1'-0\")", text)
    assert found, text
    return 1 / int(found[1]) if found[1] else float(sum(Fraction(part) for part in found[2].split("-"))) / 12


def test_ezdxf_and_gdal_read_the_same_outlines_in_every_dxf(built: Path) -> None:
    """Audit clean; by their handles in the file, all polylines of model space have the same box and area in both."""
    for file in sorted(built.rglob("*.dxf")):
        document = ezdxf.readfile(file)
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], []), file.name
        there = _by_handle(file)
        for item in document.modelspace().query("LWPOLYLINE"):
            ring = [(x, y) for x, y, *_ in item]
            wanted = shapely.LineString([*ring, ring[0]] if item.closed else ring)
            got = there[item.dxf.handle]
            assert got.bounds == pytest.approx(wanted.bounds, abs=1e-6), file.name
            if item.closed:
                assert shapely.Polygon(got).area == pytest.approx(shapely.Polygon(wanted).area, abs=1e-4), file.name


def _by_handle(file: Path) -> dict[str, Any]:
    """GDAL's shapes of model space, by the handles of their entities."""
    meta, _, shapes, fields = pyogrio.raw.read(file)
    handles = fields[list(meta["fields"]).index("EntityHandle")]
    return dict(zip(handles, shapely.from_wkb(shapes), strict=True))
