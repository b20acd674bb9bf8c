"""Sheets as DXF, read back by ezdxf, GDAL and LibreCAD, against the plan's own numbers and our own PDF."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import Any

import pyogrio.raw
import pytest
import shapely

from generator.drafting.ink import Arc, Circle, Line, Outline, Text
from generator.drafting.layers import Standard, layers
from generator.drafting.overlap import flat, points_of
from generator.units import Units, paper_step
from generator.writers.dxf_space import dxf_text
from generator.writers.pdf import pdf_bytes
from tests.drawings.set_job import detailed_job
from tests.readers import librecad
from tests.readers.bare_dxf import bare
from tests.readers.programs import needs
from tests.readers.sheets import PRINTED, documents, files, pages
from tests.worked_room import WIDTHS

INCH = 25.4
BOTH: list[tuple[str, Units, Standard]] = [("tabloid", "in", "ncs"), ("a3", "mm", "iso13567")]


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_the_audit_finds_nothing_and_all_is_by_layer(paper: str, units: Units, standard: Standard) -> None:
    for title, document in documents(paper, units, standard).items():
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
        path.write_bytes(files(paper, units, standard)[f"Framing elevation, {wall.id} wall"])
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
def test_dimensions_say_what_they_measure(paper: str, units: Units, standard: Standard) -> None:
    """Text and measured value agree within half the paper's step, and so do the points that were measured."""
    unit, count = INCH if units == "in" else 1.0, 0
    for title, document in documents(paper, units, standard).items():
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


def test_screws_fittings_and_supports_are_blocks_that_know_their_marks() -> None:
    job, sheets = detailed_job("tabloid", "in"), documents("tabloid", "in", "ncs")
    framing = sheets["Framing elevation, right wall"].modelspace()
    boards = sheets["Board elevation, right wall"].modelspace()
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
    paper: str, units: Units, standard: Standard
) -> None:
    for page in pages(paper, units):
        assert page.sheet
        document = documents(paper, units, standard)[page.title]
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


def test_only_sheets_of_a_failed_wall_say_not_for_cutting() -> None:
    """Sheets of one wall in both spaces; those that show boards of all walls too; lists on paper, where they are."""
    for title, document in documents("tabloid", "in", "ncs", failed=True).items():
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


def test_every_sheet_of_the_set_has_a_file_with_all_its_words() -> None:
    """Counted word for word against what the page prints; values of the title block are attributes."""
    for page in pages("a3", "mm"):
        document = documents("a3", "mm", "iso13567")[page.title]
        layout = document.layout(document.layouts.names_in_taborder()[1])
        (block,) = layout.query("INSERT")
        there = [*_words(document.modelspace()), *_words(layout), *_words(document.blocks["TITLE-BLOCK"])]
        there += [a.dxf.text for a in block.attribs if a.dxf.text]
        printed = sorted(dxf_text(i.text) for i in flat(page.ink) if isinstance(i, Text))
        assert sorted(there) == printed, page.title


def _place(entity: Any) -> tuple[Any, ...]:
    """Type, layer and where it lies, whichever end it was drawn from; by hand, to 1e-5 of a unit."""
    kind, dxf, points = entity.dxftype(), entity.dxf, list[Any]()
    if kind == "LINE":
        points = [dxf.start, dxf.end]
    elif kind == "LWPOLYLINE":
        points = list(entity.vertices())
    elif kind == "CIRCLE":
        points = [dxf.center, (dxf.radius, 0)]
    elif kind == "ARC":
        points = [dxf.center, (dxf.radius, dxf.start_angle)]
    elif kind in ("TEXT", "INSERT", "MTEXT"):
        points = [dxf.insert, (dxf.get("rotation", 0), 0)]
    said = entity.text if kind == "MTEXT" else dxf.text if kind == "TEXT" else ""
    return (kind, dxf.layer, said, *sorted((round(p[0], 5), round(p[1], 5)) for p in points))


@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
def test_nothing_is_drawn_twice_and_nothing_has_no_length(paper: str, units: Units, standard: Standard) -> None:
    for title, document in documents(paper, units, standard).items():
        for space in document.layouts:
            drawn = [e for e in space if e.dxftype() not in ("DIMENSION", "VIEWPORT", "HATCH")]
            twice = [place for place, count in Counter(_place(e) for e in drawn).items() if count > 1]
            assert twice == [], title
            assert [e for e in drawn if e.dxftype() == "LINE" and e.dxf.start.isclose(e.dxf.end)] == [], title


@needs("librecad")
@pytest.mark.parametrize(("paper", "units", "standard"), BOTH)
@pytest.mark.parametrize(
    "title", ["Framing elevation, right wall", "Board elevation, back wall", "Sealing elevation, left wall"]
)
def test_librecad_prints_what_our_pdf_shows(
    paper: str, units: Units, standard: Standard, title: str, tmp_path: Path
) -> None:
    """On the same paper, at the same place and scale; writing, dimensions and the layout left out."""
    (page,) = [p for p in pages(paper, units) if p.title == title]
    print_out = librecad.printed(bare(files(paper, units, standard)[title]), tmp_path)
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
    data = files("tabloid", "in", "ncs")["Board elevation, right wall"]
    assert len(librecad.lines_of(librecad.printed(data, tmp_path)).geoms) > 500
