"""Sealing elevation of each wall: bands with their laps, patches, collars, the bed of sealant, the thin-set strip."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.drafting.ink import Circle, Ink, Outline
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
from generator.drawings.said import wall_name
from generator.model.ends import height_at
from generator.model.geometry import TOUCH, Point, Ring, box
from generator.model.job import Job
from generator.model.plan import Band, PlannedSide
from generator.model.room import Wall
from generator.planning.cuts import bottom_at
from generator.planning.takeoff.corner_pieces import corner_points
from generator.units import label

KIND = "Sealing elevation"
MASK = "Mask the deck first; take the masking off before the sealant skins over."
LINED = "top of the tray's lining, no screw below it."
BASE_LINE = {
    "lapped": f"top of the flange behind the boards; sealant fills the gap below them. {MASK}",
    "butted": f"bed of sealant on the flange. {MASK}",
    "boards_first": LINED,
    "tray_first": LINED,
}
"""What the heavy line along the base is, by the way in which boards meet the base."""
TONES = {"seam": 0.82, "corner": 0.82, "base": 0.72, "patch": 0.88, "collar": 0.88}
"""Grey of each kind of band."""
CORNER_PIECE = 12.0
"""mm: radius of the circle that stands for a corner piece, whatever its maker's size."""
SHARES = (0.5, 0.62, 0.4)
"""Of a band's length, in turn: where its leader starts."""
BESIDE = 2 * FLAG + 6.0
"""mm of paper that a column of numbers needs beside the view."""


def sealing_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sealing elevations of the walls that carry boards, left to right."""
    return tuple(leaf for wall in job.room.chain if boards_of(job, wall) for leaf in _sealing(job, wall))


def bands_of(job: Job, wall: Wall) -> tuple[Band, ...]:
    """The bands with a leg on the wall, by id."""
    return tuple(b for b in job.plan.bands if any(r.wall == wall.id for r in b.rings))


def long_of(job: Job, walls: Sequence[Wall]) -> tuple[Band, ...]:
    """Those on any of the walls that are cut from the roll by length or come as collars: all but the patches."""
    ids = {wall.id for wall in walls}
    return tuple(b for b in job.plan.bands if b.kind != "patch" and any(r.wall in ids for r in b.rings))


def rings_of(band: Band, wall: Wall) -> tuple[Ring, ...]:
    """The legs of a band on a wall."""
    return tuple(r.ring for r in band.rings if r.wall == wall.id)


def _sealing(job: Job, wall: Wall) -> tuple[Leaf, ...]:
    legs = tuple(ring for band in bands_of(job, wall) for ring in rings_of(band, wall))
    seen = elevation(job, wall, Margins(BESIDE, 4.0, BESIDE, 4.0), legs)
    model = (
        *(*base_ink(job, wall), *wall_ink(wall), *_under(job, wall), *band_ink(job, wall)),
        *(*_strips(job, wall), *fixing_ink(job, wall), *corner_ink(job, wall)),
    )
    return assembled(KIND, f"{KIND}, {wall_name(wall)}", seen, model, _numbers(seen), _notes(seen))


def _under(job: Job, wall: Wall) -> tuple[Ink, ...]:
    return tuple(Outline(b.outline, "visible") for b in boards_of(job, wall))


def band_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """Fills first, then all edges, so that laps show as crossing outlines."""
    pieces = [(b, ring) for b in bands_of(job, wall) for ring in rings_of(b, wall)]
    fills = (Outline(ring, "band", fill=TONES[b.kind], edge=False) for b, ring in pieces)
    edges = (Outline(ring, _pen(b)) for b, ring in pieces)
    return (*fills, *edges)


def _pen(band: Band) -> Role:
    return "collar" if band.kind == "collar" else "band"


def corner_ink(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """A circle for each preformed corner piece that reaches onto the wall."""
    frame = job.plan.wall(wall.id).frame
    spots = (frame.of(point.at) for point in corner_points(job.plan) if wall.id in point.faces)
    return tuple(Circle((u, v), CORNER_PIECE, "collar") for u, v, _ in spots)


def _strips(job: Job, wall: Wall) -> tuple[Ink, ...]:
    """Top of the flange or of a tray's lining (heavy line) and the upper edge of the thin-set strip (dashed)."""
    ink: list[Ink] = []
    for side in sides_of(job, wall):
        span = _covered(job, wall, side)
        if span is None:
            continue
        ink.append(over_deck(side, flange_rise(side), span, "outline"))
        ink.append(over_deck(side, _mortar(job, wall, side, span), span, "pocket"))
    return tuple(ink)


def _covered(job: Job, wall: Wall, side: PlannedSide) -> tuple[float, float] | None:
    """From, to along the wall where boards stand over the base; None where none does."""
    boards = [box(b.outline) for b in boards_of(job, wall)]
    left = max(side.start, min(b[0] for b in boards))
    right = min(side.end, max(b[2] for b in boards))
    return (left, right) if left < right else None


def _mortar(job: Job, wall: Wall, side: PlannedSide, span: tuple[float, float]) -> float:
    """Height in mm over the deck of the strip of thin-set that stands on the lower edge of the boards."""
    u = sum(span) / 2
    edge = min(
        bottom_at(b, u) for b in boards_of(job, wall) if box(b.outline)[0] - TOUCH <= u <= box(b.outline)[2] + TOUCH
    )
    return edge + job.room.limit("mortar-strip") - height_at(side.deck, u)


