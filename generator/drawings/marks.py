"""Small pieces that several elevations share: labels with leaders, numbered flags, centre marks, said lengths."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.drafting.dimension import spread
from generator.drafting.ink import Circle, Ink, Line, Text
from generator.drafting.layers import Role
from generator.drafting.page import text_width
from generator.model.geometry import Point, Ring

FLAG = 2.9
"""mm: radius of a numbered flag."""


@dataclass(frozen=True, slots=True)
class Label:
    """Words for a point of the paper; `span`: heights between which a leader may start instead of at the point."""

    at: Point
    text: str
    bold: bool = False
    span: tuple[float, float] | None = None

    def start(self, y: float) -> Point:
        """Where the leader of a label at height `y` starts."""
        return (self.at[0], min(max(y, self.span[0]), self.span[1])) if self.span else self.at


def row_above(labels: Sequence[Label], y: float, height: float = 2.5) -> tuple[Ink, ...]:
    """Upright labels in a row whose feet stand at `y`, each with a leader down to its point."""
    ordered = sorted(labels, key=lambda label: (label.at, label.text))
    ink: list[Ink] = []
    for label, x in zip(ordered, spread([lb.at[0] for lb in ordered], 1.6 * height), strict=True):
        ink.append(Line(label.at, (x, y - 0.8), "light"))
        ink.append(Text((x, y), label.text, height, "left", "middle", 90.0, label.bold))
    return tuple(ink)


def flags(labels: Sequence[Label], x: float, low: float, high: float, layer: Role) -> tuple[Ink, ...]:
    """Numbers in circles, one above the other at `x`, between `low` and `high`, each with a leader to its point."""
    ordered = sorted(labels, key=lambda label: (label.at[1], label.at[0], label.text))
    pitch = 2 * FLAG + 0.7
    wanted = [min(max(lb.at[1], low), high) for lb in ordered]
    ys = inside(spread(wanted, pitch), low, high, pitch)
    ink: list[Ink] = []
    for label, y in zip(ordered, ys, strict=True):
        edge = x - FLAG if label.at[0] <= x else x + FLAG
        start = label.start(y)
        ink += [Line(start, (edge, y), "dimension"), Circle(start, 0.5, "dimension", fill=0.0)]
        ink += [Circle((x, y), FLAG, layer, fill=1.0), Text((x, y), label.text, 2.5, "centre", "middle", bold=True)]
    return tuple(ink)


def inside(places: Sequence[float], low: float, high: float, pitch: float) -> tuple[float, ...]:
    """The spread places pushed back between low and high, `pitch` apart as long as there is room for them."""
    pushed: list[float] = []
    for i, place in enumerate(places):
        ceiling = high - (len(places) - 1 - i) * pitch
        floor = pushed[-1] + pitch if pushed else low
        pushed.append(max(floor, min(place, ceiling)))
    return tuple(pushed)


def centre_mark(at: Point, reach: float) -> tuple[Ink, ...]:
    """A cross of two centre lines, `reach` mm of paper to each side."""
    x, y = at
    return (Line((x - reach, y), (x + reach, y), "centre"), Line((x, y - reach), (x, y + reach), "centre"))


@dataclass(frozen=True, slots=True)
class Named:
    """A round thing on paper with its name: `reach` mm from its middle to the end of what is drawn there."""

    at: Point
    reach: float
    text: str


def names_beside(things: Sequence[Named], height: float = 2.5) -> tuple[Text, ...]:
    """The name of each thing to its right, a little above its middle, moved up or down where names would meet."""
    ordered = sorted(things, key=lambda thing: (thing.at[1], thing.at[0], thing.text))
    ys = spread([thing.at[1] + 0.9 for thing in ordered], 1.5 * height)
    return tuple(
        Text((thing.at[0] + thing.reach + 0.8, y), thing.text, height) for thing, y in zip(ordered, ys, strict=True)
    )


def widest(texts: Sequence[str], height: float = 2.5) -> float:
    """Width in mm of the widest of the texts; 0 when there are none."""
    return max((text_width(text, height) for text in texts), default=0.0)


def leaders(ink: Iterable[Ink]) -> tuple[Ring, ...]:
    """A narrow strip along each line, none of which is upright, for words to keep off."""
    ends = ((*line.start, *line.end) for line in ink if isinstance(line, Line))
    return tuple(((x, y - 0.4), (p, q - 0.4), (p, q + 0.4), (x, y + 0.4)) for x, y, p, q in ends)


def words_beside(labels: Sequence[Label], x: float, low: float, high: float, height: float = 2.5) -> tuple[Ink, ...]:
    """Words in a column that starts at `x`, between `low` and `high`, each with a leader from its point."""
    ordered = sorted(labels, key=lambda label: (label.at[1], label.at[0], label.text))
    pitch = 1.7 * height
    ys = inside(spread([lb.at[1] for lb in ordered], pitch), low, high, pitch)
    ink: list[Ink] = []
    for label, y in zip(ordered, ys, strict=True):
        ink += [Line(label.at, (x - 0.8, y), "dimension"), Circle(label.at, 0.4, "dimension", fill=0.0)]
        ink.append(Text((x, y), label.text, height, "left", "middle", bold=label.bold))
    return tuple(ink)
