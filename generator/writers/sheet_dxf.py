"""A sheet to DXF (R2010): what it shows at true size in model space, on the layout through a locked window a view.

Lists and notes stand on the layout. Model space is in the frame of the first view (a wall's u, v), in drawing units; so
is the layout, at the size of the paper. Dimensions stand in model space, their text written out (a CAD program knows no
sixteenths as we do) beside the true measurement. The title block is a block, its fields attributes. A file has one
layout; LibreCAD has none and puts what any paper space holds into its one drawing, where the layers of frame and notes
can be frozen.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from generator.drafting.dimension import GAP, TICK
from generator.drafting.ink import Text, View
from generator.drafting.inview import Field, Sheet
from generator.drafting.layers import Role, Standard, colours, layers, line_types
from generator.drafting.modelspace import Window, windows
from generator.drafting.page import Page, text_width
from generator.drafting.practice import drawn_height
from generator.model.profiles import PracticeProfile
from generator.units import Units, to_units
from generator.writers.dxf import FONT, add_line_type, bytes_of, line_weight, new_document
from generator.writers.dxf_space import BOLD, ORIGIN, PLAIN, Space, draw, dxf_text, style_name

if TYPE_CHECKING:
    from ezdxf.document import Drawing

FONTS = {PLAIN: FONT, BOLD: "arialbd.ttf"}
HEIGHT = 2.5
"""mm on paper: capitals of a dimension."""
STAMP = 5.0
"""mm on paper: capitals of NOT FOR CUTTING."""
LOCKED = 0x4000
"""Flag of a window whose scale no mouse wheel may change (DXF reference, VIEWPORT, group code 90)."""
RUNNING = {"dimtad": 0, "dimtih": 1, "dimtoh": 1}
"""Values of running dimensions are level and in line with their stops, unless turned one by one."""
TITLE_BLOCK = "TITLE-BLOCK"


def sheet_bytes(page: Page, sheet: Sheet, units: Units, standard: Standard) -> bytes:
    """One sheet as a DXF file; `sheet` is what the page shows, taken apart."""
    document, names = new_document(units), layers(standard)
    seen = windows(sheet.views)
    _tables(document, names, units, page.practice)
    measured = tuple(dict.fromkeys(window.scale for window in seen if window.measured))
    for scale in measured:
        _dimension_styles(document, scale, units, page.practice)
    _header(document, sheet, units, page.practice)
    if measured:
        document.header["$DIMSTYLE"] = style_name("RUNNING", measured[0])
    model = Space(document, document.modelspace(), units, names)
    for window in seen:
        space = Space(document, model.target, units, names, window.scale, model.blocks)
        draw(space, (*window.model, *window.marks))
    _stamps(sheet, seen, model, drawn_height(STAMP, page.practice))
    layout = _paper(document, page, units)
    for whole in layout.query("VIEWPORT"):
        whole.dxf.layer = names["window"]
    _layout(document, sheet, seen, Space(document, layout, units, {role: _on_paper(role, names) for role in names}))
    return bytes_of(document)


def sheet_name(page: Page) -> str:
    """Name of a sheet's file: its number in the set and its title in plain letters."""
    words = re.sub(r"[^a-z0-9]+", "-", page.title.lower()).strip("-")
    return f"{int(page.name):02d}-{words}"


def _on_paper(role: Role, names: Mapping[Role, str]) -> str:
    """Frame, window and stamp have layers of their own; all the rest is one that a reader without layouts can hide."""
    return names[role if role in ("frame", "window", "finding") else "note"]


def _tables(document: Drawing, names: Mapping[Role, str], units: Units, practice: PracticeProfile | None) -> None:
    """Text styles, line types, and every layer of the standard, so that all sheets have the same."""
    for style, font in FONTS.items():
        document.styles.add(style, font=font)
    for role in line_types():
        add_line_type(document, role, units)
    for role, name in sorted(names.items(), key=lambda pair: pair[1]):
        weight = line_weight(role, practice)
        layer = document.layers.add(name, color=colours()[role], linetype=line_types()[role], lineweight=weight)
        layer.dxf.plot = int(role != "window")


def _dimension(scale: float, units: Units, practice: PracticeProfile | None) -> dict[str, Any]:
    """What all dimensions of a scale share: sizes on paper, multiplied by the scale."""
    return {
        "dimscale": 1 / scale,
        "dimtxt": to_units(drawn_height(HEIGHT, practice), units),
        "dimasz": to_units(2 * TICK, units),
        "dimexe": to_units(TICK, units),
        "dimexo": to_units(GAP, units),
        "dimgap": to_units(GAP, units),
        "dimlfac": 1.0,
        "dimlunit": 5 if units == "in" else 2,
        "dimdec": 4 if units == "in" else 0,
        "dimdsep": ord("," if practice and practice.decimal == "comma" else "."),
        "dimtad": 1,
        "dimtih": 0,
        "dimtoh": 0,
        "dimtmove": 2,
    }


