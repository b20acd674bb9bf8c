"""Sheets as DXF, read back by ezdxf, GDAL and LibreCAD, against the plan's own numbers and our own PDF."""

from __future__ import annotations

import io
import re
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import ezdxf
import pyogrio.raw
import pytest
import shapely
from ezdxf.render.hatching import hatch_entity
from shapely.affinity import affine_transform

from generator.drafting.hatch import LEAST
from generator.drafting.ink import Arc, Circle, Line, Outline, Text
from generator.drafting.layers import Standard, layers
from generator.drafting.overlap import flat, points_of
from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.planning.cuts import detail_cuts
from generator.units import Units, paper_step
from generator.writers.dxf_space import dxf_text
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_bytes
from tests.drawings.set_job import detailed_job
from tests.readers import librecad
from tests.readers.programs import needs
from tests.worked_room import WIDTHS

INCH = 25.4
BOTH: list[tuple[str, Units, Standard]] = [("tabloid", "in", "ncs"), ("a3", "mm", "iso13567")]
PRINTED = 0.3
"""mm: what LibreCAD's print and our PDF may differ by (issue 4)."""


@cache
def _pages(paper: str, units: Units, failed: bool = False) -> tuple[Page, ...]:
    return draw_set(detailed_job(paper, units, failed))


@cache
def _files(paper: str, units: Units, standard: Standard, failed: bool = False) -> dict[str, bytes]:
    pages = _pages(paper, units, failed)
    return {page.title: sheet_bytes(page, page.sheet, units, standard) for page in pages if page.sheet}


def _document(data: bytes, folder: Path) -> Any:
    path = folder / "sheet.dxf"
    path.write_bytes(data)
    return ezdxf.readfile(path)


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_the_audit_finds_nothing_and_all_is_by_layer(
    paper: str, units: Units, standard: Standard, tmp_path: Path
) -> None:
    for title, data in _files(paper, units, standard).items():
        document = _document(data, tmp_path)
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], []), title
        assert document.header["$INSUNITS"] == (1 if units == "in" else 4)
        known = set(layers(standard).values())
        for entity in document.entitydb.values():
            if entity.dxf.hasattr("layer") and entity.dxftype() not in ("LAYER", "BLOCK", "ENDBLK", "SEQEND"):
                own = entity.dxf.layer
                assert own in known or own == "0", (title, entity)
                assert entity.dxf.get("color", 256) == 256 or own == "0", (title, entity)


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_gdal_measures_the_wall_at_true_size(paper: str, units: Units, standard: Standard, tmp_path: Path) -> None:
    """The framing's outline of every wall: its width by worked-room.md, 96 in high, its lower left the origin."""
    name, unit = layers(standard)["visible"], INCH if units == "in" else 1.0
    for wall in detailed_job(paper, units).room.chain:
        path = tmp_path / f"{wall.id}.dxf"
        path.write_bytes(_files(paper, units, standard)[f"Framing elevation, {wall.id} wall"])
        meta, _, shapes, fields = pyogrio.raw.read(path)
        layer = fields[list(meta["fields"]).index("Layer")]
        rings = [s for s, at in zip(shapely.from_wkb(shapes), layer, strict=True) if at == name and s.is_ring]
        width = WIDTHS[wall.id] * INCH
        wanted = pytest.approx((0.0, 0.0, width / unit, 96 * INCH / unit), abs=1e-6)
        assert any(ring.bounds == wanted for ring in rings), [ring.bounds for ring in rings]


