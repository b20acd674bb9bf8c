"""The readable parts of a room file, so that one wrong part does not hide the mistakes of the others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from generator.model.room import Units
from generator.reading.bench_shapes import BenchShape, CurbShape
from generator.reading.choice_shapes import ChoicesShape
from generator.reading.feature_shapes import NicheShape, WindowShape
from generator.reading.issues import join
from generator.reading.mount_shapes import MountShape
from generator.reading.room_shapes import (
    BaseShape,
    CornerShape,
    FittingShape,
    PlaceShape,
    WallShape,
)
from generator.reading.soffit_shapes import SoffitShape
from generator.reading.validate import Model, without_broken, without_unknown
from generator.units import Length


@dataclass(frozen=True, slots=True)
class Draft:
    """What could be read. None stands where a part has errors of its own; `names` are the walls', "" if unreadable."""

    units: Units
    names: tuple[str, ...]
    walls: tuple[WallShape | None, ...]
    base: BaseShape | None
    """Without the keys that have something wrong in them."""
    base_keys: frozenset[str]
    """Every key that the file gives for the base, right or wrong."""
    corners: tuple[CornerShape | None, ...]
    fittings: tuple[FittingShape | None, ...]
    mounts: tuple[MountShape | None, ...]
    niches: tuple[NicheShape | None, ...]
    windows: tuple[WindowShape | None, ...]
    benches: tuple[BenchShape | None, ...]
    curbs: tuple[CurbShape | None, ...]
    soffits: tuple[SoffitShape | None, ...]
    place: PlaceShape | None
    choices: ChoicesShape | None
    """Without the keys that have something wrong in them."""

    def wall(self, name: str) -> WallShape | None:
        """The wall of that name, if it could be read."""
        return next((wall for wall in self.walls if wall is not None and wall.name == name), None)

    def unknown_wall(self, name: str) -> bool:
        """True where no wall has that name, and none has a name that could not be read."""
        return name not in self.names and "" not in self.names

    def corner_ends(self, index: int) -> tuple[bool, bool]:
        """Whether the left and the right end of a wall is a corner of the room."""
        return index > 0, index < len(self.names) - 1


def draft_of(data: dict[str, Any], units: Units) -> Draft:
    """Every part that can be read by itself; unknown keys are set aside (they are reported elsewhere)."""

    def part(shape: type[Model], key: str) -> Model | None:
        return without_broken(shape, data.get(key, {}), key, units)

    def parts(shape: type[Model], key: str) -> tuple[Model | None, ...]:
        return tuple(without_unknown(shape, item, join(key, i), units) for i, item in enumerate(_list(data.get(key))))

    return Draft(
        units=units,
        names=tuple(_name(item) for item in _list(data.get("walls"))),
        walls=parts(WallShape, "walls"),
        base=part(BaseShape, "base"),
        base_keys=frozenset(data["base"]) if isinstance(data.get("base"), dict) else frozenset(),
        corners=parts(CornerShape, "corners"),
        fittings=parts(FittingShape, "fittings"),
        mounts=parts(MountShape, "mounts"),
        niches=parts(NicheShape, "niches"),
        windows=parts(WindowShape, "windows"),
        benches=parts(BenchShape, "benches"),
        curbs=parts(CurbShape, "curbs"),
        soffits=parts(SoffitShape, "soffits"),
        place=part(PlaceShape, "place"),
        choices=part(ChoicesShape, "choices"),
    )


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def _name(item: Any) -> str:
    name = item.get("name") if isinstance(item, dict) else None
    return name if isinstance(name, str) else ""


def lengths(value: Any, path: str) -> Iterator[tuple[str, Length]]:
    """Every length of a shape by its path in the file."""
    if isinstance(value, Length):
        yield path, value
    elif isinstance(value, tuple):
        for i, item in enumerate(value):
            yield from lengths(item, join(path, i))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from lengths(item, join(path, key))
    elif isinstance(value, BaseModel):
        for name, field in type(value).model_fields.items():
            yield from lengths(getattr(value, name), join(path, field.alias or name))


def shown(length: Length, units: Units) -> str:
    """A length as entered, with the unit of the file where it was a bare number."""
    return f"{length.text} {units}" if length.text[-1:].isdigit() else length.text
