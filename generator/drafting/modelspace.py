"""The views of a sheet side by side in one model space, with the windows of the paper that look at them.

Views of one scale lie in model space as they lie on paper, so one window shows them all; the first view keeps the
frame of its own model. Views of another scale follow to the right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drafting.ink import Ink, View
from generator.drafting.inview import InView, Piece, Symbol
from generator.drafting.overlap import flat, points_of
from generator.model.geometry import Point, box, tidy

CLEAR = 1.0
"""mm of paper between what a window shows and its border."""
GAP = 500.0
"""mm of model space between views of different scales."""
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Window:
    """`model` and `marks` in the frame of model space, mm; writing and symbols of dimensions are sized for `scale`.

    `paper`: the window's border on the sheet; `seen`: the same box in model space.
    """

    scale: float
    model: tuple[Piece, ...]
    marks: tuple[Ink, ...]
    paper: Box
    seen: Box


def windows(views: Sequence[InView]) -> tuple[Window, ...]:
    """One window for each scale, in the order of the views."""
    found: list[Window] = []
    for scale in dict.fromkeys(v.view.scale for v in views):
        same = tuple(v for v in views if v.view.scale == scale)
        found.append(_window(same, found[-1].seen if found else None))
    return tuple(found)


def _window(views: Sequence[InView], before: Box | None) -> Window:
    view = views[0].view
    left, bottom, right, top = box(p for v in views for item in flat(v.on_paper) for p in points_of(item))
    paper = (left - CLEAR, bottom - CLEAR, right + CLEAR, top + CLEAR)
    to_model = View(1 / view.scale, view.origin, view.at)
    if before:
        start = to_model.point(paper[:2])
        to_model = replace(
            to_model, at=(view.origin[0] + before[2] + GAP - start[0], view.origin[1] + before[1] - start[1])
        )
    model = tuple(piece for v in views for piece in _shifted(v.model, _shift(v.view, to_model)))
    marks = tuple(item for v in views for item in to_model.place(v.marks))
    return Window(view.scale, model, marks, paper, (*to_model.point(paper[:2]), *to_model.point(paper[2:])))


def _shift(view: View, to_model: View) -> Point:
    """From the view's own model to model space: nothing for the first view."""
    x, y = to_model.point(view.at)
    return (tidy(x - view.origin[0]), tidy(y - view.origin[1]))


def _shifted(model: tuple[Piece, ...], by: Point) -> tuple[Piece, ...]:
    if by == (0.0, 0.0):
        return model
    moved = View(1.0, by)
    return tuple(replace(p, at=moved.point(p.at)) if isinstance(p, Symbol) else moved.place((p,))[0] for p in model)
