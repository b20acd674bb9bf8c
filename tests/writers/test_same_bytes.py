"""The same bytes whatever the hash seed, the folder and the time zone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from generator.drafting.ink import Text
from generator.drafting.page import Page
from generator.writers.pdf import pdf_bytes

ROOT = Path(__file__).parent.parent.parent
SCRIPT = """
import hashlib
from dataclasses import replace
from generator.drawings.labels import label_pages
from generator.drawings.cutsheets import cut_sheets
from generator.drawings.boards import board_leaves
from generator.drawings.framing import framing_leaves
from generator.drawings.leaf import bound
from generator.drawings.sheet_files import sheet_drawings
from generator.drawings.parts import part_drawings
from generator.drawings.templates import templates
from generator.writers.dxf import dxf_bytes
from generator.solids.mesh import meshes
from generator.writers.glb import glb_bytes
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_bytes
from generator.writers.png import png_pages
from generator.writers.xlsx import lists_xlsx
from tests.solids.bodies_of import worked_bodies
from tests.drawings.worked_job import PAPERS, worked_job
job = worked_job("right")
job = replace(job, room=replace(job.room, name="Łazienka, Μπάνιο"))
files = [dxf_bytes(d.ink, "in", "ncs") for d in (*part_drawings(job), *sheet_drawings(job))]
files += [pdf_bytes(t.pages) for paper in PAPERS for t in templates(job, paper)]
files += [pdf_bytes(cut_sheets(job)), pdf_bytes(label_pages(job)), *png_pages(pdf_bytes(label_pages(job)))]
files += [lists_xlsx(job), glb_bytes(replace(job, meshes=meshes(worked_bodies())))]
pages = bound(job, (*framing_leaves(job), *board_leaves(job)))
files += [sheet_bytes(page, page.sheet, "in", "ncs") for page in pages if page.sheet]
print(*(hashlib.sha256(f).hexdigest() for f in files), sep="\\n")
"""


def _hashes(seed: str, zone: str, folder: Path) -> list[str]:
    environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-W", "ignore", "-c", SCRIPT]
    done = subprocess.run(command, env=environment, cwd=folder, capture_output=True, text=True, check=True)
    return done.stdout.split()


def test_all_kinds_of_files_come_out_the_same(tmp_path: Path) -> None:
    first = _hashes("1", "UTC", ROOT)
    assert len(first) >= 5 + 4 + 2 + 1 + 2 + 2 + 6
    assert first == _hashes("4711", "Asia/Tokyo", tmp_path)


def test_a_name_in_any_script_is_no_crash() -> None:
    page = Page("1", "Łazienka 浴室", 100, 50, "", (Text((5, 5), "Łazienka 浴室 Bjørn é", 3),))
    assert pdf_bytes((page,)).startswith(b"%PDF")
