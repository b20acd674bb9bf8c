"""The room and its sheets as one problem of choice, in the numbers that the solvers work on."""

from __future__ import annotations

from dataclasses import dataclass

from generator.planning.layout.guillotine import Cutter, Sizes, cutter_for, grown
from generator.planning.layout.sizes import Size, in_steps, size_of
from generator.planning.layout.task import LayoutTask
from generator.planning.layout.walls import MOST_ON_A_SHEET, Layout, wall_layouts


@dataclass(frozen=True, slots=True)
class Pattern:
    """Boards (kerf added, sorted) that are cut from one sheet of the stock of that index."""

    stock: int
    sizes: Sizes


@dataclass(frozen=True, slots=True)
class Shop:
    """`sheets` and the sizes in `demands` have the kerf added.

    `prices` of a sheet and `support` of an added support in the objective's first level: money when every
    price is known, else square metres.
    """

    task: LayoutTask
    layouts: tuple[tuple[Layout, ...], ...]
    demands: tuple[tuple[Sizes, ...], ...]
    sheets: Sizes
    prices: tuple[float, ...]
    support: float
    in_money: bool
    cutter: Cutter

    def sizes(self) -> Sizes:
        """Every size that some layout asks for, sorted."""
        return tuple(sorted({size for wall in self.demands for sizes in wall for size in sizes}))

    def layout_cost(self, wall: int, layout: int) -> float:
        return self.support * self.layouts[wall][layout].score[0]

    def cuts(self, pattern: Pattern) -> bool:
        """True when the boards can truly be cut from the sheet."""
        sheet = self.sheets[pattern.stock]
        few = len(pattern.sizes) <= MOST_ON_A_SHEET
        return few and self.cutter.block_within(pattern.sizes, sheet.short, sheet.long) is not None


def open_shop(task: LayoutTask) -> Shop:
    """Raises CannotPlanError when a wall has no layout."""
    kerf = in_steps(task.kerf)
    layouts = tuple(wall_layouts(wall, task) for wall in task.walls)
    demands = tuple(tuple(_grown_all(layout.sizes, kerf) for layout in wall) for wall in layouts)
    prices, support, in_money = _prices(task)
    sheets = tuple(grown(size_of(s.width, s.height), kerf) for s in task.stocks)
    return Shop(task, layouts, demands, sheets, prices, support, in_money, cutter_for(task.stocks, kerf))


def _grown_all(sizes: tuple[Size, ...], kerf: int) -> Sizes:
    return tuple(sorted(grown(size, kerf) for size in sizes))


def sheet_prices(task: LayoutTask) -> dict[str, float]:
    """What one bought sheet of each stock adds to the objective's first level, in its own unit (mm2 without prices)."""
    prices, _, in_money = _prices(task)
    return {s.id: price * (1.0 if in_money else 1e6) for s, price in zip(task.stocks, prices, strict=True)}


def support_price(task: LayoutTask) -> float:
    """What one added support adds to the objective's first level."""
    return _prices(task)[1]


def _prices(task: LayoutTask) -> tuple[tuple[float, ...], float, bool]:
    known = [s.price for s in task.stocks if s.price is not None]
    if len(known) == len(task.stocks):
        return tuple(known), task.support_price or 0.0, True
    return tuple(s.width * s.height / 1e6 for s in task.stocks), 0.0, False
