"""What a room file may hold of niches and windows, and of what was found between the studs."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, PlainValidator, ValidationInfo

from generator.reading.fields import Name, Shape, Size, Span, Text, context_units, read_length
from generator.units import Length

End = Literal["left", "right"]
Bay = Literal["bay"]


def _width(value: Any, info: ValidationInfo) -> Length | Bay:
    if value == "bay":
        return "bay"
    try:
        return read_length(value, context_units(info))
    except ValueError as error:
        raise ValueError(f"`bay` or the width between the faces of its boards is expected here ({error})") from None


WidthField = Annotated[Length | Bay, PlainValidator(_width, json_schema_input_type=float | str)]


class NicheShape(Shape):
    name: Name = Field(description="a short name, such as niche")
    wall: Text = Field(description="the wall it is in")
    across: Size = Field(description="from the end `from` of the wall's bare framing to its middle, or into its bay")
    start: End = Field(default="left", alias="from", description="the end of the wall that `across` is measured from")
    up: Size = Field(description="from the floor or the deck to the face of its sill board, at the front")
    above: Literal["floor", "deck"] = Field(default="floor", description="what `up` is measured from")
    width: WidthField = Field(
        description="clear, between the faces of its side boards; `bay` fills the bay between the studs beside `across`"
    )
    height: Size = Field(description="clear at the front, between the faces of its sill and its head board")
    depth: Size = Field(description="clear, from the face of the wall's boards back to the face of its rear board")


class WindowShape(Shape):
    name: Name = Field(description="a short name, such as window")
    wall: Text = Field(description="the wall it is in")
    across: Size = Field(description="from the end `from` of the wall's bare framing to its middle")
    start: End = Field(default="left", alias="from", description="the end of the wall that `across` is measured from")
    up: Size = Field(description="from the floor to the rough sill, the framing below it")
    width: Size = Field(description="of the opening in the framing")
    height: Size = Field(description="of the opening in the framing")
    depth: Size = Field(description="from the stud faces back to the window's frame")


class InBayShape(Shape):
    kind: Literal["pipe", "cable", "insulation", "duct"] = Field(description="pipe, cable, insulation or duct")
    start: Span = Field(alias="from", description="its one side, measured from the end `from` of the supports")
    to: Span = Field(description="its other side, measured from the same end")
    bottom: Span = Field(description="its lower end above the floor")
    top: Span = Field(description="its upper end above the floor")
