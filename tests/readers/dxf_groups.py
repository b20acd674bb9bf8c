"""A DXF reader of a few lines that knows only the format's group codes: the tests' own eyes, no library."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Entity:
    """One entity of model space: its type and its (code, value) pairs in the order of the file."""

    kind: str
    groups: tuple[tuple[int, str], ...]

    def values(self, code: int) -> list[str]:
        return [value for c, value in self.groups if c == code]

    def number(self, code: int) -> float:
        return float(self.values(code)[0])

    @property
    def layer(self) -> str:
        return self.values(8)[0]

    @property
    def points(self) -> list[tuple[float, float]]:
        return list(zip(map(float, self.values(10)), map(float, self.values(20)), strict=True))


def _pairs(data: bytes) -> list[tuple[int, str]]:
    lines = data.decode("utf-8").split("\n")
    return [(int(lines[i]), lines[i + 1].rstrip("\r")) for i in range(0, len(lines) - 1, 2)]


def header(data: bytes) -> dict[str, str]:
    """First value of each header variable."""
    pairs = _pairs(data)
    return {value: pairs[i + 1][1] for i, (code, value) in enumerate(pairs[:-1]) if code == 9}


def section(data: bytes, name: str) -> list[Entity]:
    """The entities (or records) of a section."""
    pairs = _pairs(data)
    start = pairs.index((2, name)) + 1
    end = next(i for i in range(start, len(pairs)) if pairs[i] == (0, "ENDSEC"))
    heads = [i for i in range(start, end) if pairs[i][0] == 0]
    return [Entity(pairs[i][1], tuple(pairs[i + 1 : j])) for i, j in zip(heads, [*heads[1:], end], strict=True)]
