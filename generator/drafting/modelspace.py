"""The views of a sheet side by side in one model space, each with the window of the paper that looks at it.

Views of one scale lie in model space as they lie on paper; the first view keeps the frame of its own model. Views of
another scale follow to the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.drafting.ink import Dimension, Ink, Line, Outline, Running, View
from generator.drafting.inview import InView, Piece, shifted
from generator.drafting.overlap import flat, points_of
from generator.model.geometry import Point, box, tidy

CLEAR = 1.0
"""mm of paper between what a window shows and its border."""
GAP = 500.0
"""mm of model space between views of different scales."""
Box = tuple[float, float, float, float]
PieceT = TypeVar("PieceT", bound=Piece)


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

    @property
    def measured(self) -> bool:
        """True where anything is dimensioned."""
        return any(isinstance(item, Dimension | Running) for item in self.marks)


def windows(views: Sequence[InView]) -> tuple[Window, ...]:
    """A window for each view; those of one scale together, the scales in the order of their first views."""
    found: list[Window] = []
    for scale in dict.fromkeys(v.view.scale for v in views):
        same = tuple(v for v in views if v.view.scale == scale)
        to_model = _to_model(same, found)
        found += [_window(view, to_model) for view in same]
    return tuple(found)


def _to_model(views: Sequence[InView], before: Sequence[Window]) -> View:
    """From paper to model space, for views of one scale: clear of what stands there already."""
    view = views[0].view
    to_model = View(1 / view.scale, view.origin, view.at)
    if not before:
        return to_model
    papers = [_paper(v) for v in views]
    left, low = to_model.point((min(p[0] for p in papers), min(p[1] for p in papers)))
    right, floor = max(w.seen[2] for w in before), min(w.seen[1] for w in before)
    return replace(to_model, at=(view.origin[0] + right + GAP - left, view.origin[1] + floor - low))


def _paper(view: InView) -> Box:
    """The window's border on the sheet."""
    left, bottom, right, top = box(p for item in flat(view.on_paper) for p in points_of(item))
    return (left - CLEAR, bottom - CLEAR, right + CLEAR, top + CLEAR)


def _window(view: InView, to_model: View) -> Window:
    paper = _paper(view)
    by = _shift(view.view, to_model)
    model = view.model if by == (0.0, 0.0) else shifted(view.model, by)
    seen = (*to_model.point(paper[:2]), *to_model.point(paper[2:]))
    return Window(view.view.scale, once(model), once(to_model.place(view.marks)), paper, seen)


def once(pieces: Iterable[PieceT]) -> tuple[PieceT, ...]:
    """Without what lies on its like: the edge between two parts, the mouth around a niche's opening."""
    found: dict[object, PieceT] = {}
    for piece in pieces:
        found.setdefault(_drawn(piece), piece)
    return tuple(found.values())


def _drawn(piece: Piece) -> object:
    """What a pen leaves of it: a line from either end, a ring from any of its corners."""
    if isinstance(piece, Line):
        return (piece.layer, *sorted((piece.start, piece.end)))
    if isinstance(piece, Outline) and piece.closed:
        return (piece.layer, *sorted(piece.ring), piece.edge)
    return piece


def _shift(view: View, to_model: View) -> Point:
    """From the view's own model to model space: nothing for the first view."""
    x, y = to_model.point(view.at)
    return (tidy(x - view.origin[0]), tidy(y - view.origin[1]))
