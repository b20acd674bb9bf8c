"""What a template is laid on: an edge of the board where it is near, else a line drawn on the board."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.drawings.template_clusters import Side, edge_at
from generator.drawings.template_targets import Bounds, Target, bounds
from generator.model.plan import Board

REACH = 14.0
"""mm drawn round what is cut, for the ends of centre marks."""
FOLD = 8.0
"""mm of paper beyond a board's edge, to fold over it."""
SIDES: dict[Literal["x", "y"], tuple[Side, Side]] = {"x": ("left", "right"), "y": ("bottom", "top")}


@dataclass(frozen=True, slots=True)
class Registration:
    """Along one axis: the edge or the drawn line, at u (axis x) or v (axis y) `at`.

    `side`: the edge that it is or, for a line, that it is measured from; `distance`: of a line from that edge.
    """

    axis: Literal["x", "y"]
    is_edge: bool
    side: Side
    at: float
    distance: float


def largest(group: Sequence[Target]) -> Target:
    """The target that plumb and level lines go through."""
    return max(group, key=lambda target: (round(target.around[2] - target.around[0], 6), target.id))


def extent(group: Sequence[Target], found: Sequence[Registration]) -> Bounds:
    """What the pages must show, in the wall frame: the targets, their surroundings, and the edges to lay it on."""
    left, bottom, right, top = bounds(group)
    edges = {r.side: r.at for r in found if r.is_edge}
    return (
        min(left - REACH, edges.get("left", left) - FOLD),
        min(bottom - REACH, edges.get("bottom", bottom) - FOLD),
        max(right + REACH, edges.get("right", right) + FOLD),
        max(top + REACH, edges.get("top", top) + FOLD),
    )


def ways(board: Board, group: Sequence[Target]) -> tuple[tuple[Registration, Registration], ...]:
    """Every way to register a cluster across and upwards: on a drawn line, or on either edge of the board."""
    return tuple((x, y) for x in _along(board, group, "x") for y in _along(board, group, "y"))


def _along(board: Board, group: Sequence[Target], axis: Literal["x", "y"]) -> tuple[Registration, ...]:
    centre = largest(group).at
    at = centre[0] if axis == "x" else centre[1]
    edges = tuple(Registration(axis, True, side, edge_at(board.outline, centre, side), 0.0) for side in SIDES[axis])
    return (Registration(axis, False, edges[0].side, at, at - edges[0].at), *edges)
