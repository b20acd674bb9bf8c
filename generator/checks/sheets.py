"""Parts on their sheets: each inside one, with a saw's width between neighbours."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from generator.checks.measuring import WHOLE_ROOM, or_note, outline_place, tightest
from generator.model.findings import Measure
from generator.model.geometry import box, tidy
from generator.model.plan import Board, Plan
from generator.model.purchase import Placement, Sheet
from generator.model.room import Room

Box = tuple[float, float, float, float]


def fits_sheet(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each board lies once on one sheet and nowhere beyond its border."""
    measures = (_excess(plan, board) for board in plan.boards)
    return or_note(tightest(room.rules["fits-sheet"], measures), "no board in this plan")


def _excess(plan: Plan, board: Board) -> Measure:
    """How far the board's box passes its sheet's border; its own size where it is not on one sheet exactly once."""
    spots = [(s, p) for s in plan.sheets for p in s.placements if p.board_id == board.id]
    place = outline_place(board.wall, board.outline)
    if len(spots) != 1 or spots[0][0].id != board.sheet_id:
        left, low, right, high = box(board.outline)
        return Measure(f"{board.id} is not on one sheet", tidy(max(right - left, high - low)), place, "choices.sheets")
    sheet, placement = spots[0]
    left, low, right, high = placed_box(board, placement)
    beyond = max(0.0, -left, -low, right - sheet.width, high - sheet.height)
    return Measure(f"{board.id} on {sheet.id}: beyond the border", tidy(beyond), place, "choices.sheets")


def placed_box(board: Board, placement: Placement) -> Box:
    """(left, bottom, right, top) of a board on its sheet, mm."""
    left, low, right, high = box(board.outline)
    width, height = right - left, high - low
    if placement.turn in (90, 270):
        width, height = height, width
    return placement.x, placement.y, placement.x + width, placement.y + height


def sheet_kerf(room: Room, plan: Plan) -> Iterator[Measure]:
    """Neighbours on a sheet leave the saw its width."""
    pairs = ((sheet, *pair) for sheet in plan.sheets for pair in combinations(sheet.placements, 2))
    measures = (_apart(plan, *pair) for pair in pairs)
    return or_note(tightest(room.rules["sheet-kerf"], measures), "no sheet has two boards")


def _apart(plan: Plan, sheet: Sheet, a: Placement, b: Placement) -> Measure:
    """Distance of two boxes across the cut that can part them; negative when they overlap."""
    one, other = (placed_box(plan.board(p.board_id), p) for p in (a, b))
    across = max(one[0] - other[2], other[0] - one[2])
    up = max(one[1] - other[3], other[1] - one[3])
    subject = f"{a.board_id} and {b.board_id} on {sheet.id}"
    return Measure(subject, tidy(max(across, up)), WHOLE_ROOM, "choices.kerf")
