"""Ink into a space of a DXF document: shapes, writing, symbols as blocks, dimensions that a CAD program can edit."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from generator.drafting.dimension import datum_ring, stop_strokes
from generator.drafting.hatch import Hatch, crossing
from generator.drafting.ink import Arc, Circle, Dimension, Ink, Line, Outline, Running, Text, View
from generator.drafting.inview import Piece, Symbol
from generator.drafting.layers import Role
from generator.drafting.overlap import flat
from generator.drafting.page import baseline_shift, text_width
from generator.model.geometry import NOISE, Point
from generator.units import Units, to_units
from generator.writers.dxf import add_shape
from generator.writers.dxf_hatch import add_hatch

if TYPE_CHECKING:
    from ezdxf.document import Drawing

PLAIN, BOLD = "NOTES", "NOTES-BOLD"
"""Text styles."""
MARK = "MARK"
"""Tag of the hidden attribute that says which one of its kind a symbol is."""
ROTATED, OWN_BLOCK, TEXT_PLACED = 0, 32, 128
"""Type and flags of a dimension (DXF reference, group code 70)."""
ORIGIN = (0.0, 0.0)
_CODES = str.maketrans({"°": "%%d", "Ø": "%%c", "±": "%%p"})


@dataclass(frozen=True, slots=True)
class Space:
    """Where ink goes: model space, a layout or a block.

    `scale`: of the paper that the ink's writing is meant for; writing is drawn 1 / scale as large.
    `blocks`: names of the symbols' blocks that the document has by now, by what they show.
    """

    document: Drawing
    target: Any
    units: Units
    layers: Mapping[Role, str]
    scale: float = 1.0
    blocks: dict[tuple[str, tuple[Ink, ...]], str] = field(default_factory=dict)

    def length(self, mm: float) -> float:
        """mm as a number of the file."""
        return to_units(mm, self.units)

    def point(self, p: Point) -> Point:
        """A point as the file has it."""
        return (self.length(p[0]), self.length(p[1]))

    def inside(self, target: Any) -> Space:
        """The same, into a block."""
        return Space(self.document, target, self.units, self.layers, self.scale, self.blocks)


def draw(space: Space, pieces: Iterable[Piece]) -> None:
    """All pieces, in their order. Fills are left out; so is an outline that is a fill alone."""
    for piece in pieces:
        match piece:
            case Symbol():
                _symbol(space, piece)
            case Hatch():
                _hatch(space, piece)
            case Text():
                _text(space, piece)
            case Dimension():
                _dimension(space, piece)
            case Running():
                _running(space, piece)
            case Outline(edge=False):
                pass
            case Line() | Arc() | Circle() | Outline():
                add_shape(space.target, piece, space.units, space.layers[piece.layer])


def dxf_text(text: str) -> str:
    """Writing with the signs that fonts may lack as control codes."""
    return text.translate(_CODES)


def _text(space: Space, item: Text) -> None:
    """Writing on its own cleared patch is MTEXT with a background, all other writing plain TEXT."""
    attribs = {"layer": space.layers[item.layer], "style": BOLD if item.bold else PLAIN, "rotation": item.angle}
    height = space.length(item.height / space.scale)
    if item.mask:
        _masked(space, item, {**attribs, "char_height": height})
        return
    from ezdxf.enums import TextEntityAlignment as Alignment

    align = {"left": Alignment.LEFT, "centre": Alignment.CENTER, "right": Alignment.RIGHT}[item.align]
    entity = space.target.add_text(dxf_text(item.text), height=height, dxfattribs=attribs)
    entity.set_placement(space.point(_risen(space, item, 0.0)), align=align)


def _masked(space: Space, item: Text, attribs: dict[str, Any]) -> None:
    """Attached at half the height of its capitals, which is where all programs agree."""
    at = space.point(_risen(space, item, item.height / 2))
    point = {"left": 4, "centre": 5, "right": 6}[item.align]
    escaped = re.sub(r"([\\{}])", r"\\\1", dxf_text(item.text))
    entity = space.target.add_mtext(escaped, {**attribs, "insert": at, "attachment_point": point})
    entity.set_bg_color("canvas", scale=1.1)


def _risen(space: Space, item: Text, up: float) -> Point:
    """Its point at so many mm of paper above the base line."""
    rise, turn = (up + baseline_shift(item)) / space.scale, math.radians(item.angle)
    return (item.at[0] - rise * math.sin(turn), item.at[1] + rise * math.cos(turn))


def _middle(space: Space, item: Text) -> Point:
    """The middle of its capitals."""
    shift = {"left": 0.5, "centre": 0.0, "right": -0.5}[item.align] * text_width(item.text, item.height, item.bold)
    (x, y), turn = _risen(space, item, item.height / 2), math.radians(item.angle)
    return (x + shift / space.scale * math.cos(turn), y + shift / space.scale * math.sin(turn))


def _hatch(space: Space, item: Hatch) -> None:
    add_hatch(space.target, item, space.scale, space.units, space.layers[item.layer])
    draw(space, crossing(item.rings, item.pattern))


def _symbol(space: Space, item: Symbol) -> None:
    name = space.blocks.get((item.block, item.ink)) or _block(space, item)
    at = space.point(item.at)
    attribs = {"layer": space.layers[item.ink[0].layer]}
    insert = space.target.add_blockref(name, at, dxfattribs=attribs)
    mark = insert.add_attrib(MARK, item.mark, at, {**attribs, "height": space.length(2.5), "style": PLAIN})
    mark.is_invisible = True


def _block(space: Space, item: Symbol) -> str:
    """A new block; of symbols with one name and several shapes, the second's block ends with -2 and so on."""
    base = re.sub(r"[^A-Z0-9]+", "-", item.block.upper()).strip("-")
    number = 1 + sum(symbol == item.block for symbol, _ in space.blocks)
    name = base if number == 1 else f"{base}-{number}"
    block = space.document.blocks.new(name)
    draw(space.inside(block), item.ink)
    layer, height = space.layers[item.ink[0].layer], space.length(2.5)
    block.add_attdef(MARK, (0, 0), "", height=height, dxfattribs={"layer": layer, "style": PLAIN, "flags": 1})
    space.blocks[item.block, item.ink] = name
    return name


