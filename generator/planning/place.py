"""The optimiser's answer as sheets with ids, and which edges of a board are a sheet's own border."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.model.choices import Stock
from generator.model.geometry import TOUCH, Point, box
from generator.model.plan import Board, Edge
from generator.model.purchase import Placement, Sheet
from generator.model.room import Room
from generator.planning.layout.task import LaidSheet


def plan_sheets(room: Room, laid: tuple[LaidSheet, ...]) -> tuple[Sheet, ...]:
    """Sheets with ids in the optimiser's order."""
    stocks = {stock.id: stock for stock in room.choices.stocks}
    digits = max(2, len(str(len(laid))))
    return tuple(
        Sheet(
            id=f"SH-{index:0{digits}d}",
            stock_id=sheet.stock_id,
            width=stocks[sheet.stock_id].width,
            height=stocks[sheet.stock_id].height,
            kerf=room.choices.kerf,
            placements=tuple(sorted(sheet.placements, key=lambda p: p.board_id)),
            cut_tree=sheet.cut_tree,
        )
        for index, sheet in enumerate(laid, 1)
    )


def stock_of_pieces(room: Room, sheets: tuple[Sheet, ...]) -> dict[str, tuple[Stock, str]]:
    """Stock and sheet id by piece id."""
    stocks = {stock.id: stock for stock in room.choices.stocks}
    return {p.board_id: (stocks[sheet.stock_id], sheet.id) for sheet in sheets for p in sheet.placements}


def on_sheet(point: Point, board: Board, placement: Placement) -> Point:
    """A point of the board's wall frame in the sheet's frame."""
    left, bottom, right, top = box(board.outline)
    u, v = point
    dx, dy = {
        0: (u - left, v - bottom),
        90: (top - v, u - left),
        180: (right - u, top - v),
        270: (v - bottom, right - u),
    }[placement.turn]
    return placement.x + dx, placement.y + dy


def with_factory_edges(
    boards: tuple[Board, ...], edges: Iterable[Edge], sheets: tuple[Sheet, ...]
) -> tuple[Board, ...]:
    """The boards, each with the ids of its edges that lie on its sheet's border."""
    placed = {p.board_id: (sheet, p) for sheet in sheets for p in sheet.placements}
    own: dict[str, list[Edge]] = {board.id: [] for board in boards}
    for edge in edges:
        own[edge.board].append(edge)
    return tuple(
        replace(board, factory_edges=tuple(e.id for e in own[board.id] if _is_factory(e, board, *placed[board.id])))
        for board in boards
    )


def _is_factory(edge: Edge, board: Board, sheet: Sheet, placement: Placement) -> bool:
    (x0, y0), (x1, y1) = on_sheet(edge.p, board, placement), on_sheet(edge.q, board, placement)
    upright = any(abs(x0 - x) <= TOUCH and abs(x1 - x) <= TOUCH for x in (0.0, sheet.width))
    level = any(abs(y0 - y) <= TOUCH and abs(y1 - y) <= TOUCH for y in (0.0, sheet.height))
    return upright or level
