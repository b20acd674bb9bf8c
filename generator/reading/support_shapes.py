"""What a room file may hold of what boards are fastened to: studs, blocking, backing, plates, masonry."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.reading.fields import Count, Flag, Many, Shape, Size, Span, Text
from generator.reading.stud_shapes import HoleShape, NotchShape

End = Literal["left", "right"]


class StudsShape(Shape):
    profile: Text = Field(description="id in profiles/studs.yaml, such as wood-2x4")
    centres: Many[Span] = Field(
        min_length=1, max_length=100, description="middles of their faces, measured from the end `from`"
    )
    centres_top: Many[Span] | None = Field(
        default=None, description="of crooked studs: the middles of their upper ends; `centres` are those of the lower"
    )
    doubled: Flag = Field(default=False, description="true where each is two, face to face: one support, twice as wide")
    flat: Flag = Field(default=False, description="true when their wide faces are turned to the room")
    bottom: Span | None = Field(default=None, description="its lower end above the floor")
    top: Span | None = Field(default=None, description="its upper end above the floor")


class BlockingShape(Shape):
    profile: Text = Field(description="id in profiles/studs.yaml")
    start: Span = Field(alias="from", description="where it begins, measured from the end `from` of the supports")
    to: Span = Field(description="where it ends, measured from the same end")
    centre: Size = Field(description="height of its middle above the floor")
    flat: Flag = Field(default=False, description="true when its wide face is turned to the room")
    fire: Flag = Field(default=False, description="true for a fire block, which stays where it is")


class BackingShape(Shape):
    """What carries an edge beside a corner stud. A clip is no support: a screw finds nothing in it."""

    profile: Text = Field(description="id in profiles/studs.yaml, such as wood-2x2")
    centre: Span = Field(description="middle of its face, measured from the end `from` of the supports")
    flat: Flag = Field(default=False, description="true when its wide face is turned to the room")
    bottom: Span | None = Field(default=None, description="its lower end above the floor")
    top: Span | None = Field(default=None, description="its upper end above the floor")


class PlatesShape(Shape):
    profile: Text = Field(description="id in profiles/studs.yaml")
    bottom: Flag = True
    top: Flag = True
    bottom_plies: Count = Field(default=1, description="how many lie on one another at the floor")
    top_plies: Count = Field(default=1, description="how many at the ceiling: 2 for a double top plate")
    centres: Many[Span] = Field(
        default=(),
        max_length=20,
        description="heights of the middles of further plates; studs end between plates unless they say where",
    )


class MasonryShape(Shape):
    """Boards are bedded in mortar over the whole face, and held by plugs."""

    kind: Literal["concrete", "block", "brick"] = Field(description="concrete, block or brick")


class SupportsShape(Shape):
    start: End = Field(
        default="left", alias="from", description="the end of the wall that all of this is measured from"
    )
    studs: Many[StudsShape] = Field(default=(), max_length=20)
    blocking: Many[BlockingShape] = Field(default=(), max_length=100)
    backing: Many[BackingShape] = Field(default=(), max_length=100)
    plates: PlatesShape | None = None
    masonry: MasonryShape | None = Field(default=None, description="instead of framing: what the bare wall is made of")
    holes: Many[HoleShape] = Field(default=(), max_length=100)
    notches: Many[NotchShape] = Field(default=(), max_length=100)
