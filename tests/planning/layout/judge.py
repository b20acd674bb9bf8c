"""Measures a layout result from outside: nothing here comes from the optimiser but its records."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from generator.model.purchase import CutNode
from generator.planning.layout.task import LayoutResult, LayoutTask, WallTask

NEAR = 0.01


def faults(task: LayoutTask, result: LayoutResult) -> list[str]:
    """Every sentence that says what is wrong; empty when all is right."""
    found = [f for wall in task.walls for f in _wall_faults(task, wall, result)]
    return (
        found + [f for n in range(len(result.sheets)) for f in _sheet_faults(task, result, n)] + _count_faults(result)
    )


def _wall_faults(task: LayoutTask, wall: WallTask, result: LayoutResult) -> Iterator[str]:
    region = shapely.Polygon(wall.region.ring, wall.region.holes)
    boards = [shapely.Polygon(p.outline) for p in result.pieces if p.wall == wall.id]
    if shapely.unary_union(boards).symmetric_difference(region).area > 0.1:
        yield f"{wall.id}: boards don't cover the region exactly"
    if abs(sum(b.area for b in boards) - region.area) > 0.1:
        yield f"{wall.id}: boards overlap"
    for seam in _seams(boards):
        yield from _seam_faults(wall, seam, result)
    yield from _stagger_faults(wall, boards, task.stagger)


def _seams(boards: list[shapely.Polygon]) -> Iterator[shapely.LineString]:
    for i, a in enumerate(boards):
        for b in boards[:i]:
            shared = shapely.line_merge(shapely.intersection(a.boundary, b.boundary))
            yield from (part for part in shapely.get_parts(shared) if part.length > NEAR)


def _seam_faults(wall: WallTask, seam: shapely.LineString, result: LayoutResult) -> Iterator[str]:
    left, bottom, right, top = seam.bounds
    if right - left < NEAR:
        added = [a.u for a in result.added if a.wall == wall.id and a.from_v <= bottom + NEAR and top <= a.to_v + NEAR]
        places = [
            s for s in wall.seams if abs(s.u - left) < NEAR and s.from_v <= bottom + NEAR and top <= s.to_v + NEAR
        ]
        if not any(not s.adds or any(abs(s.u - u) < NEAR for u in added) for s in places):
            yield f"{wall.id}: upright seam at {left} without a support"
    for leg in wall.legs:
        inside = shapely.box(leg.from_u + NEAR, -1e5, leg.to_u - NEAR, leg.top - NEAR)
        if seam.intersects(inside):
            yield f"{wall.id}: a seam in the leg"
    for disc in wall.discs:
        if seam.distance(shapely.Point(disc.centre)) < disc.radius - NEAR:
            yield f"{wall.id}: a seam under a collar"


Line = tuple[float, float, float]
"""(where the line stands, from, to)."""


def _lines(seams: list[shapely.LineString], axis: int) -> list[Line]:
    """Upright (axis 0) or level (1) seams, joined where one goes on as the next."""
    flat = [s.bounds for s in seams if s.bounds[axis + 2] - s.bounds[axis] < NEAR]
    joined: list[Line] = []
    for at, low, high in sorted((b[axis], b[1 - axis], b[3 - axis]) for b in flat):
        if joined and abs(joined[-1][0] - at) < NEAR and low < joined[-1][2] + NEAR:
            joined[-1] = (joined[-1][0], joined[-1][1], max(high, joined[-1][2]))
        else:
            joined.append((at, low, high))
    return joined


def _stagger_faults(wall: WallTask, boards: list[shapely.Polygon], stagger: float) -> Iterator[str]:
    """Crossings, and ends of seams on the two sides of one line."""
    uprights, levels = (_lines(list(_seams(boards)), axis) for axis in (0, 1))
    crossing = [
        (u, v)
        for u, a, b in uprights
        for v, c, d in levels
        if a < v - NEAR < b - NEAR * 2 and c < u - NEAR < d - NEAR * 2
    ]
    for u, v in crossing:
        yield f"{wall.id}: seams cross at {u}, {v}"
    for lines, others in ((uprights, levels), (levels, uprights)):
        for at, low, high in lines:
            before = [o for o, _, end in others if abs(end - at) < NEAR and low - NEAR < o < high + NEAR]
            after = [o for o, start, _ in others if abs(start - at) < NEAR and low - NEAR < o < high + NEAR]
            if any(abs(a - b) < stagger - NEAR for a in before for b in after):
                yield f"{wall.id}: four corners on the line at {at}"


def _sheet_faults(task: LayoutTask, result: LayoutResult, index: int) -> Iterator[str]:
    sheet = result.sheets[index]
    stock = next(s for s in task.stocks if s.id == sheet.stock_id)
    if (sheet.cut_tree.x, sheet.cut_tree.y, sheet.cut_tree.width, sheet.cut_tree.height) != (
        0,
        0,
        stock.width,
        stock.height,
    ):
        yield f"sheet {index}: the tree does not start with the sheet"
    outlines = {p.id: shapely.Polygon(p.outline).bounds for p in result.pieces}
    boxes = []
    for place in sheet.placements:
        left, bottom, right, top = outlines[place.board_id]
        width, height = (right - left, top - bottom)[:: -1 if place.turn in (90, 270) else 1]
        boxes.append(shapely.box(place.x, place.y, place.x + width, place.y + height))
        if (
            place.x < -NEAR
            or place.x + width > stock.width + NEAR
            or place.y < -NEAR
            or place.y + height > stock.height + NEAR
        ):
            yield f"sheet {index}: {place.board_id} sticks out"
    if any(a.distance(b) < task.kerf - NEAR for i, a in enumerate(boxes) for b in boxes[:i]):
        yield f"sheet {index}: boards nearer than the kerf"
    yield from (f"sheet {index}: {fault}" for fault in tree_faults(sheet.cut_tree, task.kerf))
    leaves = {n.board_id: (n.x, n.y, n.width, n.height) for n in _leaves(sheet.cut_tree) if n.board_id}
    placed = {
        p.board_id: (b.bounds[0], b.bounds[1], b.bounds[2] - b.bounds[0], b.bounds[3] - b.bounds[1])
        for p, b in zip(sheet.placements, boxes, strict=True)
    }
    if set(leaves) != set(placed) or any(not _holds(leaves[k], placed[k], task.kerf) for k in leaves):
        yield f"sheet {index}: leaves and placements differ"


def _holds(leaf: tuple[float, ...], board: tuple[float, ...], kerf: float) -> bool:
    """The board in its leaf's corner, with no more to spare than a kerf on either side."""
    corner = max(abs(leaf[0] - board[0]), abs(leaf[1] - board[1])) <= NEAR
    return corner and all(-NEAR <= leaf[i] - board[i] <= kerf + NEAR for i in (2, 3))


