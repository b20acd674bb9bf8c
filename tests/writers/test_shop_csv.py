"""The lists beside the files of parts and sheets, against the plan and the files themselves."""

from __future__ import annotations

import csv
import io

from generator.drawings.parts import part_drawings
from generator.drawings.sheet_files import sheet_drawings
from generator.writers.csv import parts_csv, sheets_csv
from generator.writers.dxf import dxf_bytes
from tests.drawings.worked_job import worked_job
from tests.readers.dxf_groups import section


def _rows(data: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))


def test_every_part_file_has_its_line_with_the_worked_size() -> None:
    """Worked table: the right board is 35 3/8 by 95 5/8, its rabbet 1/4 deep in the back."""
    job = worked_job("left")
    rows = {row["mark"]: row for row in _rows(parts_csv(job))}
    assert {row["file"] for row in rows.values()} == {f"{part.name}.dxf" for part in part_drawings(job)}
    right = rows["B-right-1"]
    assert (right["width"], right["height"], right["thickness"]) == ("35.375", "95.625", "0.5")
    assert (right["pockets"], right["openings"], right["hand"], right["quantity"]) == ("back 0.25", "3", "right", "1")
    assert {mark for mark, row in rows.items() if row["not_for_cutting"] == "yes"} == {
        b.id for b in job.plan.boards if b.wall == "left"
    }


def test_the_list_of_sheets_names_layers_that_are_in_the_files() -> None:
    job = worked_job()
    rows = _rows(sheets_csv(job))
    assert sorted(row["board"] for row in rows) == sorted(b.id for b in job.plan.boards)
    for drawing in sheet_drawings(job):
        mine = [row for row in rows if row["file"] == f"{drawing.name}.dxf"]
        assert {row["mirrored"] for row in mine} == {"yes" if drawing.mirrored else "no"}
        entities = section(dxf_bytes(drawing.ink, "in", "ncs"), "ENTITIES")
        on_pockets = [e.layer for e in entities if e.layer.startswith("A-WALL-PCKT")]
        assert sorted(on_pockets) == sorted(row["pocket_layer"] for row in mine if row["pocket_layer"])
    assert {(row["pocket_layer"], row["pocket_depth"]) for row in rows} == {("", ""), ("A-WALL-PCKT-0635", "0.25")}