def _said_mm(text: str, units: Units) -> float:
    """The length at the end of a dimension's words, read by other means than the project's own."""
    found = re.search(r"(?:(\d+)[ -])?(\d+/\d+|\d+(?:\.\d+)?)(\"?)\*?(?: add)?$", text)
    assert found, text
    value = float(Fraction(found[1] or 0) + Fraction(found[2]))
    return value * (INCH if units == "in" or found[3] else 1.0)


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_dimensions_say_what_they_measure(paper: str, units: Units, standard: Standard, tmp_path: Path) -> None:
    """Text and measured value agree within half the paper's step, and so do the points that were measured."""
    unit, count = INCH if units == "in" else 1.0, 0
    for title, data in _files(paper, units, standard).items():
        document = _document(data, tmp_path)
        assert document.header["$DIMLFAC"] == 1.0
        for dim in document.modelspace().query("DIMENSION"):
            measured = dim.dxf.actual_measurement * unit
            k = 0 if dim.dxf.angle == 0.0 else 1
            assert abs(dim.dxf.defpoint3[k] - dim.dxf.defpoint2[k]) * unit == pytest.approx(measured, abs=1e-4)
            text = dim.dxf.text
            assert abs(_said_mm(text, units) - measured) <= paper_step(units) / 2 + 1e-4, (title, text)
            count += 1
            shown = {
                e.text if e.dxftype() == "MTEXT" else e.dxf.text for e in dim.get_geometry_block().query("TEXT MTEXT")
            }
            assert shown == {text}
    assert count > 60


def test_screws_fittings_and_supports_are_blocks_that_know_their_marks(tmp_path: Path) -> None:
    job, files = detailed_job("tabloid", "in"), _files("tabloid", "in", "ncs")
    framing = _document(files["Framing elevation, right wall"], tmp_path).modelspace()
    boards = _document(files["Board elevation, right wall"], tmp_path).modelspace()
    right = {s.id for s in job.plan.supports if s.wall == "right"} | {
        f.id for f in job.plan.fittings if f.wall == "right"
    }
    assert {i.get_attrib_text("MARK") for i in framing.query("INSERT")} == right
    screws = [i for i in boards.query("INSERT") if i.dxf.name == "SCREW"]
    wanted = {f.id: (f.point[0] / INCH, f.point[1] / INCH) for f in job.plan.fasteners if f.wall == "right"}
    found = {i.get_attrib_text("MARK"): (i.dxf.insert.x, i.dxf.insert.y) for i in screws}
    assert found.keys() == wanted.keys()
    assert all(found[k] == pytest.approx(wanted[k], abs=1e-6) for k in wanted)


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_the_layout_shows_the_model_at_the_scale_of_the_title_block(
    paper: str, units: Units, standard: Standard, tmp_path: Path
) -> None:
    for page in _pages(paper, units):
        assert page.sheet
        document = _document(_files(paper, units, standard)[page.title], tmp_path)
        (name,) = [n for n in document.layouts.names() if n != "Model"]
        layout = document.layout(name)
        assert layout.dxf.paper_width == pytest.approx(page.width, abs=0.01)
        assert layout.dxf.paper_height == pytest.approx(page.height, abs=0.01)
        windows = [v for v in layout.query("VIEWPORT") if v.dxf.id != 1]
        scales = sorted(view.view.scale for view in page.sheet.views)
        shown = sorted(window.dxf.height / window.dxf.view_height for window in windows)
        assert shown == pytest.approx(scales, rel=1e-6), "one window for each view"
        for window in windows:
            assert window.dxf.flags & 0x4000, "locked"
        (block,) = [i for i in layout.query("INSERT") if i.dxf.name == "TITLE-BLOCK"]
        assert block.get_attrib_text("SCALE") == page.scale
        assert block.get_attrib_text("DRAWING") == page.title
        assert {a.dxf.tag for a in block.attribs} >= {
            "OWNER",
            "NUMBER",
            "DATE",
            "SHEET",
            "APPROVED_BY",
            "DRAWN_BY",
            "KIND",
        }


