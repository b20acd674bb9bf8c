"""Openings: each in one board with enough board round it, clear of studs, its collar clear of seams."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from generator.checks.framing_found import box_distance
from generator.checks.measuring import (
    at,
    edge_wall,
    edges_of,
    framing_on,
    measured_fitting,
    or_note,
    room_wall,
    unmeasured,
)
from generator.model.findings import Measure, Place
from generator.model.geometry import box, tidy
from generator.model.plan import (
    Board,
    Opening,
    Plan,
    PlannedFitting,
    Support,
)
from generator.model.room import Room
from generator.planning.bays import face

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def _placed_openings(plan: Plan) -> list[tuple[Board, Opening]]:
    return [(board, opening) for board in plan.boards for opening in board.openings]


def opening_shape(opening: Opening) -> BaseGeometry:
    """The opening as a polygon; a circle by 256 chords, less than 0.005 mm short of a 130 mm one."""
    from shapely import Point

    from generator.planning.shapes import polygon

    return polygon(opening.ring) if opening.ring else Point(opening.centre).buffer(opening.diameter / 2, 64)


def _path(room: Room, opening: Opening) -> str:
    return measured_fitting(room, opening.fitting_id).path if opening.fitting_id else ""


def opening_stud_clearance(room: Room, plan: Plan) -> Iterator[Measure]:
    """Openings of fittings keep clear of the studs' faces; a niche or window is framed by them."""
    placed = ((board, opening) for board, opening in _placed_openings(plan) if opening.fitting_id is not None)
    measures = (_stud_clearance(room, plan, board, opening) for board, opening in placed)
    return or_note((m for m in measures if m), "no opening beside a stud")


def _stud_clearance(room: Room, plan: Plan, board: Board, opening: Opening) -> Measure | None:
    found = framing_on(plan.supports, board.wall, "found")
    near = min(found, key=lambda s: (_from_opening(opening, s), s.id), default=None)
    if near is None:
        return None
    subject = f"{opening.id}: its edge and the face of the {near.kind} at {at(room, board.wall, sum(face(near)) / 2)}"
    place = Place(board.wall, (opening.centre,))
    return Measure(subject, _from_opening(opening, near), place, _path(room, opening), None, "warn")


def _from_opening(opening: Opening, support: Support) -> float:
    """mm from the opening's edge to the support's face; negative when it lies over the face."""
    if opening.ring:
        return tidy(box_distance(support, box(opening.ring)))
    (u, v), radius = opening.centre, opening.diameter / 2
    return tidy(box_distance(support, (u, v, u, v)) - radius)


def opening_margin(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each opening lies in one board, with enough board between it and the board's edges."""
    measures = [_margin(room, board, opening) for board, opening in _placed_openings(plan)]
    measures += [m for f in plan.fittings if (m := _missing(room, plan, f))]
    return or_note(measures, "no opening in these walls")


def _margin(room: Room, board: Board, opening: Opening) -> Measure:
    from generator.planning.shapes import polygon

    outline, shape = polygon(board.outline), opening_shape(opening)
    if opening.ring or not outline.contains(shape):
        inside = shape.distance(outline.boundary) if outline.contains(shape) else -_outside(outline, opening)
    else:
        inside = _centre_distance(outline, opening) - opening.diameter / 2
    subject = f"{opening.id} in {board.id}"
    return Measure(subject, tidy(inside), Place(board.wall, (opening.centre,)), _path(room, opening))


def _centre_distance(outline: BaseGeometry, opening: Opening) -> float:
    from shapely import Point

    return Point(opening.centre).distance(outline.boundary)


def _outside(outline: BaseGeometry, opening: Opening) -> float:
    """How far the opening reaches out of the board."""
    return opening_shape(opening).difference(outline).hausdorff_distance(outline.boundary)


def _missing(room: Room, plan: Plan, fitting: PlannedFitting) -> Measure | None:
    """A fitting behind the boards without its one opening is broken by its own width; one beside them is a note."""
    count = sum(o.fitting_id == fitting.id for _, o in _placed_openings(plan))
    path = measured_fitting(room, fitting.id).path
    if count == 0 and not _is_wet(plan, fitting):
        return unmeasured(f"{fitting.id} lies outside the boards: no opening", "note", fitting.wall, path)
    if count == 1:
        return None
    width = fitting.outside_diameter or fitting.cutout_diameter or fitting.collar_diameter
    subject = f"{fitting.id} has {count} openings, not one"
    return Measure(subject, -width, Place(fitting.wall, (fitting.centre,)), path)


def _is_wet(plan: Plan, fitting: PlannedFitting) -> bool:
    from shapely import Point

    from generator.planning.shapes import polygon

    regions = plan.wall(fitting.wall).wet_region
    return any(polygon(r.ring, r.holes).covers(Point(fitting.centre)) for r in regions)


def pipe_clearance(room: Room, plan: Plan) -> Iterator[Measure]:
    """The opening for a pipe is larger than the pipe by the clearance."""
    pipes = {f.id: f.outside_diameter for f in plan.fittings if f.outside_diameter is not None}
    measures = (
        Measure(
            f"{opening.id}: diameter less the pipe's",
            tidy(opening.diameter - pipes[opening.fitting_id]),
            Place(board.wall, (opening.centre,)),
            _path(room, opening),
        )
        for board, opening in _placed_openings(plan)
        if opening.fitting_id in pipes
    )
    return or_note(measures, "no pipe comes through these boards")


def collar_seam(room: Room, plan: Plan) -> Iterator[Measure]:
    """No seam runs under a collar."""
    return or_note((_collar(room, plan, f) for f in plan.fittings), "no fitting in these walls")


def _collar(room: Room, plan: Plan, fitting: PlannedFitting) -> Measure:
    from shapely import LineString, Point

    path = measured_fitting(room, fitting.id).path
    seams = [e for e in edges_of(plan, "seam", "wallboard") if edge_wall(plan, e) == fitting.wall]
    if not seams or not _is_wet(plan, fitting):
        why = "no seam on its wall" if not seams else "outside the boards"
        return unmeasured(f"{fitting.id}: {why} ({room_wall(room, fitting.wall).id})", "note", fitting.wall, path)
    centre = Point(fitting.centre)
    near = min(seams, key=lambda e: (centre.distance(LineString((e.p, e.q))), e.id))
    apart = centre.distance(LineString((near.p, near.q))) - fitting.collar_diameter / 2
    subject = f"{fitting.id}: edge of its collar and the nearest {near.role}"
    return Measure(subject, tidy(apart), Place(fitting.wall, (fitting.centre,)), path)
