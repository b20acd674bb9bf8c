"""The layout of the whole room and its sheets, chosen together."""

from __future__ import annotations

from generator.errors import CannotPlanError
from generator.model.geometry import box
from generator.model.plan import Proof
from generator.planning.layout.bound import Floor, lower_bound
from generator.planning.layout.ground import make_ground
from generator.planning.layout.purchase import Choice, choose, within
from generator.planning.layout.search import best_within
from generator.planning.layout.sheets import lay_sheets
from generator.planning.layout.shop import Shop, open_shop
from generator.planning.layout.task import LaidSheet, LayoutResult, LayoutTask, Objective, Piece, WallTask
from generator.planning.layout.walls import SCOPE, Layout

LEVELS = 1


def choose_layout(task: LayoutTask) -> LayoutResult:
    """The best layout and purchase of the class that `proof.scope` names, or the best found with a bound.

    Raises CannotPlanError when a wall can't be boarded from these sheets and seam places.
    """
    if not task.stocks:
        raise CannotPlanError("no sheets may be used: name at least one sheet size", "choices.sheets")
    shop = open_shop(task)
    floor = lower_bound(shop)
    choice = _best(shop, floor)
    return _result(shop, choice, floor)


def _best(shop: Shop, floor: Floor) -> Choice:
    """The cheapest purchase found, then the best layouts that it allows."""
    bought = _cheapest(shop, floor)
    outcome = best_within(shop, floor, bought.first, len(bought.patterns))
    return outcome.choice or bought


def _cheapest(shop: Shop, floor: Floor) -> Choice:
    slack = 0.05 * max(floor.bound, min(shop.prices))
    while True:
        choice = choose(shop, within(shop, floor, floor.patterns, slack), LEVELS)
        if choice is not None:
            return choice
        slack *= 2


def _result(shop: Shop, choice: Choice, floor: Floor) -> LayoutResult:
    layouts = [shop.layouts[w][i] for w, i in enumerate(choice.layouts)]
    pieces = [p for wall, layout in zip(shop.task.walls, layouts, strict=True) for p in _pieces(wall, layout)]
    sheets = lay_sheets(shop, pieces, choice.patterns)
    added = tuple(support for layout in layouts for support in layout.added)
    objective = _objective(shop, layouts, sheets)
    return LayoutResult(
        tuple(sorted(pieces, key=lambda p: p.id)), sheets, added, objective, _proof(shop, objective, floor)
    )


def _pieces(wall: WallTask, layout: Layout) -> list[Piece]:
    ground = make_ground(wall)
    outlines = sorted((ground.outline(cell) for cell in layout.cells), key=box)
    return [Piece(f"B-{wall.id}-{n}", wall.id, outline) for n, outline in enumerate(outlines, start=1)]


def _objective(shop: Shop, layouts: list[Layout], sheets: tuple[LaidSheet, ...]) -> Objective:
    prices = {stock.id: price for stock, price in zip(shop.task.stocks, shop.prices, strict=True)}
    supports, seams, boards, rips = (sum(layout.score[k] for layout in layouts) for k in range(4))
    first = sum(prices[s.stock_id] for s in sheets if not s.owned) + shop.support * supports
    scale = 1.0 if shop.in_money else 1e6
    return Objective(round(first * scale, 6), len(sheets), int(supports), round(seams, 6), int(boards), int(rips))


def _proof(shop: Shop, objective: Objective, floor: Floor) -> Proof:
    name, scale = ("cost", 1.0) if shop.in_money else ("mm2 of sheet bought", 1e6)
    return Proof(name, objective.first, min(objective.first, round(max(0.0, floor.bound) * scale, 6)), False, SCOPE)
