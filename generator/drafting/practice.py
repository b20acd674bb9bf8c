"""What lines, writing and dimensions become in the practice of an office: drawings are laid out in one set of sizes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from generator.drafting.ink import Dimension, Running, Text
from generator.drafting.inview import InView, Piece
from generator.model.profiles import DRAFTED, HEIGHTS, PracticeProfile

PieceT = TypeVar("PieceT", bound=Piece)


def drawn_height(height: float, practice: PracticeProfile | None) -> float:
    """The height of capitals laid out at `height`; one that is not of the series stays as it is."""
    name = next((name for name in HEIGHTS if DRAFTED[name] == height), None)
    return height if practice is None or name is None else float(getattr(practice, name))


def practised(pieces: Iterable[PieceT], practice: PracticeProfile | None) -> tuple[PieceT, ...]:
    """The same pieces with writing as high, and dimensions ended as, the practice wants; widths follow by role."""
    return tuple(pieces) if practice is None else tuple(_practised(piece, practice) for piece in pieces)


def practised_view(view: InView, practice: PracticeProfile | None) -> InView:
    """A view with all of its pieces so."""
    return replace(view, model=practised(view.model, practice), marks=practised(view.marks, practice))


def _practised(piece: PieceT, practice: PracticeProfile) -> PieceT:
    match piece:
        case Text():
            return replace(piece, height=drawn_height(piece.height, practice))
        case Dimension() | Running():
            return replace(piece, height=drawn_height(piece.height, practice), ends=practice.ends)
    return piece
