"""Small boards from what the sheets of the walls leave over; more sheets only where they do not fit there.

The boards of niches, benches and the like are many and small: tried in every combination with those of the walls they
would take for ever, and cut from the leftovers they cost nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from generator.model.geometry import NOISE, TOUCH, box, tidy
from generator.model.purchase import CutNode, Placement
from generator.planning.layout.sheets import leaf_of, parted
from generator.planning.layout.task import LaidSheet, Piece, StockSize


@dataclass(frozen=True, slots=True)
class _Spot:
    """A free plate of a sheet for a piece; `rest` is the narrower strip that it would leave."""

    rest: float
    sheet: int
    plate: CutNode
    turn: bool


def cut_from_leftovers(
    sheets: tuple[LaidSheet, ...], pieces: Sequence[Piece], stocks: Sequence[StockSize], kerf: float
) -> tuple[LaidSheet, ...]:
    """The sheets with the pieces on them, and those that must be bought besides; each piece fits some stock."""
    laid, waiting = _placed(list(sheets), pieces, kerf)
    if not waiting:
        return tuple(laid)
    holding = [s for s in stocks if all(_turns(_plate(s), piece) for piece in waiting)]
    if not holding:
        alone = [s for s in stocks if _turns(_plate(s), waiting[0])]
        more = [_opened(laid, waiting[:1], stock, kerf) for stock in alone]
        return cut_from_leftovers(tuple(_cheapest(more, stocks)), waiting[1:], stocks, kerf)
    return tuple(_cheapest([_opened(laid, waiting, stock, kerf) for stock in holding], stocks))


def _cheapest(offers: Sequence[list[LaidSheet]], stocks: Sequence[StockSize]) -> list[LaidSheet]:
    return min(offers, key=lambda sheets: (_cost(sheets, stocks), len(sheets)))


def _opened(laid: Sequence[LaidSheet], waiting: Sequence[Piece], stock: StockSize, kerf: float) -> list[LaidSheet]:
    """One more sheet of a stock after another until all pieces are placed."""
    sheets = list(laid)
    while waiting:
        there = sum(s.stock_id == stock.id for s in sheets) < stock.have
        sheets.append(LaidSheet(stock.id, there, (), _plate(stock)))
        sheets, waiting = _placed(sheets, waiting, kerf)
    return sheets


def _cost(sheets: Sequence[LaidSheet], stocks: Sequence[StockSize]) -> float:
    known = {s.id: s.width * s.height if any(o.price is None for o in stocks) else s.price or 0.0 for s in stocks}
    return sum(known[s.stock_id] for s in sheets if not s.owned)


def _plate(stock: StockSize) -> CutNode:
    return leaf_of((0.0, 0.0, stock.width, stock.height), None)


def _placed(sheets: list[LaidSheet], pieces: Sequence[Piece], kerf: float) -> tuple[list[LaidSheet], list[Piece]]:
    """Largest first, each where it leaves the narrowest strip; and those that fit nowhere."""
    waiting: list[Piece] = []
    for piece in sorted(pieces, key=lambda p: (-_area(p), p.id)):
        spots = [s for n, sheet in enumerate(sheets) for s in _spots(n, sheet, piece)]
        if not spots:
            waiting.append(piece)
            continue
        spot = min(spots, key=lambda s: (s.rest, s.sheet, s.plate.x, s.plate.y, s.turn))
        sheets[spot.sheet] = _with_piece(sheets[spot.sheet], spot, piece, kerf)
    return sheets, waiting


def _size(piece: Piece, turn: bool) -> tuple[float, float]:
    left, low, right, high = box(piece.outline)
    across, up = tidy(right - left), tidy(high - low)
    return (up, across) if turn else (across, up)


def _area(piece: Piece) -> float:
    across, up = _size(piece, False)
    return across * up


def _turns(plate: CutNode, piece: Piece) -> list[bool]:
    sizes = ((turn, _size(piece, turn)) for turn in (False, True))
    return [turn for turn, (w, h) in sizes if w <= plate.width + NOISE and h <= plate.height + NOISE]


def _spots(n: int, sheet: LaidSheet, piece: Piece) -> Iterator[_Spot]:
    for plate in _free(sheet.cut_tree):
        for turn in _turns(plate, piece):
            width, height = _size(piece, turn)
            yield _Spot(tidy(min(plate.width - width, plate.height - height)), n, plate, turn)


def _free(node: CutNode) -> Iterator[CutNode]:
    if node.children:
        for child in node.children:
            yield from _free(child)
    elif node.board_id is None:
        yield node


def _with_piece(sheet: LaidSheet, spot: _Spot, piece: Piece, kerf: float) -> LaidSheet:
    placement = Placement(piece.id, spot.plate.x, spot.plate.y, 90 if spot.turn else 0)
    tree = _swapped(sheet.cut_tree, spot.plate, _cut(spot.plate, piece, spot.turn, kerf))
    placements = sorted((*sheet.placements, placement), key=lambda p: p.board_id)
    return replace(sheet, placements=tuple(placements), cut_tree=tree)


def _swapped(node: CutNode, old: CutNode, new: CutNode) -> CutNode:
    if node == old:
        return new
    return replace(node, children=tuple(_swapped(child, old, new) for child in node.children))


def _cut(plate: CutNode, piece: Piece, turn: bool, kerf: float) -> CutNode:
    """The piece in the plate's lower left corner, cut so that the larger of the two rests stays whole."""
    width, height = _size(piece, turn)
    right, above = (plate.width - width) * plate.height, (plate.height - height) * plate.width
    order = (("x", width), ("y", height)) if right >= above else (("y", height), ("x", width))
    return _trimmed((plate.x, plate.y, plate.width, plate.height), order, piece.id, kerf)


def _trimmed(
    plate: tuple[float, float, float, float], cuts: Sequence[tuple[str, float]], piece: str, kerf: float
) -> CutNode:
    """A rest of a kerf or less is trimmed, and no cut of its own."""
    if not cuts:
        return leaf_of(plate, piece)
    axis, size = cuts[0]
    extent = plate[2] if axis == "x" else plate[3]
    if size + kerf >= extent - TOUCH:
        return _trimmed(plate, cuts[1:], piece, kerf)
    near, far, at = parted(plate, axis, size, kerf)
    children = (_trimmed(near, cuts[1:], piece, kerf), leaf_of(far, None))
    return CutNode(*plate, "x" if axis == "x" else "y", at, children, None)
