"""Sketches of the room from above, not to scale: corners, base, and how far boards reach. Labels are boxes."""

from __future__ import annotations

from dataclasses import dataclass

from generator.asking.questions import Form, Section
from generator.drafting.ink import Dimension, Ink, Line, Outline, Text, move
from generator.drawings.form_cells import Row
from generator.model.geometry import Point, rectangle

LABEL = 2.8
_WALL = 3.0
_WIDE, _DEEP = 90.0, 62.0
"""mm of paper: the walls of a plan."""
_FILL, _BASE_FILL = 0.8, 0.94
_NEO = ((0.0, 22.0), (20.0, 22.0), (46.0, 48.0), (46.0, _DEEP), (0.0, _DEEP))


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where things are in the sketch, in mm: each wall from its left end to its right end; the base's rectangle."""

    walls: tuple[tuple[Point, Point], ...]
    base: tuple[float, float, float, float]


def _plan(walls: tuple[str, ...]) -> _Plan:
    left, back = ((0.0, 0.0), (0.0, _DEEP)), ((0.0, _DEEP), (_WIDE, _DEEP))
    right = ((_WIDE, _DEEP), (_WIDE, 0.0))
    shown = {1: (back,), 2: (left, back), 3: (left, back, right)}[len(walls)]
    base = {1: (14.0, 28.0, 74.0, _DEEP), 2: (0.0, 22.0, 62.0, _DEEP), 3: (0.0, 22.0, _WIDE, _DEEP)}[len(walls)]
    return _Plan(shown, base)


def label(at: Point, text: str, angle: float = 0.0) -> Text:
    """A box's name on a sketch, on its own patch of white."""
    return Text(at, text, LABEL, "centre", "middle", angle, bold=True, mask=True)


def _box(section: Section, mark: str) -> str:
    question = section.marked(mark)
    return question.box if question else ""


def corner_sketch(form: Form, section: Section, width: float) -> Row:
    """The walls by name, and the marks of the 3-4-5 measure in every corner."""
    plan = _plan(form.walls)
    ink: list[Ink] = [*_walls(form, plan)]
    for i in range(len(form.walls) - 1):
        way = 1.0 if i == 0 else -1.0
        x = 0.0 if i == 0 else _WIDE
        p, q = (x, _DEEP - 18.0), (x + way * 24.0, _DEEP)
        ink += [Line(p, q, "hidden"), label((x + way * 13.0, _DEEP - 10.5), _box(section, f"square-{i}"))]
    ink.append(Text((_WIDE / 2, 6.0), "you stand here", 2.4, "centre", layer="light"))
    return _centred(tuple(ink), width)


def base_sketch(form: Form, section: Section, width: float) -> Row:
    """The base against its walls: its size, where it starts, and around it deck and flange."""
    plan = _plan(form.walls)
    left, bottom, right, top = plan.base
    neo = bool(_box(section, "front"))
    right = left + 46.0 if neo else right
    ring = _NEO if neo else rectangle(left, bottom, right, top)
    ink: list[Ink] = [Outline(ring, "base", fill=_BASE_FILL), *_walls(form, plan)]
    ink.append(_across((left, bottom), (right, bottom), bottom - 7.0, _box(section, "length")))
    ink.append(_upright((right, bottom), (right, top), left + 20.0 if neo else right - 14.0, _box(section, "width")))
    if start := _box(section, "start"):
        ink.append(_across((0.0, top), (left, top), bottom - 7.0, start))
    middle = (left + right) / 2 + (6.0 if neo else 0.0)
    ink += [Text((middle, bottom + 17.0), "deck", 2.4, "centre"), label((middle, bottom + 22.5), _box(section, "deck"))]
    ink += [item for wall, line in zip(form.walls, plan.walls, strict=True) for item in _around(section, wall, line)]
    return _centred((*ink, *(_front(section, form.walls) if neo else ())), width)


