"""Marks of what is fastened to the finished wall: bars, seats, glass and doors, with their fixings."""

from __future__ import annotations

from generator.drafting.ink import Circle, Ink, Outline
from generator.drawings.flow import Block, Column, prose, table
from generator.drawings.said import measured_from, said
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.mounts import Mount
from generator.model.room import Wall
from generator.planning.blocking.mounts import LINES
from generator.units import label


def mounts_of(job: Job, wall: Wall) -> tuple[Mount, ...]:
    """The wall's mounts, by id."""
    return tuple(sorted((m for m in job.room.mounts if m.wall == wall.id), key=lambda m: m.id))


def mount_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """Outlines, and a circle for each plate; in the wall frame."""
    ink: list[Ink] = []
    for mount in mounts_of(job, wall):
        ink.append(Outline(mount.ring, "fitting"))
        ink += [Circle(point, mount.plate / 2, "fitting") for point in mount.fixings]
    return tuple(ink)


def mount_stops(job: Job, wall: Wall) -> list[tuple[float, str]]:
    """(height, words) of the top of each mount that lies level, as entered where it was."""
    level = [m for m in mounts_of(job, wall) if m.direction == "level"]
    return [(m.top, f"{m.name} {said(job, m.top, (f'{m.path}.up',))}") for m in level]


def mount_table(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    """Name, from and to across, height of the top, size; no table where nothing is fastened."""
    units, mounts = job.room.choices.paper_units, mounts_of(job, wall)
    if not mounts:
        return ()
    left, _, right, _ = box(wall.outline)
    mirrored = measured_from(job.room, wall) == "right"
    rows = []
    for m in mounts:
        near, far = sorted(right - u if mirrored else u - left for u in m.ends)
        across = f"{said(job, near, (f'{m.path}.across',))} to {label(far, units)}"
        size = f"{label(m.diameter, units)} thick" if m.diameter else f"{label(m.out, units)} out" if m.out else ""
        rows.append((m.name, across, said(job, m.top, (f"{m.path}.up",)), f"{m.kind.replace('_', ' ')} {size}".strip()))
    columns = (Column("Fastened", 24), Column("Across", 30), Column("Top, up", 20), Column("What", 26))
    advice = (
        "Circles: plates of bars and seats; take the fixings from the maker's sheet. They bear on solid blocking flush "
        "with the stud faces, never on the board alone. Fill every hole with sealant and bed each plate in it."
    )
    return (*table(columns, rows, width, "Bars, seats, glass"), prose(advice, width))


def fixing_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """The plates alone, where each is bedded in sealant; in the wall frame."""
    bedded = (m for m in mounts_of(job, wall) if m.kind not in LINES)
    return tuple(Circle(point, mount.plate / 2, "outline") for mount in bedded for point in mount.fixings)


def fixing_note(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    """How the fixings of bars and seats are sealed; nothing where there are none."""
    bedded = [m for m in mounts_of(job, wall) if m.kind not in LINES]
    if not bedded:
        return ()
    bead = label(job.room.limit("fixing-bead"), job.room.choices.paper_units)
    names = ", ".join(m.name for m in bedded)
    text = (
        f"Heavy circles: plates of {names}, fastened through board and tile at the end. Fill each hole with sealant "
        f"before its screw goes in, and bed each plate in a bead of {bead}."
    )
    return (prose(text, width),)
