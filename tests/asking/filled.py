"""A filled form of every kind of room, by mark of the question; the measures are the worked room's, or invented."""

from __future__ import annotations

from functools import cache

from generator.asking.kinds import form_of
from generator.asking.questions import Form
from generator.model.profiles import Catalogue
from generator.reading import load_catalogue

_JOB = {"name": "Hall: bath #2", "by": "A. N. Other", "square-0": "40"}
_BASE = {"profile": "thin-3-16", "length": "60 1/4", "width": "31 3/4", "deck": "18 1/2"}
_SHOWER = {
    **_BASE,
    "profile": "thick-1-2",
    "length": "48",
    "width": "36",
    "deck": "3",
    "threshold": "4",
}
_TRAY = {**_BASE, "profile": "tray-boards-first", "deck": "6", "threshold": "4", "drain": "2"}
_END = {
    "bottom": "60",
    "middle": "60 1/16",
    "middle-at": "48",
    "top": "60",
    "top-at": "8'",
    "height-left": "96",
    "height-right": "8'",
    "height-right-at": "60",
}
_BACK = {
    **_END,
    "bottom": "60 1/4",
    "middle": "5' 0-1/4\"",
    "top": "60 1/4",
    "studs": "3/4, 15 7/8, 31, 46 1/2, 59 1/2",
}
_LEFT = {**_END, "studs": "3/4, 16 1/4, 28, 32 3/4, 36", "block-0": "1 1/2", "block-0-to": "15 1/2"}
_RIGHT = {**_END, "studs": "3/4, 12 1/2, 28, 32 3/4, 36"}
_VALVE = {"valve-across": "15 7/8", "valve-other": "44 1/8", "valve-up": "28", "valve-of": "trim-5-round"}
_ARM = {"arm-across": "15 7/8", "arm-up": "78", "arm-of": "brass-nps-1-2"}
_FITTINGS = {**_VALVE, **_ARM}