def _numbers(seen: Elevation) -> tuple[Ink, ...]:
    """Numbered flags left and right of the wall, whichever side is nearer."""
    left, low, right, high = seen.hull
    middle = (left + right) / 2
    rings = [rings_of(band, seen.wall)[0] for band in long_of(seen.job, (seen.wall,))]
    labels = [
        Label(seen.view.point(spot(ring, i, [other for other in rings if other is not ring])), str(i + 1))
        for i, ring in enumerate(rings)
    ]
    near = tuple(lb for lb in labels if lb.at[0] < middle)
    far = tuple(lb for lb in labels if lb.at[0] >= middle)
    return (
        *flags(near, left - FLAG - 4.0, low, high, "band"),
        *flags(far, right + FLAG + 4.0, low, high, "band"),
    )


def spot(ring: Ring, index: int, others: Sequence[Ring] = ()) -> Point:
    """A point of the band, a little off its middle so that leaders of neighbours part, where no other band laps it."""
    left, bottom, right, top = box(ring)
    turn = index % len(SHARES)
    shares = (*SHARES[turn:], *SHARES[:turn])
    along = [
        ((left + right) / 2, bottom + (top - bottom) * share)
        if top - bottom > right - left
        else (left + (right - left) * share, (bottom + top) / 2)
        for share in shares
    ]
    boxes = [box(other) for other in others]
    alone = (p for p in along if not any(b[0] <= p[0] <= b[2] and b[1] <= p[1] <= b[3] for b in boxes))
    return next(alone, along[0])


def _notes(seen: Elevation) -> tuple[Block, ...]:
    job, wall = seen.job, seen.wall
    width = seen.panel[0][2] - seen.panel[0][0]
    bands = long_of(job, (wall,))
    return (
        heading(f"Sealing, {wall_name(wall)}", width, 5.0),
        prose(f"Scale {seen.scale.text}", width),
        prose(_how(job, wall), width),
        prose(patch_words(job, (wall,), "this wall"), width),
        *fixing_note(job, wall, width),
        *band_table(job, bands, {b.id: str(i + 1) for i, b in enumerate(bands)}, width),
    )


def _how(job: Job, wall: Wall) -> str:
    """What the signs of this wall mean."""
    units, limit = job.room.choices.paper_units, job.room.limit
    kinds = {band.kind for band in bands_of(job, wall)}
    signs = {
        "Grey: bands, bedded in thin-set on the board": True,
        "small squares: patches over screws that no other band covers": "patch" in kinds,
        "dashed: collars": "collar" in kinds,
        "circles in corners: preformed corner pieces": bool(corner_ink(job, wall)),
    }
    return (
        f"Seen from the boarded side. {'; '.join(sign for sign, shown in signs.items() if shown)}. Bands cover a joint "
        f"by at least {label(limit('band-cover'), units)} and lap each other by at least "
        f"{label(limit('band-lap'), units)}.{_at_base(job) if _strips(job, wall) else ''}"
    )


def _at_base(job: Job) -> str:
    """What the two lines along the base are."""
    tray, high = job.room.base.tray, job.room.limit("mortar-strip")
    return (
        f" Heavy line: {BASE_LINE[tray.order if tray else job.plan.base.kind]} Dashed line: upper edge of the thin-set "
        f"strip, {label(high, job.room.choices.paper_units)} high on the board."
    )


def patch_words(job: Job, walls: Sequence[Wall], where: str) -> str:
    """How many patches there are, and how large."""
    count = sum(band.kind == "patch" for wall in walls for band in bands_of(job, wall))
    side = label(job.room.choices.band.patch_side, job.room.choices.paper_units)
    return f"Patches on {where}: {count}, {side} square." if count else f"No patches on {where}."


def band_table(job: Job, bands: Sequence[Band], numbers: Mapping[str, str], width: float) -> tuple[Block, ...]:
    """The pieces by number, with their lengths and what they lap of each other."""
    rows = [(numbers[b.id], _named(job, b), _length(job, b), _laps(b, numbers)) for b in bands]
    columns = (Column("No.", 8), Column("Piece", 40), Column("Length as cut", 25), Column("Laps", 19))
    return table(columns, rows, width, "Bands and collars") if rows else ()


def _named(job: Job, band: Band) -> str:
    both = " and ".join(dict.fromkeys(r.wall for r in band.rings))
    if band.kind == "base":
        return _beside_base(job, band)
    kinds = {"collar": f"collar, {', '.join(band.covers)}", "corner": f"corner, {both}"}
    return kinds.get(band.kind, band.kind)


def _beside_base(job: Job, band: Band) -> str:
    """Which joint at the foot of the boards it covers: over the base's deck, beside its apron, at the floor."""
    wall, edges = band.rings[0].wall, [e for e in job.plan.edges if e.id in band.covers]
    if any(e.role == "apron" for e in edges):
        return "apron"
    if wall not in {w.id for w in job.room.chain}:
        return "base" if job.plan.wall(wall).face == "seat" else "foot"
    sides = [s for s in job.plan.base.sides if s.wall == wall]
    above = (s.start < (e.p[0] + e.q[0]) / 2 < s.end for e in edges for s in sides)
    return "base" if any(above) else "floor"


def _length(job: Job, band: Band) -> str:
    """As cut; of a collar how far it is across."""
    units = job.room.choices.paper_units
    if band.kind != "collar":
        return label(band.length, units)
    sizes = [f.collar_diameter for f in job.plan.fittings if f.id in band.covers]
    return f"{label(max(sizes), units)} across" if sizes else ""


def _laps(band: Band, numbers: Mapping[str, str]) -> str:
    """Numbers of the pieces of this sheet that it laps; patches are left out."""
    return ", ".join(numbers[i] for i in band.lap_ids if i in numbers)
