"""What a record of each profile file may hold."""

from __future__ import annotations

from typing import Any, Literal, Self

from pydantic import Field, ValidationInfo, model_validator

from generator.model.geometry import REAL_AREA, Point, Ring, area, canonical, rectangle
from generator.model.profiles import DRAFTED, HEIGHTS, Confidence, Sense
from generator.reading.fields import (
    Amount,
    Count,
    Flag,
    Many,
    Shape,
    Share,
    Size,
    Span,
    Text,
    Volume,
    Words,
    context_units,
    read_length,
    read_number,
)
from generator.units import Length, Units


class OriginShape(Shape):
    source: Words = Field(description="where the numbers come from")
    confidence: Confidence = Field(description="published, practice, memory, maker or invented")


class ProfileShape(Shape):
    name: Words = Field(description="what people call it")


class SheetShape(Shape):
    id: Text
    width: Size
    height: Size

    @model_validator(mode="after")
    def _short_side_first(self) -> Self:
        if self.width.exact > self.height.exact:
            raise ValueError("a sheet's width is its short side, its height the long one; swap them")
        return self


class BoardShape(ProfileShape):
    material: Text
    thickness: Size
    density: Amount = Field(description="kg/m3")
    sheets: Many[SheetShape] = Field(min_length=1)
    horizontal_backing: Flag = False


