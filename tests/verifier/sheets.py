"""Boards on their sheets: inside, kerf apart, cut from edge to edge."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from tests.verifier.plain import SEEN, TOUCH, Point, Record, Ring, Violation, box, broken, by_id

Box = tuple[float, float, float, float]


def _turned(point: Point, turn: int) -> Point:
    u, v = point
    return {0: [u, v], 90: [-v, u], 180: [-u, -v], 270: [v, -u]}[turn]


def placed_ring(ring: Ring, outline: Ring, placement: Record) -> Ring:
    """Points of a board, on its sheet."""
    left, bottom, _, _ = box(_turned(p, placement["turn"]) for p in outline)
    turned = [_turned(p, placement["turn"]) for p in ring]
    return [[u - left + placement["x"], v - bottom + placement["y"]] for u, v in turned]


def _boxes(plan: Record, sheet: Record) -> dict[str, Box]:
    boards = by_id(plan, "boards")
    outlines = {p["board_id"]: boards[p["board_id"]]["outline"] for p in sheet["placements"]}
    return {
        p["board_id"]: box(placed_ring(outlines[p["board_id"]], outlines[p["board_id"]], p))
        for p in sheet["placements"]
    }


def check_sheets(plan: Record) -> Iterator[Violation]:
    stocks, boards = by_id(plan, "stocks"), by_id(plan, "boards")
    places = Counter(p["board_id"] for s in plan["sheets"] for p in s["placements"])
    for board in plan["boards"]:
        if places[board["id"]] != 1:
            yield Violation("sheet-once", f"{board['id']} lies on {places[board['id']]} sheets")
    for sheet in plan["sheets"]:
        stock = stocks[sheet["stock_id"]]
        if sorted((sheet["width"], sheet["height"])) != sorted((stock["width"], stock["height"])):
            yield Violation("sheet-size", f"{sheet['id']} has not the size of {stock['id']}")
        if not sheet["placements"]:
            yield Violation("sheet-empty", f"{sheet['id']} carries no board")
        for placement in sheet["placements"]:
            board = boards[placement["board_id"]]
            if board["sheet_id"] != sheet["id"] or board["stock_id"] != sheet["stock_id"]:
                yield Violation("sheet-board", f"{board['id']} is not of {sheet['id']}")
        yield from _apart(plan, sheet)


def _apart(plan: Record, sheet: Record) -> Iterator[Violation]:
    boxes = _boxes(plan, sheet)
    for board_id, (left, bottom, right, top) in boxes.items():
        over = max(-left, -bottom, right - sheet["width"], top - sheet["height"])
        if over > SEEN:
            yield broken(
                "fits-sheet", by_id(plan, "boards")[board_id]["wall"], f"{board_id} leaves {sheet['id']} by {over:.3f}"
            )
    for (a, p), (b, q) in combinations(sorted(boxes.items()), 2):
        gap = max(q[0] - p[2], p[0] - q[2], q[1] - p[3], p[1] - q[3])
        if gap < sheet["kerf"] - SEEN:
            yield broken(
                "sheet-kerf", by_id(plan, "boards")[a]["wall"], f"{a} and {b} are {gap:.3f} apart on {sheet['id']}"
            )


def check_cuts(plan: Record) -> Iterator[Violation]:
    for sheet in plan["sheets"]:
        tree = sheet["cut_tree"]
        if (tree["x"], tree["y"], tree["width"], tree["height"]) != (0, 0, sheet["width"], sheet["height"]):
            yield Violation("cut-root", f"cuts of {sheet['id']} do not start from the whole sheet")
        leaves: list[Record] = []
        yield from _node(sheet, tree, leaves)
        yield from _leaves(plan, sheet, leaves)


def _node(sheet: Record, node: Record, leaves: list[Record]) -> Iterator[Violation]:
    if node["cut"] is None:
        leaves.append(node)
        if node["children"]:
            yield Violation("cut-tree", f"a leaf of {sheet['id']} has children")
        return
    parts = _parts(node, sheet["kerf"])
    if node["board_id"] is not None or len(node["children"]) != len(parts):
        yield Violation("cut-tree", f"a cut of {sheet['id']} has a board, or not what it leaves")
        return
    for child, wanted in zip(node["children"], parts, strict=True):
        have = (child["x"], child["y"], child["width"], child["height"])
        if max(abs(a - b) for a, b in zip(have, wanted, strict=True)) > TOUCH:
            yield Violation("cut-tree", f"a cut of {sheet['id']} leaves {have}, expected {wanted}")
        yield from _node(sheet, child, leaves)


def _parts(node: Record, kerf: float) -> tuple[Box, Box]:
    """The rectangles on either side of an edge-to-edge cut, as (x, y, width, height)."""
    x, y, width, height, at = node["x"], node["y"], node["width"], node["height"], node["cut"]["at"]
    if node["cut"]["axis"] == "x":
        return (x, y, at - x, height), (at + kerf, y, x + width - at - kerf, height)
    return (x, y, width, at - y), (x, at + kerf, width, y + height - at - kerf)


def _leaves(plan: Record, sheet: Record, leaves: list[Record]) -> Iterator[Violation]:
    """A leaf with a board is that board's box, but for a rest thinner than the saw."""
    boxes = _boxes(plan, sheet)
    held = {leaf["board_id"]: leaf for leaf in leaves if leaf["board_id"] is not None}
    if set(held) != set(boxes) or len(held) != sum(leaf["board_id"] is not None for leaf in leaves):
        yield Violation("cut-boards", f"leaves of {sheet['id']} do not hold its boards once each")
    for board_id, leaf in held.items():
        left, bottom, right, top = boxes.get(board_id, (0.0, 0.0, 0.0, 0.0))
        rest = (leaf["x"] + leaf["width"] - right, leaf["y"] + leaf["height"] - top)
        off = max(abs(left - leaf["x"]), abs(bottom - leaf["y"]), -min(rest))
        if off > TOUCH or max(rest) > sheet["kerf"] + TOUCH:
            yield Violation("cut-leaf", f"{board_id} is not cut free on {sheet['id']}")


def check_factory_edges(plan: Record) -> Iterator[Violation]:
    """An edge is a factory edge when it lies on the border of its sheet."""
    boards = by_id(plan, "boards")
    for sheet in plan["sheets"]:
        for placement in sheet["placements"]:
            board = boards[placement["board_id"]]
            wanted = {
                e["id"]
                for e in plan["edges"]
                if e["board"] == board["id"]
                and _on_border(sheet, placed_ring([e["p"], e["q"]], board["outline"], placement))
            }
            if wanted != set(board["factory_edges"]):
                yield Violation(
                    "factory-edges", f"{board['id']} lists {board['factory_edges']}, expected {sorted(wanted)}"
                )


def _on_border(sheet: Record, ends: Ring) -> bool:
    us, vs = zip(*ends, strict=True)
    borders = ((us, 0.0), (us, sheet["width"]), (vs, 0.0), (vs, sheet["height"]))
    return any(all(abs(x - at) < TOUCH for x in xs) for xs, at in borders)
