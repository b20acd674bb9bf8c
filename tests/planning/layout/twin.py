"""Brute-force twin of the layout optimiser, on unit squares. It shares nothing with it but the task records.

Walls are sets of squares of side U. Every layout of the documented class is listed, every combination of layouts is
packed by trying every cut; the least objective is the answer.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise, product
from math import ceil, hypot

from generator.planning.layout.task import LayoutTask, WallTask

U = 100.0
Square = tuple[int, int]
Cell = tuple[int, int, int, int]
Objective = tuple[float, int, int, float, int, int]
SPARE = 2
MOST_ADDED = 1


def best(task: LayoutTask) -> Objective | None:
    """The least objective, None when a wall has no layout."""
    walls = [_layouts(wall, task) for wall in task.walls]
    if not all(walls):
        return None
    found = (_bought(task, chosen) for chosen in product(*walls))
    return min(o for o in found if o is not None)


def _bought(
    task: LayoutTask, chosen: tuple[tuple[tuple[tuple[int, int], ...], tuple[int, int, int, int]], ...]
) -> Objective | None:
    scores = [score for _, score in chosen]
    supports, seams, boards, rips = (sum(s[k] for s in scores) for k in range(4))
    pieces = tuple(sorted(p for sizes, _ in chosen for p in sizes))
    stocks = tuple((round(s.width / U), round(s.height / U), s.price, s.have) for s in task.stocks)
    cost = _cheapest(pieces, stocks, round(task.kerf / U))
    if cost is None:
        return None
    in_money = all(s.price is not None for s in task.stocks)
    first = cost[0] + (supports * (task.support_price or 0) if in_money else 0)
    return first, cost[1], supports, seams * U, boards, rips


# packing ---------------------------------------------------------------------------------------------------------


@cache
def _cheapest(
    pieces: tuple[tuple[int, int], ...], stocks: tuple[tuple[int, int, float | None, int], ...], kerf: int
) -> tuple[float, int] | None:
    """(cost or mm2, sheets) over every way to hand the pieces out to sheets."""
    if not pieces:
        return 0.0, 0
    options = []
    for others in _subsets(pieces[1:]):
        load = (pieces[0], *(pieces[1:][i] for i in others))
        rest = tuple(p for i, p in enumerate(pieces[1:]) if i not in others)
        for n, (width, height, price, have) in enumerate(stocks):
            if _fits(tuple(sorted(load)), width, height, kerf):
                paid = 0.0 if have else price if all(s[2] is not None for s in stocks) else width * height * U * U
                left = (*stocks[:n], (width, height, price, max(0, have - 1)), *stocks[n + 1 :])
                after = _cheapest(rest, left, kerf)
                if after is not None:
                    options.append(((paid or 0.0) + after[0], 1 + after[1]))
    return min(options, default=None)


def _subsets(items: tuple[tuple[int, int], ...]) -> Iterator[tuple[int, ...]]:
    for count in range(len(items) + 1):
        yield from combinations(range(len(items)), count)


@cache
def _fits(pieces: tuple[tuple[int, int], ...], width: int, height: int, kerf: int) -> bool:
    """Every first cut, upright and level, every way to share the pieces out to its two sides."""
    if not pieces:
        return True
    if sum(a * b for a, b in pieces) > width * height or width <= 0 or height <= 0:
        return False
    if len(pieces) == 1:
        ((a, b),) = pieces
        return (a <= width and b <= height) or (b <= width and a <= height)
    return any(
        (_fits(one, cut, height, kerf) and _fits(two, width - cut - kerf, height, kerf))
        for one, two in _shared(pieces)
        for cut in range(1, width)
    ) or any(
        (_fits(one, width, cut, kerf) and _fits(two, width, height - cut - kerf, kerf))
        for one, two in _shared(pieces)
        for cut in range(1, height)
    )


def _shared(
    pieces: tuple[tuple[int, int], ...],
) -> list[tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]]:
    ways = {}
    for inside in _subsets(pieces):
        if 0 < len(inside) < len(pieces):
            one = tuple(pieces[i] for i in inside)
            ways[one] = tuple(p for i, p in enumerate(pieces) if i not in inside)
    return list(ways.items())


# layouts ---------------------------------------------------------------------------------------------------------


def _layouts(wall: WallTask, task: LayoutTask) -> list[tuple[tuple[tuple[int, int], ...], tuple[int, int, int, int]]]:
    squares = _squares(wall)
    judged = [_judge(wall, task, squares, cells) for cells in _partitions(wall, task, squares)]
    valid = [j for j in judged if j is not None]
    fewest = min((score[2] for _, score in valid), default=0)
    near = [(sizes, score) for sizes, score in valid if score[2] <= fewest + SPARE]
    plain = [(sizes, score) for sizes, score in near if score[0] <= MOST_ADDED and score[3] == 0]
    least: dict[tuple[tuple[int, int], ...], tuple[int, int, int, int]] = {}
    for sizes, score in plain or near:
        if sizes not in least or score < least[sizes]:
            least[sizes] = score
    return sorted(least.items())


def _squares(wall: WallTask) -> frozenset[Square]:
    ring = wall.region.ring

    def inside(x: float, y: float) -> bool:
        odd = False
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
                odd = not odd
        return odd

    return frozenset((i, j) for i in range(40) for j in range(40) if inside((i + 0.5) * U, (j + 0.5) * U))


def _extent(squares: frozenset[Square]) -> Cell:
    xs, ys = [i for i, _ in squares], [j for _, j in squares]
    return min(xs), min(ys), max(xs) + 1, max(ys) + 1


def _inside(squares: frozenset[Square], cell: Cell) -> frozenset[Square]:
    return frozenset((i, j) for i, j in squares if cell[0] <= i < cell[2] and cell[1] <= j < cell[3])


def _partitions(wall: WallTask, task: LayoutTask, squares: frozenset[Square]) -> Iterator[list[Cell]]:
    left, bottom, right, top = _extent(squares)
    places = sorted({round(s.u / U) for s in wall.seams if left < round(s.u / U) < right})
    for chosen in _chosen(places):
        lines = [left, *chosen, right]
        columns = []
        for a, b in pairwise(lines):
            part = _inside(squares, (a, bottom, b, top))
            low_x, low, high_x, high = _extent(part)
            columns.append(
                [
                    [(a, y, b, z) for y, z in zip([bottom, *cuts], [*cuts, top], strict=True)]
                    for cuts in _cuts(low, high, high_x - low_x, task)
                ]
            )
        for way in product(*columns):
            yield [cell for column in way for cell in column]
    for cuts in _cuts(bottom, top, 0, task):
        courses = [
            [[(x, y, w, z) for x, w in zip([left, *xs], [*xs, right], strict=True)] for xs in _chosen(places)]
            for y, z in zip([bottom, *cuts], [*cuts, top], strict=True)
        ]
        for way in product(*courses):
            yield [cell for course in way for cell in course]


def _chosen(places: list[int]) -> list[list[int]]:
    return [list(c) for n in range(len(places) + 1) for c in combinations(places, n)]


def _cuts(low: int, high: int, across: int, task: LayoutTask) -> list[list[int]]:
    sheets = [(round(s.width / U), round(s.height / U)) for s in task.stocks]
    sides = {along for pair in sheets for other, along in (pair, pair[::-1]) if other >= across}
    most = max((ceil((high - low) / side) for side in sides), default=1)
    found = []
    for count in range(most):
        for cuts in combinations(range(low + 1, high), count):
            gaps = [b - a for a, b in zip([low, *cuts], [*cuts, high], strict=True)]
            if _as_documented(gaps, sides, round(task.least_rip / U)):
                found.append(list(cuts))
    return found


def _as_documented(gaps: list[int], sides: set[int], least: int) -> bool:
    """Equal; or all but one as long as a side; or such with a narrow rest brought up at its larger neighbour's cost."""
    if len(set(gaps)) == 1:
        return True
    for rest in range(len(gaps)):
        if all(g in sides for i, g in enumerate(gaps) if i != rest):
            return True
        for giver in (rest - 1, rest + 1):
            if gaps[rest] == least and 0 <= giver < len(gaps):
                for short in range(1, least):
                    before = [g + (least - short) * ((i == giver) - (i == rest)) for i, g in enumerate(gaps)]
                    beside = [i for i in (rest - 1, rest + 1) if 0 <= i < len(gaps)]
                    larger = max(beside, key=lambda i: (before[i], -i))
                    if larger == giver and all(g in sides for i, g in enumerate(before) if i != rest):
                        return True
    return False


