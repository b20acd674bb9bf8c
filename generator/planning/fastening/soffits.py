"""Screws of a wall beside and below its soffits: their washers stand clear of the soffits' boards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from generator.model.ends import is_upright
from generator.model.features import Fold, Segment
from generator.model.geometry import TOUCH
from generator.model.room import Room
from generator.planning.fastening.strips import Strip
from generator.planning.folds import Seen, fold_lines


def soffit_lines(room: Room, folds: Iterable[Fold], wall: str) -> tuple[Segment, ...]:
    """Where the board faces of soffits meet those of a wall of the chain."""
    if any(wall in one.faces for one in room.features):
        return ()
    faces = {face for one in room.features if one.kind == "soffit" for face in one.faces}
    return tuple(line for fold in folds if faces & set(fold.faces) for line in fold_lines((fold,), wall))


def clear_of_soffits(view: Seen, lines: Sequence[Segment], strip: Strip, near: float) -> Seen:
    """What soffits beside a strip and over it leave of the view; their faces are at most `near` from its ends."""
    low, high = strip.low + TOUCH, strip.high - TOUCH
    us = [p[0] for p, q in lines if is_upright(p, q) and min(p[1], q[1]) < high and max(p[1], q[1]) > low]
    level = [(p, q) for p, q in lines if not is_upright(p, q) and abs(p[1] - strip.high) <= near]
    over = [p[1] for p, q in level if min(p[0], q[0]) < strip.edges[1] and max(p[0], q[0]) > strip.edges[0]]
    return replace(
        view,
        left=max([view.left, *(u for u in us if abs(u - strip.edges[0]) <= near)]),
        right=min([view.right, *(u for u in us if abs(u - strip.edges[1]) <= near)]),
        top=min([view.top, *over]),
    )
