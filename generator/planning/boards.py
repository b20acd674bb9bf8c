"""Parts: outlines with their openings, rabbets and weights, named by place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import pi

from generator.model.choices import Stock
from generator.model.geometry import TOUCH, Point, Ring, area, box, canonical, tidy
from generator.model.plan import (
    Board,
    Opening,
    PlannedFitting,
    Rabbet,
)
from generator.model.room import BaseSide, Fitting, Room
from generator.planning.base_edge import boards_stop_at_base, rabbet_depth, rabbet_line
from generator.planning.layout.task import Piece
from generator.planning.shapes import polygon, rings, without_slivers


def plan_fittings(room: Room) -> tuple[PlannedFitting, ...]:
    """The fittings, sorted by id; a pipe has an outside diameter, a trimmed opening a cut-out."""
    return tuple(sorted((_plan_fitting(fitting) for fitting in room.fittings), key=lambda f: f.id))


def _plan_fitting(fitting: Fitting) -> PlannedFitting:
    body = fitting.body
    return PlannedFitting(
        id=fitting.id,
        wall=fitting.wall,
        kind=fitting.kind,
        centre=fitting.centre,
        outside_diameter=fitting.diameter if fitting.is_pipe else None,
        cutout_diameter=None if fitting.is_pipe or fitting.ring else fitting.diameter,
        cutout_ring=_on_wall(fitting),
        body=(body.width, body.height, body.depth) if body else None,
        collar_diameter=fitting.collar_diameter,
    )


def opening_diameter(room: Room, fitting: Fitting) -> float:
    """Of a round opening, in mm: a pipe's outside plus its clearance, or the cut-out's own."""
    return tidy(fitting.diameter + (room.limit("pipe-clearance") if fitting.is_pipe else 0.0))


def opening_of(room: Room, fitting: Fitting) -> Opening:
    """The opening that a fitting needs, in the wall frame."""
    u, v = fitting.centre
    return Opening(
        id=f"O-{fitting.id}",
        fitting_id=fitting.id,
        feature_id=None,
        centre=(tidy(u), tidy(v)),
        diameter=0.0 if fitting.ring else opening_diameter(room, fitting),
        ring=_on_wall(fitting),
    )


def _on_wall(fitting: Fitting) -> Ring:
    """The ring of a cut-out that is not round, in the wall frame; empty for a round one."""
    u, v = fitting.centre
    return canonical((u + x, v + y) for x, y in fitting.ring) if fitting.ring else ()


def opening_area(opening: Opening) -> float:
    """mm2."""
    return area(opening.ring) if opening.ring else pi / 4 * opening.diameter**2


def plan_boards(room: Room, pieces: Iterable[Piece], stocks: Mapping[str, tuple[Stock, str]]) -> tuple[Board, ...]:
    """Boards of all walls, sorted by id. `stocks`: stock and sheet id of each piece, by the piece's id."""
    boards = (_plan_board(room, piece, *stocks[piece.id]) for piece in pieces)
    return tuple(sorted(boards, key=lambda board: board.id))


def _plan_board(room: Room, piece: Piece, stock: Stock, sheet_id: str) -> Board:
    ring = piece.outline
    fittings = [fitting for fitting in room.fittings if _is_in(piece, fitting)]
    found = (*(opening_of(room, fitting) for fitting in fittings), *_mouth_openings(room, piece))
    openings = tuple(sorted(found, key=lambda o: o.id))
    rabbets = _rabbets(room, piece.wall, ring)
    return Board(
        id=piece.id,
        wall=piece.wall,
        stock_id=stock.id,
        thickness=stock.board.thickness,
        outline=ring,
        openings=openings,
        rabbets=rabbets,
        sheet_id=sheet_id,
        factory_edges=(),
        weight_kg=_weight(ring, openings, rabbets, stock),
    )


def _mouth_openings(room: Room, piece: Piece) -> Iterator[Opening]:
    """Mouths of niches and windows that lie wholly inside a board; one that a seam meets notches its outline."""
    outline = polygon(piece.outline)
    for mouth in next(wall.mouths for wall in room.walls if wall.id == piece.wall):
        left, low, right, high = box(mouth.ring)
        inside = polygon(mouth.ring).within(outline.buffer(-TOUCH))
        if inside:
            centre = tidy((left + right) / 2), tidy((low + high) / 2)
            yield Opening(f"O-{mouth.feature}", None, mouth.feature, centre, 0.0, mouth.ring)


def _is_in(piece: Piece, fitting: Fitting) -> bool:
    from shapely import Point as ShapelyPoint

    return fitting.wall == piece.wall and bool(polygon(piece.outline).covers(ShapelyPoint(fitting.centre)))


def _weight(ring: Ring, openings: tuple[Opening, ...], rabbets: tuple[Rabbet, ...], stock: Stock) -> float:
    """kg, from the volume of what is left."""
    thickness = stock.board.thickness
    volume = (area(ring) - sum(opening_area(o) for o in openings)) * thickness
    volume -= sum(area(r.ring) * r.depth for r in rabbets)
    return tidy(volume * 1e-9 * stock.board.density)


def _rabbets(room: Room, wall_id: str, ring: Ring) -> tuple[Rabbet, ...]:
    """Back notches over a thin flange, clipped to the board."""
    if room.base.treatment != "lapped" or not boards_stop_at_base(room):
        return ()
    found = []
    for side in room.base.sides:
        if side.wall == wall_id and side.flanged and (depth := rabbet_depth(room, side)) > TOUCH:
            shape = polygon(ring).intersection(polygon(_rabbet_zone(room, side)))
            found += [Rabbet(clip, depth, "back") for clip in rings(without_slivers(shape))]
    return tuple(sorted(found, key=lambda rabbet: rabbet.ring))


def _rabbet_zone(room: Room, side: BaseSide) -> Ring:
    """All that lies below the rabbet's upper edge, the clearance past each end of the flange included."""
    line = rabbet_line(room, side)
    past = room.limit("flange-clearance")
    low = min(v for _, v in side.deck)
    top: list[Point] = [(side.start - past, line[0][1]), *line, (side.end + past, line[-1][1])]
    return canonical(((side.start - past, low), (side.end + past, low), *reversed(top)))
