"""What a room file may hold of the true shape of a wall: widths, heights, plumb and diagonals as measured."""

from __future__ import annotations

from math import acos, degrees
from typing import Any

from pydantic import Field, ValidationInfo

from generator.reading.fields import Lean, Shape, Size, Span, context_units, read_length
from generator.units import Length, Units


class WidthShape(Shape):
    at: Span = Field(description="height above the floor at which it was measured")
    width: Size = Field(alias="is", description="framing, from end to end")


class HeightShape(Shape):
    at: Span = Field(description="from the left end of the wall")
    height: Size = Field(alias="is", description="from the floor to the ceiling")


class PlumbShape(Shape):
    left: Lean | None = Field(default=None, description="how far the top of the left end leans into the room")
    right: Lean | None = Field(default=None, description="how far the top of the right end leans into the room")


class DiagonalsShape(Shape):
    at: Span | None = Field(default=None, description="height above the floor of their lower marks; the floor itself")
    rising: Size | None = Field(default=None, description="from the lower mark at the left end to the right end's top")
    falling: Size | None = Field(default=None, description="from the left end's top to the lower mark at the right end")


def width_or_widths(schema: dict[str, Any]) -> None:
    """A wall has a width or widths, a height or heights."""
    schema["required"] = [key for key in schema["required"] if key not in ("width", "height")]
    schema["allOf"] = [{"anyOf": [{"required": [key]}, {"required": [f"{key}s"]}]} for key in ("width", "height")]


def with_width_and_height(data: Any, info: ValidationInfo) -> Any:
    """Without `width` or `height` the width at the floor and the greatest height stand for them."""
    if not isinstance(data, dict):
        return data
    widths, heights = (_measured(data.get(key), context_units(info)) for key in ("widths", "heights"))
    taken = {"width": widths[:1], "height": sorted(heights, key=lambda one: one[0].exact)[-1:]}
    return {**{key: one[0][1] for key, one in taken.items() if one}, **data}


def _measured(listed: Any, units: Units) -> list[tuple[Length, Any]]:
    """The lengths of a list of measurements that can be read, with what was written."""
    found = []
    for one in listed if isinstance(listed, list | tuple) else ():
        try:
            found.append((read_length(one["is"], units), one["is"]))
        except (KeyError, TypeError, ValueError):
            continue
    return found


def with_angle(data: Any, info: ValidationInfo) -> Any:
    """Without `angle` the diagonal between the marks stands for it, by the law of cosines, if they make a triangle."""
    if not isinstance(data, dict) or "angle" in data:
        return data
    try:
        sides = (*data["marks"], data["diagonal"])
        one, other, across = (read_length(side, context_units(info)).mm for side in sides)
        angle = degrees(acos((one**2 + other**2 - across**2) / (2.0 * one * other)))
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return data
    return {**data, "angle": f"{angle:.9f}"}
