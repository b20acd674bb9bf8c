"""Reading a room file: from the file to a Room, or to every problem in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.errors import InputError
from generator.model.profiles import Catalogue
from generator.model.room import Finish, JobInfo, Revision, Room
from generator.reading.base import NO_DECK, base_of
from generator.reading.built import corner_ends, with_built
from generator.reading.catalogue import load_catalogue
from generator.reading.choices import choices_of, judge_choices, rules_of, square_of
from generator.reading.corners import judge_measured_corners, squared
from generator.reading.draft import Draft, draft_of, lengths
from generator.reading.fields import said
from generator.reading.fittings import corners_of, fitting_at
from generator.reading.furring import bedded, furred, furring_of
from generator.reading.issues import Issue, join, nearest, problems
from generator.reading.job_shapes import JobShape
from generator.reading.judge_base import judge_base, judge_corners
from generator.reading.judge_benches import judge_benches
from generator.reading.judge_fittings import judge_fittings
from generator.reading.judge_mounts import judge_mounts
from generator.reading.judge_niches import judge_niches
from generator.reading.judge_partitions import judge_partitions
from generator.reading.judge_soffits import judge_soffits
from generator.reading.judge_stud_work import judge_stud_work
from generator.reading.judge_walls import judge_walls
from generator.reading.mounts import mount_at
from generator.reading.niches import with_recesses
from generator.reading.partition_sides import sides_of
from generator.reading.room_shapes import RoomShape
from generator.reading.source import Document, read_document
from generator.reading.stud_work import with_stud_work
from generator.reading.validate import validate
from generator.reading.walls import wall_at
from generator.units import Units


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
    found = [*document.issues, *issues, *_judge(draft_of(document.data, units), catalogue)]
    if found or shape is None:
        raise InputError(problems(document.file, document.lines, found))
    return with_recesses(with_built(_build(shape, document, catalogue), shape), shape, catalogue)


def wrong_so_far(
    data: dict[str, Any], units: Units, catalogue: Catalogue
) -> tuple[tuple[Issue, ...], tuple[Issue, ...]]:
    """In the data of a room file that is still being written: what is wrong in keys, then what between keys."""
    _, issues = validate(RoomShape, data, "", units)
    return issues, tuple(_judge(draft_of(data, units), catalogue))


def _judge(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Everything that is wrong between parts that can be read."""
    yield from judge_measured_corners(draft.corners, draft.units)
    square = square_of(draft.choices, catalogue, draft.units)
    draft = replace(draft, corners=tuple(one and squared(one, draft.walls, square) for one in draft.corners))
    yield from judge_walls(draft, catalogue)
    yield from judge_stud_work(draft, catalogue)
    yield from judge_base(draft, catalogue)
    yield from judge_corners(draft)
    yield from judge_fittings(draft, catalogue)
    yield from judge_mounts(draft)
    yield from judge_niches(draft, catalogue)
    yield from judge_partitions(draft, catalogue)
    yield from judge_benches(draft, catalogue)
    yield from judge_soffits(draft, catalogue)
    if draft.place is not None and draft.place.code not in catalogue.codes:
        code = draft.place.code
        yield Issue("place.code", f"unknown code `{code}`{nearest(code, catalogue.codes)}")
    if draft.choices is not None:
        yield from judge_choices(draft.choices, catalogue, draft.units)


def _job(shape: JobShape) -> JobInfo:
    """The current revision is the last of the list, where there is one."""
    listed = tuple(Revision(one.mark, one.date, one.what) for one in shape.revisions)
    entered = shape.model_dump(exclude={"revision", "revisions"})
    return JobInfo(**entered, revision=listed[-1].mark if listed else shape.revision, revisions=listed)


def _build(shape: RoomShape, document: Document, catalogue: Catalogue) -> Room:
    """The room; the shape has been judged."""
    rules = rules_of(shape.choices, catalogue, shape.units)
    square = square_of(shape.choices, catalogue, shape.units)
    walls = tuple(
        with_stud_work(wall_at(join("walls", i), wall, corner_ends(shape.walls, i), catalogue, square), wall)
        for i, wall in enumerate(shape.walls)
    )
    corners = corners_of(
        shape.walls, tuple(squared(one, shape.walls, square) for one in shape.corners), shape.base.along
    )
    choices = choices_of(shape.choices, walls, catalogue, shape.units)
    base = base_of(shape.base, walls, corners, catalogue, square)
    furring = furring_of(base, shape.base.at_flange, rules, choices.stocks[0].board.thickness)
    beds = bedded(walls, choices.bond_trowel or choices.trowel)
    walls, base = furred(walls, corners, base, {**furring, **beds})
    decks = {side.wall: side.deck for side in base.sides}
    widths = {wall.name: wall.width.mm for wall in (*shape.walls, *sides_of(shape.walls))}
    return Room(
        name=shape.name,
        file=document.file,
        sha256=sha256(document.raw).hexdigest(),
        job=_job(shape.job),
        units=shape.units,
        datum="finished floor" if shape.floor.datum == "finished" else "bare floor",
        floor_build_up=shape.floor.build_up.mm if shape.floor.build_up else None,
        code=catalogue.codes[shape.place.code],
        base=base,
        walls=walls,
        corners=corners,
        fittings=tuple(
            fitting_at(join("fittings", i), fitting, widths[fitting.wall], decks.get(fitting.wall, NO_DECK), catalogue)
            for i, fitting in enumerate(shape.fittings)
        ),
        finish=Finish(
            shape.tile.thickness.mm if shape.tile.thickness else None,
            shape.tile.bed.mm if shape.tile.bed else None,
            shape.tile.longest.mm if shape.tile.longest else None,
        ),
        choices=choices,
        rules=rules,
        entered={path: length.text for path, length in lengths(shape, "")},
        lines=document.lines,
        mounts=tuple(
            mount_at(join("mounts", i), mount, widths[mount.wall], decks.get(mount.wall, NO_DECK))
            for i, mount in enumerate(shape.mounts)
        ),
        accessible=shape.place.accessible,
    )
