"""What comes by the roll or the bag: band, mortar under it, masking tape."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.model.combs import comb_bed
from generator.model.geometry import area
from generator.model.plan import Band, Plan
from generator.model.purchase import TakeoffRow, Term
from generator.model.room import Room
from generator.planning.benches import is_bonded
from generator.planning.boards import opening_area
from generator.planning.sealing.bottoms import Run, bottom_runs
from generator.planning.sealing.joints import drop_below
from generator.planning.sealing.surface import Surface
from generator.planning.takeoff.rows import in_van, make_row, term, waste_term
from generator.units import label

KINDS = (
    ("seam", "seams and wallboard edges"),
    ("corner", "corners"),
    ("base", "base, aprons and floor"),
    ("patch", "patches over screws"),
    ("collar", "collars"),
)


def _by_kind(plan: Plan) -> Iterator[tuple[str, str, list[Band]]]:
    for kind, text in KINDS:
        own = [band for band in plan.bands if band.kind == kind]
        if own:
            yield kind, text, own


def band_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """Rolls of band, in mm of length as cut, laps included."""
    band = room.choices.band
    terms = [
        term(f"{text}, {len(own)} piece{'s' * (len(own) != 1)}", sum(b.length for b in own), (b.id for b in own))
        for kind, text, own in _by_kind(plan)
        if kind != "collar"
    ]
    if terms:
        yield make_row("band", band.id, band.name, "mm", terms, band.roll_length, in_van(room, "band"))


def mortar_rows(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[TakeoffRow]:
    """Bags of mortar, in ml mixed: a combed bed under every band, patch and collar, laps twice, and under boards."""
    mortar, bed = room.choices.mortar, comb_bed(room.choices.trowel)
    terms = [
        term(f"under {text}", sum(area(r.ring) for b in own for r in b.rings) * bed / 1000, (b.id for b in own))
        for _, text, own in _by_kind(plan)
    ]
    terms += _strip_terms(room, plan, surfaces, bed)
    terms += _bond_terms(room, plan)
    if terms:
        terms.append(waste_term(terms, mortar.waste))
        yield make_row("mortar", mortar.id, mortar.name, "ml", terms, mortar.bag, in_van(room, "mortar"))


def _bond_terms(room: Room, plan: Plan) -> Iterator[Term]:
    """The bed between masonry, or a curb, and the boards that are bonded to it, openings left out."""
    for wall in (wall for wall in room.walls if wall.masonry):
        own = [board for board in plan.boards if board.wall == wall.id]
        covered = sum(area(b.outline) - sum(opening_area(o) for o in b.openings) for b in own)
        text = f"under the boards of {wall.id}, {label(wall.furring, room.choices.drawing_units)} thick"
        yield term(text, covered * wall.furring / 1000, (b.id for b in own))
    bed = comb_bed(room.choices.bond_trowel or room.choices.trowel)
    for face in (wall for wall in room.walls if is_bonded(room, wall.id)):
        own = [board for board in plan.boards if board.wall == face.id]
        yield term(
            f"under the boards of {face.id}", sum(area(b.outline) for b in own) * bed / 1000, (b.id for b in own)
        )


def _strip_terms(room: Room, plan: Plan, surfaces: Sequence[Surface], bed: float) -> Iterator[Term]:
    """The part of the mortar strip above the base that the base's band leaves bare."""
    for run in base_runs(plan, surfaces):
        banded = room.choices.band.width - drop_below(room, plan.base, run)
        bare = room.limit("mortar-strip") - banded
        if bare > 0:
            yield term(f"strip above the base's band, {run.wall}", run.length * bare * bed / 1000, run.edges)


def base_runs(plan: Plan, surfaces: Sequence[Surface]) -> tuple[Run, ...]:
    """The stretches of bottom edge over the base, from face to face."""
    return tuple(run for s in surfaces for run in bottom_runs(s, plan.base) if run.side is not None)


def masking_rows(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[TakeoffRow]:
    """Rolls of masking tape, in mm along the base at the board faces."""
    units, sealant = room.choices.drawing_units, room.choices.sealant
    terms = [
        term(f"base along {run.wall}, {label(run.length, units)}", run.length, run.edges)
        for run in base_runs(plan, surfaces)
    ]
    if terms:
        roll, there = sealant.masking_roll, in_van(room, "masking")
        yield make_row("masking", sealant.id, "masking tape", "mm", terms, roll, there)
