"""Ink: what a drawing is made of, before anybody decides on a file format.

Points in mm; on a page x runs right and y up from its lower-left corner. In a view the same records hold
points of the model in mm (a wall's u, v; a board's own box); `View.place` brings them to paper. Heights of
text are always mm on paper (height of a capital letter) and are never scaled.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from generator.drafting.layers import Role
from generator.model.geometry import Point, Ring, canonical, tidy

Align = Literal["left", "centre", "right"]
Level = Literal["base", "middle", "top"]
Ends = Literal["oblique", "tick"]
"""Strokes at the ends of a dimension line: thin, or heavy."""


@dataclass(frozen=True, slots=True)
class Line:
    start: Point
    end: Point
    layer: Role


@dataclass(frozen=True, slots=True)
class Arc:
    """Counter-clockwise from `start` to `end`, in degrees from the x axis."""

    centre: Point
    radius: float
    start: float
    end: float
    layer: Role


@dataclass(frozen=True, slots=True)
class Circle:
    """`fill`: grey inside, 0 black to 1 white; None leaves it empty."""

    centre: Point
    radius: float
    layer: Role
    fill: float | None = None


@dataclass(frozen=True, slots=True)
class Outline:
    """A polyline, closed by default. `fill` as for a circle; `edge` False draws the fill alone.

    `depth` in mm: how deep a machine takes out what lies inside, which the layer's name then says.
    """

    ring: Ring
    layer: Role
    closed: bool = True
    fill: float | None = None
    edge: bool = True
    depth: float | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of writing. `angle` in degrees about `at`; `mask` clears the paper behind it."""

    at: Point
    text: str
    height: float
    align: Align = "left"
    level: Level = "base"
    angle: float = 0.0
    bold: bool = False
    mask: bool = False
    layer: Role = "text"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance between p and q along one axis, drawn at `line` (y of the dimension line for axis x, x for y).

    `text` is what paper says; `measured` is the true distance in model mm, for tests and for DXF.
    """

    p: Point
    q: Point
    axis: Literal["x", "y"]
    line: float
    text: str
    measured: float
    height: float = 2.5
    layer: Role = "dimension"
    ends: Ends = "oblique"
    along: float | None = None
    """Where the middle of the text stands on the axis; None: between the ends, or beside them if it is too long."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A place on a running dimension: `at` on the axis in paper mm, `text` as paper says it.

    `start`: where its extension line begins, across the axis in paper mm; None leaves the extension line out.
    """

    at: float
    text: str
    start: float | None = None


@dataclass(frozen=True, slots=True)
class Running:
    """Distances of `stops` (in rising order) from one `datum` along an axis, on one line drawn at `line`.

    `side`: where the values stand, away from the object: -1 below a line along x, left of one along y.
    """

    axis: Literal["x", "y"]
    line: float
    datum: float
    stops: tuple[Stop, ...]
    height: float = 2.5
    side: Literal[1, -1] = -1
    layer: Role = "dimension"
    ends: Ends = "oblique"


Ink = Line | Arc | Circle | Outline | Text | Dimension | Running


@dataclass(frozen=True, slots=True)
class View:
    """Model to paper: the model's `origin` lands on the paper's `at`, sizes are multiplied by `scale` (1/8 ...)."""

    scale: float
    at: Point
    origin: Point = (0.0, 0.0)

    def point(self, p: Point) -> Point:
        """The paper's point of a model's point."""
        return (self.x(p[0]), self.y(p[1]))

    def x(self, model: float) -> float:
        return tidy(self.at[0] + (model - self.origin[0]) * self.scale)

    def y(self, model: float) -> float:
        return tidy(self.at[1] + (model - self.origin[1]) * self.scale)

    def place(self, ink: tuple[Ink, ...]) -> tuple[Ink, ...]:
        """All of it on paper: geometry scaled and moved, text moved only."""
        return tuple(self._one(item) for item in ink)

    def _one(self, item: Ink) -> Ink:
        match item:
            case Line():
                return replace(item, start=self.point(item.start), end=self.point(item.end))
            case Outline():
                return replace(item, ring=tuple(self.point(p) for p in item.ring))
            case Text():
                return replace(item, at=self.point(item.at))
            case Dimension():
                line = self.y(item.line) if item.axis == "x" else self.x(item.line)
                along = self.x if item.axis == "x" else self.y
                place = None if item.along is None else along(item.along)
                return replace(item, p=self.point(item.p), q=self.point(item.q), line=line, along=place)
            case Running():
                return self.running(item)
            case _:
                return replace(item, centre=self.point(item.centre), radius=tidy(item.radius * self.scale))

    def running(self, item: Running) -> Running:
        """A running dimension on paper."""
        along, across = (self.x, self.y) if item.axis == "x" else (self.y, self.x)
        starts = (None if stop.start is None else across(stop.start) for stop in item.stops)
        stops = tuple(Stop(along(s.at), s.text, start) for s, start in zip(item.stops, starts, strict=True))
        return replace(item, line=across(item.line), datum=along(item.datum), stops=stops)


def move(ink: tuple[Ink, ...], dx: float, dy: float) -> tuple[Ink, ...]:
    """The same ink, moved by (dx, dy) mm."""
    return View(1.0, (dx, dy)).place(ink)


def mirror(ink: tuple[Ink, ...], width: float) -> tuple[Ink, ...]:
    """Lines and shapes of a box of that width, its lower left at (0, 0), seen from behind.

    Raises TypeError on anything else: writing is placed anew, not mirrored.
    """
    return tuple(_mirrored(item, width) for item in ink)


def _mirrored(item: Ink, width: float) -> Ink:
    def seen(p: Point) -> Point:
        return (tidy(width - p[0]), p[1])

    match item:
        case Line():
            return replace(item, start=seen(item.start), end=seen(item.end))
        case Circle():
            return replace(item, centre=seen(item.centre))
        case Outline():
            ring = [seen(p) for p in item.ring]
            return replace(item, ring=canonical(ring) if item.closed else tuple(ring))
    raise TypeError("only lines, circles and outlines are mirrored")


def turn(ink: tuple[Ink, ...], degrees: Literal[0, 90, 180, 270], size: Point) -> tuple[Ink, ...]:
    """Ink of a box of that size with its lower left at (0, 0), turned counter-clockwise, its lower left there again.

    Dimensions cannot be turned (their axis would be lost); raises TypeError on one.
    """
    return tuple(_turned(item, degrees, size) for item in ink)


def turned_point(p: Point, degrees: Literal[0, 90, 180, 270], size: Point) -> Point:
    """A point of the box, after the turn."""
    (x, y), (w, h) = p, size
    to = {0: (x, y), 90: (h - y, x), 180: (w - x, h - y), 270: (y, w - x)}[degrees]
    return (tidy(to[0]), tidy(to[1]))


def _turned(item: Ink, degrees: Literal[0, 90, 180, 270], size: Point) -> Ink:
    match item:
        case Line():
            start, end = (turned_point(p, degrees, size) for p in (item.start, item.end))
            return replace(item, start=start, end=end)
        case Outline():
            return replace(item, ring=tuple(turned_point(p, degrees, size) for p in item.ring))
        case Text():
            angle = (item.angle + degrees) % 360
            return replace(item, at=turned_point(item.at, degrees, size), angle=angle)
        case Circle():
            return replace(item, centre=turned_point(item.centre, degrees, size))
        case Arc():
            start_angle, end_angle = item.start + degrees, item.end + degrees
            return Arc(turned_point(item.centre, degrees, size), item.radius, start_angle, end_angle, item.layer)
    raise TypeError("a dimension cannot be turned")
