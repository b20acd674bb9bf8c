"""One drawing at true size for every board, as a machine or a careful knife needs it: closed cuts, holes, pockets.

Frame of a part: mm, front face up, origin at the lower left of the board's box, x along the wall's u.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from generator.drafting.ink import Circle, Ink, Line, Outline
from generator.drafting.page import wrap
from generator.drafting.spot import Block, fit_block, place_block
from generator.drawings.handed import Handed, sided
from generator.drawings.stamp import stamp
from generator.model.geometry import Point, Ring, box, canonical, rectangle, tidy
from generator.model.job import Job
from generator.model.plan import Board, Opening
from generator.units import PaperUnits, label, label_thickness

HEIGHTS = (20.0, 15.0, 12.0, 9.0, 7.0, 5.0, 3.5, 2.5)
"""mm: capitals of the writing on a board, the largest that fits."""
SLACK = 1.25
"""How much wider a CAD program's stroke font may run than the font that writing is measured in (1.17 was seen)."""
DATUM = 20.0
"""mm: reach of the datum mark from the board's lower left corner."""


Face = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class FlatDrawing:
    """A file at true size in model space: `subject` is the id of the board or of the sheet, `name` the file's own.

    `mirrored`: seen from the back.
    """

    subject: str
    kind: Literal["part-dxf", "sheet-dxf"]
    ink: tuple[Ink, ...]
    not_for_cutting: bool
    name: str
    mirrored: bool = False


def part_drawings(job: Job) -> tuple[FlatDrawing, ...]:
    """The part drawing of every board, in the order of the plan."""
    hands = sided(job.room, job.plan)
    return tuple(_part(job, board, hands.get(board.id)) for board in job.plan.boards)


def _part(job: Job, board: Board, hand: Handed | None) -> FlatDrawing:
    left, bottom, _, _ = box(board.outline)
    cuts = board_cuts(board, (-left, -bottom))
    label_of_board = board_label(job, board, (-left, -bottom), "front", hand)
    marks = (*datum_mark(taken_by(board, (-left, -bottom))), *label_of_board)
    return FlatDrawing(board.id, "part-dxf", (*cuts, *marks), board.wall in job.failed, part_name(board, hand))


def part_name(board: Board, hand: Handed | None) -> str:
    """Name of a board's file, without its end: mark, hand, and how many of it are wanted. A mark is one board."""
    return "-".join((board.id, *((hand.hand.upper(),) if hand else ()), "x1"))


def board_size(board: Board) -> Point:
    """Width and height of a board's box."""
    left, bottom, right, top = box(board.outline)
    return (right - left, top - bottom)


def shifted(ring: Ring, by: Point) -> Ring:
    """The ring moved; canonical as before."""
    return canonical((x + by[0], y + by[1]) for x, y in ring)


def board_cuts(board: Board, by: Point) -> tuple[Ink, ...]:
    """Outline, openings and pockets of a board, moved from the wall frame by `by`."""
    return (
        Outline(shifted(board.outline, by), "cut"),
        *(_opening(opening, by) for opening in board.openings),
        *(Outline(shifted(rabbet.ring, by), "pocket") for rabbet in board.rabbets),
    )


def _opening(opening: Opening, by: Point) -> Ink:
    if opening.ring:
        return Outline(shifted(opening.ring, by), "opening")
    centre = (tidy(opening.centre[0] + by[0]), tidy(opening.centre[1] + by[1]))
    return Circle(centre, tidy(opening.diameter / 2), "opening")


def opening_box(opening: Opening, by: Point = (0.0, 0.0)) -> Ring:
    """The box of an opening, as a ring."""
    (x, y), r = opening.centre, opening.diameter / 2
    left, bottom, right, top = box(opening.ring) if opening.ring else (x - r, y - r, x + r, y + r)
    return rectangle(left + by[0], bottom + by[1], right + by[0], top + by[1])


def datum_mark(taken: Sequence[Ring]) -> tuple[Ink, ...]:
    """An arrow that points at the corner from which every cut of a part is measured, and its name where it is free."""
    barbs = ((DATUM / 8, DATUM / 3), (DATUM / 3, DATUM / 8))
    corner = rectangle(0.0, 0.0, DATUM, DATUM)
    words = Block(("DATUM 0,0",), "datum")
    return (
        Line((DATUM, DATUM), (0.0, 0.0), "datum"),
        *(Line((0.0, 0.0), barb, "datum") for barb in barbs),
        *fit_block(words, rectangle(0.0, 0.0, 3 * DATUM, 2.5 * DATUM), [corner, *taken], (4.0,), (0.0,), 1.0),
    )


def taken_by(board: Board, by: Point) -> list[Ring]:
    """Where no words stand: openings (their boxes) and pockets, moved."""
    return [*(opening_box(o, by) for o in board.openings), *(shifted(r.ring, by) for r in board.rabbets)]


def board_label(job: Job, board: Board, by: Point, up: Face, hand: Handed | None) -> tuple[Ink, ...]:
    """What is written on a board: mark, face, hand, wall, pockets; first of all NOT FOR CUTTING where its wall failed.

    `up` is the face seen; a board seen from the back comes as it is seen.
    """
    keep_out = [rectangle(0.0, 0.0, 3 * DATUM, 2.5 * DATUM), *taken_by(board, by)]
    lines = _lines(job, board, up, hand)
    heights = [height * SLACK for height in HEIGHTS]
    texts = place_block(Block(lines, "mark"), shifted(board.outline, by), keep_out, heights, 4.0)
    return tuple(replace(text, height=tidy(text.height / SLACK)) for text in texts)


def _lines(job: Job, board: Board, up: Face, hand: Handed | None) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    text = stamp(job, board.wall)
    return (
        *(wrap(text, 1.0, 45.0) if text else ()),
        board.id,
        f"{up.upper()} FACE UP",
        *(_hand_line(hand) if hand else ()),
        f"wall {board.wall}, top as drawn",
        f"{label_thickness(board.thickness, units)} thick, sheet {board.sheet_id}",
        *pocket_notes(board, units),
        f"{job.room.job.number} {job.room.name}".strip(),
    )


def _hand_line(hand: Handed) -> tuple[str]:
    return (f"{hand.hand.upper()} HAND, {f'mirror image of {hand.mirror}' if hand.mirror else 'not symmetric'}",)


def pocket_notes(board: Board, units: PaperUnits) -> tuple[str, ...]:
    """One line for each depth and face of the board's pockets."""
    kinds = sorted({(rabbet.face, rabbet.depth) for rabbet in board.rabbets})
    return tuple(f"pocket in the {face} face, {label(depth, units)} deep" for face, depth in kinds)
