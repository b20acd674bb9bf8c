"""What a room file may hold of soffits: boxed-down parts of the ceiling before a wall."""

from __future__ import annotations

from pydantic import Field

from generator.reading.fields import Name, Shape, Size, Span, Text


class SoffitShape(Shape):
    name: Name = Field(description="a short name, such as soffit")
    along: Text = Field(description="the wall that it is framed against")
    start: Span | None = Field(default=None, alias="from", description="from the left end of that wall to its framing")
    length: Size | None = Field(default=None, description="of its framing along that wall; left out: to its end")
    depth: Size = Field(description="out from that wall's framing to the framing of its front")
    height: Size = Field(description="from the floor to the underside of its framing")
