"""Pages to PDF: true scale, searchable text, bookmarks, page labels, the same bytes every time."""

from __future__ import annotations

import io
from functools import partial
from typing import TYPE_CHECKING, Any

from generator.drafting.dimension import strokes
from generator.drafting.ink import Arc, Circle, Dimension, Ink, Line, Outline, Running, Text
from generator.drafting.layers import Pen, pen
from generator.drafting.page import Page, baseline_shift, text_box
from generator.lettering import known, typeface
from generator.model.profiles import PracticeProfile

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINT = 72 / 25.4
"""PDF points in one mm."""


def pdf_bytes(pages: tuple[Page, ...], title: str = "boardwright", subject: str = "") -> bytes:
    """One PDF of these pages, each of its own size. Viewers are asked to print it without scaling."""
    from reportlab.pdfgen.canvas import Canvas

    file = io.BytesIO()
    canvas = Canvas(file, invariant=1, pageCompression=1, pdfVersion=(1, 7))
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setCreator("boardwright")
    canvas.setAuthor("")
    canvas.setViewerPreference("PrintScaling", "None")
    for number, page in enumerate(pages):
        _draw_page(canvas, page, number)
    canvas.save()
    return file.getvalue()


def _draw_page(canvas: Canvas, page: Page, number: int) -> None:
    canvas.setPageSize((page.width * POINT, page.height * POINT))
    key = f"page-{number + 1}"
    canvas.bookmarkPage(key, fit="Fit")
    canvas.addOutlineEntry(f"{page.name}  {page.title}".strip(), key, level=0)
    canvas.addPageLabel(number, prefix=page.name)
    canvas.scale(POINT, POINT)
    for item in page.ink:
        _draw(canvas, item, page.practice)
    canvas.showPage()


def _draw(canvas: Canvas, item: Ink, practice: PracticeProfile | None) -> None:
    if isinstance(item, Dimension | Running):
        for part in strokes(item):
            _draw(canvas, part, practice)
    elif isinstance(item, Text):
        _write(canvas, item)
    else:
        _stroke(canvas, item, pen(item.layer, practice))


def _stroke(canvas: Canvas, item: Line | Arc | Circle | Outline, line: Pen) -> None:
    canvas.setLineWidth(line.width)
    canvas.setStrokeGray(line.grey)
    canvas.setDash(list(line.dash))
    canvas.setLineCap(0 if line.dash else 1)
    canvas.setLineJoin(1)
    match item:
        case Line():
            canvas.line(*item.start, *item.end)
        case Circle():
            _filled(canvas, item.fill, True, partial(canvas.circle, *item.centre, item.radius))
        case Arc():
            _arc(canvas, item)
        case Outline():
            _outline(canvas, item)


def _arc(canvas: Canvas, item: Arc) -> None:
    (x, y), r = item.centre, item.radius
    canvas.arc(x - r, y - r, x + r, y + r, item.start, (item.end - item.start) % 360)


def _outline(canvas: Canvas, item: Outline) -> None:
    path = canvas.beginPath()
    path.moveTo(*item.ring[0])
    for point in item.ring[1:]:
        path.lineTo(*point)
    if item.closed:
        path.close()
    _filled(canvas, item.fill, item.edge, partial(canvas.drawPath, path))


def _filled(canvas: Canvas, grey: float | None, edge: bool, draw: Any) -> None:
    if grey is not None:
        canvas.setFillGray(grey)
    draw(stroke=int(edge), fill=int(grey is not None))


def _write(canvas: Canvas, item: Text) -> None:
    if item.mask:
        _outline(canvas, Outline(text_box(item), item.layer, fill=1.0, edge=False))
    canvas.setFillGray(pen(item.layer).grey)
    face = typeface(item.text)
    canvas.setFont(known(face, item.bold), item.height / face.capital)
    canvas.saveState()
    canvas.translate(*item.at)
    canvas.rotate(item.angle)
    draw = {"left": canvas.drawString, "centre": canvas.drawCentredString, "right": canvas.drawRightString}[item.align]
    draw(0, baseline_shift(item), item.text)
    canvas.restoreState()
