"""What framing and board elevations draw of a wall is what the solids show, projected square on to it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from shapely import LineString, unary_union
from shapely.geometry.base import BaseGeometry

from generator.drafting.ink import Outline
from generator.drafting.inview import Symbol, shifted
from generator.drawings.boards import board_leaves
from generator.drawings.framing import framing_leaves
from generator.drawings.leaf import Leaf
from generator.drawings.said import wall_name
from generator.model.job import Job
from generator.solids import make_bodies
from generator.solids.camera import facing
from generator.solids.records import Bodies
from generator.solids.views import line_view
from tests.example_rooms import job, planned

ROOMS = ("recess-out-of-square", "single-wall", "walk-in")
"""Leaning ends; millimetres; a half wall and niches."""


def _drawn(leaves: tuple[Leaf, ...], of: Job) -> Iterator[tuple[str, str, LineString]]:
    """Wall, support or board, and its ring in the wall frame, from the sheets."""
    walls = {wall_name(wall): wall.id for wall in of.room.chain}
    boards = {(b.wall, frozenset(b.outline)): b.id for b in of.plan.boards}
    for leaf in (leaf for leaf in leaves if leaf.views):
        wall = walls[leaf.title.partition(", ")[2]]
        for piece in leaf.views[0].model:
            if isinstance(piece, Symbol):
                rings = [ink.ring for ink in shifted(piece.ink, piece.at) if isinstance(ink, Outline)]
                yield from ((wall, piece.mark, LineString([*ring, ring[0]])) for ring in rings[:1])
            elif isinstance(piece, Outline) and piece.layer == "board":
                yield wall, boards[wall, frozenset(piece.ring)], LineString([*piece.ring, piece.ring[0]])


def _projected(bodies: Bodies, wall: str, body: str) -> BaseGeometry:
    """All edges of a body by hidden-line projection, visible or not, in the frame of a wall."""
    solid = next(part for part in bodies.parts if part.id == body)
    strokes = line_view(body, solid, facing(bodies.wall(wall))).strokes
    return unary_union([LineString(stroke.points) for stroke in strokes])


@pytest.mark.parametrize("name", ROOMS)
def test_boards_and_supports_stand_on_elevations_where_their_solids_show(name: str) -> None:
    of, bodies = job(name), make_bodies(*planned(name))
    solids = {
        part.id for part in bodies.parts if part.kind in ("board", "stud", "plate", "blocking", "nailer", "ledger")
    }
    count = 0
    for wall, body, ring in _drawn((*framing_leaves(of), *board_leaves(of)), of):
        if body in solids:
            lines = _projected(bodies, wall, body)
            assert ring.difference(lines.buffer(0.01)).length < 0.01, (wall, body)
            count += 1
    assert count >= len(of.plan.boards) / 2 + 6
