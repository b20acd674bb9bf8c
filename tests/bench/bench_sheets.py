"""Seconds and bytes of every sheet of a room in each format: `python -m tests.bench.bench_sheets [room]`.

Seconds are of the processor, one sheet at a time; overlaps are what `drafting.overlap` finds on it.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.model.choices import Choices
from generator.writers.pdf import pdf_bytes
from generator.writers.png import png_pages
from generator.writers.sheet_dxf import sheet_bytes, sheet_name
from generator.writers.svg import svg_bytes
from tests.example_rooms import job

FORMATS = ("dxf", "pdf", "svg", "png")


def measured(make: Callable[[], bytes]) -> tuple[float, int]:
    """Processor seconds and bytes."""
    started = time.process_time()
    size = len(make())
    return time.process_time() - started, size


def makers(page: Page, choices: Choices) -> tuple[Callable[[], bytes], ...]:
    """In the order of FORMATS."""
    sheet = page.sheet
    assert sheet
    return (
        lambda: sheet_bytes(page, sheet, choices.drawing_units, choices.layer_standard),
        lambda: pdf_bytes((page,)),
        lambda: svg_bytes(page),
        lambda: png_pages(pdf_bytes((page,)))[0],
    )


def main() -> None:
    room = sys.argv[1] if len(sys.argv) > 1 else "recess"
    drawn = job(room)
    pages = draw_set(drawn)
    svg_bytes(pages[0]), sheet_bytes(pages[0], pages[0].sheet, "in", "ncs"), pdf_bytes(pages[:1])  # type: ignore[arg-type]
    print(f"{'sheet':<44}" + "".join(f"{name + ' s':>9}{name + ' B':>9}" for name in FORMATS) + f"{'overlaps':>10}")
    total = [(0.0, 0)] * len(FORMATS)
    for page in pages:
        found = [measured(make) for make in makers(page, drawn.room.choices)]
        total = [(a + s, b + n) for (a, b), (s, n) in zip(total, found, strict=True)]
        print(f"{sheet_name(page):<44}" + _row(found) + f"{len(overlaps(page)):>10}")
    print(f"{f'{len(pages)} sheets':<44}" + _row(total))


def _row(found: list[tuple[float, int]]) -> str:
    return "".join(f"{seconds:>9.3f}{size:>9}" for seconds, size in found)


if __name__ == "__main__":
    main()
