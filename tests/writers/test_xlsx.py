"""The workbook read back by openpyxl and compared with plan.json."""

from __future__ import annotations

import io
import json
import math
import re
from dataclasses import replace
from typing import Any

import openpyxl
import pytest

from generator.model.findings import Finding, Place
from generator.model.job import Job
from generator.writers.json import plan_json
from generator.writers.xlsx import lists_xlsx
from tests.planning.finished import finished_worked
from tests.worked_plan import worked_room

FOUND = Finding(
    "pipe-clearance", "planned", "fail", "=1+1", 1.0, 3.175, -2.175, Place("right", ((1.0, 2.0),)), None, "", 12
)


@pytest.fixture(scope="module")
def job() -> Job:
    return Job(worked_room(), finished_worked(), (FOUND,), frozenset({"right"}), {}, {})


@pytest.fixture(scope="module")
def plan(job: Job) -> Any:
    return json.loads(plan_json(job, (), {}))


@pytest.fixture(scope="module")
def book(job: Job) -> Any:
    return openpyxl.load_workbook(io.BytesIO(lists_xlsx(job)), data_only=True)


def _rows(book: Any, name: str) -> list[dict[str, Any]]:
    heading, *rows = book[name].iter_rows(values_only=True)
    return [dict(zip(heading, row, strict=True)) for row in rows]


def test_the_sheets_are_there_with_frozen_headings(book: Any) -> None:
    assert book.sheetnames == ["Take-off", "Cut list", "Screws", "Lumber", "Bands", "Findings"]
    for sheet in book:
        assert sheet.freeze_panes == "A2"
        widths = {i: d.width for d in sheet.column_dimensions.values() for i in range(d.min, d.max + 1)}
        assert all(widths[cell.column] > len(cell.value) for cell in sheet[1])


def test_quantities_and_packages_are_those_of_the_plan(book: Any, plan: Any) -> None:
    items = [row for row in _rows(book, "Take-off") if not row["Term"]]
    assert [(r["Kind"], r["Item"]) for r in items] == [(r["kind"], r["item"]) for r in plan["takeoff"]]
    for mine, wanted in zip(items, plan["takeoff"], strict=True):
        assert mine["Quantity"] == pytest.approx(wanted["quantity"], abs=1e-6)
        assert mine["Packages"] == math.ceil(wanted["quantity"] / wanted["package_size"] - 1e-9)
        assert mine["Packages"] == mine["In van, packages"] + mine["To buy, packages"] - mine["Left over, packages"]


def test_each_sum_adds_up_the_terms_of_its_own_row(job: Job, plan: Any) -> None:
    """The formulas recomputed here: over exactly the rows below that are terms of the same item."""
    sheet = openpyxl.load_workbook(io.BytesIO(lists_xlsx(job)))["Take-off"]
    sums = [(cell.row, cell.value) for cell in sheet["D"] if isinstance(cell.value, str) and cell.value.startswith("=")]
    assert len(sums) == len(plan["takeoff"])
    for (row, formula), wanted in zip(sums, plan["takeoff"], strict=True):
        match = re.fullmatch(r"=SUM\(D(\d+):D(\d+)\)", formula)
        assert match is not None
        first, last = int(match[1]), int(match[2])
        assert (first, last - first + 1) == (row + 1, len(wanted["terms"]))
        assert sum(sheet.cell(i, 4).value for i in range(first, last + 1)) == pytest.approx(wanted["quantity"])
        assert [sheet.cell(i, 3).value for i in range(first, last + 1)] == [t["label"] for t in wanted["terms"]]


def test_the_cut_list_has_each_board_in_inches(book: Any, plan: Any) -> None:
    """35 3/8 x 95 5/8 is the right board of worked-room.md."""
    rows = {row["Mark"]: row for row in _rows(book, "Cut list")}
    assert sorted(rows) == [board["id"] for board in plan["boards"]]
    right = rows["B-right-1"]
    assert (right["Width, in"], right["Height, in"], right["Thickness, in"]) == (35.375, 95.625, 0.5)
    assert sum(row["Weight, kg"] for row in rows.values()) == pytest.approx(sum(b["weight_kg"] for b in plan["boards"]))


def test_screws_and_bands_are_all_there(book: Any, plan: Any) -> None:
    screws, bands = _rows(book, "Screws"), _rows(book, "Bands")
    assert [row["Screw"] for row in screws] == [f["id"] for f in plan["fasteners"]]
    assert sum(row["Up, in"] for row in screws) * 25.4 == pytest.approx(sum(f["point"][1] for f in plan["fasteners"]))
    assert sorted(row["Band"] for row in bands) == [b["id"] for b in plan["bands"]]
    total = sum(row["Length as cut, in"] for row in bands) * 25.4
    assert total == pytest.approx(sum(b["length"] for b in plan["bands"]))


def test_a_finding_is_text_and_numbers_and_no_formula(job: Job) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(lists_xlsx(job)))["Findings"]
    row = dict(zip((c.value for c in sheet[1]), sheet[2], strict=True))
    assert (row["Subject"].value, row["Subject"].data_type) == ("=1+1", "s")
    assert row["Limit"].value == pytest.approx(0.125)
    assert (row["Number"].value, row["Unit"].value, row["Line of room file"].value) == (1, "in", 12)


def test_metric_jobs_have_millimetres(job: Job) -> None:
    choices = replace(job.room.choices, drawing_units="mm")
    metric = replace(job, room=replace(job.room, choices=choices))
    book = openpyxl.load_workbook(io.BytesIO(lists_xlsx(metric)), data_only=True)
    row = next(r for r in _rows(book, "Cut list") if r["Mark"] == "B-right-1")
    assert row["Width, mm"] == pytest.approx(35.375 * 25.4)


def test_the_same_job_gives_the_same_bytes(job: Job) -> None:
    assert lists_xlsx(job) == lists_xlsx(job)
