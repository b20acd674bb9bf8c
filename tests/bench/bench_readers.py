"""How many files of the example rooms each independent program reads, in how long, and whether all tests of it pass.

Runs the tests themselves (`python -m tests.bench.bench_readers [ROOM ...]`) and counts the files that they open.
"""

from __future__ import annotations

import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable
from fnmatch import fnmatch

import pytest

from tests.example_rooms import files

TESTS = ("tests/readers/test_programs.py", "tests/readers/test_every_sheet.py")
READ = {
    "test_librecad_prints_every_sheet_as_our_pdf_shows_it": ("LibreCAD, sheets", ("drawings/*.dxf",)),
    "test_librecad_prints_every_file_for_cutting_as_it_is_drawn": (
        "LibreCAD, parts, nested sheets, templates",
        ("parts/*.dxf", "sheets/*.dxf", "templates/*.dxf"),
    ),
    "test_freecad_reads_parts_and_solids_at_their_size": ("FreeCAD, parts and STEP", ("parts/*.dxf", "*.step")),
    "test_ezdxf_and_gdal_read_the_same_outlines_in_every_dxf": ("ezdxf and GDAL, all DXF", ("*.dxf",)),
    "test_qpdf_finds_no_fault_in_any_pdf": ("qpdf, all PDF", ("*.pdf",)),
    "test_every_page_of_every_pdf_can_be_searched": ("pdfium, text of all PDF", ("*.pdf",)),
    "test_the_bars_that_the_plan_lists_are_as_long_as_it_says": ("pdfium, bars of templates", ("templates/*.pdf",)),
    "test_boards_stand_in_the_set_at_the_scale_that_its_page_says": ("pdfium, scale of the set", ("drawings.pdf",)),
}
"""Program and what it opens, by test."""


class Tally:
    """What a run of the tests says: seconds and outcomes by test, rooms by test."""

    def __init__(self) -> None:
        self.seconds, self.failed = defaultdict[str, float](float), Counter[str]()
        self.rooms: dict[str, list[str]] = {}

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Of one test: `file::test[room]`."""
        test, _, room = report.nodeid.rpartition("::")[2].rstrip("]").partition("[")
        if report.when == "call":
            self.seconds[test] += report.duration
            self.rooms.setdefault(test, []).append(room)
        self.failed[test] += report.failed


def opened(rooms: Iterable[str], patterns: tuple[str, ...]) -> int:
    """How many files of these rooms have such a path."""
    return sum(any(fnmatch(path, p) for p in patterns) for room in rooms for path in files(room)[0])


def _chosen(rooms: list[str]) -> list[str]:
    """Tests of rooms whose names have one of these in them; of all rooms where none is named."""
    return ["-k", " or ".join(rooms)] if rooms else []


def main(rooms: list[str], say: Callable[[str], None] = print) -> None:
    """Runs and prints."""
    tally = Tally()
    pytest.main(["-q", "-p", "no:cacheprovider", *_chosen(rooms), *TESTS], plugins=[tally])
    say(f"{'program':44}{'rooms':>6}{'files':>7}{'seconds':>9}{'failed':>8}")
    for test, (program, patterns) in READ.items():
        read = tally.rooms.get(test, [])
        say(f"{program:44}{len(read):6}{opened(read, patterns):7}{tally.seconds[test]:9.1f}{tally.failed[test]:8}")


if __name__ == "__main__":
    main(sys.argv[1:])
