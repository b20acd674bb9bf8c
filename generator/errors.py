"""Errors that are meant for people: what is wrong, where, and what would be right."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One mistake in a file that a person wrote; `line` is 1-based, 0 when no line can be named."""

    file: str
    line: int
    message: str

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}" if self.line else self.file
        return f"{where}: {self.message}"


class InputError(Exception):
    """Bad input (exit 2): carries every problem found in one run."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(p) for p in problems))
        self.problems = problems


class CannotPlanError(Exception):
    """A readable room for which no plan exists (exit 2); the message says why and what would help.

    `path` is the path of the room-file key that a person would change, "" when there is none.
    """

    def __init__(self, message: str, path: str = "") -> None:
        super().__init__(message)
        self.path = path


class MissingSystemLibraryError(Exception):
    """A library of the operating system is absent; the message names its Debian package."""
