"""The layout of the whole room and its sheets, chosen together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.errors import CannotPlanError
from generator.model.geometry import box
from generator.model.purchase import Proof
from generator.planning.layout.bound import Floor, lower_bound
from generator.planning.layout.ground import make_ground
from generator.planning.layout.leftovers import cut_from_leftovers
from generator.planning.layout.pack import Packer
from generator.planning.layout.purchase import Choice, choose, first_level, within
from generator.planning.layout.search import SMALL, attainable, best_layouts, cheapest, improved
from generator.planning.layout.sheets import lay_sheets
from generator.planning.layout.shop import Pattern, Shop, open_shop, sheet_prices, support_price
from generator.planning.layout.task import LaidSheet, LayoutResult, LayoutTask, Objective, Piece, WallTask
from generator.planning.layout.walls import SCOPE, Layout, wall_layouts

FROM_LEFTOVERS = "; boards of niches, benches and the like from what is left over"
EVERY_LEVEL = "; least in the purchase, then in sheets, added supports, length of seams, boards and narrow rips as well"
FIRST_LEVEL = "; least in the purchase, the best found in sheets, added supports, length of seams, boards, narrow rips"
"""What was proven, after the class of layouts it holds for; nothing where nothing was."""


def choose_layout(task: LayoutTask) -> LayoutResult:
    """The best layout and purchase of the class that `proof.scope` names, or the best found with a bound.

    Raises CannotPlanError when a wall can't be boarded from these sheets and seam places.
    """
    if not task.stocks:
        raise CannotPlanError("no sheets may be used: name at least one sheet size", "choices.sheets")
    walls = replace(task, walls=tuple(wall for wall in task.walls if not wall.minor))
    minor = tuple(wall for wall in task.walls if wall.minor)
    return _with_minor(task, _choose_for_walls(walls), minor) if minor else _choose_for_walls(walls)


def _choose_for_walls(task: LayoutTask) -> LayoutResult:
    shop = open_shop(task)
    floor = lower_bound(shop)
    packer = Packer(shop, floor.prices, floor.rents)
    least = attainable(shop, floor.bound)
    descent = cheapest(shop, packer, improved(shop, packer, _first_choice(shop, floor), least), least)
    if descent.floor >= descent.choice.first - SMALL:
        outcome = best_layouts(shop, packer, descent.choice)
        if outcome.choice is not None:
            return _result(shop, outcome.choice, descent.floor, EVERY_LEVEL)
        return _result(shop, improved(shop, packer, descent.choice, least), descent.floor, FIRST_LEVEL)
    return _result(shop, improved(shop, packer, descent.choice, least), descent.floor, "")


def _with_minor(task: LayoutTask, result: LayoutResult, minor: Sequence[WallTask]) -> LayoutResult:
    """The result with the boards of the minor walls, from leftovers; the walls' bound holds for both together."""
    layouts = [wall_layouts(wall, task)[0] for wall in minor]
    pieces = [p for wall, layout in zip(minor, layouts, strict=True) for p in _pieces(wall, layout)]
    sheets = cut_from_leftovers(result.sheets, pieces, task.stocks, task.kerf)
    supports, seams, boards, rips = (sum(layout.score[k] for layout in layouts) for k in range(4))
    own, price = result.objective, sheet_prices(task)
    first = own.first + sum(price[s.stock_id] for s in sheets[len(result.sheets) :] if not s.owned)
    first += support_price(task) * supports
    objective = Objective(
        round(first, 6),
        len(sheets),
        own.supports + int(supports),
        round(own.seam_length + seams, 6),
        own.pieces + int(boards),
        own.rips + int(rips),
    )
    proven = result.proof.proven and objective.first <= result.proof.bound + SMALL
    proof = replace(result.proof, value=objective.first, proven=proven, scope=result.proof.scope + FROM_LEFTOVERS)
    added = tuple(support for layout in layouts for support in layout.added)
    everything = tuple(sorted((*result.pieces, *pieces), key=lambda p: p.id))
    return LayoutResult(everything, sheets, (*result.added, *added), objective, proof)


def _first_choice(shop: Shop, floor: Floor) -> Choice:
    """From ever more candidates, the first purchase found; at worst each board on a sheet of its own."""
    for share in (0.05, 0.1, 0.2, 0.5):
        slack = share * max(floor.bound, min(shop.prices))
        choice = choose(shop, within(shop, floor, slack))
        if choice is not None:
            return choice
    return _one_by_one(shop)


def _one_by_one(shop: Shop) -> Choice:
    layouts = (0,) * len(shop.layouts)
    patterns = tuple(
        min(
            (Pattern(s, (size,)) for s in range(len(shop.sheets)) if shop.cuts(Pattern(s, (size,)))),
            key=lambda p: shop.prices[p.stock],
        )
        for wall in shop.demands
        for size in wall[0]
    )
    return Choice(layouts, patterns, first_level(shop, layouts, patterns))


def _result(shop: Shop, choice: Choice, least: float, levels: str) -> LayoutResult:
    layouts = [shop.layouts[w][i] for w, i in enumerate(choice.layouts)]
    pieces = [p for wall, layout in zip(shop.task.walls, layouts, strict=True) for p in _pieces(wall, layout)]
    sheets = lay_sheets(shop, pieces, choice.patterns)
    added = tuple(support for layout in layouts for support in layout.added)
    objective = _objective(shop, layouts, sheets)
    return LayoutResult(
        tuple(sorted(pieces, key=lambda p: p.id)), sheets, added, objective, _proof(shop, objective, least, levels)
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


def _proof(shop: Shop, objective: Objective, least: float, levels: str) -> Proof:
    name, scale = ("cost", 1.0) if shop.in_money else ("mm2 of sheet bought", 1e6)
    bound = min(objective.first, round(least * scale, 6))
    proven = bool(levels) or bound >= objective.first
    return Proof(name, objective.first, bound, proven, SCOPE + (levels or FIRST_LEVEL if proven else ""))