def _judge(
    wall: WallTask, task: LayoutTask, squares: frozenset[Square], cells: list[Cell]
) -> tuple[tuple[tuple[int, int], ...], tuple[int, int, int, int]] | None:
    """(sizes, (supports, seam, boards, rips)), None when a rule is broken."""
    parts = [_inside(squares, cell) for cell in cells]
    if not all(parts) or not all(_one_piece(part) for part in parts):
        return None
    boxes = [_extent(part) for part in parts]
    sizes = tuple(sorted((min(b[2] - b[0], b[3] - b[1]), max(b[2] - b[0], b[3] - b[1])) for b in boxes))
    if not all(any(_fits((s,), round(k.width / U), round(k.height / U), 0) for k in task.stocks) for s in sizes):
        return None
    owner = {square: n for n, part in enumerate(parts) for square in part}
    uprights = {(i + 1, j) for i, j in squares if (i + 1, j) in squares and owner[i, j] != owner[i + 1, j]}
    levels = {(i, j + 1) for i, j in squares if (i, j + 1) in squares and owner[i, j] != owner[i, j + 1]}
    if not _allowed(wall, uprights, levels) or not _staggered(uprights, levels, task.stagger / U):
        return None
    found = {round(s.u / U) for s in wall.seams if not s.adds}
    supports = len({x for x, _ in uprights} - found)
    rips = sum(_rip(wall, task.least_rip / U, _extent(squares), b) for b in boxes)
    return sizes, (supports, len(uprights) + len(levels), len(cells), rips)


