"""Details as DXF, each through its own window, read by ezdxf's hatcher, GDAL and LibreCAD."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pyogrio.raw
import pytest
import shapely
from ezdxf.render.hatching import hatch_entity
from shapely.affinity import affine_transform

from generator.drafting.hatch import LEAST
from generator.drafting.ink import Arc, Circle, Line, Outline
from generator.drafting.overlap import flat, points_of
from generator.drafting.page import Page
from generator.planning.cuts import detail_cuts
from generator.writers.pdf import pdf_bytes
from tests.drawings.set_job import detailed_job
from tests.readers import librecad
from tests.readers.bare_dxf import bare
from tests.readers.programs import needs
from tests.readers.sheets import PRINTED, documents, files, pages


def _details() -> tuple[Page, Any]:
    """The printed page, and the document: one window for each detail, and one for the legend."""
    (page,) = [p for p in pages("a3", "mm") if p.title == "Details"]
    return page, documents("a3", "mm", "iso13567")["Details"]


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


def test_screws_are_blocks_that_know_their_marks() -> None:
    """All of them the plan's, and the detail of a screw shows the one that it is of."""
    job, (_, document) = detailed_job("a3", "mm"), _details()
    inserts = document.modelspace().query("INSERT")
    assert inserts
    known = {f.id for f in job.plan.fasteners}
    assert {i.get_attrib_text("MARK") for i in inserts} <= known
    (cut,) = [c for c in detail_cuts(job.room, job.plan) if c.kind == "screw"]
    assert cut.subject in {i.get_attrib_text("MARK") for i in inserts}


def _measured(shape: Any) -> tuple[float, float, float]:
    """Area, width, height."""
    left, low, right, high = shape.bounds
    return shape.area, right - left, high - low


def test_gdal_measures_the_cut_faces_and_the_details_extents(tmp_path: Path) -> None:
    """Hatched areas of all boards, each as large as the solids' cut: the details are at true size."""
    job, path = detailed_job("a3", "mm"), tmp_path / "details.dxf"
    path.write_bytes(files("a3", "mm", "iso13567")["Details"])
    _, _, shapes, _ = pyogrio.raw.read(path)
    found = [s for s in shapely.from_wkb(shapes) if s.geom_type in ("Polygon", "MultiPolygon")]
    cuts = [c for c in detail_cuts(job.room, job.plan) if c.name in job.sections]
    parts = [p for c in cuts for p in job.sections[c.name].parts if p.kind in ("board", "base")]
    for part in parts:
        wanted = _measured(shapely.Polygon(part.rings[0], part.rings[1:]))
        assert any(_measured(shape) == pytest.approx(wanted, abs=1e-3) for shape in found), (part.part, wanted)
    assert len(found) >= len(parts)


@needs("librecad")
def test_librecad_prints_the_details_as_our_pdf_does(tmp_path: Path) -> None:
    """Each detail through its own window, from where LibreCAD prints model space; hatches and writing left out."""
    page, document = _details()
    data = files("a3", "mm", "iso13567")["Details"]
    lines = librecad.lines_of(librecad.printed(bare(data), tmp_path))
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
    solid = [i for i in drawn if i.layer not in ("light", "dimension") and not (isinstance(i, Outline) and not i.edge)]
    assert theirs.buffer(PRINTED).covers(shapely.MultiLineString([points_of(i) for i in solid]))
