"""Reading a room file: from the file to a Room, or to every problem in it."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from generator.errors import InputError
from generator.model.profiles import Catalogue
from generator.model.room import Finish, JobInfo, Room
from generator.reading.base import base_of
from generator.reading.catalogue import load_catalogue
from generator.reading.choices import choices_of, judge_choices, rules_of
from generator.reading.fields import said
from generator.reading.fittings import corners_of, fitting_at
from generator.reading.issues import Issue, join, problems
from generator.reading.room_shapes import RoomShape
from generator.reading.source import Document, read_document
from generator.reading.validate import validate
from generator.reading.walls import wall_at
from generator.units import Length, Units


def read_room(path: Path, profile_dirs: tuple[Path, ...] = ()) -> Room:
    """The room of a file, profiles resolved. Raises InputError with every problem, in order of lines."""
    return room_of(read_document(path), load_catalogue(profile_dirs))


def room_of(document: Document, catalogue: Catalogue) -> Room:
    """As `read_room`, from a document."""
    if not isinstance(document.data, dict):
        issue = Issue("", f"a room file begins with keys such as `name` and `units`; here is {said(document.data)}")
        raise InputError(problems(document.file, {"": 1}, (issue,)))
    units: Units = "mm" if document.data.get("units") == "mm" else "in"
    shape, issues = validate(RoomShape, document.data, "", units)
    found = [*document.issues, *issues]
    if shape is not None:
        found += judge_choices(shape.choices, catalogue, units)
    if found or shape is None:
        raise InputError(problems(document.file, document.lines, found))
    return _build(shape, document, catalogue)


def _build(shape: RoomShape, document: Document, catalogue: Catalogue) -> Room:
    """The room; the shape has been judged."""
    names = tuple(wall.name for wall in shape.walls)
    walls = tuple(
        wall_at(join("walls", i), wall, (i > 0, i < len(names) - 1), catalogue) for i, wall in enumerate(shape.walls)
    )
    widths = {wall.name: wall.width.mm for wall in shape.walls}
    deck = shape.base.deck.mm if shape.base.deck else 0.0
    return Room(
        name=shape.name,
        file=document.file,
        sha256=sha256(document.raw).hexdigest(),
        job=JobInfo(**shape.job.model_dump()),
        units=shape.units,
        datum="finished floor" if shape.floor.datum == "finished" else "bare floor",
        floor_build_up=shape.floor.build_up.mm if shape.floor.build_up else None,
        code=catalogue.codes[shape.place.code],
        base=base_of(shape.base, walls, catalogue),
        walls=walls,
        corners=corners_of(shape.walls, shape.corners, shape.base.along),
        fittings=tuple(
            fitting_at(join("fittings", i), fitting, widths[fitting.wall], deck, catalogue)
            for i, fitting in enumerate(shape.fittings)
        ),
        finish=Finish(
            shape.tile.thickness.mm if shape.tile.thickness else None, shape.tile.bed.mm if shape.tile.bed else None
        ),
        choices=choices_of(shape.choices, walls, catalogue, shape.units),
        rules=rules_of(shape.choices, catalogue, shape.units),
        entered=dict(_lengths(shape, "")),
        lines=document.lines,
    )


def _lengths(value: Any, path: str) -> Iterator[tuple[str, str]]:
    """The path of every length, and its text as entered."""
    if isinstance(value, Length):
        yield path, value.text
    elif isinstance(value, tuple):
        for i, item in enumerate(value):
            yield from _lengths(item, join(path, i))
    elif isinstance(value, BaseModel):
        for name, field in type(value).model_fields.items():
            yield from _lengths(getattr(value, name), join(path, field.alias or name))