def test_only_sheets_of_a_failed_wall_say_not_for_cutting(tmp_path: Path) -> None:
    """Sheets of one wall in both spaces; those that show boards of all walls too; lists on paper, where they are."""
    for title, data in _files("tabloid", "in", "ncs", failed=True).items():
        document = _document(data, tmp_path)
        spaces = (document.modelspace(), document.layout(document.layouts.names_in_taborder()[1]))
        said = [any(t.dxf.text.startswith("NOT FOR CUTTING") for t in space.query("TEXT")) for space in spaces]
        if "elevation" in title or title.startswith("Board "):
            assert said == ["right" in title] * 2, title
        elif title == "Exploded view":
            assert said == [True, True], title
        elif not len(spaces[0]):
            assert said == [False, True], title


def _words(entities: Any) -> list[str]:
    return sorted(e.text if e.dxftype() == "MTEXT" else e.dxf.text for e in entities.query("TEXT MTEXT DIMENSION"))


def test_every_sheet_of_the_set_has_a_file_with_all_its_words(tmp_path: Path) -> None:
    """Counted word for word against what the page prints; values of the title block are attributes."""
    for page in _pages("a3", "mm"):
        document = _document(_files("a3", "mm", "iso13567")[page.title], tmp_path)
        layout = document.layout(document.layouts.names_in_taborder()[1])
        (block,) = layout.query("INSERT")
        there = [*_words(document.modelspace()), *_words(layout), *_words(document.blocks["TITLE-BLOCK"])]
        there += [a.dxf.text for a in block.attribs if a.dxf.text]
        printed = sorted(dxf_text(i.text) for i in flat(page.ink) if isinstance(i, Text))
        assert sorted(there) == printed, page.title


def _details() -> tuple[Page, Any]:
    """The printed page, and the document: one window for each detail, and one for the legend."""
    (page,) = [p for p in _pages("a3", "mm") if p.title == "Details"]
    return page, ezdxf.read(io.StringIO(_files("a3", "mm", "iso13567")["Details"].decode()))


def _onto_paper(document: Any) -> list[tuple[shapely.Polygon, list[float]]]:
    """Of every window: what it shows of model space, and the six numbers that bring that to paper (shapely's order)."""
    found = []
    for window in document.layout(document.layouts.names_in_taborder()[1]).query("VIEWPORT"):
        if window.dxf.id == 1:
            continue
        at, to, high = window.dxf.view_center_point, window.dxf.center, window.dxf.view_height / 2
        k = window.dxf.height / window.dxf.view_height
        wide = high * window.dxf.width / window.dxf.height
        seen = shapely.box(at.x - wide, at.y - high, at.x + wide, at.y + high)
        found.append((seen, [k, 0, 0, k, to.x - k * at.x, to.y - k * at.y]))
    return found


def test_hatches_are_real_and_another_program_hatches_as_our_paper_does() -> None:
    """ezdxf's own renderer of hatch patterns, through the windows, against the lines that the page prints."""
    page, document = _details()
    theirs = []
    for seen, matrix in _onto_paper(document):
        for hatch in document.modelspace().query("HATCH"):
            lines = shapely.MultiLineString([[tuple(p), tuple(q)] for p, q in hatch_entity(hatch)])
            if seen.contains(lines):
                theirs.append(affine_transform(lines, matrix))
    assert len(theirs) == len([h for h in document.modelspace().query("HATCH") if not h.dxf.solid_fill])
    pieces = (piece for lines in theirs for piece in lines.geoms)
    there = shapely.union_all([piece for piece in pieces if piece.length > LEAST])
    light = [i for i in page.ink if isinstance(i, Line) and i.layer == "light"]
    here = shapely.union_all([shapely.LineString((i.start, i.end)) for i in light])
    assert here.buffer(PRINTED).covers(there)
    crosses = here.difference(there.buffer(0.01))
    assert there.length > 2000
    assert crosses.length < 0.2 * here.length, "the crosses of lumber are lines, all else is hatched"


