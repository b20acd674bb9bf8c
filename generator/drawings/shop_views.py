"""Front, back and section of one board, placed on paper and dimensioned from its left edge A and bottom edge B."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from generator.drafting.dimension import running
from generator.drafting.ink import Circle, Ink, Line, Outline, Stop, Text, View
from generator.drafting.inview import InView
from generator.drafting.layers import Role
from generator.drafting.page import text_width
from generator.drafting.spot import Block, fit_block
from generator.drawings.elevation import strip
from generator.drawings.flow import Box
from generator.drawings.marks import centre_mark
from generator.model.geometry import TOUCH, Point, Ring, box, rectangle
from generator.model.job import Projection
from generator.model.plan import Board, Edge, Opening
from generator.units import PaperUnits, label

Face = Literal["front", "back"]
FACES: tuple[Face, Face] = ("front", "back")
TITLE = 6.0
"""mm above a view for its title."""
TITLES: dict[Face, str] = {"front": "FRONT", "back": "BACK, mirrored"}
CLEAR = 4.0
"""mm between a view's edge and its dimension line."""
INSET = 1.0
"""mm inside a factory edge at which the line that marks it runs."""


@dataclass(frozen=True, slots=True)
class Stops:
    """Dimensioned places of one face along one axis, mm from the edge that they are measured from."""

    outline: tuple[float, ...]
    holes: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """A face on paper. The back is mirrored: edge A, the left one of the front, is at its right."""

    board: Board
    face: Face
    units: PaperUnits
    view: View
    hull: Box
    u: Stops
    v: Stops

    def x(self, u: float) -> float:
        """Paper x of a distance from edge A."""
        return self.view.x(u if self.face == "front" else self.view.origin[0] + self.width - u)

    def point(self, p: Point) -> Point:
        """Paper point of a point of the wall frame."""
        left, bottom, _, _ = box(self.board.outline)
        return (self.x(p[0] - left), self.view.y(p[1] - bottom))

    def ring(self, ring: Ring) -> Ring:
        """A ring of the wall frame on paper."""
        return tuple(self.point(p) for p in ring)

    @property
    def width(self) -> float:
        left, _, right, _ = box(self.board.outline)
        return right - left


def distinct(values: Iterable[float]) -> tuple[float, ...]:
    """The values in rising order, each once."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > TOUCH:
            kept.append(value)
    return tuple(kept)


def stops_of(board: Board, face: Face, k: int) -> Stops:
    """What is dimensioned on a face along axis k: the front has outline and openings, the back its rabbets."""
    start = box(board.outline)[k]
    if face == "front":
        return Stops(
            distinct(p[k] - start for p in board.outline if p[k] - start > TOUCH),
            distinct(o.centre[k] - start for o in board.openings),
        )
    far = box(board.outline)[k + 2]
    rabbets = [p[k] for r in board.rabbets if r.face == "back" for p in r.ring]
    return Stops(distinct(value - start for value in (*rabbets, far) if value - start > TOUCH), ())


def furniture(board: Board, face: Face, units: PaperUnits) -> tuple[float, float]:
    """mm of paper beside and below a face for its dimensions."""
    u, v = stops_of(board, face, 0), stops_of(board, face, 1)
    beside, below = (sum(strip(label(x, units) for x in row) for row in (s.outline, s.holes)) for s in (v, u))
    return beside, below


def size_on_paper(board: Board, face: Face, units: PaperUnits, scale: float) -> Point:
    """Width and height in mm of a face with its title and dimensions."""
    left, bottom, right, top = box(board.outline)
    beside, below = furniture(board, face, units)
    width = max((right - left) * scale, text_width(TITLES[face], 2.5, bold=True))
    return (width + beside, (top - bottom) * scale + below + TITLE)


def placed(board: Board, face: Face, units: PaperUnits, scale: float, corner: Point) -> Placed:
    """The face with the upper left corner of all its ink, title and dimensions included, at `corner`."""
    left, bottom, right, top = box(board.outline)
    beside, _ = furniture(board, face, units)
    x = corner[0] + (beside if face == "front" else 0.0)
    height, width = (top - bottom) * scale, (right - left) * scale
    y = corner[1] - TITLE - height
    hull = (x, y, x + width, y + height)
    u, v = stops_of(board, face, 0), stops_of(board, face, 1)
    return Placed(board, face, units, View(scale, (x, y)), hull, u, v)


def face_view(face: Placed, edges: tuple[Edge, ...], seen: Projection | None) -> InView:
    """The face as the solid is seen, its factory edges, its title and its dimensions; its model's lower left is (0, 0).

    `seen` is the view of the solid (x = u from the front, x = -u from the back); None: the plan's own rings.
    """
    board = face.board
    true = replace(face, view=View(1.0, (0.0, 0.0)))
    fills = [Outline(true.ring(r.ring), "pocket", fill=0.75, edge=False) for r in board.rabbets if r.face == face.face]
    shape = _strokes(true, seen) if seen else _rings(true)
    centres = [piece for o in board.openings for piece in centre_mark(face.point(o.centre), _reach(face, o))]
    factory = [_factory_line(face, e) for e in edges if e.id in board.factory_edges]
    marks = (*centres, *factory, *_mark(face), *_titles(face), *_rows(face))
    return InView(face.view, (*fills, *shape), marks)


def _strokes(face: Placed, seen: Projection) -> tuple[Ink, ...]:
    """Visible and hidden edges of the solid."""
    way = 1.0 if face.face == "front" else -1.0
    ink: list[Ink] = []
    for stroke in seen.strokes:
        layer: Role = "hidden" if stroke.hidden else "cut" if stroke.outer else "visible"
        ink.append(Outline(face.ring(tuple((way * x, y) for x, y in stroke.points)), layer, closed=False))
    return tuple(ink)


def _rings(face: Placed) -> tuple[Ink, ...]:
    """Outline, openings and rabbets of the plan."""
    board = face.board
    rabbets = [Outline(face.ring(r.ring), "cut" if r.face == face.face else "hidden") for r in board.rabbets]
    return (*rabbets, Outline(face.ring(board.outline), "cut"), *(_opening(face, o) for o in board.openings))


def _opening(face: Placed, opening: Opening) -> Ink:
    if opening.diameter:
        return Circle(face.point(opening.centre), opening.diameter / 2 * face.view.scale, "opening")
    return Outline(face.ring(opening.ring), "opening")


def _reach(face: Placed, opening: Opening) -> float:
    """mm of paper from an opening's centre to the end of its centre lines."""
    return max(1.8, opening.diameter / 2 * face.view.scale + 1.0)