def crosses_itself(points: list[Point]) -> bool:
    """True where two sides of the polygon that are no neighbours meet."""
    sides = list(zip(points, [*points[1:], points[0]], strict=True))
    return any(
        _meet(*sides[i], *sides[j])
        for i in range(len(sides))
        for j in range(i + 2, len(sides))
        if (i, j) != (0, len(sides) - 1)
    )


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True where the line from a to b and the line from c to d have a point in common."""
    turns = (_turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b))
    apart = max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0])
    apart = apart or max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1])
    return not apart and turns[0] * turns[1] <= 0 and turns[2] * turns[3] <= 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


class FlangeShape(ProfileShape):
    kind: Literal["thin", "thick"]
    section: Many[Many[Span]] = Field(
        max_length=100, description="points of the section: [from its back, above the deck]"
    )

    @model_validator(mode="after")
    def _is_a_section(self) -> Self:
        if len(self.section) < 3 or any(len(point) != 2 for point in self.section):
            raise ValueError("a section has three or more points, each [from its back, above the deck]")
        points = self.points()
        if abs(area(points)) < REAL_AREA or crosses_itself(points):
            raise ValueError("this section encloses no area, or crosses itself; write its points in order round it")
        if min(w for w, _ in points) > 0 or min(h for _, h in points) > 0:
            raise ValueError("a section begins at its back (0 out) and at the deck (0 up)")
        return self

    def points(self) -> list[Point]:
        """The section in mm, as written."""
        return [(point[0].mm, point[1].mm) for point in self.section]

    def derived(self) -> dict[str, Any]:
        """Ring, height and greatest thickness in mm."""
        points = self.points()
        return {
            "section": canonical(points),
            "top": max(h for _, h in points),
            "thickness": max(w for w, _ in points),
        }


class TrayShape(ProfileShape):
    order: Literal["boards_first", "tray_first"]
    lining_height: Size


class StudShape(ProfileShape):
    material: Literal["wood", "steel", "masonry"]
    face: Size
    depth: Size
    steel_mils: Amount = 0.0

    @model_validator(mode="after")
    def _steel_has_a_gauge(self) -> Self:
        if (self.material == "steel") != (self.steel_mils > 0):
            raise ValueError("a steel stud says its `steel_mils` (thickness in 1/1000 in), others do not")
        return self


class LumberShape(ProfileShape):
    studs: Many[Text] = Field(min_length=1, description="ids in studs.yaml that are sold in these lengths")
    lengths: Many[Size] = Field(min_length=1, description="lengths as bought")


class PipeShape(ProfileShape):
    outside_diameter: Size
    material: Text
    steel: Flag = False
    collar_diameter: Size


class CutoutShape(ProfileShape):
    diameter: Size | None = Field(None, description="of a round opening")
    width: Size | None = Field(None, description="of a rectangular opening")
    height: Size | None = Field(None, description="of a rectangular opening")
    body_width: Size
    body_height: Size
    body_depth: Size
    collar_diameter: Size

    @model_validator(mode="after")
    def _round_or_rectangular(self) -> Self:
        flat = (self.width is not None, self.height is not None)
        if any(flat) != all(flat) or (self.diameter is not None) == all(flat):
            raise ValueError("an opening has either a `diameter`, or a `width` and a `height`")
        return self

    def derived(self) -> dict[str, Any]:
        """Diameter and ring in mm, one of them empty."""
        ring: Ring = ()
        if self.width and self.height:
            ring = rectangle(-self.width.mm / 2, -self.height.mm / 2, self.width.mm / 2, self.height.mm / 2)
        return {"diameter": self.diameter.mm if self.diameter else 0.0, "ring": ring}


class FastenerShape(ProfileShape):
    support: Literal["wood", "light_steel", "heavy_steel", "masonry"]
    length: Size
    washer_diameter: Size
    package: Count


class BandShape(ProfileShape):
    width: Size
    roll_length: Size
    patch_side: Size


class SealantShape(ProfileShape):
    cartridge: Volume
    bed_width: Size
    bed_depth: Size
    fill_rabbet: Flag
    fill_corners: Flag
    waste: Share
    masking_roll: Size


class MortarShape(ProfileShape):
    bag: Volume
    waste: Share


class TrowelShape(ProfileShape):
    notch: Literal["square", "v", "u"]
    width: Size
    height: Size
    land: Span
    angle_deg: Amount


class PaperShape(ProfileShape):
    width: Size
    height: Size
    margin: Span
    roll: Flag = False


class LabelShape(ProfileShape):
    width: Size
    height: Size
    module: Size


class PracticeShape(ProfileShape):
    """Lines and writing of drawings; writing no larger than the room that the drawings keep for it."""

    fine: Size = Field(description="width of hatching and register marks")
    thin: Size = Field(description="width of dimensions, hidden and centre lines")
    plain: Size = Field(description="width of what is seen behind")
    medium: Size = Field(description="width of fittings, the base and pockets")
    wide: Size = Field(description="width of outlines and cuts")
    heavy: Size = Field(description="width of the frame, of what is added, of findings")
    text: Size = Field(description="height of dimensions, notes and tables")
    subtitle: Size = Field(description="height of the titles of tables")
    heading: Size = Field(description="height of headings")
    title: Size = Field(description="height of the set's title")
    ends: Literal["oblique", "tick"] = Field(description="ends of dimension lines: thin strokes or heavy ticks")
    decimal: Literal["point", "comma"] = Field(description="sign before the decimals of a length")
    projection: Literal["first", "third"] = Field(description="angle of projection")

    @model_validator(mode="after")
    def _fits(self) -> Self:
        for name in HEIGHTS:
            high: Length = getattr(self, name)
            if high.mm > DRAFTED[name]:
                raise ValueError(f"{name} is {high.text} high; drawings have room for {DRAFTED[name]:g} mm")
        return self


class CodeShape(ProfileShape):
    rules: Many[Text]


RuleUnit = Literal["mm", "mm2", "mm3", "count", "ratio", "deg"]


def read_limit(value: Any, unit: str, units: Units) -> float:
    """A limit in the rule's own unit: mm from a length, mm2 from `900 in2`, else a plain number."""
    if unit == "mm":
        return read_length(value, units).mm
    if unit == "mm2":
        number, _, square = str(value).partition(" ")
        if square not in ("in2", "mm2"):
            raise ValueError("an area such as 900 in2 or 0.1 mm2 is expected here")
        return read_number(number) * (25.4**2 if square == "in2" else 1.0)
    return read_number(value)


class RuleShape(Shape):
    statement: Words
    reason: Words
    unit: RuleUnit
    limit: Any
    sense: Sense

    @model_validator(mode="after")
    def _has_a_limit(self, info: ValidationInfo) -> Self:
        read_limit(self.limit, self.unit, context_units(info))
        return self
