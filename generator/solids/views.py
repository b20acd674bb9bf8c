"""Pictures of the room and line views of its boards, as the records that drawings use."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from generator.model.job import Projection
from generator.model.plan import PlannedWall
from generator.solids.camera import Camera, behind, dot, facing, looking
from generator.solids.edges import seen_edges
from generator.solids.kernel import kernel
from generator.solids.picture import picture
from generator.solids.records import Bodies, Body
from generator.solids.shown import FRAMING, in_place, shown
from generator.solids.strokes import strokes

ELEVATION = 30.0
"""Degrees that the eye of a picture stands above the level."""
TURNS = (0.0, 40.0, -40.0)
"""Degrees that the eye may turn from the room's open side."""
FITTING_WORTH = 4e5
"""mm2 of board that the sight of one fitting is worth when the eye chooses its side."""
APART = 260.0
"""mm between the layers of the exploded picture."""
LIFT = 300.0
"""mm that a bench, a curb or a cap is lifted off the base there."""
BUILT_APART = 150.0
"""mm between the boards and the framing of a bench, curb or cap there."""
SPREAD = 0.1
"""Share by which boards of one wall move apart in the exploded picture."""
SAME_LINE = 0.02
"""mm: a hidden edge this near to a visible one is not drawn again."""


def projections(bodies: Bodies) -> Mapping[str, Projection]:
    """ "isometric" and "exploded": filled pictures. "front:ID", "back:ID" of each board: lines, visible and hidden."""
    camera = room_camera(bodies)
    views = {
        "isometric": picture("isometric", in_place(bodies), camera),
        "exploded": picture("exploded", exploded(bodies), camera),
    }
    for board in bodies.of_kind("board"):
        wall = bodies.wall(board.wall)
        views[f"front:{board.id}"] = line_view(f"front:{board.id}", board, facing(wall))
        views[f"back:{board.id}"] = line_view(f"back:{board.id}", board, behind(wall))
    return views


def room_camera(bodies: Bodies) -> Camera:
    """The eye on the room's open side, turned to where most boards and fittings are seen from the front."""
    x, y = (sum(w.w_axis[i] for w in bodies.walls) for i in (0, 1))
    if math.hypot(x, y) < 1e-6:
        x, y = bodies.walls[0].w_axis[:2]
    open_side = math.degrees(math.atan2(y, x))
    turns = TURNS if len(bodies.walls) > 1 else TURNS[1:]
    cameras = [looking((0.0, 0.0, 0.0), open_side + turn, ELEVATION) for turn in turns]
    return max(cameras, key=lambda c: round(_worth(bodies, c), 3))


def _worth(bodies: Bodies, camera: Camera) -> float:
    """Board seen from the front (mm2 on the paper, not counting what is in the way) and fittings."""
    worth = 0.0
    for wall in bodies.walls:
        seen = max(0.0, dot(wall.w_axis, camera.back))
        boards = [b.shape.BoundingBox() for b in bodies.of_kind("board") if b.wall == wall.id]
        fittings = [b for b in bodies.of_kind("pipe", "valve") if b.wall == wall.id]
        worth += seen * (sum(b.DiagonalLength**2 / 2 for b in boards) + FITTING_WORTH * len(fittings))
    return worth


def exploded(bodies: Bodies) -> tuple[Body, ...]:
    """The bodies in layers: the base where it is, then boards, then framing with its pipes, farther out.

    Of benches and curbs the framing stays, and their boards come off it; the boards of a partition's end, other side
    and cap come off the framing of its inside, wherever that went.
    """
    return tuple(_moved(bodies, body) for body in shown(bodies))


def _moved(bodies: Bodies, body: Body) -> Body:
    if body.kind == "base":
        return body
    wall = bodies.wall(body.wall)
    move = _away(bodies, wall, body.kind == "board")
    if body.kind == "board":
        move = move + _spread(bodies, body, wall)
    return replace(body, shape=body.shape.translate(move))


def _away(bodies: Bodies, wall: PlannedWall, is_board: bool) -> Any:
    """Walls go back in two layers; what stands before them is lifted and comes off its framing, which stays."""
    out = kernel().Vector(*wall.w_axis)
    host = _partition_of(bodies, wall)
    if host is not None:
        return _away(bodies, host, False) + out * (BUILT_APART if wall.feature_id else APART)
    if _stands_before(bodies, wall):
        return out * (BUILT_APART if is_board else 0.0) + kernel().Vector(0, 0, LIFT)
    return out * (-APART if is_board else -2.0 * APART)


def _partition_of(bodies: Bodies, wall: PlannedWall) -> PlannedWall | None:
    """The inside of the partition that a wall is the end, the other side or the cap of; None for all others."""
    own = [body for body in bodies.of_kind(*FRAMING) if body.wall == wall.id]
    if wall.face not in ("wall", "cap") or not own or not all(body.same_as for body in own):
        return None
    host = bodies.wall(bodies.part(own[0].same_as).wall)
    return host if host.feature_id is None else None


def _stands_before(bodies: Bodies, wall: PlannedWall) -> bool:
    """True for the faces of benches, curbs and caps; False for walls and what is built into them."""
    in_walls = {mouth.feature_id for w in bodies.walls for mouth in w.mouths}
    return wall.feature_id is not None and wall.feature_id not in in_walls


def _spread(bodies: Bodies, body: Body, wall: PlannedWall) -> Any:
    """Away from the middle of the wall's boards, along the wall."""
    boards = [b.shape.Center() for b in bodies.of_kind("board") if b.wall == wall.id]
    middle = sum(boards, kernel().Vector(0, 0, 0)) / len(boards)
    offset = body.shape.Center() - middle
    along = [kernel().Vector(*axis) for axis in (wall.u_axis, wall.v_axis)]
    return sum((a * (offset.dot(a) * SPREAD) for a in along), kernel().Vector(0, 0, 0))


def line_view(name: str, body: Body, camera: Camera) -> Projection:
    """The edges of one body alone, visible and hidden; no hidden line where a visible one lies."""
    from shapely import LineString, unary_union

    edges = seen_edges([body.shape], camera)
    visible = unary_union([LineString(c) for c in edges.sharp])
    behind_it = unary_union([LineString(c) for c in edges.hidden]).difference(visible.buffer(SAME_LINE))
    return Projection(
        name,
        (),
        (
            *strokes(visible, body.id, hidden=False, outer=True, least=SAME_LINE),
            *strokes(behind_it, body.id, hidden=True, outer=False, least=SAME_LINE),
        ),
    )