def _around(section: Section, wall: str, line: tuple[Point, Point]) -> tuple[Ink, ...]:
    """Along a wall: the deck at both ends of the base's side there, and the flange's distance between them."""
    names = (_box(section, f"deck-{wall}"), _box(section, f"gap-{wall}"), _box(section, f"deck-{wall}-right"))
    (x, y), (other, _) = line
    if x == other:
        in_from = 6.0 if x == 0.0 else -6.0
        places = [(x + in_from, v) for v in (27.0, 39.0, 51.0)]
        places = places if x == 0.0 else places[::-1]
    else:
        end = 46.0 if _box(section, "front") else 62.0
        places = [(x + u, y - 4.5) for u in (14.0, (14.0 + end - 8.0) / 2, end - 8.0)]
        places = [(u + 14.0, v) for u, v in places] if len(names[0]) and end > 50.0 else places
    return tuple(label(at, name) for at, name in zip(places, names, strict=True) if name)


def _front(section: Section, walls: tuple[str, ...]) -> tuple[Ink, ...]:
    """Of a neo-angle base: both returns and its front."""
    return (
        label((10.0, 22.0), _box(section, f"return-{walls[0]}")),
        label((46.0, 55.0), _box(section, f"return-{walls[1]}")),
        label((33.0, 35.0), _box(section, "front")),
    )


def reach_sketch(form: Form, section: Section, width: float) -> Row:
    """How far the boards go on walls with an open end."""
    plan = _plan(form.walls)
    ink: list[Ink] = [Outline(rectangle(*plan.base), "base", fill=_BASE_FILL), *_walls(form, plan)]
    if len(form.walls) == 1:
        ink.append(_across((0.0, _DEEP), (11.0, _DEEP), _DEEP - 9.0, _box(section, "reach-from")))
        ink.append(_across((0.0, _DEEP), (80.0, _DEEP), _DEEP - 17.0, _box(section, "reach-to")))
    else:
        low = _DEEP - 50.0
        ink.append(_upright((0.0, low), (0.0, _DEEP), 8.0, _box(section, "reach-0")))
        if far := _box(section, "reach-2"):
            ink.append(_upright((_WIDE, low), (_WIDE, _DEEP), _WIDE - 8.0, far))
        if len(form.walls) == 2:
            ink.append(_across((0.0, _DEEP), (72.0, _DEEP), _DEEP - 9.0, _box(section, "reach-1")))
    return _centred(tuple(ink), width)


def _walls(form: Form, plan: _Plan) -> tuple[Ink, ...]:
    """Every wall as a band with its name on the outside."""
    ink: list[Ink] = []
    for (p, q), name in zip(plan.walls, form.walls, strict=True):
        if p[1] == q[1]:
            ink.append(Outline(rectangle(p[0] - _WALL, p[1], q[0] + _WALL, p[1] + _WALL), "visible", fill=_FILL))
            ink.append(Text(((p[0] + q[0]) / 2, p[1] + _WALL + 1.5), f"{name} wall", 2.6, "centre", bold=True))
        else:
            out = -_WALL if p[0] == 0.0 else _WALL
            low, high = sorted((p[1], q[1]))
            side = rectangle(min(p[0], p[0] + out), low, max(p[0], p[0] + out), high)
            ink.append(Outline(side, "visible", fill=_FILL))
            x, align = p[0] + out * 1.6, "right" if out < 0 else "left"
            ink.append(
                Text((x, (low + high) / 2), f"{name} wall", 2.6, "right" if align == "right" else "left", bold=True)
            )
    return tuple(ink)


def _across(p: Point, q: Point, line: float, text: str) -> Dimension:
    return Dimension(p, q, "x", line, text, abs(q[0] - p[0]), LABEL)


def _upright(p: Point, q: Point, line: float, text: str) -> Dimension:
    return Dimension(p, q, "y", line, text, abs(q[1] - p[1]), LABEL)


def _centred(ink: tuple[Ink, ...], width: float) -> Row:
    """A sketch in the middle of a strip of the page."""
    height = _DEEP + _WALL + 10.0
    return Row(move(ink, (width - _WIDE) / 2, -height + 3.0), height)
