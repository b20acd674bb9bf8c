"""Lists for a spreadsheet, read back by the csv module and compared with the plan."""

from __future__ import annotations

import csv
from decimal import Decimal
from io import StringIO

import pytest

from generator.model.job import Job
from generator.writers.csv import cut_list_csv, fasteners_csv, takeoff_csv
from tests.planning.finished import finished_worked
from tests.worked_plan import worked_room


@pytest.fixture(scope="module")
def job() -> Job:
    return Job(worked_room(), finished_worked(), (), frozenset(), {}, {})


def _read(data: bytes) -> list[dict[str, str]]:
    text = data.decode("utf-8")
    assert text.count("\n") == text.count("\r\n")
    return list(csv.DictReader(StringIO(text, newline="")))


def test_terms_add_up_to_their_rows(job: Job) -> None:
    rows: list[tuple[dict[str, str], list[dict[str, str]]]] = []
    for line in _read(takeoff_csv(job)):
        if line["line"] == "row":
            rows.append((line, []))
        else:
            rows[-1][1].append(line)
    assert len(rows) == len(job.plan.takeoff)
    for row, terms in rows:
        assert sum(Decimal(t["quantity"]) for t in terms) == Decimal(row["quantity"])
        assert {t["kind"] for t in terms} == {row["kind"]}
        assert int(row["packages"]) == int(row["to_buy"]) - int(row["left_over"]) + int(row["in_van"])


def test_references_survive_the_trip(job: Job) -> None:
    refs = [ref for line in _read(takeoff_csv(job)) if line["kind"] == "screw" for ref in line["refs"].split()]
    assert sorted(refs) == sorted(f.id for f in job.plan.fasteners)


def test_the_cut_list_has_each_board_with_its_size_and_place(job: Job) -> None:
    lines = {line["mark"]: line for line in _read(cut_list_csv(job))}
    assert sorted(lines) == sorted(b.id for b in job.plan.boards)
    right = lines["B-right-1"]
    assert (right["width"], right["height"], right["thickness"], right["units"]) == ("35.375", "95.625", "0.5", "in")
    assert (right["width_text"], right["height_text"]) == ('35 3/8"', '95 5/8"')
    assert (right["corners"], right["openings"], right["notches"], right["turn"]) == ("6", "3", "1", "0")
    assert lines["B-left-1"]["sheet"] == lines["B-left-2"]["sheet"] == "SH-03"


def test_the_screw_list_gives_places_in_the_jobs_units(job: Job) -> None:
    lines = _read(fasteners_csv(job))
    assert len(lines) == len(job.plan.fasteners)
    first = lines[0]
    values = (first["screw"], first["across"], first["up"], first["washer"], first["units"])
    assert values == ("F-B-back-1-001", "1.125", "20.25", "1.25", "in")


def test_every_line_has_a_value_for_every_heading(job: Job) -> None:
    for write in (takeoff_csv, cut_list_csv, fasteners_csv):
        widths = {len(row) for row in csv.reader(StringIO(write(job).decode("utf-8"), newline=""))}
        assert len(widths) == 1


def test_the_same_job_gives_the_same_bytes(job: Job) -> None:
    again = Job(worked_room(), finished_worked(), (), frozenset(), {}, {})
    for write in (takeoff_csv, cut_list_csv, fasteners_csv):
        assert write(job) == write(again)
