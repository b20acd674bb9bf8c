"""Pipes and valve: where each comes through, measured from both ends of its wall and from floor and deck."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Twice, Word
from generator.model.profiles import Catalogue

_TITLES = {"valve": "Valve", "spout": "Spout", "arm": "Shower arm", "pipe": "Another pipe"}


def fitting_section(usual: tuple[str, ...], walls: tuple[str, ...], catalogue: Catalogue) -> Section:
    """The usual fittings of the kind of room, and one more pipe."""
    kinds = (*usual, "pipe")
    return Section(
        "",
        "Pipes and valve",
        "",
        ("To the middle of each, on bare framing: from the left and the right end of its wall, seen from inside.",),
        tuple(q for i, kind in enumerate(kinds) for q in _fitting(i, kind, walls, catalogue)),
        "fitting",
    )


def _fitting(i: int, kind: str, walls: tuple[str, ...], catalogue: Catalogue) -> tuple[Question, ...]:
    path, topic = f"fittings.{i}", _TITLES[kind]
    words = opening_words(catalogue) if kind == "valve" else (*pipe_words(catalogue), *opening_words(catalogue))
    also = ((f"{path}.name", kind), (f"{path}.kind", kind), (f"{path}.from", "left"), (f"{path}.above", "floor"))
    sides = tuple(Word(wall) for wall in walls)
    wall = Question(
        kind, topic, "wall", "choice", (f"{path}.wall",), optional=True, default="-", words=sides, also=also
    )
    return (
        wall,
        Question(f"{kind}-across", topic, "from left", "length", (f"{path}.across",), needs=kind),
        _second(f"{kind}-other", topic, "from right", "other end", path, kind),
        Question(f"{kind}-up", topic, "off floor", "length", (f"{path}.up",), needs=kind),
        _second(f"{kind}-deck", topic, "off deck", "above the deck", path, kind),
        Question(f"{kind}-of", topic, "what it is", "word", (f"{path}.profile",), words=words, needs=kind),
    )


def _second(mark: str, topic: str, name: str, twice: Twice, path: str, kind: str) -> Question:
    """A second measurement of the same thing."""
    return Question(mark, topic, name, "length", twice=twice, about=path, optional=True, needs=kind)


def pipe_words(catalogue: Catalogue) -> tuple[Word, ...]:
    """The pipes that profiles know."""
    return tuple(Word(profile.id, profile.name) for profile in catalogue.pipes.values())


def opening_words(catalogue: Catalogue) -> tuple[Word, ...]:
    """The trimmed openings that profiles know."""
    return tuple(Word(profile.id, profile.name) for profile in catalogue.cutouts.values())
