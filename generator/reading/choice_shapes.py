"""What a person may choose: sheets, prices, screws, sealing, paper. The shipped defaults have this shape too."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from generator.reading.fields import Amount, Count, Flag, Many, Shape, Size, Span, Text


class SheetChoiceShape(Shape):
    board: Text = Field(description="id in profiles/boards.yaml")
    size: Text = Field(description="id of one of the board's sheets, such as 36x60")
    price: Amount | None = Field(default=None, description="of one sheet")
    have: Count | None = Field(default=None, description="how many there are; any number when left out")


class PricesShape(Shape):
    added_support: Amount | None = Field(default=None, description="cost of one stud or piece of blocking, put in")
    currency: Text | None = None


class ScrewsShape(Shape):
    wood: Text | None = None
    light_steel: Text | None = None
    heavy_steel: Text | None = None
    masonry: Text | None = Field(default=None, description="the plug")


class ShopShape(Shape):
    """A shop that cuts the sheets with a router."""

    cutter: Size | None = Field(default=None, description="diameter of the cutter; the kerf must let it pass")
    offset: Literal["none", "outside"] | None = Field(
        default=None,
        description="lines of nested sheets: edges of parts (none), or the way of the cutter's middle (outside)",
    )
    relief: Flag | None = Field(default=None, description="cut inner corners out for the cutter, under the sealing")


class ChoicesShape(Shape):
    """Every key may be left out; see profiles/defaults.yaml."""

    sheets: Many[SheetChoiceShape] | None = Field(default=None, min_length=1, description="sheets that may be used")
    prices: PricesShape = PricesShape()
    kerf: Span | None = Field(default=None, description="width of the saw cut")
    shop: ShopShape = ShopShape()
    allowances: dict[str, Any] = Field(default={}, description="limits of this room, by the id of the rule")
    screws: ScrewsShape = ScrewsShape()
    band: Text | None = None
    sealant: Text | None = None
    mortar: Text | None = None
    trowel: Text | None = None
    bond_trowel: Text | None = Field(default=None, description="for the bed under boards on masonry")
    added_stud: Text | None = Field(default=None, description="profile of studs to add; default: the wall's first")
    added_block: Text | None = Field(
        default=None, description="profile of lumber laid flat between studs, behind bars and seats"
    )
    paper: Text | None = Field(default=None, description="paper of the drawing set")
    plotter: Text | None = Field(default=None, description="roll of the plotter that draws templates from DXF")
    template_papers: Many[Text] | None = Field(
        default=None, min_length=1, description="papers of the templates; the labels go on the first"
    )
    label: Text | None = Field(default=None, description="id in profiles/labels.yaml")
    drawing_units: Literal["in", "mm", "in+mm", "mm+in"] | None = Field(
        default=None, description="units of the drawings; in+mm: inches, and millimetres behind them in brackets"
    )
    practice: Text | None = Field(default=None, description="lines, writing and dimensions: iso or us, or one's own")
    layer_standard: Literal["ncs", "iso13567"] | None = None
    in_van: dict[str, Amount] = Field(default={}, description="packages already there, by kind of take-off row")
