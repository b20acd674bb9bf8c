"""Sketches of a wall seen from inside, not to scale: its sizes and studs, and a fitting on it. Labels are boxes."""

from __future__ import annotations

from generator.asking.questions import Form, Question, Section
from generator.drafting.ink import Circle, Dimension, Ink, Line, Outline, Text, move
from generator.drawings.form_cells import Row
from generator.drawings.form_plans import LABEL, label
from generator.model.geometry import Point, rectangle

_WIDE, _HIGH = 108.0, 62.0
"""mm of paper: the wall in a sketch."""
_STUD = 2.4
_STUDS = (1.2, 25.0, 49.0, 73.0, 106.8)
_DECK = 12.0
_BASE_FILL, _STUD_FILL = 0.94, 0.9


def wall_sketch(form: Form, section: Section, width: float) -> Row:
    """The wall with every measure of its page: widths, heights, diagonals, studs from their corner, blocking."""
    index = form.walls.index(section.wall)
    start, end = base_on(form, index)
    ink: tuple[Ink, ...] = (
        *(Outline(rectangle(x - _STUD / 2, 0.0, x + _STUD / 2, _HIGH), "stud", fill=_STUD_FILL) for x in _STUDS),
        *_blocking(section),
        Outline(rectangle(start, 0.0, end, _DECK), "base", fill=_BASE_FILL),
        Text(((start + end) / 2, 3.0), "base", 2.4, "centre", layer="light"),
        Outline(rectangle(0.0, 0.0, _WIDE, _HIGH), "outline"),
        *_sizes(section),
        *_running(form, section),
    )
    ink = tuple(one for one in ink if not isinstance(one, Text | Dimension) or one.text)  # no label without a box
    return Row(move(ink, (width - _WIDE) / 2, -_HIGH - 3.0), _HIGH + 15.5)


def base_on(form: Form, index: int) -> tuple[float, float]:
    """From where to where the base stands against the wall of that number in its sketch."""
    if form.walls[index] == form.along:
        return {1: (16.0, 80.0), 2: (0.0, 72.0), 3: (0.0, _WIDE)}[len(form.walls)]
    return (_WIDE - 60.0, _WIDE) if index == 0 else (0.0, 60.0)


def _box(section: Section, mark: str) -> str:
    question: Question | None = section.marked(mark)
    return question.box if question else ""


def _sizes(section: Section) -> tuple[Ink, ...]:
    """Widths at three heights, heights at both ends, both diagonals."""
    ink: list[Ink] = []
    corners = ((0.0, _DECK), (_WIDE, _DECK), (_WIDE, _HIGH), (0.0, _HIGH))
    ink += [Line(corners[0], corners[2], "hidden"), Line(corners[1], corners[3], "hidden")]
    for mark, x, y in (("bottom", 39.0, _DECK + 4.0), ("middle", 30.0, 31.0), ("top", 39.0, _HIGH - 5.0)):
        ink += [Line((0.0, y), (_WIDE, y), "dimension"), *_ends((0.0, y), (_WIDE, y))]
        ink.append(label((x, y), _box(section, mark)))
    for mark, share in (("rising", 0.82), ("falling", 0.18)):
        x, y = _WIDE * 0.82, _DECK + (_HIGH - _DECK) * share
        ink.append(label((x, y), _box(section, mark)))
    for mark, x, side in (("height-left", 0.0, -7.0), ("height-right", _WIDE, 7.0)):
        ink.append(Dimension((x, 0.0), (x, _HIGH), "y", x + side, _box(section, mark), _HIGH, LABEL))
    ink.append(Dimension((0.0, 0.0), (0.0, _DECK), "y", 12.0, _box(section, "marks"), _DECK, LABEL))
    return (*ink, *_leans(section))


def _leans(section: Section) -> tuple[Ink, ...]:
    """A plumb line at each end: how far the top stands off it."""
    ink: list[Ink] = []
    for mark, x in (("plumb-left", 6.0), ("plumb-right", _WIDE - 6.0)):
        ink += [Line((x, 20.0), (x, _HIGH - 8.0), "centre"), label((x, 46.0), _box(section, mark))]
    return tuple(ink)


