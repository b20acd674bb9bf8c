"""The lower end of a board, cut through its rabbet: board, base and stud as the solids are, with what they measure."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from generator.drafting.hatch import Hatch, Pattern
from generator.drafting.ink import Dimension, Ink, Line, Text, View
from generator.drafting.inview import InView, Piece
from generator.drawings.detail_ink import INSIDE, on_border, polygons
from generator.drawings.flow import Box
from generator.drawings.marks import Label, words_beside
from generator.drawings.materials import PATTERNS, material_of
from generator.drawings.scales import Scale, fitting_scale
from generator.model.geometry import TOUCH, Point, Ring, box
from generator.model.job import Job, Section, SectionPart
from generator.model.plan import Board
from generator.planning.cuts import upright
from generator.units import PaperUnits, label, label_thickness

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

BEHIND, BEFORE, BELOW, ABOVE = 26.0, 30.0, 32.0, 26.0
"""mm shown behind the stud faces, before the board, below its lower edge and above its rabbet."""
STEEL = Pattern(tone=INSIDE)
"""A steel stud is drawn empty: at this size its sheet would hide the screw's way."""
LEFT, WORDS = 16.0, 44.0
"""mm of paper left of the section for its dimension, right of it for its words."""


def section_view(job: Job, board: Board, section: Section, space: Box) -> InView:
    """The section in its space, at the largest standard scale that fits."""
    window, units = _window(board, section), job.room.choices.paper_units
    size = (window[2] - window[0], window[3] - window[1])
    fits = (space[2] - space[0] - LEFT - WORDS, space[3] - space[1] - 12.0)
    scale = fitting_scale(size, fits, units)
    view = View(scale.factor, (space[0] + LEFT, space[3] - 12.0 - size[1] * scale.factor), (window[0], window[1]))
    cut = [(part, _clipped(part, window)) for part in section.parts]
    cut = [(part, shape) for part, shape in cut if not shape.is_empty]
    model = tuple(piece for part, shape in cut for piece in _part_ink(shape, _pattern(job, board, part), window))
    sizes, words = _sizes(board, units, view, window), _words(board, cut, units, view, window)
    return InView(view, model, (*_title(scale, space), *sizes, *words))


def _rabbet(board: Board) -> Box | None:
    """(left, bottom, right, top) of the longest rabbet in the back; None when there is none."""
    boxes = [box(r.ring) for r in board.rabbets if r.face == "back"]
    return max(boxes, key=lambda b: b[2] - b[0], default=None)


def _window(board: Board, section: Section) -> Box:
    """(w from, v from, w to, v to) of what is shown: about the board's edge as it is cut, which beside a leg is not
    its lowest."""
    rabbet = _rabbet(board)
    own = [v for part in section.parts if part.part == board.id for ring in part.rings for _, v in ring]
    edge = min(own, default=box(board.outline)[1])
    low, high = (rabbet[1], rabbet[3]) if rabbet else (edge, edge + 25.0)
    return (-BEHIND, low - BELOW, board.thickness + BEFORE, high + ABOVE)


def _clipped(part: SectionPart, window: Box) -> BaseGeometry:
    from shapely.geometry import Polygon
    from shapely.geometry import box as rectangle

    shape: BaseGeometry = Polygon()
    for ring in part.rings:
        shape = shape.symmetric_difference(Polygon(ring))
    return shape.intersection(rectangle(*window))


def _pattern(job: Job, board: Board, part: SectionPart) -> Pattern:
    """How a part is hatched in an upright cut across the board's wall."""
    material = material_of(job, upright(job.plan.wall(board.wall), 0.0), part)
    return STEEL if material == "steel" else PATTERNS[material]


def _part_ink(shape: BaseGeometry, pattern: Pattern, window: Box) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for face in sorted(polygons(shape), key=lambda p: p.bounds):
        rings: list[Ring] = [tuple((x, y) for x, y in r.coords[:-1]) for r in (face.exterior, *face.interiors)]
        pieces.append(Hatch(tuple(rings), pattern))
        edges = (edge for ring in rings for edge in pairwise((*ring, ring[0])))
        pieces += [Line(p, q, "outline") for p, q in edges if not on_border(p, q, window)]
    return tuple(pieces)


def _title(scale: Scale, space: Box) -> tuple[Ink, ...]:
    return (Text((space[0], space[3] - 4.0), f"SECTION, scale {scale.text}", 2.5, bold=True),)


def _sizes(board: Board, units: PaperUnits, view: View, window: Box) -> tuple[Ink, ...]:
    """Thickness above, height of the rabbet at the side."""
    top, t = view.y(window[3]), board.thickness
    a, b = view.point((0.0, window[3])), view.point((t, window[3]))
    ink: list[Ink] = [Dimension(a, b, "x", top + 3.0, label_thickness(t, units), t)]
    rabbet = _rabbet(board)
    if rabbet:
        height = rabbet[3] - rabbet[1]
        p, q = view.point((0.0, rabbet[1])), view.point((0.0, rabbet[3]))
        ink.append(Dimension(p, q, "y", view.x(window[0]) - 3.0, label(height, units), height))
    return tuple(ink)


def _words(
    board: Board, cut: list[tuple[SectionPart, BaseGeometry]], units: PaperUnits, view: View, window: Box
) -> tuple[Ink, ...]:
    labels = [Label(view.point(_inside(shape)), _name(part, board)) for part, shape in cut]
    rabbet = next((r for r in board.rabbets if r.face == "back"), None)
    if rabbet:
        high = box(rabbet.ring)[3]
        labels.append(Label(view.point((rabbet.depth, high - 1.5)), f"rabbet {label(rabbet.depth, units)} deep"))
    labels += [Label(view.point(at), f"gap {label(size, units)}") for at, size in _gap(board, cut, window)]
    low, top = view.y(window[1]) + 2.0, view.y(window[3]) - 2.0
    return words_beside(labels, view.x(window[2]) + 3.0, low, top)


def _gap(board: Board, cut: list[tuple[SectionPart, BaseGeometry]], window: Box) -> tuple[tuple[Point, float], ...]:
    """Middle and height of the gap between the front half of the board's lower edge and the base, as cut."""
    from shapely.geometry import box as rectangle

    edge = min((shape.bounds[1] for part, shape in cut if part.part == board.id), default=window[1])
    under = rectangle(board.thickness * 0.6, window[1], board.thickness, edge)
    bases = (shape.intersection(under) for part, shape in cut if part.kind == "base")
    tops = [shape.bounds[3] for shape in bases if not shape.is_empty]
    if not tops or edge - max(tops) <= TOUCH:
        return ()
    return (((board.thickness * 0.8, (edge + max(tops)) / 2), edge - max(tops)),)


def _name(part: SectionPart, board: Board) -> str:
    return board.id if part.part == board.id else part.part if part.kind == "board" else part.kind


def _inside(shape: BaseGeometry) -> Point:
    point = shape.representative_point()
    return (point.x, point.y)
