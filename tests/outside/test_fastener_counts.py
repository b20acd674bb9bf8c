"""Fastener counts against the formula rows of the reference table: N = supports x (ceil(L / s) + 1), both ends counted.

Source: computed from first principles (facts table, section 8, "Fasteners"); L from the first to the last screw.
"""

from __future__ import annotations

import pytest
from pint import UnitRegistry

from generator.planning.fastening import plan_fasteners
from tests.planning.finished import NO_BASE, limited, lone, sheet_board, stud_in, wall_in
from tests.worked_room import worked_room

UNITS: UnitRegistry[float] = UnitRegistry()
ROWS = [(96, 4, 8, 52), (60, 4, 8, 36), (60, 3, 12, 18), (48, 4, 12, 20)]


@pytest.mark.parametrize(("length", "supports", "spacing", "count"), ROWS)
def test_counts_of_the_table(length: int, supports: int, spacing: int, count: int) -> None:
    edge = 0.75
    room = limited(lone(worked_room()), screw_spacing=float(UNITS.Quantity(spacing, "inch").to("mm").magnitude))
    board = sheet_board(0, 1, 60, 1 + length + 2 * edge)
    studs = tuple(stud_in(8 + 12 * i, 0, 120, f"S-{i + 1}") for i in range(supports))
    screws = plan_fasteners(room, (wall_in(60, 120),), (), NO_BASE, studs, (board,))
    assert len(screws) == count


def test_boards_that_share_a_seam_have_a_row_each() -> None:
    """Source: the same section: "shared seam: count each board's own row"."""
    room = lone(worked_room())
    boards = (sheet_board(0, 1, 24, 62.5, "B-1"), sheet_board(24, 1, 48, 62.5, "B-2"))
    screws = plan_fasteners(room, (wall_in(60, 96),), (), NO_BASE, (stud_in(24, 0, 96),), boards)
    assert len(screws) == 2 * (5 + 1)
