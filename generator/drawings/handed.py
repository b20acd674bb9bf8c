"""Parts that are easily mistaken for each other: one is the mirror image of the other, and not the same."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import NOISE, Point, Ring, box, canonical
from generator.model.plan import Board, Plan
from generator.model.room import Room

Hand = Literal["left", "right"]
Cut = tuple[str, int, tuple[Point, ...]]
"""Kind, size, and ring or centre of a cut, on the noise grid: an eighth of an inch lies halfway on any coarser one."""


@dataclass(frozen=True, slots=True)
class Handed:
    """Which hand a part is, and the first part that is its mirror image ("" where there is none)."""

    hand: Hand
    mirror: str


def handed(plan: Plan) -> dict[str, Handed]:
    """The hands of the boards that have a mirror image among the boards of the plan and are not alike both ways.

    Seen from the front. Of two mirror images the one that stands first, wall by wall from the left, is the left one.
    """
    order = {wall.id: i for i, wall in enumerate(plan.walls)}
    boards = sorted(plan.boards, key=lambda b: (order[b.wall], box(b.outline)[0], b.id))
    forms = [(_form(board, False), _form(board, True)) for board in boards]
    shapes = [own for own, _ in forms]
    found: dict[str, Handed] = {}
    for board, (own, mirrored) in zip(boards, forms, strict=True):
        if own != mirrored and mirrored in shapes:
            twin = shapes.index(mirrored)
            found[board.id] = Handed("left" if shapes.index(own) < twin else "right", boards[twin].id)
    return found


def sided(room: Room, plan: Plan) -> dict[str, Handed]:
    """`handed`, and every other board that is not alike both ways and hangs on a left or right side of the room.

    Those have no mirror image; their hand is that of the walls left or right of the one that the base stands
    along, or of a left or right face of a niche, window or bench.
    """
    found = handed(plan)
    for board in plan.boards:
        side = _side(room, board.wall)
        if side and board.id not in found and _form(board, False) != _form(board, True):
            found[board.id] = Handed(side, "")
    return found


def _side(room: Room, wall_id: str) -> Hand | None:
    face = next(wall.face for wall in room.walls if wall.id == wall_id)
    if face == "left" or face == "right":
        return face
    chain = [wall.id for wall in room.chain]
    if wall_id not in chain or room.base.along in (wall_id, ""):
        return None
    return "left" if chain.index(wall_id) < chain.index(room.base.along) else "right"


def _form(board: Board, mirrored: bool) -> tuple[Cut, ...]:
    """Everything that is cut into the board, in its own box, as it is or mirrored about an upright line."""
    left, bottom, right, _ = box(board.outline)

    def moved(points: Ring) -> Ring:
        return tuple((right - x if mirrored else x - left, y - bottom) for x, y in points)

    return tuple(
        sorted(
            (
                ("outline", _steps(board.thickness), _ring(moved(board.outline))),
                *(("hole", _steps(o.diameter), _points(moved((o.centre,)))) for o in board.openings if not o.ring),
                *(("opening", 0, _ring(moved(o.ring))) for o in board.openings if o.ring),
                *((f"{r.face} rabbet", _steps(r.depth), _ring(moved(r.ring))) for r in board.rabbets),
            )
        )
    )


def _ring(points: Ring) -> Ring:
    return _points(canonical(points))


def _points(points: Ring) -> Ring:
    return tuple((_steps(x), _steps(y)) for x, y in points)


def _steps(value: float) -> int:
    return round(value / NOISE)
