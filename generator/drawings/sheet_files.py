"""Nested sheets at true size for a router: one clamping a file, that face up which is worked.

A sheet with a rabbet in the back of any board is drawn as it lies with its back up: everything mirrored, so that one
clamping cuts it all. Only where boards are worked from both faces are there two files: the pockets of the back
first; then the sheet is flipped about its upright axis, and the front's pockets, the openings and the outlines are
cut. Both are measured from the same corner of the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from generator.drafting.ink import Ink, Line, Outline, Text, mirror, move
from generator.drafting.layers import deep_layer
from generator.drafting.spot import Block, place_block
from generator.drawings.handed import Handed, sided
from generator.drawings.nesting import placed, sheet_stamp, steps
from generator.drawings.parts import DATUM, Face, FlatDrawing, board_label, board_size
from generator.drawings.shop_cuts import ShopCuts, shop_cuts
from generator.model.geometry import Ring, box, canonical, rectangle, tidy
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.purchase import Placement, Sheet
from generator.units import label

TURN_OVER = "then flip the sheet about its upright axis"


@dataclass(frozen=True, slots=True)
class Clamping:
    """A sheet as it lies on the machine: the face that is up, and whether boards are cut free (or pockets only)."""

    sheet: Sheet
    up: Face
    through: bool
    name: str
    """Of the file, without its end."""
    datum: Literal["left", "right"]
    """Lower corner that measures are taken from, as drawn; the same corner of the sheet in both files of a pair."""


def clampings(job: Job, sheet: Sheet) -> tuple[Clamping, ...]:
    """One where boards are worked from one face (the back, if it has pockets), two where from both."""
    worked = {rabbet.face for placement in sheet.placements for rabbet in job.plan.board(placement.board_id).rabbets}
    if worked == {"front", "back"}:
        first = Clamping(sheet, "back", False, f"{sheet.id}-1-back", "right")
        return (first, Clamping(sheet, "front", True, f"{sheet.id}-2-front", "left"))
    return (Clamping(sheet, "back" if worked == {"back"} else "front", True, sheet.id, "left"),)


def sheet_drawings(job: Job) -> tuple[FlatDrawing, ...]:
    """Every clamping of every nested sheet; origin at the sheet's lower left as drawn."""
    hands = sided(job.room, job.plan)
    return tuple(_drawing(job, clamping, hands) for sheet in job.plan.sheets for clamping in clampings(job, sheet))


def _drawing(job: Job, clamping: Clamping, hands: dict[str, Handed]) -> FlatDrawing:
    sheet = clamping.sheet
    back = clamping.up == "back"
    saw = tuple(step.line(sheet.kerf) for step in steps(sheet)) if clamping.through else ()
    ink: list[Ink] = [Outline(rectangle(0.0, 0.0, sheet.width, sheet.height), "sheet")]
    ink += mirror(saw, sheet.width) if back else saw
    cuts = cuts_of(job, clamping)
    for placement in sheet.placements:
        board = job.plan.board(placement.board_id)
        ink += _board(job, board, placement, clamping, cuts[board.id], hands.get(board.id))
    ink += (*_datum(clamping), *_words(job, clamping, cuts))
    stamped = bool(sheet_stamp(job, sheet))
    return FlatDrawing(sheet.id, "sheet-dxf", tuple(ink), stamped, clamping.name, mirrored=back)


def cuts_of(job: Job, clamping: Clamping) -> dict[str, ShopCuts]:
    """What is cut of each board of a sheet, by the board's id."""
    boards = (job.plan.board(placement.board_id) for placement in clamping.sheet.placements)
    return {b.id: shop_cuts(job.plan, job.room.choices, b, clamping.up, clamping.through) for b in boards}


def _board(
    job: Job, board: Board, placement: Placement, clamping: Clamping, cuts: ShopCuts, hand: Handed | None
) -> tuple[Ink, ...]:
    left, bottom, _, _ = box(board.outline)
    ink, seen, spot = move(cuts.ink, -left, -bottom), board, placement
    if clamping.up == "back":
        ink = mirror(ink, board_size(board)[0])
        seen, spot = from_behind(board), placed_from_behind(placement, board, clamping.sheet.width)
    written = board_label(job, seen, (-left, -bottom), clamping.up, hand)
    return placed(board, spot, (*ink, *written))