def _one_piece(part: frozenset[Square]) -> bool:
    seen, waiting = set(), [min(part)]
    while waiting:
        i, j = waiting.pop()
        if (i, j) in part and (i, j) not in seen:
            seen.add((i, j))
            waiting += [(i + 1, j), (i - 1, j), (i, j + 1), (i, j - 1)]
    return seen == part


def _allowed(wall: WallTask, uprights: set[Square], levels: set[Square]) -> bool:
    for leg in wall.legs:
        start, end, top = round(leg.from_u / U), round(leg.to_u / U), round(leg.top / U)
        if any(start < x < end and y < top for x, y in uprights) or any(
            start <= x < end and y <= top for x, y in levels
        ):
            return False
    ends = [((x, y), (x, y + 1)) for x, y in uprights] + [((x, y), (x + 1, y)) for x, y in levels]
    return not any(_near(disc.centre, p, q) < disc.radius - 1e-6 for disc in wall.discs for p, q in ends)


def _near(centre: tuple[float, float], p: Square, q: Square) -> float:
    x = min(max(centre[0], p[0] * U), q[0] * U)
    y = min(max(centre[1], p[1] * U), q[1] * U)
    return hypot(centre[0] - x, centre[1] - y)


def _staggered(uprights: set[Square], levels: set[Square], stagger: float) -> bool:
    """On no line do seams end from either side nearer than the stagger, and no two seams cross."""
    turned = {(y, x) for x, y in uprights}, {(y, x) for x, y in levels}
    return _ends_apart(uprights, levels, stagger) and _ends_apart(turned[1], turned[0], stagger)


def _ends_apart(uprights: set[Square], levels: set[Square], stagger: float) -> bool:
    for x in {x for x, _ in uprights}:
        steps = {y for u, y in uprights if u == x}
        on = {y + d for y in steps for d in (0, 1)}
        before = {y for i, y in levels if i + 1 == x and y in on}
        after = {y for i, y in levels if i == x and y in on}
        passing = {y for y in before & after if not (y in steps and y - 1 in steps)}
        crossing = (before & after) - passing
        if crossing or any(abs(a - b) < stagger for a in before - passing for b in after - passing):
            return False
    return True


def _rip(wall: WallTask, least: float, extent: Cell, box: Cell) -> bool:
    width, height = box[2] - box[0], box[3] - box[1]
    narrow = width < least <= extent[2] - extent[0] or height < least <= extent[3] - extent[1]
    legs = ((leg.from_u / U, leg.to_u / U, leg.top / U) for leg in wall.legs)
    return narrow and not any(a <= box[0] and box[2] <= b and box[1] < top for a, b, top in legs)
