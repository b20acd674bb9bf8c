"""The whole set of the worked room as DXF, made and read once, for the tests of its sheets."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import ezdxf

from generator.drafting.layers import Standard
from generator.drafting.page import Page
from generator.drawings.set import draw_set
from generator.units import Units
from generator.writers.sheet_dxf import sheet_bytes
from tests.drawings.set_job import detailed_job

PRINTED = 0.3
"""mm: what LibreCAD's print and our PDF may differ by (issue 4)."""


@cache
def pages(paper: str, units: Units, failed: bool = False) -> tuple[Page, ...]:
    """The printed set."""
    return draw_set(detailed_job(paper, units, failed))


@cache
def files(paper: str, units: Units, standard: Standard, failed: bool = False) -> dict[str, bytes]:
    """Its DXF files, by the titles of their sheets."""
    printed = pages(paper, units, failed)
    return {page.title: sheet_bytes(page, page.sheet, units, standard) for page in printed if page.sheet}


@cache
def documents(paper: str, units: Units, standard: Standard, failed: bool = False) -> dict[str, Any]:
    """The same as ezdxf reads them; only to look at."""
    written = files(paper, units, standard, failed)
    return {title: ezdxf.read(io.StringIO(data.decode())) for title, data in written.items()}