def from_behind(board: Board) -> Board:
    """The board as it looks from behind, in the same box."""
    left, _, right, _ = box(board.outline)

    def seen(ring: Ring) -> Ring:
        return canonical((left + right - x, y) for x, y in ring) if ring else ()

    openings = (
        replace(o, centre=(tidy(left + right - o.centre[0]), o.centre[1]), ring=seen(o.ring)) for o in board.openings
    )
    rabbets = (replace(rabbet, ring=seen(rabbet.ring)) for rabbet in board.rabbets)
    return replace(board, outline=seen(board.outline), openings=tuple(openings), rabbets=tuple(rabbets))


def placed_from_behind(placement: Placement, board: Board, width: float) -> Placement:
    """Where a board lies on a sheet of that width seen from behind: turned the other way, counted from the right."""
    size = board_size(board)
    across = size[0] if placement.turn in (0, 180) else size[1]
    back: dict[int, Literal[0, 90, 180, 270]] = {0: 0, 90: 270, 180: 180, 270: 90}
    return replace(placement, x=tidy(width - placement.x - across), turn=back[placement.turn])


def _datum(clamping: Clamping) -> tuple[Ink, ...]:
    """An arrow from outside at the corner of the sheet that measures are taken from, and its name."""
    barbs = ((-DATUM / 8, -DATUM / 3), (-DATUM / 3, -DATUM / 8))
    ends = ((-DATUM, -DATUM), *barbs)
    arrow = tuple(Line((0.0, 0.0), end, "datum") for end in ends)
    at_right = clamping.datum == "right"
    way = 1.0 if at_right else -1.0
    name = Text((way * 1.2 * DATUM, -1.2 * DATUM), "DATUM", 8.0, "left" if at_right else "right", layer="datum")
    return move((*(mirror(arrow, 0.0) if at_right else arrow), name), clamping.sheet.width if at_right else 0.0, 0.0)


def _words(job: Job, clamping: Clamping, cuts: dict[str, ShopCuts]) -> tuple[Text, ...]:
    """Above the sheet, clear of every cut."""
    sheet = clamping.sheet
    strip = rectangle(0.0, sheet.height + 10.0, sheet.width, sheet.height + 260.0)
    return place_block(Block(tuple(_lines(job, clamping, cuts)), "mark"), strip, (), (18.0, 15.0, 12.0, 9.0), 0.0)


def _lines(job: Job, clamping: Clamping, cuts: dict[str, ShopCuts]) -> Iterator[str]:
    sheet, units = clamping.sheet, job.room.choices.paper_units
    if text := sheet_stamp(job, sheet):
        yield text
    yield f"{sheet.id}  {sheet.stock_id}  {job.room.name}"
    yield "BACK FACE UP: all seen from behind, mirrored" if clamping.up == "back" else "FRONT FACE UP"
    if not clamping.through:
        yield f"1 of 2: pockets only; {TURN_OVER} and cut {sheet.id}-2-front from the same corner, DATUM"
    elif clamping.datum != clampings(job, sheet)[0].datum:
        yield f"2 of 2: after {sheet.id}-1-back, from the same corner, DATUM"
    for depth in sorted(pocket_depths(job, clamping)):
        layer = deep_layer("pocket", depth, job.room.choices.layer_standard)
        yield f"layer {layer}: pockets {label(depth, units)} deep ({depth:g} mm)"
    yield from _shop_lines(job, cuts)


def pocket_depths(job: Job, clamping: Clamping) -> set[float]:
    """mm: the depths of the pockets that a clamping cuts."""
    boards = (job.plan.board(placement.board_id) for placement in clamping.sheet.placements)
    return {rabbet.depth for board in boards for rabbet in board.rabbets if rabbet.face == clamping.up}


def _shop_lines(job: Job, cuts: dict[str, ShopCuts]) -> Iterator[str]:
    """How the lines are meant, and what a round cutter does not do."""
    shop, units = job.room.choices.shop, job.room.choices.paper_units
    cutter = f"{label(shop.cutter, units)} cutter"
    if shop.offset == "outside":
        yield f"lines are the way of the middle of a {cutter}; pockets are edges"
    else:
        yield f"lines are edges of parts; pockets run over open edges for a {cutter}"
    wanted, made = sum(c.inner_corners for c in cuts.values()), sum(c.reliefs for c in cuts.values())
    if wanted:
        shown = "; at the others it would show" if made < wanted else ""
        yield f"inner corners cut out for the cutter: {made} of {wanted}{shown}"
    if small := [name for c in cuts.values() for name in c.too_small]:
        yield f"not wider than the cutter, drill them: {', '.join(small)}"