def _ends(p: Point, q: Point) -> tuple[Ink, ...]:
    """Oblique strokes at the ends of a dimension line."""
    return tuple(Line((x - 1.2, y - 1.2), (x + 1.2, y + 1.2), "dimension") for x, y in (p, q))


def _blocking(section: Section) -> tuple[Ink, ...]:
    """A level piece between two studs, and a nailer beside one, with their boxes."""
    y, left, right = 44.0, _STUDS[1] + _STUD / 2, _STUDS[2] - _STUD / 2
    nailer = _STUDS[3] + 4.0
    return (
        Outline(rectangle(left, y - 1.2, right, y + 1.2), "stud", fill=_STUD_FILL),
        label(((left + right) / 2, y - 7.0), _range(section, "block-0", "block-0-height")),
        Outline(rectangle(nailer - 1.2, 0.0, nailer + 1.2, _HIGH), "stud", fill=_STUD_FILL),
        label((nailer + 9.0, 27.0), _box(section, "nailer")),
        Line((nailer + 1.2, 27.0), (nailer + 5.0, 27.0), "dimension"),
    )


def _range(section: Section, first: str, last: str) -> str:
    return f"{_box(section, first)}-{_box(section, last)}"


def _running(form: Form, section: Section) -> tuple[Ink, ...]:
    """Studs by one tape laid from their corner: a ring there, a tick at every middle."""
    given = dict(form.given)
    from_right = given[f"walls.{form.walls.index(section.wall)}.supports.from"] == "right"
    datum, y = (_WIDE if from_right else 0.0), -6.0
    ticks = tuple(Line((x, y - 1.2), (x, 0.0), "dimension") for x in _STUDS)
    text = f"{_box(section, 'studs')}: every stud's middle, from this end"
    at = (datum - 3.0, y - 3.4) if from_right else (datum + 3.0, y - 3.4)
    return (
        Line((0.0, y), (_WIDE, y), "dimension"),
        Circle((datum, y), 1.2, "dimension"),
        *ticks,
        Text(at, text, 2.4, "right" if from_right else "left", "top", bold=True),
    )


def fitting_sketch(form: Form, section: Section, width: float) -> Row:
    """How the first fitting is measured: from both ends, from floor and deck; all others likewise."""
    at, deck = (64.0, 38.0), 14.0
    start, end = (30.0, _WIDE) if len(form.walls) > 1 else (16.0, 94.0)
    first = section.questions[0].mark
    ink: tuple[Ink, ...] = (
        Outline(rectangle(start, 0.0, end, deck), "base", fill=_BASE_FILL),
        Outline(rectangle(0.0, 0.0, _WIDE, _HIGH), "outline"),
        Circle(at, 3.0, "fitting"),
        Line((at[0] - 5.0, at[1]), (at[0] + 5.0, at[1]), "centre"),
        Line((at[0], at[1] - 5.0), (at[0], at[1] + 5.0), "centre"),
        Text((at[0] + 5.0, at[1] + 2.0), section.questions[0].topic.lower(), 2.4),
        Dimension((0.0, at[1]), at, "x", 52.0, _box(section, f"{first}-across"), at[0], LABEL),
        Dimension(at, (_WIDE, at[1]), "x", 52.0, _box(section, f"{first}-other"), _WIDE - at[0], LABEL),
        Dimension((at[0], 0.0), at, "y", 16.0, _box(section, f"{first}-up"), at[1], LABEL),
        Dimension((at[0], deck), at, "y", 88.0, _box(section, f"{first}-deck"), at[1] - deck, LABEL),
        Text((42.0, 3.0), "base", 2.4, layer="light"),
        Text((1.0, _HIGH + 2.0), "left end", 2.4),
        Text((_WIDE - 1.0, _HIGH + 2.0), "right end", 2.4, "right"),
    )
    return Row(move(ink, (width - _WIDE) / 2, -_HIGH - 7.0), _HIGH + 11.0)
