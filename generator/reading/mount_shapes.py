"""What a room file may say of things that are fastened to the finished wall."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.reading.fields import Name, Shape, Size, Span, Text


class MountShape(Shape):
    name: Name = Field(description="a short name, such as back-bar")
    kind: Literal["grab_bar", "seat", "glass", "door"] = Field(
        description="grab_bar, seat (folding, fixed to the wall), glass (its channel) or door (its hinges)"
    )
    wall: Text = Field(description="the wall that it is fastened to; NAME-end or NAME-outside of a partition")
    across: Span = Field(
        description="from the end `from` of the wall's bare framing to its nearer end; to the middle of an upright line"
    )
    start: Literal["left", "right"] = Field(
        default="left", alias="from", description="the end of the wall that `across` is measured from"
    )
    up: Span = Field(
        description="from the floor or the deck to the top of a level bar or of a seat, to the lower end of the others"
    )
    above: Literal["floor", "deck"] = Field(default="floor", description="what `up` is measured from")
    length: Size = Field(description="from end to end; of a seat its width along the wall")
    direction: Literal["level", "upright"] = Field(default="level", description="of a grab bar: level or upright")
    diameter: Size | None = Field(default=None, description="of a bar's grip; 1 1/4 in when left out")
    gap: Size | None = Field(default=None, description="between a bar and the finished wall; 1 1/2 in when left out")
    out: Size | None = Field(default=None, description="how far a seat stands out from the finished wall")
    plate: Size | None = Field(default=None, description="width of the plate at each fixing; 3 in when left out")
    drop: Size | None = Field(
        default=None, description="from a seat's top down to its lower fixings; 5 in when left out"
    )
