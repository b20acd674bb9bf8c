"""Sealing elevation of each wall: bands with their laps, patches, collars, the bed of sealant, the thin-set strip."""

from __future__ import annotations

from generator.drafting.ink import Ink, Outline
from generator.drafting.layers import Role
from generator.drawings.boards import boards_of
from generator.drawings.elevation import (
    Elevation,
    Margins,
    assembled,
    base_ink,
    elevation,
    flange_rise,
    over_deck,
    sides_of,
    wall_ink,
)
from generator.drawings.flow import Block, Column, heading, prose, table
from generator.drawings.leaf import Leaf
from generator.drawings.marks import FLAG, Label, flags
from generator.drawings.mount_marks import fixing_ink, fixing_note
from generator.model.geometry import Point, Ring, box
from generator.model.job import Job
from generator.model.plan import Band, PlannedSide
from generator.model.room import Wall
from generator.units import label

KIND = "Sealing elevation"
TONES = {"seam": 0.82, "corner": 0.82, "base": 0.72, "patch": 0.88, "collar": 0.88}
"""Grey of each kind of band."""
BESIDE = 2 * FLAG + 6.0
"""mm of paper that a column of numbers needs beside the view."""


def sealing_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sealing elevations of all walls that carry boards, left to right."""
    return tuple(leaf for wall in job.room.walls if boards_of(job, wall) for leaf in _sealing(job, wall))


def bands_of(job: Job, wall: Wall) -> tuple[Band, ...]:
    """The bands with a leg on the wall, by id."""
    return tuple(b for b in job.plan.bands if any(r.wall == wall.id for r in b.rings))


def _long(job: Job, wall: Wall) -> tuple[Band, ...]:
    """Those that are cut from the roll by length or come as collars: all but the patches."""
    return tuple(b for b in bands_of(job, wall) if b.kind != "patch")


def _rings(band: Band, wall: Wall) -> tuple[Ring, ...]:
    return tuple(r.ring for r in band.rings if r.wall == wall.id)


def _sealing(job: Job, wall: Wall) -> tuple[Leaf, ...]:
    seen = elevation(job, wall, Margins(BESIDE, 4.0, BESIDE, 4.0))
    ink = (
        *seen.view.place((*base_ink(job, wall), *wall_ink(wall), *_under(job, wall), *_band_ink(job, wall))),
        *seen.view.place((*_strips(job, wall), *fixing_ink(job, wall))),
        *_numbers(seen),
    )
    return assembled(KIND, f"{KIND}, {wall.id} wall", seen, ink, _notes(seen))


def _under(job: Job, wall: Wall) -> tuple[Ink, ...]:
    return tuple(Outline(b.outline, "visible") for b in boards_of(job, wall))


def _band_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """Fills first, then all edges, so that laps show as crossing outlines."""
    pieces = [(b, ring) for b in bands_of(job, wall) for ring in _rings(b, wall)]
    fills = (Outline(ring, "band", fill=TONES[b.kind], edge=False) for b, ring in pieces)
    edges = (Outline(ring, _pen(b)) for b, ring in pieces)
    return (*fills, *edges)


def _pen(band: Band) -> Role:
    return "collar" if band.kind == "collar" else "band"


def _strips(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """The bed of sealant on the flange (heavy line) and the upper edge of the thin-set strip (dashed)."""
    ink: list[Ink] = []
    for side in sides_of(job, wall):
        span = _covered(job, wall, side)
        if span is None:
            continue
        ink.append(over_deck(side, flange_rise(side), span, "outline"))
        ink.append(over_deck(side, _mortar(job), span, "pocket"))
    return tuple(ink)


def _covered(job: Job, wall: Wall, side: PlannedSide) -> tuple[float, float] | None:
    """From, to along the wall where boards stand over the base; None where none does."""
    boards = [box(b.outline) for b in boards_of(job, wall)]
    left = max(side.start, min(b[0] for b in boards))
    right = min(side.end, max(b[2] for b in boards))
    return (left, right) if left < right else None


def _mortar(job: Job) -> float:
    """Height in mm of the thin-set strip above the lower edge of the boards; the edge's gap comes on top."""
    return job.room.limit("mortar-strip") + job.room.limit("deck-gap")


def _numbers(seen: Elevation) -> tuple[Ink, ...]:
    """Numbered flags left and right of the wall, whichever side is nearer."""
    left, low, right, high = seen.hull
    middle = (left + right) / 2
    labels = [
        Label(seen.view.point(_spot(ring, i)), str(i + 1))
        for i, band in enumerate(_long(seen.job, seen.wall))
        for ring in _rings(band, seen.wall)[:1]
    ]
    near = tuple(lb for lb in labels if lb.at[0] < middle)
    far = tuple(lb for lb in labels if lb.at[0] >= middle)
    return (
        *flags(near, left - FLAG - 4.0, low, high, "band"),
        *flags(far, right + FLAG + 4.0, low, high, "band"),
    )


def _spot(ring: Ring, index: int) -> Point:
    """A point of the band, a little off its middle so that leaders of neighbours part."""
    left, bottom, right, top = box(ring)
    share = (0.5, 0.62, 0.4)[index % 3]
    if top - bottom > right - left:
        return ((left + right) / 2, bottom + (top - bottom) * share)
    return (left + (right - left) * share, (bottom + top) / 2)


def _notes(seen: Elevation) -> tuple[Block, ...]:
    job, wall = seen.job, seen.wall
    width = seen.panel[0][2] - seen.panel[0][0]
    units = job.room.choices.drawing_units
    patches = [b for b in bands_of(job, wall) if b.kind == "patch"]
    how = (
        "Seen from inside the room. Grey: bands, bedded in thin-set on the board; small squares: patches over screws "
        "that no other band covers; dashed: collars. Heavy line over the base: bed of sealant on the flange. Dashed "
        f"line: upper edge of the thin-set strip, {label(job.room.limit('mortar-strip'), units)} high on the board. "
        f"Bands cover a joint by at least {label(job.room.limit('band-cover'), units)} and lap each other by at least "
        f"{label(job.room.limit('band-lap'), units)}. Mask the deck first; take the masking off before the sealant "
        "skins over."
    )
    counted = f"Patches on this wall: {len(patches)}, {label(job.room.choices.band.patch_side, units)} square."
    return (
        heading(f"Sealing, {wall.id} wall", width, 5.0),
        prose(f"Scale {seen.scale.text}", width),
        prose(how, width),
        prose(counted, width),
        *fixing_note(job, wall, width),
        *_band_table(job, wall, width),
    )


def _band_table(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    numbers = {b.id: str(i + 1) for i, b in enumerate(_long(job, wall))}
    rows = [(n, _named(b), _length(job, b), _laps(b, numbers)) for b in _long(job, wall) for n in [numbers[b.id]]]
    columns = (Column("No.", 10), Column("Piece", 36), Column("Length as cut", 26), Column("Laps", 30))
    return table(columns, rows, width, "Bands and collars") if rows else ()


def _named(band: Band) -> str:
    walls = [r.wall for r in band.rings]
    both = " and ".join(dict.fromkeys(walls))
    kinds = {"collar": f"collar, {', '.join(band.covers)}", "corner": f"corner, {both}"}
    return kinds.get(band.kind, band.kind)


def _length(job: Job, band: Band) -> str:
    return "" if band.kind == "collar" else label(band.length, job.room.choices.drawing_units)


def _laps(band: Band, numbers: dict[str, str]) -> str:
    """Numbers of the pieces of this sheet that it laps; patches are left out."""
    return ", ".join(numbers[i] for i in band.lap_ids if i in numbers)
