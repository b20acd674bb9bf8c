"""From the choice to sheets: which board lies where, how it is turned, and the cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.geometry import TOUCH, box, tidy
from generator.model.purchase import CutNode, Placement
from generator.planning.layout.guillotine import Block, grown
from generator.planning.layout.shop import Pattern, Shop
from generator.planning.layout.sizes import STEPS, Size, in_steps, size_of
from generator.planning.layout.task import LaidSheet, Piece, StockSize

Oblong = tuple[float, float, float, float]
"""(x, y, width, height) on the sheet, mm."""


def lay_sheets(shop: Shop, pieces: Sequence[Piece], patterns: Sequence[Pattern]) -> tuple[LaidSheet, ...]:
    """The pieces on the sheets of the patterns, each in a place of at least its size."""
    kerf = in_steps(shop.task.kerf)
    sizes = [grown(_size(piece), kerf) for piece in pieces]
    taken = _assign(sizes, patterns)
    loads = [(p.stock, tuple(pieces[i] for i in taken[n])) for n, p in enumerate(patterns) if taken[n]]
    loads.sort(key=lambda load: (load[0], tuple(piece.id for piece in load[1])))
    return tuple(
        _lay(shop, stock, load, owned=_rank(loads, n) < shop.task.stocks[stock].have)
        for n, (stock, load) in enumerate(loads)
    )


def _rank(loads: Sequence[tuple[int, tuple[Piece, ...]]], index: int) -> int:
    """How many sheets of the same stock stand before this one."""
    return sum(stock == loads[index][0] for stock, _ in loads[:index])


def _size(piece: Piece) -> Size:
    left, bottom, right, top = box(piece.outline)
    return size_of(right - left, top - bottom)


def _assign(sizes: Sequence[Size], patterns: Sequence[Pattern]) -> list[list[int]]:
    """Indices of the pieces for each pattern: every piece in a slot that holds it (augmenting paths)."""
    slots = [(n, size) for n, pattern in enumerate(patterns) for size in pattern.sizes]
    holder: dict[int, int] = {}
    for i in range(len(sizes)):
        if not _seat(i, sizes, slots, holder, set()):
            raise RuntimeError("the chosen sheets do not hold the chosen boards")
    return [sorted(i for s, i in holder.items() if slots[s][0] == n) for n in range(len(patterns))]


def _seat(
    i: int, sizes: Sequence[Size], slots: Sequence[tuple[int, Size]], holder: dict[int, int], tried: set[int]
) -> bool:
    for s, (_, slot) in enumerate(slots):
        if s not in tried and slot.short >= sizes[i].short and slot.long >= sizes[i].long:
            tried.add(s)
            if s not in holder or _seat(holder[s], sizes, slots, holder, tried):
                holder[s] = i
                return True
    return False


def _lay(shop: Shop, stock: int, load: Sequence[Piece], *, owned: bool) -> LaidSheet:
    sheet, kerf = shop.task.stocks[stock], in_steps(shop.task.kerf)
    across, along = in_steps(sheet.width) + kerf, in_steps(sheet.height) + kerf
    block = shop.cutter.block_within(tuple(grown(_size(p), kerf) for p in load), across, along)
    if block is None:
        raise RuntimeError(f"a sheet of {sheet.id} does not hold its boards")
    tree = _Cuts(shop.task.kerf, list(load)).node(block, (0.0, 0.0, sheet.width, sheet.height))
    placements = sorted(_placements(tree, {p.id: p for p in load}), key=lambda p: p.board_id)
    return LaidSheet(_id(sheet), owned, tuple(placements), tree)


def _id(sheet: StockSize) -> str:
    return sheet.id


@dataclass(frozen=True, slots=True)
class _Cuts:
    """Turns blocks into cuts of a plate; `waiting` boards are handed out by size, first come first served."""

    kerf: float
    waiting: list[Piece]

    def node(self, block: Block, plate: Oblong) -> CutNode:
        if block.size is None:
            first, second = sorted(block.parts, key=lambda b: -b.width * b.height)
            return self._cut(block.axis, first, second, plate)
        return self._trim(block, plate)

    def _cut(self, axis: str, first: Block, second: Block, plate: Oblong) -> CutNode:
        size = self._mm(first.width if axis == "x" else first.height)
        near, far, at = parted(plate, axis, size, self.kerf)
        children = (self.node(first, near), self.node(second, far))
        return CutNode(*plate, "x" if axis == "x" else "y", at, children, None)

    def _trim(self, block: Block, plate: Oblong) -> CutNode:
        """Cuts the rest of the plate off a single board; a rest of a kerf or less is trimmed, no cut of its own."""
        size = {"x": self._mm(block.width), "y": self._mm(block.height)}
        for axis, extent in (("x", plate[2]), ("y", plate[3])):
            if size[axis] + self.kerf < extent - TOUCH:
                near, far, at = parted(plate, axis, size[axis], self.kerf)
                children = (self._trim(block, near), leaf_of(far, None))
                return CutNode(*plate, "x" if axis == "x" else "y", at, children, None)
        return leaf_of(plate, self._hand_out(block).id)

    def _hand_out(self, block: Block) -> Piece:
        kerf = in_steps(self.kerf)
        piece = next(p for p in self.waiting if grown(_size(p), kerf) == block.size)
        self.waiting.remove(piece)
        return piece

    def _mm(self, with_kerf: int) -> float:
        return tidy((with_kerf - in_steps(self.kerf)) / STEPS)


def leaf_of(plate: Oblong, board_id: str | None) -> CutNode:
    """A plate that is cut no further, with its board or none."""
    return CutNode(*plate, None, 0.0, (), board_id)


def parted(plate: Oblong, axis: str, size: float, kerf: float) -> tuple[Oblong, Oblong, float]:
    """The two plates of a cut `size` from the plate's near side, and where the cut begins."""
    x, y, width, height = plate
    if axis == "x":
        far = (tidy(x + size + kerf), y, tidy(width - size - kerf), height)
        return (x, y, size, height), far, tidy(x + size)
    far = (x, tidy(y + size + kerf), width, tidy(height - size - kerf))
    return (x, y, width, size), far, tidy(y + size)


def _placements(node: CutNode, pieces: dict[str, Piece]) -> list[Placement]:
    if node.board_id is not None:
        left, bottom, right, top = box(pieces[node.board_id].outline)
        stands = right - left <= node.width + TOUCH and top - bottom <= node.height + TOUCH
        return [Placement(node.board_id, node.x, node.y, 0 if stands else 90)]
    return [placement for child in node.children for placement in _placements(child, pieces)]