def _taken(face: Placed, opening: Opening) -> Ring:
    """What an opening and its centre lines take on paper."""
    (x, y), reach = face.point(opening.centre), _reach(face, opening)
    outline = () if opening.diameter else face.ring(opening.ring)
    return rectangle(*box(((x - reach, y - reach), (x + reach, y + reach), *outline)))


def _mark(face: Placed) -> tuple[Ink, ...]:
    """The mark on the front, clear of openings and rabbets; the back says that it is the back.

    On a board too small for it the heading and the title must do: writing never hides an outline.
    """
    words = face.board.id if face.face == "front" else "back"
    taken = [*(_taken(face, o) for o in face.board.openings), *(face.ring(r.ring) for r in face.board.rabbets)]
    block, inside = Block((words,), bold=True, mask=True), face.ring(face.board.outline)
    tried = (fit_block(block, inside, taken, (height,), clear=0.6) for height in (3.5, 2.5))
    return next((found for found in tried if found), ())


def _factory_line(face: Placed, edge: Edge) -> Line:
    """A line a little inside the edge; its board lies to the left of p to q, on the mirrored back to the right."""
    (x0, y0), (x1, y1) = face.point(edge.p), face.point(edge.q)
    length = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-9)
    way = INSET if face.face == "front" else -INSET
    dx, dy = -(y1 - y0) / length * way, (x1 - x0) / length * way
    return Line((x0 + dx, y0 + dy), (x1 + dx, y1 + dy), "visible")


def _titles(face: Placed) -> tuple[Ink, ...]:
    left, _, _, top = face.hull
    return (Text((left, top + 2.8), TITLES[face.face], 2.5, bold=True),)


def _rows(face: Placed) -> tuple[Ink, ...]:
    """Running dimensions from A along the bottom and from B up the side, openings in a second row further out."""
    left, bottom, right, _ = face.hull
    front = face.face == "front"
    near, outward = (left - CLEAR, -1.0) if front else (right + CLEAR, 1.0)
    ink: list[Ink] = []
    line = bottom - CLEAR
    for row in (r for r in (face.u.outline, face.u.holes) if r):
        stops = [Stop(face.x(u), label(u, face.units), None) for u in row]
        ink += [*running("x", line, face.x(0.0), stops), _letter("A", face.x(0.0), line, -1.0 if front else 1.0)]
        line -= strip(label(u, face.units) for u in row)
    for row in (r for r in (face.v.outline, face.v.holes) if r):
        stops = [Stop(face.view.y(v), label(v, face.units), None) for v in row]
        side: Literal[1, -1] = -1 if front else 1
        ink += running("y", near, face.view.y(0.0), stops, side=side)
        ink.append(_corner_letter("B", near, face.view.y(0.0), outward))
        near += outward * strip(label(v, face.units) for v in row)
    return tuple(ink)


def _letter(name: str, x: float, y: float, way: float) -> Text:
    return Text((x + way * 2.0, y), name, 2.5, "right" if way < 0 else "left", "middle", bold=True)


def _corner_letter(name: str, x: float, y: float, way: float) -> Text:
    return Text((x + way * 1.6, y - 1.6), name, 2.5, "right" if way < 0 else "left", "top", bold=True)