def _dimension(space: Space, item: Dimension) -> None:
    """A single one; `item` in the frame of the space, its writing for paper."""
    k = 0 if item.axis == "x" else 1
    ends = sorted((item.p, item.q), key=lambda p: p[k])
    drawn = _enlarged(space, flat(View(space.scale, ORIGIN).place((item,))))
    _real_dimension(space, item.axis, item.line, (ends[0], ends[1]), item.text, drawn, "SIZE")


def _running(space: Space, run: Running) -> None:
    """One dimension from the datum to every stop, all on one line; a stop on the datum is its value alone."""
    small = View(space.scale, ORIGIN).running(run)
    parts = [(stop, _enlarged(space, ink)) for stop, (_, ink) in zip(run.stops, stop_strokes(small), strict=True)]
    draw(space, _enlarged(space, (datum_ring(small),)))
    for before, (stop, drawn) in zip(_before(run), parts, strict=True):
        along = Line(_xy(run, before, run.line), _xy(run, stop.at, run.line), run.layer)
        if abs(stop.at - run.datum) <= NOISE:
            draw(space, drawn)
        else:
            ends = (_xy(run, run.datum, run.line), _xy(run, stop.at, run.line if stop.start is None else stop.start))
            _real_dimension(space, run.axis, run.line, ends, stop.text, (along, *drawn), "RUNNING")


def _enlarged(space: Space, ink: Iterable[Ink]) -> tuple[Ink, ...]:
    """From the size that it has on paper to the frame of the space."""
    return View(1 / space.scale, ORIGIN).place(tuple(ink))


def _before(run: Running) -> list[float]:
    """For each stop where the next one towards the datum stands: the line is drawn once, piece by piece."""
    places = sorted({run.datum, *(stop.at for stop in run.stops)})
    up, down = {b: a for a, b in pairwise(places)}, dict(pairwise(places))
    return [(up if stop.at > run.datum else down).get(stop.at, run.datum) for stop in run.stops]


def _xy(run: Running, along: float, across: float) -> Point:
    return (along, across) if run.axis == "x" else (across, along)


def _real_dimension(
    space: Space, axis: str, line: float, ends: tuple[Point, Point], text: str, drawn: tuple[Ink, ...], kind: str
) -> None:
    """Associates what is drawn (its last piece the text) with a measured distance and an exact text."""
    block = space.document.blocks.new_anonymous_block(type_char="D")
    draw(space.inside(block), drawn)
    words, k = drawn[-1], 0 if axis == "x" else 1
    assert isinstance(words, Text)
    at = (ends[1][0], line) if axis == "x" else (line, ends[1][1])
    attribs = {
        "layer": space.layers["dimension"],
        "dimstyle": style_name(kind, space.scale),
        "dimtype": ROTATED | OWN_BLOCK | TEXT_PLACED,
        "geometry": block.name,
        "defpoint": space.point(at),
        "defpoint2": space.point(ends[0]),
        "defpoint3": space.point(ends[1]),
        "angle": 0.0 if axis == "x" else 90.0,
        "text": dxf_text(text),
        "text_midpoint": space.point(_middle(space, words)),
        "attachment_point": 5,
        "actual_measurement": space.length(abs(ends[1][k] - ends[0][k])),
    }
    turned = {"text_rotation": words.angle} if kind == "RUNNING" and words.angle else {}
    space.target.new_entity("DIMENSION", {**attribs, **turned})


def style_name(kind: str, scale: float) -> str:
    """Of the dimension style for drawings at that scale."""
    return f"{kind}-{1 / scale:g}"
