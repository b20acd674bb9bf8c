"""Bands over folds: how far each reaches over either face, from the line where the finished faces meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from generator.checks.measuring import line_place, wall_path
from generator.model.features import Fold
from generator.model.findings import Measure
from generator.model.geometry import TOUCH, Point, tidy
from generator.model.plan import Board, Plan
from generator.model.room import Room
from generator.planning.sealing.fold_lines import FoldLine, lines_on

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SQUARE = 0.02
"""Of a direction: a cap's ends are cut square, though by its rake and its fall their folds are out by up to 1 in 70."""
Shapes = Mapping[str, "BaseGeometry"]
"""What bands cover of each wall."""


def fold_covers(room: Room, plan: Plan, sealed: Shapes) -> Iterator[Measure]:
    """Of each fold between two boarded faces, on each of them; 0 where no band is folded over it."""
    boarded = {board.wall for board in plan.boards}
    width = room.choices.band.width
    for wall in plan.walls:
        lines = lines_on(wall, plan.walls, plan.folds)
        for line in lines:
            if boarded.issuperset(line.fold.faces):
                cover = _cover(plan, line, lines, sealed[wall.id], width) if _is_banded(plan, line.fold) else 0.0
                subject = f"fold of {' and '.join(line.fold.faces)}: band onto {wall.id}"
                yield Measure(subject, cover, line_place(wall.id, line.p, line.q), wall_path(room, wall.id))


def _is_banded(plan: Plan, fold: Fold) -> bool:
    """True where one piece of band lies along the fold on both faces: two beside each other do not close it."""
    from shapely import LineString

    from generator.planning.shapes import polygon

    strips = {face: LineString(line).buffer(TOUCH) for face, line in zip(fold.faces, fold.lines, strict=True)}
    along = (
        [r.wall for r in band.rings if r.wall in strips and polygon(r.ring).intersection(strips[r.wall]).area > TOUCH]
        for band in plan.bands
    )
    return any(set(walls) == set(fold.faces) for walls in along)


def _cover(plan: Plan, line: FoldLine, lines: tuple[FoldLine, ...], sealed: BaseGeometry, width: float) -> float:
    """mm from the line to the nearest bare spot of the face, thicker than a touch; `width` where there is none."""
    from shapely import get_parts

    boards = [board for board in plan.boards if board.wall == line.wall]
    bare = _face(plan, boards, line, width).difference(_beyond(line, lines, width)).difference(sealed)
    spots = [p for part in get_parts(bare) if not part.buffer(-TOUCH).is_empty for p in part.exterior.coords]
    return tidy(max(0.0, min((line.depth_of(p) for p in spots), default=width)))


def _face(plan: Plan, boards: Sequence[Board], line: FoldLine, width: float) -> BaseGeometry:
    """What shows along the line: the face's boards, and at an outside fold the edge of the boards that lap them."""
    from shapely.affinity import translate

    from generator.planning.shapes import polygon, union

    openings = union(polygon(o.ring) for board in boards for o in board.openings if o.ring and o.feature_id)
    face = union(polygon(board.outline) for board in boards).difference(openings)
    other = next(wall for wall in line.fold.faces if wall != line.wall)
    lip = max((board.thickness for board in plan.boards if board.wall == other), default=0.0)
    if line.outside and lip:
        before = translate(face, *(-way * lip for way in _squared(line.into)))
        face = face.union(before.intersection(polygon(line.strip(lip))))
    return face.intersection(polygon(line.strip(width)))


def _squared(way: Point) -> Point:
    """A direction, along an axis where it nearly is."""
    u, v = (0.0 if abs(part) < SQUARE else part for part in way)
    return u, v


def _beyond(line: FoldLine, lines: Sequence[FoldLine], width: float) -> BaseGeometry:
    """What lies past the folds round this one."""
    from generator.planning.shapes import polygon, union

    return union(polygon(o.strip(-width)) for o in lines if o is not line and o.depth_of(line.middle) > 0.0)
