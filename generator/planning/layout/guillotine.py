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
            if len(sizes) == 1:
                self._known[sizes] = _smallest(
                    [b for b in _single(sizes[0], self.turning) if self._holds(b.width, b.height)]
                )
            else:
                self._known[sizes] = _smallest(list(self._joined(sizes))) if self._may_fit(sizes) else ()
        return self._known[sizes]

    def asked(self) -> int:
        """How many collections it was asked about: effort that is the same on every machine."""
        return len(self._known)

    def block_within(self, sizes: Sizes, width: int, height: int) -> Block | None:
        """A block of these boards no larger than the plate, as it lies; None when there is none."""
        fitting = (b for b in self.blocks(tuple(sorted(sizes))) if b.width <= width and b.height <= height)
        return next(fitting, None)

    def _holds(self, width: int, height: int) -> bool:
        if not self.turning:
            return width <= self.short and height <= self.long
        return min(width, height) <= self.short and max(width, height) <= self.long

    def _may_fit(self, sizes: Sizes) -> bool:
        """False when the boards are too much for any plate, or fewer of them are already."""
        if sum(s.short * s.long for s in sizes) > self.short * self.long:
            return False
        return all(self.blocks(sizes[:i] + sizes[i + 1 :]) for i in range(len(sizes)))

    def _joined(self, sizes: Sizes) -> Iterator[Block]:
        for first, second in _halves(sizes):
            for a in self.blocks(first):
                for b in self.blocks(second):
                    width, height = a.width + b.width, a.height if a.height > b.height else b.height
                    if self._holds(width, height):
                        yield Block(width, height, "x", (a, b), None)
                    width, height = a.width if a.width > b.width else b.width, a.height + b.height
                    if self._holds(width, height):
                        yield Block(width, height, "y", (a, b), None)


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