_LEFT_WALL = {**_LEFT, "block-0-height": "40"}
_BACK_WALL = {**_BACK, "plumb-left": "0", "marks": "18 1/2", "rising": "98 3/16"}
_STATE = {
    "line-0": "15 7/8",
    "line-0-at": "24, 48",
    "line-0-off": "1/2, 9/16",
    "line-1": "31",
    "line-1-at": "24",
    "line-1-off": "1/2",
    "hole-0": "31",
    "hole-0-at": "30",
    "hole-0-wide": "3/4",
    "hole-0-in": "1 3/4",
}
_THREE: tuple[dict[str, str], ...] = (_LEFT_WALL, {}, _BACK_WALL, _STATE, _RIGHT, {})
_REACH = {"reach-0": "36", "reach-2": "36"}
_AT_RIGHT = {**_FITTINGS, "valve": "right", "arm": "right"}
_TWO: tuple[dict[str, str], ...] = (
    {**_END, "studs": "3/4, 16, 32, 36, 59 1/4"},
    {},
    {**_END, "studs": "3/4, 16, 32, 48, 59 1/4"},
    {},
)
_ONE: tuple[dict[str, str], ...] = (
    {**_BACK, "bottom": "80", "middle": "80", "top": "80", "studs": "4, 19, 34, 49, 64, 76"},
    {},
)
_SINGLE_ENDS = {"reach-from": "4", "reach-to": "76", "beside-left": "free"}
_AT_BACK = {**_FITTINGS, "valve": "back", "arm": "back", "valve-across": "40", "valve-other": "40", "arm-across": "40"}
_NICHE = {
    "niche-1": "back",
    "niche-1-across": "23",
    "niche-1-up": "44",
    "niche-1-width": "bay",
    "niche-1-height": "12",
    "niche-1-depth": "3",
}
_BAR = {
    "mount-1": "back",
    "mount-1-kind": "grab_bar",
    "mount-1-across": "20",
    "mount-1-up": "34",
    "mount-1-length": "24",
}
_BENCH = {"bench": "back", "bench-from": "42", "bench-depth": "15", "bench-height": "17"}
_IN_BAY = {"bay-1": "pipe", "bay-1-from": "34", "bay-1-to": "35", "bay-1-bottom": "0", "bay-1-top": "96"}
_SOFFIT = {"soffit": "back", "soffit-length": "30", "soffit-depth": "14", "soffit-height": "84"}
_CURB = {"curb": "3 1/2", "curb-height": "4 1/2"}
_AT_LEFT = {
    **_FITTINGS,
    "valve": "left",
    "arm": "left",
    "valve-across": "41 1/8",
    "valve-other": "18 7/8",
    "arm-across": "41 1/8",
}
_NEO = {
    "profile": "thin-1-8",
    "length": "38",
    "width": "38",
    "return-left": "18",
    "return-right": "18",
    "deck": "4 1/2",
}
_NEO_WALLS: tuple[dict[str, str], ...] = (
    {**_END, "studs": "3/4, 12, 25, 38, 52, 59 1/4"},
    {},
    {**_END, "studs": "3/4, 13, 25 1/2, 38, 54, 59 1/4"},
    {},
)
_WALK_IN = {"profile": "thick-1-2", "length": "60", "width": "34", "deck": "3"}
_HALF = {"bottom": "36", "height-left": "42", "thickness": "3 1/2", "cap": "true", "studs": "3/4, 15, 25, 35 1/4"}
_WALK_IN_WALLS: tuple[dict[str, str], ...] = (
    {"bottom": "48", "height-left": "96", "studs": "3/4, 16, 32, 34, 47 1/4"},
    {},
    {"bottom": "60", "height-left": "96", "studs": "3/4, 16, 32, 48, 59 1/4"},
    {},
    _HALF,
    {},
)
MARKS: dict[str, tuple[dict[str, str], ...]] = {
    "recess": (_JOB, _BASE, *_THREE, _AT_RIGHT, _NICHE, _BAR, _REACH),
    "tray": (_JOB, _TRAY, *_THREE, _AT_RIGHT, _IN_BAY, {**_BENCH, **_CURB, **_SOFFIT}, _REACH),
    "corner": (_JOB, _SHOWER, *_TWO, _AT_LEFT, {}, {}, {"reach-0": "36", "reach-1": "48"}),
    "single": (_JOB, {**_BASE, "start": "8"}, *_ONE, _AT_BACK, {}, {}, _SINGLE_ENDS),
    "neo-angle": (
        _JOB,
        _NEO,
        *_NEO_WALLS,
        {**_AT_LEFT, "valve-across": "41 1/2", "valve-other": "18 1/2", "arm-across": "41 1/2"},
        {},
        {},
        {"reach-0": "38", "reach-1": "38", "top": "84"},
    ),
    "walk-in": (
        _JOB,
        _WALK_IN,
        *_WALK_IN_WALLS,
        {**_FITTINGS, "valve": "back", "arm": "back", "valve-across": "24", "valve-other": "36", "arm-across": "24"},
        {},
        {},
        {"reach-0": "34", "top": "ceiling"},
    ),
}


@cache
def catalogue() -> Catalogue:
    return load_catalogue()


@cache
def form(kind: str) -> Form:
    return form_of(kind, "in", catalogue())


def filled(kind: str) -> dict[str, str]:
    """The texts on the form, by box; what is left blank is not in it."""
    texts = {}
    for section, marks in zip(form(kind).sections, MARKS[kind], strict=True):
        for question in section.questions:
            if question.mark in marks:
                texts[question.box] = marks[question.mark]
    return texts


def box(kind: str, letter: str, mark: str) -> str:
    """The box of a question of that section."""
    found = next(s for s in form(kind).sections if s.letter == letter).marked(mark)
    assert found is not None
    return found.box
