"""What a room file may hold. Field descriptions are shown by editors that use the schema, and in messages."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, PlainValidator, ValidationInfo, model_validator

from generator.reading.bench_shapes import BenchShape, CurbShape, PartitionShape
from generator.reading.choice_shapes import ChoicesShape
from generator.reading.feature_shapes import InBayShape, NicheShape, WindowShape
from generator.reading.fields import (
    Amount,
    Flag,
    Many,
    Name,
    Shape,
    Size,
    Span,
    Text,
    Words,
    context_units,
    read_length,
    said,
)
from generator.reading.job_shapes import JobShape
from generator.reading.mount_shapes import MountShape
from generator.reading.shape_shapes import (
    DiagonalsShape,
    HeightShape,
    PlumbShape,
    WidthShape,
    width_or_widths,
    with_angle,
    with_width_and_height,
)
from generator.reading.soffit_shapes import SoffitShape
from generator.reading.stud_shapes import StringLineShape
from generator.reading.support_shapes import End, SupportsShape
from generator.units import Length, Units

Reach = Length | tuple[Length, Length]
Beside = Literal["wallboard", "free"]
AtFlange = Literal["rabbet", "fur"] | Length
DeckField = Annotated[Many[Span], Field(min_length=2, max_length=2)]


def _reach(value: Any, info: ValidationInfo) -> Reach:
    units = context_units(info)
    if not isinstance(value, list | tuple):
        return read_length(value, units)
    if len(value) != 2:
        raise ValueError("a reach is one length from the corner, or [from, to] from the left end")
    return read_length(value[0], units), read_length(value[1], units)


def _top(value: Any, info: ValidationInfo) -> Length | Literal["ceiling"]:
    if value == "ceiling":
        return "ceiling"
    try:
        return read_length(value, context_units(info))
    except ValueError as error:
        raise ValueError(f"`ceiling` or a height above the floor is expected here ({error})") from None


def _at_flange(value: Any, info: ValidationInfo) -> dict[str, AtFlange]:
    """By wall; under "" what holds for the walls that are not named."""
    units = context_units(info)
    if isinstance(value, dict):
        return {str(name): _one_at_flange(one, units) for name, one in value.items()}
    return {"": _one_at_flange(value, units)}


def _one_at_flange(value: Any, units: Units) -> AtFlange:
    if value in ("rabbet", "fur"):
        return "rabbet" if value == "rabbet" else "fur"
    try:
        return read_length(value, units)
    except ValueError as error:
        raise ValueError(f"`rabbet`, `fur` or a thickness of furring is expected here ({error})") from None


def _beside(value: Any) -> tuple[Beside, Beside]:
    ends = tuple(value) if isinstance(value, list | tuple) else (value, value)
    if len(ends) != 2 or any(end not in ("wallboard", "free") for end in ends):
        raise ValueError(f"`wallboard` or `free` is expected here, or a list of both ends, not {said(value)}")
    return ends


_LENGTH = float | str
ReachField = Annotated[
    Reach,
    PlainValidator(
        _reach, json_schema_input_type=_LENGTH | Annotated[list[_LENGTH], Field(min_length=2, max_length=2)]
    ),
]
TopField = Annotated[Length | Literal["ceiling"], PlainValidator(_top, json_schema_input_type=_LENGTH)]
BesideField = Annotated[
    tuple[Beside, Beside],
    PlainValidator(_beside, json_schema_input_type=Beside | Annotated[list[Beside], Field(min_length=2, max_length=2)]),
]


AtFlangeField = Annotated[
    dict[str, AtFlange], PlainValidator(_at_flange, json_schema_input_type=_LENGTH | dict[str, _LENGTH])
]


class PlaceShape(Shape):
    code: Text = Field(description="id in profiles/codes.yaml, such as irc")
    accessible: Literal["transfer_shower", "roll_in", "bathtub"] | None = Field(
        default=None, description="which accessible place it is to be, measured against ADA 607 to 610"
    )


class FloorShape(Shape):
    datum: Literal["finished", "bare"] = Field(
        default="finished", description="the floor that heights are measured from"
    )
    build_up: Span | None = Field(default=None, description="from the bare floor up to the finished one, where known")


class BaseShape(Shape):
    kind: Literal["tub", "shower_base", "tray", "none"] = Field(description="tub, shower_base, tray or none")
    shape: Literal["rectangle", "neo_angle"] = Field(
        default="rectangle", description="neo_angle: in a right-angled corner, its front across at 135 degrees"
    )
    profile: Text = Field(default="", description="id of the flange (tub, shower_base) or of the tray")
    along: Text = Field(default="", description="the wall that its length stands against")
    length: Size | None = Field(default=None, description="over the flanges, along that wall")
    width: Size | None = Field(default=None, description="out from that wall's framing")
    returns: dict[str, Size] = Field(
        default={}, description="of a neo_angle, by wall: from the end of its side there, square out to its front"
    )
    front: Size | None = Field(default=None, description="of a neo_angle, to check the rest: along its front")
    deck: Span | None = Field(default=None, description="height of the deck above the floor")
    decks: dict[str, DeckField] = Field(
        default={}, description="out of level, by wall: height of the deck at the left and right end of its side there"
    )
    start: Span | None = Field(default=None, description="from the left framing corner of that wall to the base")
    flanged: Many[Text] | None = Field(default=None, description="walls at which it has a flange; all when left out")
    gaps: dict[str, Span] = Field(
        default={}, description="by wall: from the stud faces to the back of the flange, where it does not touch them"
    )
    at_flange: AtFlangeField = Field(
        default={},
        description="rabbet (notch the boards), fur (the studs, so far that no notch is needed) or a thickness of "
        "furring (the rest is notched); one for all walls, or by wall",
    )
    threshold: Span | None = Field(default=None, description="height of the finished threshold above the floor")
    drain: Span | None = Field(default=None, description="height of the drain above the floor")


class BoardsShape(Shape):
    reach: ReachField | None = Field(default=None, description="how far boards go: from the only corner, or [from, to]")
    top: TopField = Field(default="ceiling", description="`ceiling`, or a height above the floor")


class WallShape(Shape):
    model_config = ConfigDict(json_schema_extra=width_or_widths)

    name: Name = Field(description="a short name, such as back")
    width: Size = Field(description="framing, from end to end")
    height: Size = Field(description="from the floor to the ceiling")
    ceiling: Literal["framing", "finished"] = Field(default="framing", description="what the height was measured to")
    boards: BoardsShape = Field(default=BoardsShape(), description="how far boards go, to the side and up")
    beside: BesideField = Field(default=("wallboard", "wallboard"), description="what is at an open end of the boards")
    duty: Literal["bearing", "non_bearing", "unknown"] = Field(
        default="unknown", description="whether the wall carries load from above"
    )
    outside: Flag = Field(default=False, description="true where it stands against the weather, its bays insulated")
    in_bays: Many[InBayShape] = Field(
        default=(), max_length=100, description="pipes, cables, ducts, insulation found between the studs"
    )
    supports: SupportsShape = Field(description="what is there to screw to")
    partition: PartitionShape | None = Field(
        default=None, description="of the first or last wall: it stands free, and boards go round its end"
    )
    string_line: Many[StringLineShape] = Field(
        default=(), max_length=100, description="stud faces measured back from a string line or laser plane"
    )
    flange_off: Many[Span] | None = Field(
        default=None,
        min_length=2,
        max_length=2,
        description="from the same line back to the back of the flange, at its left and its right end",
    )
    widths: Many[WidthShape] = Field(
        default=(), max_length=20, description="widths at several heights, upwards from the floor, instead of `width`"
    )
    heights: Many[HeightShape] = Field(
        default=(), max_length=40, description="heights at several places, from the left end, instead of `height`"
    )
    plumb: PlumbShape = Field(default=PlumbShape(), description="how far each end leans over its height")
    diagonals: DiagonalsShape = Field(default=DiagonalsShape(), description="from corner to corner of the framing")

    @model_validator(mode="before")
    @classmethod
    def _from_lists(cls, data: Any, info: ValidationInfo) -> Any:
        return with_width_and_height(data, info)


class CornerShape(Shape):
    between: Many[Text] = Field(min_length=2, max_length=2, description="the wall to the left, the wall to the right")
    angle: Amount = Field(default=90.0, description="degrees, measured inside the room")
    marks: Many[Size] | None = Field(
        default=None, min_length=2, max_length=2, description="how far from the corner a mark is on each wall, level"
    )
    diagonal: Size | None = Field(default=None, description="straight across from mark to mark; the angle follows")
    first: Text = Field(default="", description="the wall that is boarded first")

    @model_validator(mode="before")
    @classmethod
    def _from_diagonal(cls, data: Any, info: ValidationInfo) -> Any:
        return with_angle(data, info)


class BodyShape(Shape):
    width: Size
    height: Size
    depth: Size


class FittingShape(Shape):
    name: Name = Field(description="a short name, such as valve")
    wall: Text = Field(description="the wall it comes through")
    kind: Literal["valve", "spout", "arm", "pipe", "other"] = Field(description="valve, spout, arm, pipe or other")
    profile: Text = Field(description="id in profiles/pipes.yaml or profiles/cutouts.yaml")
    across: Size = Field(description="from the end `from` of the wall's bare framing to its middle")
    start: End = Field(default="left", alias="from", description="the end of the wall that `across` is measured from")
    up: Size = Field(description="from the floor or the deck to its middle")
    above: Literal["floor", "deck"] = Field(default="floor", description="what `up` is measured from")
    body: BodyShape | None = Field(default=None, description="size of what sits behind, where it is not the profile's")


class TileShape(Shape):
    thickness: Size | None = None
    bed: Span | None = None
    longest: Size | None = Field(default=None, description="longest edge of the tile")


class RoomShape(Shape):
    name: Words = Field(description="a short name of the room")
    job: JobShape = JobShape()
    units: Literal["in", "mm"] = Field(description="the unit of bare numbers, in or mm")
    place: PlaceShape = Field(description="which code rules apply, as `{code: irc}`, `{code: ipc}` or `{code: none}`")
    floor: FloorShape = FloorShape()
    base: BaseShape = Field(description="what stands on the floor, with its `kind`")
    walls: Many[WallShape] = Field(
        min_length=1, max_length=24, description="the walls, left to right, seen from inside the room"
    )
    corners: Many[CornerShape] = Field(default=(), max_length=24)
    fittings: Many[FittingShape] = Field(default=(), max_length=100)
    mounts: Many[MountShape] = Field(default=(), max_length=100, description="bars, seats, glass, doors on the walls")
    niches: Many[NicheShape] = Field(default=(), max_length=24, description="recesses in the walls, lined with boards")
    windows: Many[WindowShape] = Field(default=(), max_length=24, description="windows whose reveals are boarded")
    benches: Many[BenchShape] = Field(default=(), max_length=12, description="benches, corner seats, decks by a tub")
    curbs: Many[CurbShape] = Field(default=(), max_length=4, description="curbs along the open side of a tray")
    soffits: Many[SoffitShape] = Field(default=(), max_length=8, description="boxed-down parts of the ceiling")
    tile: TileShape = TileShape()
    choices: ChoicesShape = ChoicesShape()
