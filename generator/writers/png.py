"""Pages of a PDF as pictures in sixteen greys, for screens; the same bytes on every machine.

They are drawn from the PDF and not from SVG, as its renderer brings the standard fonts along: what is drawn does not
depend on the fonts of the system, and its letters are exactly as wide as those that the drawings were placed by.
"""

from __future__ import annotations

import io
from typing import Any

DPI = 100
"""Dots in an inch: writing of 2.5 mm can still be read."""
GREYS = 16


def png_pages(pdf: bytes) -> tuple[bytes, ...]:
    """A PNG of every page, in order."""
    from pypdfium2 import PdfDocument

    document = PdfDocument(pdf)
    pictures = tuple(_png(page.render(scale=DPI / 72, grayscale=True).to_pil()) for page in document)
    document.close()
    return pictures


def _png(image: Any) -> bytes:
    """Four bits for each dot."""
    step = 255 // (GREYS - 1)
    few = image.point([round(grey / step) for grey in range(256)])
    few.putpalette([grey * step for grey in range(GREYS) for _ in "rgb"])
    file = io.BytesIO()
    few.save(file, "PNG", bits=4)
    return file.getvalue()
