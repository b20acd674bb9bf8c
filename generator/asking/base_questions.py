"""The tub, shower base or tray."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Word
from generator.model.profiles import Catalogue

_TITLES = {True: "The tray", False: "The tub or shower base"}


def base_section(bases: tuple[str, ...], along: str, walls: tuple[str, ...], catalogue: Catalogue) -> Section:
    """What stands there, its size, its edge in section, and its height at both ends."""
    tray = bases == ("tray",)
    return Section(
        "",
        _TITLES[tray],
        "",
        (
            "Set, level and bedded first. Length over its end flanges; width from the framing to its outside.",
            f"Its length stands against the {along} wall.",
        ),
        (*(() if tray else (_kind(bases), _flange(catalogue))), *((_tray(catalogue),) if tray else ()), *_size(walls)),
    )


def _kind(bases: tuple[str, ...]) -> Question:
    words = tuple(Word(base) for base in bases)
    return Question("kind", "What stands there", "", "choice", ("base.kind",), default=bases[0], words=words)


def _flange(catalogue: Catalogue) -> Question:
    words = tuple(Word(profile.id, profile.name) for profile in catalogue.flanges.values())
    return Question("profile", "Flange in section, fixings counted", "", "choice", ("base.profile",), words=words)


def _tray(catalogue: Catalogue) -> Question:
    words = tuple(Word(profile.id, profile.name) for profile in catalogue.trays.values())
    return Question("profile", "Tray", "", "choice", ("base.profile",), words=words)


def _size(walls: tuple[str, ...]) -> tuple[Question, ...]:
    size, deck = "Size", "Deck above the floor, at the wall"
    other = "Where there is one, above the floor"
    start = Question("start", size, "from left end", "length", ("base.start",))
    return (
        Question("length", size, "length", "length", ("base.length",)),
        Question("width", size, "width", "length", ("base.width",)),
        *((start,) if len(walls) == 1 else ()),
        Question("deck-left", deck, "left end", "length", ("base.deck",), pick="most"),
        Question("deck-right", deck, "right end", "length", ("base.deck",), pick="most", optional=True),
        Question("threshold", other, "threshold", "length", ("base.threshold",), optional=True, default="-"),
        Question("drain", other, "drain", "length", ("base.drain",), optional=True, default="-"),
    )
