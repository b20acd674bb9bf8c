"""The tub, shower base or tray."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Word
from generator.model.profiles import Catalogue

_TITLES = {True: "The tray", False: "The tub or shower base"}


def base_section(
    bases: tuple[str, ...], neo: bool, along: str, walls: tuple[str, ...], catalogue: Catalogue
) -> Section:
    """What stands there, its size, its edge in section, its height all round, and its distance from the studs."""
    tray = bases == ("tray",)
    what = (_tray(catalogue),) if tray else (_kind(bases), _flange(catalogue), *_gaps(walls))
    return Section(
        "",
        _TITLES[tray],
        "",
        (
            "Set, level and bedded first. Length over its end flanges; width from the framing to its outside.",
            f"Its length stands against the {along} wall.",
        ),
        (*what, *_size(walls), *(_neo(walls) if neo else ()), *_decks(walls)),
        "base",
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


def _gaps(walls: tuple[str, ...]) -> tuple[Question, ...]:
    topic = "Space between the stud faces and the back of the flange, where it does not touch"
    return tuple(
        Question(f"gap-{wall}", topic, wall, "length", (f"base.gaps.{wall}",), optional=True, default="-")
        for wall in walls
    )


def _size(walls: tuple[str, ...]) -> tuple[Question, ...]:
    size, other = "Size", "Where there is one, above the floor"
    start = Question("start", size, "from left end", "length", ("base.start",))
    return (
        Question("length", size, "length", "length", ("base.length",)),
        Question("width", size, "width", "length", ("base.width",)),
        *((start,) if len(walls) == 1 else ()),
        Question("deck", "Deck above the floor", "at the wall", "length", ("base.deck",)),
        Question("threshold", other, "threshold", "length", ("base.threshold",), optional=True, default="-"),
        Question("drain", other, "drain", "length", ("base.drain",), optional=True, default="-"),
    )


def _neo(walls: tuple[str, ...]) -> tuple[Question, ...]:
    """The short sides square out from the walls; the front follows from them, and proves them."""
    topic = "Returns, from the end of its side on a wall square out to the front; along the front"
    return (
        *(Question(f"return-{wall}", topic, wall, "length", (f"base.returns.{wall}",)) for wall in walls),
        Question("front", topic, "front", "length", ("base.front",), optional=True),
    )


def _decks(walls: tuple[str, ...]) -> tuple[Question, ...]:
    """Both ends of each side, so that a deck out of level slopes the boards' edge."""
    topic = "Where it is out of level: deck above the floor at both ends of its side on a wall"
    found: list[Question] = []
    for wall in walls:
        lead = f"deck-{wall}"
        key = f"base.decks.{wall}"
        found.append(Question(lead, topic, f"{wall}, left", "length", (f"{key}.0",), optional=True, default="-"))
        found.append(Question(f"{lead}-right", topic, "its right", "length", (f"{key}.1",), needs=lead))
    return tuple(found)
