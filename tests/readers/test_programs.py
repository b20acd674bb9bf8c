"""A build as others open it: LibreCAD, FreeCAD, qpdf, pypdf, pdfium and ezdxf read every file of two example rooms."""

from __future__ import annotations

import json
import math
import subprocess
from pathlib import Path
from typing import Any

import ezdxf
import ezdxf.path
import pypdf
import pypdfium2
import pytest
import shapely
import shapely.affinity

from generator.build import build_room
from generator.drafting.layers import layers
from tests.readers.programs import drawn_lines, freecad, librecad_prints, needs

EXAMPLES = Path(__file__).parents[2] / "profiles" / "rooms"
ROOMS = ("recess", "single-wall")
"""One in inches with layers of the NCS, one in mm with layers of ISO 13567."""
APART = 0.3
"""mm of the real thing: how far a print may be off."""
UNIT = {1: 25.4, 4: 1.0}
"""mm, by $INSUNITS."""
WRITING = {(0, 255, 0), (0, 255, 255)}
"""Colours of the layers that carry writing, which LibreCAD draws as strokes: mark and datum."""
PT = 72 / 25.4


@pytest.fixture(scope="module", params=ROOMS)
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a build."""
    out = tmp_path_factory.mktemp("build") / str(request.param)
    build_room(EXAMPLES / f"{request.param}.yaml", out, (), lambda _: None)
    return out


def _plan(built: Path) -> dict[str, Any]:
    plan: dict[str, Any] = json.loads((built / "plan.json").read_bytes())
    return plan


def _flat_files(built: Path) -> list[Path]:
    return [*sorted((built / "parts").glob("*.dxf")), *sorted((built / "sheets").glob("*.dxf"))]


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
def test_librecad_prints_every_part_and_sheet_as_it_is_drawn(built: Path, tmp_path: Path) -> None:
    files = _flat_files(built)
    written = {"ncs": layers("ncs"), "iso13567": layers("iso13567")}
    writing = {names[role] for names in written.values() for role in ("mark", "datum")}
    assert len(files) >= len(_plan(built)["boards"]) + len(_plan(built)["sheets"])
    for file, pdf in zip(files, librecad_prints(tmp_path, files), strict=True):
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
        for page in pypdf.PdfReader(pdf).pages:
            text = page.extract_text()
            assert any(word in text for word in wanted), (pdf.name, page.page_number)


def test_the_bars_that_the_plan_lists_are_as_long_as_it_says(built: Path) -> None:
    """Measured in the picture of each template's first page: the ticks 1 mm below a bar, at 20 pixels in a mm."""
    files = [f for f in _plan(built)["files"] if f["kind"] == "template-pdf"]
    for file in files:
        page = pypdfium2.PdfDocument(built / file["path"])[0]
        picture = page.render(scale=20 * 25.4 / 72, grayscale=True).to_numpy().squeeze()
        for bar in (bar for bar in file["bars"] if bar["page"] == 1):
            row = picture[round((page.get_height() / PT - bar["p"][1] + 1.0) * 20)]
            span = range(round((bar["p"][0] - 1) * 20), round((bar["q"][0] + 1) * 20))
            dark = [x for x in span if row[x] < 128]
            tick = next(i for i, x in enumerate(dark) if x != dark[0] + i)
            assert (dark[-1] - dark[0] - tick + 1) / 20 == pytest.approx(bar["length"], abs=0.1)


def test_ezdxf_audits_every_dxf_clean(built: Path) -> None:
    for file in sorted(built.rglob("*.dxf")):
        assert ezdxf.readfile(file).audit().errors == [], file.name