def tree_faults(node: CutNode, kerf: float) -> Iterator[str]:
    """Every cut runs from edge to edge of its plate and takes one kerf; its parts fill the plate."""
    if node.axis is None:
        if node.children:
            yield "a leaf with children"
        return
    if node.board_id is not None:
        yield "a board on a plate that is cut further"
    lengths = [c.width if node.axis == "x" else c.height for c in node.children]
    whole, start = (node.width, node.x) if node.axis == "x" else (node.height, node.y)
    if abs(start + lengths[0] - node.at) > NEAR:
        yield "a cut that is not where its first part ends"
    if len(lengths) != 2 or abs(sum(lengths) + kerf - whole) > NEAR:
        yield "parts and kerf don't add up to the plate"
    for n, child in enumerate(node.children):
        across = (child.y, child.height) if node.axis == "x" else (child.x, child.width)
        if across != ((node.y, node.height) if node.axis == "x" else (node.x, node.width)):
            yield "a part that is not as high as its plate"
        if abs((child.x if node.axis == "x" else child.y) - (start if n == 0 else node.at + kerf)) > NEAR:
            yield "a part that does not start at its cut"
        yield from tree_faults(child, kerf)


def _leaves(node: CutNode) -> Iterator[CutNode]:
    if node.axis is None:
        yield node
    for child in node.children:
        yield from _leaves(child)


def _count_faults(result: LayoutResult) -> list[str]:
    placed = sorted(p.board_id for s in result.sheets for p in s.placements)
    faults = [] if placed == sorted(p.id for p in result.pieces) else ["not every board is on exactly one sheet"]
    counts = (len(result.sheets), len(result.pieces), len(result.added))
    told = (result.objective.sheets, result.objective.pieces, result.objective.supports)
    return faults if counts == told else [*faults, f"counts {counts} are told as {told}"]
