"""Ink in a view: the model at true size, what is marked on it on paper, and the sheet that it stands on.

A printer needs the view's ink on paper; a CAD file needs it in the frame of its model.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import chain

from generator.drafting.hatch import Hatch, hatched
from generator.drafting.ink import Circle, Ink, View, move
from generator.drafting.layers import Role
from generator.model.geometry import Point, tidy


@dataclass(frozen=True, slots=True)
class Symbol:
    """A thing that stands in many places: `ink` in mm of the model about (0, 0), set down at `at`.

    `block`: what it is, the same for all of its kind; `mark`: which one it is.
    """

    block: str
    at: Point
    ink: tuple[Ink, ...]
    mark: str


Piece = Ink | Symbol | Hatch


@dataclass(frozen=True, slots=True)
class InView:
    """`model`: in the model's frame, mm; `marks`: on paper where the view places it, dimensions included.

    `patched`: each word of it stands on a cleared patch of paper; False where none stands on lines.
    """

    view: View
    model: tuple[Piece, ...]
    marks: tuple[Ink, ...]
    patched: bool = True

    @property
    def on_paper(self) -> tuple[Ink, ...]:
        """All of it as it prints."""
        return (*placed(self.view, self.model), *self.marks)

    def moved(self, x: float, y: float) -> InView:
        """The same, moved on paper."""
        at = (tidy(self.view.at[0] + x), tidy(self.view.at[1] + y))
        return replace(self, view=replace(self.view, at=at), marks=move(self.marks, x, y))


def placed(view: View, model: Iterable[Piece]) -> tuple[Ink, ...]:
    """The pieces on paper: every symbol's ink in its place, every face hatched."""
    return tuple(chain(*(_placed(view, piece) for piece in model)))


def _placed(view: View, piece: Piece) -> tuple[Ink, ...]:
    if isinstance(piece, Hatch):
        return hatched(tuple(tuple(view.point(p) for p in ring) for ring in piece.rings), piece.pattern)
    return view.place(move(piece.ink, *piece.at) if isinstance(piece, Symbol) else (piece,))


def shifted(model: Iterable[Piece], by: Point) -> tuple[Piece, ...]:
    """The pieces moved in their own frame."""
    to = View(1.0, by)
    return tuple(_shifted(piece, to) for piece in model)


def _shifted(piece: Piece, to: View) -> Piece:
    if isinstance(piece, Symbol):
        return replace(piece, at=to.point(piece.at))
    if isinstance(piece, Hatch):
        return replace(piece, rings=tuple(tuple(to.point(p) for p in ring) for ring in piece.rings))
    return to.place((piece,))[0]


def symbol(block: str, at: Point, ink: tuple[Ink, ...], mark: str) -> Symbol:
    """A symbol made of ink where it stands; `at` becomes its point of reference."""
    return Symbol(block, at, move(ink, tidy(-at[0]), tidy(-at[1])), mark)


def round_symbol(block: str, at: Point, diameter: float, layer: Role, mark: str) -> Symbol:
    """A circle about `at`."""
    return Symbol(block, at, (Circle((0.0, 0.0), diameter / 2, layer),), mark)


@dataclass(frozen=True, slots=True)
class Field:
    """A value of the title block: its name, where its base line starts on paper, the width that it may take, mm."""

    name: str
    value: str
    at: Point
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page taken apart for CAD: its views if any, what else stands on it, its empty title block, the block's values.

    `stamp`: NOT FOR CUTTING and why, or "".
    """

    views: tuple[InView, ...]
    beside: tuple[Ink, ...]
    block: tuple[Ink, ...]
    fields: tuple[Field, ...]
    stamp: str
