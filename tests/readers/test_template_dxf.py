"""Templates for a plotter, as other programs read them: the same lines as on paper, at the same size."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pyogrio.raw
import pytest
import shapely

from generator.drafting.layers import Standard, layers
from generator.drafting.page import Page
from generator.drawings.templates import templates
from generator.reading import load_catalogue
from generator.units import Units
from generator.writers.dxf import dxf_bytes
from generator.writers.pdf import pdf_bytes
from tests.drawings.worked_job import worked_job
from tests.readers import librecad
from tests.readers.bare_dxf import bare
from tests.readers.dxf_groups import section
from tests.readers.programs import needs

ROLLS = load_catalogue(()).papers
BOTH = [("roll-24", "in", "ncs", 25.4), ("roll-610-mm", "mm", "iso13567", 1.0)]
APART = 0.3
"""mm: what LibreCAD's print and our PDF may differ by (issue 4)."""


def _pages(roll: str, *failed: str) -> list[Page]:
    return [page for template in templates(worked_job(*failed), ROLLS[roll]) for page in template.pages]


@pytest.mark.parametrize(("roll", "units", "standard", "unit"), BOTH)
def test_gdal_finds_the_lines_of_the_pdf(
    roll: str, units: Units, standard: Standard, unit: float, tmp_path: Path
) -> None:
    """Extents of all but the writing, to 0.01 mm: GDAL of the DXF, pdfium of the PDF."""
    path = tmp_path / "template.dxf"
    for page in _pages(roll):
        path.write_bytes(dxf_bytes(page.ink, units, standard, dashed=True))
        audit = ezdxf.readfile(path).audit()
        assert (audit.errors, audit.fixes) == ([], [])
        meta, _, shapes, fields = pyogrio.raw.read(path)
        writing = fields[list(meta["fields"]).index("Text")]
        lines = shapely.GeometryCollection(
            [s for s, text in zip(shapely.from_wkb(shapes), writing, strict=True) if not text]
        )
        want = librecad.lines_of(pdf_bytes((page,))).bounds
        assert [side * unit for side in lines.bounds] == pytest.approx(want, abs=0.01)


@needs("librecad")
def test_librecad_prints_the_lines_of_the_pdf(tmp_path: Path) -> None:
    page = max(_pages("roll-610-mm"), key=lambda page: len(page.ink))
    data = bare(dxf_bytes(page.ink, "mm", "ncs", dashed=True))
    printed = librecad.lines_of(librecad.printed(data, tmp_path, "-s", "1", "-f", "0,0,0,0"))
    want = librecad.lines_of(pdf_bytes((page,)))
    assert printed.difference(want.buffer(APART)).is_empty
    assert want.difference(printed.buffer(APART)).is_empty


def test_a_template_of_a_failed_wall_is_stamped_on_the_layer_of_marks_and_no_other() -> None:
    def stamps(*failed: str) -> list[bool]:
        files = [dxf_bytes(page.ink, "in", "ncs") for page in _pages("roll-24", *failed)]
        words = [[e for e in section(data, "ENTITIES") if e.kind == "TEXT"] for data in files]
        mark = layers("ncs")["mark"]
        return [any(e.layer == mark and e.values(1)[0].startswith("NOT FOR CUTTING") for e in own) for own in words]

    assert not any(stamps())
    assert sum(stamps("right")) == sum(page.title.startswith("B-right") for page in _pages("roll-24"))
