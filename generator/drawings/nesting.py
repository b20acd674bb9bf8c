"""Sheets as nested: boards in their places, and the saw cuts in the order in which they are made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from generator.drafting.ink import Ink, Line, move, turn
from generator.drawings.parts import board_cuts, board_size
from generator.drawings.stamp import stamp_of
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.purchase import CutNode, Placement, Sheet


@dataclass(frozen=True, slots=True)
class Step:
    """One saw cut right across a piece: `axis` x cuts upright at x = `at`, y cuts level; the kerf lies beyond `at`."""

    number: int
    axis: Literal["x", "y"]
    piece: CutNode

    @property
    def at(self) -> float:
        return self.piece.at

    @property
    def measure(self) -> float:
        """From the piece's left or lower edge to the cut."""
        return self.at - (self.piece.x if self.axis == "x" else self.piece.y)

    def line(self, kerf: float) -> Line:
        """Middle of the saw's way."""
        p, at = self.piece, self.at + kerf / 2
        if self.axis == "x":
            return Line((at, p.y), (at, p.y + p.height), "sawline")
        return Line((p.x, at), (p.x + p.width, at), "sawline")


def steps(sheet: Sheet) -> tuple[Step, ...]:
    """The cuts in order: each piece is parted before its parts are."""
    nodes = (node for node in walk(sheet.cut_tree) if node.axis is not None)
    return tuple(Step(i + 1, node.axis, node) for i, node in enumerate(nodes) if node.axis)


def walk(node: CutNode) -> Iterator[CutNode]:
    """The node, then everything below it."""
    yield node
    for child in node.children:
        yield from walk(child)


def offcuts(sheet: Sheet) -> tuple[CutNode, ...]:
    """What is left over."""
    return tuple(n for n in walk(sheet.cut_tree) if n.axis is None and n.board_id is None and n.width and n.height)


def placed(board: Board, placement: Placement, ink: tuple[Ink, ...]) -> tuple[Ink, ...]:
    """Ink of a board (its box's lower left at 0, 0) brought to its place on the sheet."""
    return move(turn(ink, placement.turn, board_size(board)), placement.x, placement.y)


def board_cuts_on_sheet(board: Board, placement: Placement) -> tuple[Ink, ...]:
    """Outline, openings and pockets, on the sheet."""
    left, bottom, _, _ = box(board.outline)
    return placed(board, placement, board_cuts(board, (-left, -bottom)))


def sheet_stamp(job: Job, sheet: Sheet) -> str:
    """NOT FOR CUTTING and why, when any board on the sheet is of a failed wall."""
    return stamp_of(job, tuple(job.plan.board(p.board_id).wall for p in sheet.placements))
