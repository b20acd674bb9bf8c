"""Ink at true size to DXF (R2010, model space only): parts and nested sheets for a saw, a knife table or a router.

Units are set at creation and coordinates are in them (`$INSUNITS` 1 inches, 4 millimetres). No bulges: rings are
straight-sided polylines, round holes are circles. Writing uses plain TEXT.
"""

from __future__ import annotations

import io
import math
from collections import OrderedDict
from typing import TYPE_CHECKING, Any

from generator.drafting.ink import Arc, Circle, Ink, Line, Outline, Text
from generator.drafting.layers import Role, Standard, colours, deep_layer, layers, line_types, pen
from generator.drafting.overlap import flat
from generator.drafting.page import baseline_shift
from generator.model.geometry import Point
from generator.model.profiles import PracticeProfile
from generator.units import Units, to_units

if TYPE_CHECKING:
    from ezdxf.document import Drawing

FONT = "arial.ttf"
"""As wide as the PDF's Helvetica, with Greek and Cyrillic, and on every machine that runs a CAD program; others fall
back to their own."""
LINEWEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
"""The only line weights that DXF knows, in 1/100 mm (DXF reference)."""


def dxf_bytes(
    ink: tuple[Ink, ...],
    units: Units,
    standard: Standard,
    practice: PracticeProfile | None = None,
    *,
    dashed: bool = False,
) -> bytes:
    """One DXF file of ink whose points are mm of the real thing; each role on its layer of the standard.

    A machine's lines are all full ones; `dashed` where eyes read the lines, as on a plotted template.
    """
    document = new_document(units)
    placed = [(item, _layer(item, standard)) for item in flat(ink)]
    for name, role in sorted({(name, item.layer) for item, name in placed}):
        layer = document.layers.add(name, color=colours()[role], lineweight=line_weight(role, practice))
        if dashed:
            layer.dxf.linetype = add_line_type(document, role, units)
    space = document.modelspace()
    for item, name in placed:
        add_shape(space, item, units, name)
    return bytes_of(document)


def add_line_type(document: Drawing, role: Role, units: Units) -> str:
    """Name of the role's line type, which the document knows afterwards."""
    name, dash = line_types()[role], pen(role).dash
    if dash and name not in document.linetypes:
        lengths = [to_units(length, units) * (-1) ** i for i, length in enumerate(dash)]
        document.linetypes.add(name, [sum(map(abs, lengths)), *lengths])
    return name


def _layer(item: Ink, standard: Standard) -> str:
    if isinstance(item, Outline) and item.depth is not None:
        return deep_layer(item.layer, item.depth, standard)
    return layers(standard)[item.layer]


def new_document(units: Units) -> Drawing:
    """An empty drawing without clocks or GUIDs, with every unit-bearing header variable set on purpose."""
    import ezdxf
    from ezdxf import units as codes

    ezdxf.options.write_fixed_meta_data_for_testing = True
    code = codes.IN if units == "in" else codes.MM
    document = ezdxf.new("R2010", units=code)
    header = {"$MEASUREMENT": int(units == "mm"), "$LUNITS": 4 if units == "in" else 2, "$LUPREC": 4, "$DIMLFAC": 1.0}
    for name, value in header.items():
        document.header[name] = value
    document.styles.get("Standard").dxf.font = FONT
    return document


def line_weight(role: Role, practice: PracticeProfile | None = None) -> int:
    """The pen's width as the nearest line weight that DXF knows."""
    wanted = pen(role, practice).width * 100
    return min(LINEWEIGHTS, key=lambda weight: abs(weight - wanted))


def add_shape(space: Any, item: Ink, units: Units, layer: str) -> None:
    """A line, circle, arc, outline or text into a space of a document."""
    attribs = {"layer": layer}

    def point(p: Point) -> Point:
        return (to_units(p[0], units), to_units(p[1], units))

    match item:
        case Line():
            space.add_line(point(item.start), point(item.end), dxfattribs=attribs)
        case Circle():
            space.add_circle(point(item.centre), to_units(item.radius, units), dxfattribs=attribs)
        case Arc():
            radius = to_units(item.radius, units)
            space.add_arc(point(item.centre), radius, item.start, item.end, dxfattribs=attribs)
        case Outline():
            space.add_lwpolyline([point(p) for p in item.ring], close=item.closed, dxfattribs=attribs)
        case Text():
            _add_text(space, item, units, attribs)


def _add_text(space: Any, item: Text, units: Units, attribs: dict[str, str]) -> None:
    from ezdxf.enums import TextEntityAlignment as Alignment

    align = {"left": Alignment.LEFT, "centre": Alignment.CENTER, "right": Alignment.RIGHT}[item.align]
    turned = Text(item.at, item.text, item.height, level=item.level, angle=item.angle)
    x, y = _base_point(turned)
    entity = space.add_text(
        item.text.replace("°", "%%d"),
        height=to_units(item.height, units),
        rotation=item.angle,
        dxfattribs=attribs,
    )
    entity.set_placement((to_units(x, units), to_units(y, units)), align=align)


def _base_point(item: Text) -> Point:
    """Where the base line starts for the text's level."""
    shift, turn = baseline_shift(item), math.radians(item.angle)
    return (item.at[0] - shift * math.sin(turn), item.at[1] + shift * math.cos(turn))


def bytes_of(document: Drawing) -> bytes:
    """The file, its CLASSES sorted by name: ezdxf collects them from a set, in the order of the hash seed."""
    document.classes.add_required_classes(document.dxfversion)
    document.classes.classes = OrderedDict(sorted(document.classes.classes.items()))
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)
