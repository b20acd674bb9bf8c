"""Sketches of what is found on studs, built into walls and fastened to them, not to scale. Labels are boxes."""

from __future__ import annotations

from generator.asking.questions import Form, Section
from generator.drafting.ink import Circle, Dimension, Ink, Line, Outline, Text, move
from generator.drawings.form_cells import Row
from generator.drawings.form_plans import LABEL, label
from generator.model.geometry import Point, rectangle

_WIDE = 150.0
"""mm of paper: two sketches side by side."""
_STUD_FILL, _WALL_FILL, _MOUTH_FILL = 0.9, 0.96, 0.8


def _box(section: Section, mark: str) -> str:
    question = section.marked(mark)
    return question.box if question else ""


def _across(p: Point, q: Point, line: float, text: str) -> Dimension:
    return Dimension(p, q, "x", line, text, abs(q[0] - p[0]), LABEL)


def _upright(p: Point, q: Point, line: float, text: str) -> Dimension:
    return Dimension(p, q, "y", line, text, abs(q[1] - p[1]), LABEL)


def _row(ink: tuple[Ink, ...], high: float, width: float) -> Row:
    """A sketch that stands on y = 0 and is `high` mm, in the middle of a strip of the page."""
    return Row(move(ink, (width - _WIDE) / 2, -high - 2.0), high + 6.0)


def studs_sketch(_form: Form, section: Section, width: float) -> Row:
    """A string line before studs, from above; beside it a bored and notched stud, from its side."""
    studs = tuple(
        Outline(rectangle(x, y, x + 4.0, y + 12.0), "stud", fill=_STUD_FILL)
        for x, y in ((0.0, 20.0), (22.0, 22.5), (44.0, 19.0), (66.0, 20.0))
    )
    ink: tuple[Ink, ...] = (
        *studs,
        Line((-4.0, 8.0), (74.0, 8.0), "hidden"),
        Text((74.0, 4.0), "string line, from above", 2.4, "right"),
        _upright((24.0, 8.0), (24.0, 22.5), 34.0, _box(section, "line-0-off")),
        label((24.0, 28.0), _box(section, "line-0")),
        *_bored(section),
    )
    return _row(move(ink, 0.0, -8.0), 28.0, width)


def _bored(section: Section) -> tuple[Ink, ...]:
    """A stud from its side: its face at the boards below, the floor to the left."""
    return (
        Outline(rectangle(88.0, 14.0, 150.0, 28.0), "stud", fill=_STUD_FILL),
        Text((88.0, 30.0), "floor", 2.4),
        Text((150.0, 30.0), "a stud from its side", 2.4, "right"),
        Circle((112.0, 21.0), 3.0, "fitting"),
        label((119.5, 24.5), _box(section, "hole-0-wide")),
        _across((88.0, 14.0), (112.0, 14.0), 8.0, _box(section, "hole-0-at")),
        Line((112.0, 14.0), (112.0, 21.0), "dimension"),
        label((104.0, 17.5), _box(section, "hole-0-in")),
        Outline(rectangle(132.0, 14.0, 140.0, 18.0), "fitting", fill=1.0),
        _across((132.0, 14.0), (140.0, 14.0), 8.0, _box(section, "notch-0-tall")),
        label((145.5, 17.0), _box(section, "notch-0-deep")),
        label((136.0, 22.0), _box(section, "notch-0-at")),
    )


def niche_sketch(_form: Form, section: Section, width: float) -> Row:
    """A niche on its wall, with its depth in section; a window likewise."""
    first, second = "niche-1", "window-1"
    ink: list[Ink] = []
    for name, left, word in ((first, 0.0, "niche, clear"), (second, 82.0, "window, in the framing")):
        at = (left + 26.0, 16.0, left + 46.0, 34.0)
        ink += [
            Outline(rectangle(left, 0.0, left + 56.0, 46.0), "outline", fill=_WALL_FILL),
            Outline(rectangle(*at), "visible", fill=_MOUTH_FILL),
            Text((left + 1.0, 42.5), word, 2.4),
            _across((left, 36.0), (left + 36.0, 36.0), 38.0, _box(section, f"{name}-across")),
            _upright((left + 26.0, 0.0), (left + 26.0, 16.0), left + 18.0, _box(section, f"{name}-up")),
            _across((at[0], 16.0), (at[2], 16.0), 9.0, _box(section, f"{name}-width")),
            _upright((at[2], at[1]), (at[2], at[3]), left + 51.0, _box(section, f"{name}-height")),
            Line((left + 60.0, 12.0), (left + 60.0, 38.0), "visible"),
            Line((left + 60.0, 34.0), (left + 70.0, 34.0), "visible"),
            Line((left + 70.0, 34.0), (left + 70.0, 16.0), "visible"),
            Line((left + 70.0, 16.0), (left + 60.0, 16.0), "visible"),
            label((left + 65.0, 25.0), _box(section, f"{name}-depth")),
        ]
    return _row(tuple(ink), 46.0, width)


def built_sketch(_form: Form, section: Section, width: float) -> Row:
    """A level bar on its wall; a soffit, a bench and a curb in section."""
    ink: list[Ink] = [
        Outline(rectangle(0.0, 0.0, 74.0, 46.0), "outline", fill=_WALL_FILL),
        Outline(rectangle(24.0, 27.0, 62.0, 29.0), "fitting", fill=_MOUTH_FILL),
        Text((1.0, 42.5), "grab bar on its wall", 2.4),
        _across((0.0, 29.0), (24.0, 29.0), 36.0, _box(section, "mount-1-across")),
        _across((24.0, 29.0), (62.0, 29.0), 36.0, _box(section, "mount-1-length")),
        _upright((43.0, 0.0), (43.0, 29.0), 43.0, _box(section, "mount-1-up")),
    ]
    ink += [
        Line((86.0, 0.0), (86.0, 46.0), "visible"),
        Line((82.0, 0.0), (150.0, 0.0), "visible"),
        Line((82.0, 46.0), (150.0, 46.0), "visible"),
        Outline(rectangle(86.0, 36.0, 106.0, 46.0), "stud", fill=_STUD_FILL),
        Text((96.0, 40.0), "soffit", 2.4, "centre"),
        _across((86.0, 36.0), (106.0, 36.0), 32.0, _box(section, "soffit-depth")),
        _upright((106.0, 0.0), (106.0, 36.0), 123.5, _box(section, "soffit-height")),
    ]
    if depth := _box(section, "bench-depth"):
        ink += [
            Outline(rectangle(86.0, 0.0, 110.0, 18.0), "stud", fill=_STUD_FILL),
            Text((98.0, 8.0), "bench", 2.4, "centre"),
            _across((86.0, 18.0), (110.0, 18.0), 23.0, depth),
            _upright((110.0, 0.0), (110.0, 18.0), 116.0, _box(section, "bench-height")),
        ]
    if height := _box(section, "curb-height"):
        ink += [
            Outline(rectangle(130.0, 0.0, 138.0, 12.0), "stud", fill=_STUD_FILL),
            Text((134.0, 22.0), "curb", 2.4, "centre"),
            _across((130.0, 12.0), (138.0, 12.0), 16.0, _box(section, "curb")),
            _upright((138.0, 0.0), (138.0, 12.0), 144.0, height),
        ]
    return _row(tuple(ink), 46.0, width)
