"""What a room file may say about the state of its studs: readings off a string line, holes, notches."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.reading.fields import Flag, Many, Shape, Size, Span

Carries = Literal["pipe", "steel_pipe", "cable", "nothing"]


class StringLineShape(Shape):
    stud: Span = Field(description="middle of the stud's face, as it is listed under `supports`")
    at: Many[Span] = Field(min_length=1, max_length=20, description="heights of the readings above the floor")
    off: Many[Span] = Field(
        min_length=1, max_length=20, description="from the line back to the stud's face, larger where it is hollow"
    )


class HoleShape(Shape):
    stud: Span = Field(description="middle of the bored stud's face, as it is listed")
    at: Span = Field(description="height of the middle of the hole above the floor")
    diameter: Size = Field(description="of the hole, not of the pipe")
    from_face: Size | None = Field(
        default=None, description="from the stud's face at the boards to the middle of the hole; the middle if left out"
    )
    doubled: Flag = Field(default=False, description="true where a second stud is fastened beside the bored one")
    carries: Carries = Field(default="pipe", description="pipe, steel_pipe, cable or nothing")


class NotchShape(Shape):
    stud: Span = Field(description="middle of the notched stud's face, as it is listed")
    at: Span = Field(description="height of the middle of the notch above the floor")
    height: Size = Field(description="how tall the notch is")
    depth: Size = Field(description="how deep it goes into the stud")
    face: Literal["front", "back"] = Field(default="front", description="front: the face at the boards; or back")
    carries: Carries = Field(default="pipe", description="pipe, steel_pipe, cable or nothing")
