"""Every sheet of every example room as LibreCAD prints it, against our own PDF."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely
from shapely.affinity import affine_transform

from generator.drafting.ink import Arc, Circle, Ink, Line, Outline
from generator.drafting.modelspace import windows
from generator.drafting.overlap import flat, points_of
from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_name
from tests.example_rooms import NAMES, files, job
from tests.readers.bare_dxf import bare
from tests.readers.librecad import lines_of, printed_all
from tests.readers.programs import needs
from tests.readers.sheets import PRINTED

Geometry = shapely.geometry.base.BaseGeometry


@needs("librecad")
@pytest.mark.parametrize("name", NAMES)
def test_librecad_prints_every_sheet_as_our_pdf_shows_it(name: str, tmp_path: Path) -> None:
    """Writing and hatches left out: nothing that our page does not show, and nothing of our page is left out."""
    pages = [page for page in draw_set(job(name)) if page.sheet]
    written = files(name)[0]
    for page in pages:
        data = written[f"drawings/{sheet_name(page)}.dxf"]
        path = tmp_path / f"{sheet_name(page)}.dxf"
        path.write_bytes(bare(data, layouts=not _views(page), large=True))
    prints = printed_all([tmp_path / f"{sheet_name(page)}.dxf" for page in pages], tmp_path)
    for page, pdf in zip(pages, prints, strict=True):
        theirs, ours = _on_paper(page, lines_of(pdf)), lines_of(pdf_bytes((page,)))
        assert theirs.length > 100, page.title
        assert theirs.difference(ours.buffer(PRINTED)).is_empty, page.title
        assert _drawn(page).difference(theirs.buffer(PRINTED)).is_empty, page.title


def _views(page: Page) -> bool:
    assert page.sheet
    return bool(page.sheet.views)


def _on_paper(page: Page, lines: Geometry) -> Geometry:
    """LibreCAD's print of model space, which stands where the first view stands, through the windows of the layout."""
    assert page.sheet
    if not page.sheet.views:
        return lines
    first = page.sheet.views[0].view
    (x, y), k = first.point((0.0, 0.0)), first.scale
    model = affine_transform(lines, [1 / k, 0, 0, 1 / k, -x / k, -y / k])
    return shapely.union_all([
        affine_transform(
            model.intersection(shapely.box(*w.seen)),
            [w.scale, 0, 0, w.scale, w.paper[0] - w.scale * w.seen[0], w.paper[1] - w.scale * w.seen[1]],
        )
        for w in windows(page.sheet.views)
    ])  # fmt: skip


def _drawn(page: Page) -> Geometry:
    """What the views, or all of a sheet without any, put on paper but for writing, hatches and dimensions."""
    assert page.sheet
    shown = [ink for view in page.sheet.views for ink in view.on_paper] or list(page.ink)
    return shapely.MultiLineString([points_of(i) for i in flat(shown) if _is_drawn(i, _views(page))])


def _is_drawn(item: Ink, in_view: bool) -> bool:
    if (isinstance(item, Outline) and not item.edge) or not isinstance(item, Line | Arc | Circle | Outline):
        return False
    return not in_view or item.layer not in ("dimension", "light")
