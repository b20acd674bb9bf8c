"""A filled form of every kind of room, by mark of the question; the measures are the worked room's, or invented."""

from __future__ import annotations

from functools import cache

from generator.asking.kinds import form_of
from generator.asking.questions import Form
from generator.model.profiles import Catalogue
from generator.reading import load_catalogue

_JOB = {"name": "Hall: bath #2", "by": "A. N. Other", "square-0": "40", "square-1": "40 1/16"}
_BASE = {"profile": "thin-3-16", "length": "60 1/4", "width": "31 3/4", "deck-left": "18 1/2", "deck-right": "18 1/2"}
_SHOWER = {
    **_BASE,
    "profile": "thick-1-2",
    "length": "48",
    "width": "36",
    "deck-left": "3",
    "deck-right": "3",
    "threshold": "4",
}
_TRAY = {**_BASE, "profile": "tray-boards-first", "deck-left": "6", "deck-right": "6", "threshold": "4", "drain": "2"}
_END = {"bottom": "60", "middle": "60 1/16", "top": "60", "height-left": "96", "height-right": "8'", "rising": "98"}
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


def _without_diagonal(wall: dict[str, str], **more: str) -> dict[str, str]:
    return {**{mark: text for mark, text in wall.items() if mark != "rising"}, **more}


_LEFT_WALL = _without_diagonal(_LEFT, **{"block-0-height": "40"})
_THREE = (_LEFT_WALL, {**_without_diagonal(_BACK), "rising": "98 1/16"}, _without_diagonal(_RIGHT))
_REACH = {"reach-0": "36", "reach-2": "36"}
_AT_RIGHT = {**_FITTINGS, "valve": "right", "arm": "right"}
_TWO = (
    _without_diagonal(_END, studs="3/4, 16, 32, 36, 59 1/4"),
    _without_diagonal(_END, studs="3/4, 16, 32, 48, 59 1/4"),
)
_ONE = (_without_diagonal(_BACK, **{"bottom": "80", "middle": "80", "top": "80", "studs": "4, 19, 34, 49, 64, 76"}),)
_SINGLE_ENDS = {"reach-from": "4", "reach-to": "76", "beside-left": "free"}
_AT_BACK = {**_FITTINGS, "valve": "back", "arm": "back", "valve-across": "40", "valve-other": "40", "arm-across": "40"}
MARKS: dict[str, tuple[dict[str, str], ...]] = {
    "recess": (_JOB, _BASE, *_THREE, _AT_RIGHT, _REACH),
    "tray": (_JOB, _TRAY, *({k: v for k, v in w.items() if k != "rising"} for w in _THREE), _AT_RIGHT, _REACH),
    "corner": (
        _JOB,
        _SHOWER,
        *_TWO,
        {
            **_FITTINGS,
            "valve": "left",
            "arm": "left",
            "valve-across": "41 1/8",
            "valve-other": "18 7/8",
            "arm-across": "41 1/8",
        },
        {"reach-0": "36", "reach-1": "48"},
    ),
    "single": (_JOB, {**_BASE, "start": "8"}, *_ONE, _AT_BACK, _SINGLE_ENDS),
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
