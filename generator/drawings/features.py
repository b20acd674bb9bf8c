"""A sheet for each niche, window, bench, curb or half-wall top: all its faces side by side, boards and framing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain

from generator.drafting.dimension import running
from generator.drafting.ink import Ink, Outline, Stop, Text, View
from generator.drafting.inview import InView, Piece
from generator.drafting.page import text_width
from generator.drafting.spot import Block as Words
from generator.drafting.spot import fit_block, place_block
from generator.drawings.boards import boards_of, screw_ink, screw_spots, size_text
from generator.drawings.elevation import PANEL, strip
from generator.drawings.face_rows import TITLE, FaceSheet, Seen, face_leaves, face_title, faces_of, feature_name
from generator.drawings.flow import Block, Box, Column, heading, prose, table
from generator.drawings.leaf import Leaf
from generator.drawings.said import lumber_name
from generator.drawings.scales import Scale
from generator.drawings.shop_views import distinct
from generator.drawings.support_marks import stands, supports_of
from generator.model.features import Feature
from generator.model.geometry import Point, Ring, box, rectangle
from generator.model.job import Job
from generator.model.plan import Board, Support
from generator.model.room import Wall
from generator.planning.lumber.plan import length_of
from generator.planning.shapes import polygon, rings
from generator.units import PaperUnits, label

KIND = "Built-in"
CLEAR = 4.0
"""mm between a view's edge and its dimension line."""
AWRY = 0.1
"""A piece that leans by more of its length than this has no one place across a face."""
SHOWN = 25.0
"""mm of framing shown beyond a face's boards."""
ORDER = {
    "niche": "Rear board first, then sill and head, then the sides. Their front edges lap the wall's board.",
    "window": "Sill first, then head, then the sides. Their front edges lap the wall's board.",
    "bench": "Front and ends first; the seat laps their upper edges and butts against the walls' boards.",
    "curb": "Both faces first; the top laps them. Boards of the inside face and the top are bonded: no screw.",
    "half_wall": "Both faces and the end first; the top laps their upper edges.",
    "soffit": "Framed before the walls are boarded, whose boards end below and beside it. The underside goes up first "
    "and butts against the walls' boards; the front laps its edge, and an end that stands free laps both.",
    "deck": "Front first; the top, its seat, laps that edge and butts against the walls' boards.",
}


def feature_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sheets of all features, in the order of the room file."""
    return tuple(leaf for feature in job.room.features for leaf in _leaves(job, feature))


def _leaves(job: Job, feature: Feature) -> tuple[Leaf, ...]:
    faces = faces_of(job, feature)
    sheet = FaceSheet(
        KIND,
        f"Faces of {feature_name(feature)}",
        size=lambda face, scale: _size(job, face, scale),
        draw=lambda face, scale, at: _view(job, _seen(job, face, scale, at)),
        notes=lambda scale: _notes(job, feature, faces, scale),
    )
    return face_leaves(job, feature, faces, sheet) if faces else ()


def _around(job: Job, face: Wall) -> Box:
    """Everything that a view shows, in the face's frame: boards, and the framing next to them."""
    return box([p for b in boards_of(job, face) for p in b.outline] + [p for r in _framing(job, face) for p in r])


def _framing(job: Job, face: Wall) -> tuple[Ring, ...]:
    """Faces of the supports behind it, cut off a little beyond its boards."""
    left, low, right, high = box([p for b in boards_of(job, face) for p in b.outline])
    shown = polygon(rectangle(left - SHOWN, low - SHOWN, right + SHOWN, high + SHOWN))
    return tuple(ring for s in supports_of(job, face) for ring in rings(polygon(s.outline).intersection(shown)))


def _stops(job: Job, face: Wall, k: int) -> tuple[tuple[float, str], ...]:
    units = job.room.choices.paper_units
    values = distinct(p[k] for b in boards_of(job, face) for p in b.outline)
    return tuple((v, label(v - values[0], units)) for v in values[1:])


def _furniture(job: Job, face: Wall) -> tuple[float, float]:
    """mm of paper left of and below a view for its dimensions."""
    beside, below = (strip(text for _, text in _stops(job, face, k)) for k in (1, 0))
    return beside, below


def _size(job: Job, face: Wall, scale: float) -> tuple[float, float]:
    left, low, right, high = _around(job, face)
    beside, below = _furniture(job, face)
    width = max((right - left) * scale + beside, text_width(face_title(face), 2.5, bold=True))
    return width, (high - low) * scale + below + TITLE


def _seen(job: Job, face: Wall, scale: float, at: Point) -> Seen:
    left, low, right, high = _around(job, face)
    x, y = at[0] + _furniture(job, face)[0], at[1] - TITLE - (high - low) * scale
    hull = (x, y, x + (right - left) * scale, y + (high - low) * scale)
    return Seen(face, View(scale, (x, y), (left, low)), hull)