def test_gdal_measures_the_cut_faces_and_the_details_extents(tmp_path: Path) -> None:
    """Hatched areas of all boards, each as large as the solids' cut: the details are at true size."""
    job, path = detailed_job("a3", "mm"), tmp_path / "details.dxf"
    path.write_bytes(_files("a3", "mm", "iso13567")["Details"])
    _, _, shapes, _ = pyogrio.raw.read(path)
    found = [s for s in shapely.from_wkb(shapes) if s.geom_type in ("Polygon", "MultiPolygon")]
    cuts = [c for c in detail_cuts(job.room, job.plan) if c.name in job.sections]
    parts = [p for c in cuts for p in job.sections[c.name].parts if p.kind in ("board", "base")]
    for part in parts:
        area = shapely.Polygon(part.rings[0], part.rings[1:]).area
        assert any(abs(shape.area - area) < 1e-3 for shape in found), (part.part, area)
    assert len(found) >= len(parts)


@needs("librecad")
def test_librecad_prints_the_details_as_our_pdf_does(tmp_path: Path) -> None:
    """Each detail through its own window, from where LibreCAD prints model space; hatches and writing left out."""
    page, document = _details()
    data = _files("a3", "mm", "iso13567")["Details"]
    lines = librecad.lines_of(librecad.printed(librecad.bare(data, tmp_path), tmp_path))
    k, base = document.header["$PSVPSCALE"], document.header["$PINSBASE"]
    model = affine_transform(lines, [1 / k, 0, 0, 1 / k, -base[0] / k, -base[1] / k])
    theirs = shapely.union_all(
        [affine_transform(model.intersection(seen), matrix) for seen, matrix in _onto_paper(document)]
    )
    ours = librecad.lines_of(pdf_bytes((page,)))
    assert theirs.length > 1500
    assert ours.buffer(PRINTED).covers(theirs), "nothing that our page does not show"
    assert page.sheet
    drawn = [
        i for view in page.sheet.views for i in flat(view.on_paper) if isinstance(i, Line | Arc | Circle | Outline)
    ]
    bare = [i for i in drawn if i.layer not in ("light", "dimension") and not (isinstance(i, Outline) and not i.edge)]
    assert theirs.buffer(PRINTED).covers(shapely.MultiLineString([points_of(i) for i in bare]))


@needs("librecad")
@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
@pytest.mark.parametrize(
    "title", ["Framing elevation, right wall", "Board elevation, back wall", "Sealing elevation, left wall"]
)
def test_librecad_prints_what_our_pdf_shows(
    paper: str, units: Units, standard: Standard, title: str, tmp_path: Path
) -> None:
    """On the same paper, at the same place and scale; writing, dimensions and the layout left out."""
    (page,) = [p for p in _pages(paper, units) if p.title == title]
    print_out = librecad.printed(librecad.bare(_files(paper, units, standard)[title], tmp_path), tmp_path)
    assert librecad.page_size(print_out) == pytest.approx((page.width, page.height), abs=0.5)
    theirs, ours = librecad.lines_of(print_out), librecad.lines_of(pdf_bytes((page,)))
    assert shapely.hausdorff_distance(theirs, ours.intersection(theirs.buffer(PRINTED))) <= 2 * PRINTED
    assert ours.buffer(PRINTED).covers(theirs), "nothing that our page does not show"
    assert page.sheet
    (view,) = page.sheet.views
    drawn = [i for i in flat(view.on_paper) if isinstance(i, Line | Arc | Circle | Outline) and i.layer != "dimension"]
    lines = shapely.MultiLineString([points_of(i) for i in drawn if not (isinstance(i, Outline) and not i.edge)])
    assert theirs.buffer(PRINTED).covers(lines), "nothing of our page is left out"


@needs("librecad")
def test_librecad_reads_every_kind_of_sheet(tmp_path: Path) -> None:
    """The whole file, with dimensions and layout, is read and leaves a print that is no empty page."""
    data = _files("tabloid", "in", "ncs")["Board elevation, right wall"]
    assert len(librecad.lines_of(librecad.printed(data, tmp_path)).geoms) > 500