def _dimension_styles(document: Drawing, scale: float, units: Units, practice: PracticeProfile | None) -> None:
    """SIZE: one distance between two strokes. RUNNING: a ring at the datum, values in line with their stops."""
    from ezdxf.render.arrows import ARROWS

    shared = {**_dimension(scale, units, practice), "dimtxsty": PLAIN}
    stroke = ARROWS.architectural_tick if practice and practice.ends == "tick" else ARROWS.oblique
    size = document.dimstyles.new(style_name("SIZE", scale), shared)
    running = document.dimstyles.new(style_name("RUNNING", scale), {**shared, **RUNNING})
    for arrow in (ARROWS.origin_indicator, stroke):
        ARROWS.create_block(document.blocks, arrow)
    size.set_arrows(blk=stroke, blk1=stroke, blk2=stroke)
    running.set_arrows(blk1=ARROWS.origin_indicator, blk2=stroke)


def _stamps(sheet: Sheet, seen: tuple[Window, ...], model: Space, height: float) -> None:
    """In model space too, above the views of each scale, outside their windows: for whoever sees no layout."""
    for scale in dict.fromkeys(window.scale for window in seen) if sheet.stamp else ():
        same = [window.seen for window in seen if window.scale == scale]
        at = (min(box[0] for box in same), max(box[3] for box in same) + height / scale)
        space = replace(model, scale=scale)
        draw(space, (Text(at, sheet.stamp, height, bold=True, layer="finding"),))


def _header(document: Drawing, sheet: Sheet, units: Units, practice: PracticeProfile | None) -> None:
    """Dimension variables for readers that look at no style, true dashes in windows, line weights shown.

    A reader without layouts (LibreCAD) prints model space with scale and base point of paper space: ours are such
    that the first view stands where it stands on the sheet, or all of a sheet that has writing alone.
    """
    view = sheet.views[0].view if sheet.views else View(1.0, ORIGIN)
    for name, value in {**_dimension(view.scale, units, practice), **RUNNING}.items():
        document.header[f"${name.upper()}"] = value
    base = view.point(ORIGIN)
    others = {
        "$DIMTSZ": to_units(TICK, units),
        "$LTSCALE": 1.0,
        "$PSLTSCALE": 1,
        "$LWDISPLAY": 1,
        "$PSVPSCALE": view.scale,
        "$PINSBASE": (to_units(base[0], units), to_units(base[1], units), 0.0),
    }
    for name, value in others.items():
        document.header[name] = value


def _paper(document: Drawing, page: Page, units: Units) -> Any:
    """The layout at the size of the page, one unit of paper for one of the file."""
    name = re.sub(r'[<>/\\":;?*|,=`]', "", f"{page.name} {page.title}")
    document.layouts.rename("Layout1", name)
    layout = document.layout(name)
    size = (to_units(page.width, units), to_units(page.height, units))
    layout.page_setup(size, units="inch" if units == "in" else "mm", name="sheet", device="None")
    return layout


def _layout(document: Drawing, sheet: Sheet, seen: tuple[Window, ...], paper: Space) -> None:
    """Windows, what stands beside them, the title block."""
    for window in seen:
        _window(paper, window)
    draw(paper, sheet.beside)
    block = document.blocks.new(TITLE_BLOCK)
    draw(paper.inside(block), sheet.block)
    insert = paper.target.add_blockref(TITLE_BLOCK, (0, 0), dxfattribs={"layer": paper.layers["frame"]})
    for value in sheet.fields:
        _field(paper, block, insert, value)


def _window(paper: Space, window: Window) -> None:
    (left, bottom, right, top), (x0, y0, x1, y1) = window.paper, window.seen
    view = paper.target.add_viewport(
        center=paper.point(((left + right) / 2, (bottom + top) / 2)),
        size=paper.point((right - left, top - bottom)),
        view_center_point=paper.point(((x0 + x1) / 2, (y0 + y1) / 2)),
        view_height=paper.length(y1 - y0),
        dxfattribs={"layer": paper.layers["window"]},
    )
    view.dxf.flags |= LOCKED


def _field(paper: Space, block: Any, insert: Any, item: Field) -> None:
    """An attribute, squeezed where it is wider than its cell."""
    tag, at = item.name.upper().replace(" ", "_"), paper.point(item.at)
    squeeze = min(1.0, item.width / max(text_width(item.value, item.height, bold=True), item.height))
    look = {
        "height": paper.length(item.height),
        "style": BOLD,
        "layer": paper.layers["text"],
        "width": round(squeeze, 4),
    }
    block.add_attdef(tag, at, "", dxfattribs={**look, "prompt": item.name})
    insert.add_attrib(tag, dxf_text(item.value), at, dxfattribs=look)