def _view(job: Job, seen: Seen) -> InView:
    boards = boards_of(job, seen.face)
    framing = (Outline(ring, "hidden") for ring in _framing(job, seen.face))
    model: tuple[Piece, ...] = (
        *framing,
        *(Outline(board.outline, "board") for board in boards),
        *screw_ink(job, seen.face),
    )
    marks = [_name(job, seen, board) for board in boards]
    title = Text((seen.hull[0], seen.hull[3] + 2.5), face_title(seen.face), 2.5, bold=True)
    return InView(seen.view, model, (*chain(*marks), title, *_running(job, seen)))


def _name(job: Job, seen: Seen, board: Board) -> tuple[Text, ...]:
    """The board's mark, off its screws where there is room."""
    words, inside = Words((board.id,), bold=True, mask=True), tuple(seen.view.point(p) for p in board.outline)
    clear = fit_block(words, inside, screw_spots(job, seen.face, seen.view), (2.5,), clear=0.6)
    return clear or place_block(words, inside, (), (2.5,), 0.6)


def _running(job: Job, seen: Seen) -> tuple[Ink, ...]:
    """From the lower left corner of the boards, along both axes."""
    left, low, _, _ = box([p for b in boards_of(job, seen.face) for p in b.outline])
    across = [Stop(seen.view.x(v), text) for v, text in _stops(job, seen.face, 0)]
    up = [Stop(seen.view.y(v), text) for v, text in _stops(job, seen.face, 1)]
    below = running("x", seen.hull[1] - CLEAR, seen.view.x(left), across)
    return (*below, *running("y", seen.hull[0] - CLEAR, seen.view.y(low), up))


def _notes(job: Job, feature: Feature, faces: Sequence[Wall], scale: Scale) -> tuple[Block, ...]:
    units = job.room.choices.paper_units
    how = (
        "Each face is seen from the room's side. Boards are measured from their lower left corner, the middles of "
        'framing to add from the framing\'s own; "its side": a piece that another face places. Dashed: framing behind. '
        "Small circles: screws with their washers. Every arris and inner corner gets a folded band."
    )
    rows = [(b.id, face.face, size_text(job, b), b.sheet_id) for face in faces for b in boards_of(job, face)]
    columns = (Column("Board", 32.4), Column("Is", 17.4), Column("Size", 29.2), Column("Sheet", 13))
    name = feature_name(feature)
    return (
        heading(name[:1].upper() + name[1:], PANEL, 5.0),
        prose(f"Scale {scale.text}", PANEL),
        prose(ORDER[feature.kind], PANEL),
        prose(how, PANEL),
        *table(columns, rows, PANEL, "Boards"),
        *_lumber(job, faces, units),
    )


def _lumber(job: Job, faces: Sequence[Wall], units: PaperUnits) -> tuple[Block, ...]:
    """Piece by piece, below the title of the face that they stand behind."""
    rows: list[tuple[str, ...]] = []
    for face in faces:
        pieces = supports_of(job, face)
        rows += [(face_title(face), "", "", "")] if pieces else []
        rows += [
            (s.same_as or s.id, _called(job, s), _centre(job, face, s, units), _length(job, s, units)) for s in pieces
        ]
    columns = (Column("Piece", 34.4), Column("Is", 17.15), Column("Centre", 21.7), Column("Length", 18.75))
    return table(columns, rows, PANEL, 'Framing, to add unless "found"') if rows else ()


def _called(job: Job, support: Support) -> str:
    """What the piece is called, where a face sees but its side too."""
    return lumber_name(job.plan.support(support.same_as) if support.same_as else support)


def _centre(job: Job, face: Wall, support: Support, units: PaperUnits) -> str:
    """Of an upright piece from the left end of the framing to add behind a face, of a lying one from its lower end.

    What stands there already, and what is placed by the face that it lies behind, have it elsewhere.
    """
    if support.origin == "found" or support.same_as:
        return "found" if support.origin == "found" else "its side"
    left, low, _, _ = box([p for s in supports_of(job, face) if s.origin == "added" for p in s.outline])
    (u0, v0), (u1, v1) = support.axis
    if min(abs(u1 - u0), abs(v1 - v0)) > AWRY * math.dist(*support.axis):
        return "as drawn"
    return label((u0 + u1) / 2 - left, units) if stands(support) else f"{label((v0 + v1) / 2 - low, units)} up"


def _length(job: Job, support: Support, units: PaperUnits) -> str:
    """Of the whole piece, where a face sees but its side or its end."""
    return label(length_of(job.plan.support(support.same_as) if support.same_as else support), units)
