"""What is wrong with a part of a file, and how it is told to the person who wrote it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from generator.errors import Problem


@dataclass(frozen=True, slots=True, order=True)
class Issue:
    """One mistake, at the path of a key (`walls.1.height`)."""

    path: str
    message: str


def join(*parts: object) -> str:
    """A path from its parts; empty parts are left out."""
    return ".".join(str(part) for part in parts if part != "")


def nearest(word: str, words: Iterable[str]) -> str:
    """The end of a sentence: the nearest of the words, else all of them when they are few."""
    known = sorted(words)
    close = get_close_matches(word, known, 1, 0.6)
    if close:
        return f"; did you mean `{close[0]}`?"
    if not known:
        return "; there is none"
    shown = ", ".join(known[:12])
    return f"; there is {shown}{' and more' if len(known) > 12 else ''}"


def line_of(path: str, lines: Mapping[str, int]) -> int:
    """The line of a path, or of the nearest key above it; 0 when there is none."""
    while path and path not in lines:
        path = path.rpartition(".")[0]
    return lines.get(path, 0)


def problems(file: str, lines: Mapping[str, int], issues: Iterable[Issue]) -> tuple[Problem, ...]:
    """The issues with their lines, sorted, each once."""
    return tuple(sorted({Problem(file, line_of(issue.path, lines), issue.message) for issue in issues}))
