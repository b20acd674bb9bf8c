"""Exact edge-to-edge cutting of a few boards: the smallest plates that yield them, and the cuts.

Every size here is grown by the kerf (box + kerf in sheet + kerf), so that cuts cost nothing any more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from generator.planning.layout.sizes import Size
from generator.planning.layout.task import StockSize

Sizes = tuple[Size, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """Boards cut from one plate: a single board, or two blocks side by side (x) or stacked (y)."""

    width: int
    height: int
    axis: str
    parts: tuple[Block, ...]
    size: Size | None


@dataclass(frozen=True)
class Cutter:
    """Remembers the smallest blocks of every collection of boards that it was asked about.

    `short`, `long`: the largest plate of interest, kerf added. `turning`: boards may be turned.
    """

    short: int
    long: int
    turning: bool = True
    _known: dict[Sizes, tuple[Block, ...]] = field(default_factory=dict)

    def blocks(self, sizes: Sizes) -> tuple[Block, ...]:
        """Blocks of these (sorted, kerf added) boards, none of which is both as wide and as high as another."""
        if sizes not in self._known:
            made = _single(sizes[0], self.turning) if len(sizes) == 1 else list(self._joined(sizes))
            self._known[sizes] = _smallest([b for b in made if self._of_interest(b)])
        return self._known[sizes]

    def block_within(self, sizes: Sizes, width: int, height: int) -> Block | None:
        """A block of these boards no larger than the plate, as it lies; None when there is none."""
        fitting = (b for b in self.blocks(tuple(sorted(sizes))) if b.width <= width and b.height <= height)
        return next(fitting, None)

    def _of_interest(self, block: Block) -> bool:
        if not self.turning:
            return block.width <= self.short and block.height <= self.long
        return min(block.width, block.height) <= self.short and max(block.width, block.height) <= self.long

    def _joined(self, sizes: Sizes) -> Iterator[Block]:
        for first, second in _halves(sizes):
            for a in self.blocks(first):
                for b in self.blocks(second):
                    yield Block(a.width + b.width, max(a.height, b.height), "x", (a, b), None)
                    yield Block(max(a.width, b.width), a.height + b.height, "y", (a, b), None)


def _single(size: Size, turning: bool) -> list[Block]:
    upright = Block(size.short, size.long, "", (), size)
    return [upright, Block(size.long, size.short, "", (), size)] if turning else [upright]


def _halves(sizes: Sizes) -> Iterator[tuple[Sizes, Sizes]]:
    """Every way to part a collection in two, each once; the first board stays in the first part."""
    seen = set()
    for mask in range(1, 2 ** len(sizes) - 1, 2):
        first = tuple(s for i, s in enumerate(sizes) if mask >> i & 1)
        if first not in seen:
            seen.add(first)
            yield first, tuple(s for i, s in enumerate(sizes) if not mask >> i & 1)


def _smallest(blocks: list[Block]) -> tuple[Block, ...]:
    """The blocks that no other one is smaller than, by rising width."""
    kept: list[Block] = []
    for block in sorted(blocks, key=lambda b: (b.width, b.height)):
        if not kept or block.height < kept[-1].height:
            kept.append(block)
    return tuple(kept)


def grown(size: Size, kerf: int) -> Size:
    """The size with the kerf added to both sides."""
    return Size(size.short + kerf, size.long + kerf)


def cutter_for(stocks: tuple[StockSize, ...], kerf: int) -> Cutter:
    """A cutter whose largest plate of interest holds every sheet."""
    from generator.planning.layout.sizes import size_of

    sheets = [grown(size_of(s.width, s.height), kerf) for s in stocks]
    return Cutter(max(s.short for s in sheets), max(s.long for s in sheets))
