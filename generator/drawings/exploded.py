"""The room taken apart: boards off their framing, each with its mark and its number in the order of going up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain, cycle
from typing import TYPE_CHECKING

from generator.drafting.dimension import spread
from generator.drafting.ink import Circle, Ink, Line, Outline, Text, View
from generator.drafting.inview import InView
from generator.drafting.page import text_box
from generator.drafting.spot import Block as Words
from generator.drafting.spot import fit_block
from generator.drawings.boards import size_text
from generator.drawings.elevation import BETWEEN, COLUMN, PANEL, pages_of
from generator.drawings.flow import Block, Box, Column, columns_of, flow, heading, prose, table
from generator.drawings.leaf import CONTINUED, NO_SCALE, Leaf, area
from generator.drawings.marks import inside
from generator.drawings.stamp import stamp_of
from generator.model.geometry import Point, Ring, box, rectangle
from generator.model.geometry import area as ring_area
from generator.model.job import Face, Job, Projection

if TYPE_CHECKING:
    from shapely import Polygon

KIND = "Exploded view"
BALLOON = 3.1
"""mm: radius of a balloon."""
SIDE = 32.0
"""mm of paper left and right of the picture for balloons with leaders and their marks."""
MARK = 2.5
"""mm: height of a mark."""
APART = 1.0
"""mm between a leader and the balloons and marks that it passes."""
TONES = {"board": (0.82, 0.18), "base": (0.84, 0.12), "added": (0.28, 0.22)}
"""Darkest grey of a part and what full light adds; framing as found and pipes are `OTHER`."""
OTHER = (0.62, 0.26)


@dataclass(frozen=True, slots=True)
class Balloon:
    """A board that is seen: its number in the order of going up, its mark, the middle and ring of its largest patch."""

    at: Point
    number: int
    mark: str
    rings: tuple[Ring, ...]
    clear: float
    """mm of paper from `at` to the patch's edge."""


