"""What a room file may hold of what is built before the walls: partitions, benches, decks beside a tub, curbs."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.reading.fields import Flag, Many, Name, Shape, Size, Span, Text


class PartitionShape(Shape):
    """Of a wall at an end of the list that stands free: its end and its other side are walls too."""

    thickness: Size = Field(description="of its framing, from face to face: the depth of its studs")
    cap: Flag = Field(default=False, description="true for a half wall: its top is boarded and slopes to the shower")
    faces: Literal["inside", "both"] = Field(default="both", description="inside: its other side keeps wallboard")
    outside: Size | None = Field(default=None, description="how far boards go on its other side, from its free end")


class BenchShape(Shape):
    name: Name = Field(description="a short name, such as seat")
    kind: Literal["bench", "corner", "deck"] = Field(
        default="bench", description="bench, corner (a seat in a corner), or deck (between a tub's end and a wall)"
    )
    along: Text = Field(default="", description="of a bench or a deck: the wall that it stands against")
    start: Span | None = Field(default=None, alias="from", description="from the left end of that wall to its framing")
    length: Size | None = Field(default=None, description="of its framing along that wall; left out: to its end")
    depth: Size | None = Field(default=None, description="out from that wall's framing to the framing of its front")
    between: Many[Text] = Field(default=(), max_length=2, description="of a corner seat: the wall left, the wall right")
    legs: Many[Size] = Field(default=(), max_length=2, description="of a corner seat: how far it goes on each wall")
    returns: Size | None = Field(
        default=None, description="of a corner seat with five sides: how far its ends stand out from the walls"
    )
    height: Size | None = Field(default=None, description="from the floor to its framing's top, at its lowest edge")


class CurbShape(Shape):
    name: Name = Field(description="a short name, such as curb")
    along: Text = Field(description="the wall that it runs along, across the tray")
    out: Size | None = Field(default=None, description="from that wall's framing to its own; the width of the tray")
    start: Span | None = Field(default=None, alias="from", description="from the left end of that wall to its framing")
    length: Size | None = Field(default=None, description="of its framing along that wall; left out: to its end")
    thickness: Size = Field(description="of its framing, from face to face")
    height: Size = Field(description="from the floor to the top of its framing, on the side of the tray")