def exploded_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sheet with the exploded picture and the order of going up; none where the job holds no picture."""
    picture = job.projections.get("exploded")
    if picture is None or not picture.faces:
        return ()
    warning = stamp_of(job, tuple(w.id for w in job.plan.walls))
    left, bottom, right, top = area(job, warning)
    view = exploded_view(job, picture, (left, bottom, right - PANEL - BETWEEN, top))
    columns = columns_of((left, bottom, right, top), COLUMN)
    filled = flow(_notes(job), chain([(right - PANEL, bottom, right, top)], cycle(columns)))
    first = Leaf(KIND, KIND, NO_SCALE, filled[0], warning, (view,))
    return (first, *pages_of(KIND, f"{KIND}{CONTINUED}", filled[1:], len(columns), warning))


def exploded_view(job: Job, picture: Projection, space: Box) -> InView:
    """The picture as large as the space allows, a balloon for each board that is seen in it."""
    view = _view(picture, space)
    added = {s.id for s in job.plan.supports if s.origin == "added"}
    faces = sorted(picture.faces, key=lambda f: (-abs(ring_area(f.rings[0])), f.part, f.rings[0]))
    fills = chain(*(_fill(f, f.part in added) for f in faces))
    strokes = (
        Outline(s.points, "visible" if s.outer else "light", closed=False) for s in picture.strokes if not s.hidden
    )
    balloons = balloons_of(job, faces, view)
    on = tuple(b for b in balloons if b.clear >= BALLOON + 0.6)
    beside = tuple(b for b in balloons if b not in on)
    marks = (*_beside(beside, on, space), *chain(*(_on_face(b) for b in on)))
    return InView(view, (*fills, *strokes), marks, patched=False)


def _view(picture: Projection, space: Box) -> View:
    left, low, right, high = box([p for f in picture.faces for ring in f.rings for p in ring])
    room = (space[2] - space[0] - 2 * SIDE, space[3] - space[1] - 4.0)
    scale = min(room[0] / (right - left), room[1] / (high - low))
    at = ((space[0] + space[2] - (right - left) * scale) / 2, (space[1] + space[3] - (high - low) * scale) / 2)
    return View(scale, at, (left, low))


def _fill(face: Face, added: bool) -> tuple[Ink, ...]:
    dark, light = TONES.get("added" if added else face.kind, OTHER)
    holes = (Outline(ring, "light", fill=1.0, edge=False) for ring in face.rings[1:])
    return (Outline(face.rings[0], "light", fill=dark + light * face.shade, edge=False), *holes)


def balloons_of(job: Job, faces: Sequence[Face], view: View) -> tuple[Balloon, ...]:
    """One for each board with a patch in the picture, in the order of going up. The faces come the largest first."""
    largest: dict[str, Face] = {}
    for face in faces:
        if face.kind == "board":
            largest.setdefault(face.part, face)
    numbers = {mark: i + 1 for i, mark in enumerate(job.plan.sequence)}
    return tuple(_balloon(largest[m], numbers[m], view) for m in job.plan.sequence if m in largest)


def _balloon(face: Face, number: int, view: View) -> Balloon:
    from shapely import Point as Spot
    from shapely import Polygon

    rings = tuple(tuple(view.point(p) for p in ring) for ring in face.rings)
    shape = Polygon(rings[0], rings[1:])
    at = _middle(shape)
    return Balloon(at, number, face.part, rings, shape.boundary.distance(Spot(at)))


def _middle(shape: Polygon) -> Point:
    """The point of a patch that is farthest from its edges."""
    from shapely import maximum_inscribed_circle

    start = maximum_inscribed_circle(shape, tolerance=0.05).coords[0]
    return (round(start[0], 3), round(start[1], 3))


def _on_face(balloon: Balloon) -> tuple[Ink, ...]:
    """The number in its circle, and the mark near it where it fits on the patch."""
    return (*_circle(balloon.at, balloon.number), *_mark(balloon))


def _mark(balloon: Balloon) -> tuple[Text, ...]:
    """Below the circle, or wherever else the patch has room; the list beside the picture has every mark."""
    from shapely import Polygon

    x, y = balloon.at
    below = Text((x, y - BALLOON - MARK - 0.9), balloon.mark, MARK, "centre", mask=True)
    if Polygon(balloon.rings[0], balloon.rings[1:]).buffer(-0.4).contains(Polygon(text_box(below))):
        return (below,)
    around = rectangle(x - BALLOON - 0.5, y - BALLOON - 0.5, x + BALLOON + 0.5, y + BALLOON + 0.5)
    words = Words((balloon.mark,), mask=True)
    return fit_block(words, balloon.rings[0], (*balloon.rings[1:], around), (MARK,), clear=0.6)


def _circle(at: Point, number: int) -> tuple[Ink, ...]:
    return (Circle(at, BALLOON, "visible", fill=1.0), Text(at, str(number), MARK, "centre", "middle", bold=True))


def _beside(balloons: Sequence[Balloon], on: Sequence[Balloon], space: Box) -> tuple[Ink, ...]:
    """Balloons left and right of the picture, whichever is nearer, with leaders; leaders first, circles over them."""
    middle = (space[0] + space[2]) / 2
    clear = [_clear_of(b, on, b.at[0] < middle) for b in balloons]
    left = _column([b for b in clear if b.at[0] < middle], space[0] + SIDE - BALLOON - 2.0, space, -1)
    right = _column([b for b in clear if b.at[0] >= middle], space[2] - SIDE + BALLOON + 2.0, space, 1)
    both = (*left, *right)
    return (*(i for i in both if isinstance(i, Line)), *(i for i in both if not isinstance(i, Line)))


def _taken(on: Balloon) -> tuple[Box, ...]:
    """Where a balloon on a face and its mark stand."""
    x, y = on.at
    circle = (x - BALLOON, y - BALLOON, x + BALLOON, y + BALLOON)
    return (circle, *(box(text_box(text)) for text in _mark(on)))


def _clear_of(balloon: Balloon, on: Sequence[Balloon], to_left: bool) -> Balloon:
    """Pointing to where a level leader meets no balloon on a face nor its mark, nearest to the middle of its patch."""
    from shapely import LineString, Polygon

    shape = Polygon(balloon.rings[0], balloon.rings[1:])
    left, low, right, high = shape.bounds
    taken = [b for other in on for b in _taken(other)]
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9):
        y = low + share * (high - low)
        pieces = shape.intersection(LineString(((left - 1, y), (right + 1, y))))
        longest = max(getattr(pieces, "geoms", (pieces,)), key=lambda g: (round(g.length, 6), g.bounds))
        x = round((longest.bounds[0] + longest.bounds[2]) / 2, 3)
        if not any(b[1] - APART < y < b[3] + APART and ((b[0] + b[2]) / 2 < x) == to_left for b in taken):
            return replace(balloon, at=(x, round(y, 3)))
    return balloon


def _column(balloons: Sequence[Balloon], x: float, space: Box, side: int) -> tuple[Ink, ...]:
    ordered = sorted(balloons, key=lambda b: (b.at[1], b.number))
    pitch = 2 * BALLOON + 1.0
    low, high = space[1] + BALLOON, space[3] - BALLOON
    ys = inside(spread([min(max(b.at[1], low), high) for b in ordered], pitch), low, high, pitch)
    ink: list[Ink] = []
    for balloon, y in zip(ordered, ys, strict=True):
        ink += [Line(balloon.at, (x - side * BALLOON, y), "dimension"), Circle(balloon.at, 0.5, "dimension", fill=0.0)]
        ink += _circle((x, y), balloon.number)
        ink.append(Text((x + side * (BALLOON + 1.0), y), balloon.mark, MARK, "left" if side > 0 else "right", "middle"))
    return tuple(ink)


def _notes(job: Job) -> tuple[Block, ...]:
    how = (
        "The room taken apart: boards off their framing, the base where it is. Numbers are the order in which boards "
        "go up; a board that is hidden is in the list alone. Darkest: framing to add. Not to scale."
    )
    rows = [
        (str(i + 1), m, job.plan.board(m).wall, size_text(job, job.plan.board(m)))
        for i, m in enumerate(job.plan.sequence)
    ]
    columns = (Column("No.", 9), Column("Board", 31), Column("Wall", 24), Column("Size", 37))
    return (heading(KIND, PANEL, 5.0), prose(how, PANEL), *table(columns, rows, PANEL, "Order of going up"))
