"""Everything that the contract says, asked of one plan.json: `python -m tests.verifier.run plan.json`."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.verifier import (
    bands,
    base,
    edges,
    flatness,
    folded,
    form,
    found,
    framing,
    furring,
    lists,
    lumber,
    openings,
    screws,
    seats,
    sheets,
    soffits,
    walls,
)
from tests.verifier.plain import Record, Violation

Check = Callable[[Record], Iterator[Violation]]
FORM: tuple[Check, ...] = (
    form.check_schema,
    form.check_numbers,
    form.check_rings,
    form.check_ids,
    form.check_references,
)
CHECKS: tuple[Check, ...] = (
    walls.check_frames,
    walls.check_corners,
    walls.check_wet_region,
    walls.check_coverage,
    walls.check_supports,
    walls.check_laps,
    walls.check_folds,
    walls.check_lent,
    soffits.check_soffits,
    seats.check_apart,
    seats.check_before_boards,
    seats.check_edges,
    seats.check_ledgers,
    seats.check_span,
    edges.check_outline,
    edges.check_roles,
    edges.check_seams_twice,
    edges.check_bearing,
    edges.check_centres,
    framing.check_spacing,
    framing.check_stagger,
    screws.check_each,
    screws.check_rows,
    openings.check_openings,
    openings.check_margins,
    openings.check_weights,
    base.check_sides,
    base.check_rabbets,
    base.check_deck,
    base.check_flange,
    furring.check_furring,
    bands.check_cover,
    folded.check_folds_banded,
    folded.check_caps,
    bands.check_screws_covered,
    bands.check_laps,
    bands.check_lengths,
    bands.check_collars,
    sheets.check_sheets,
    sheets.check_cuts,
    sheets.check_factory_edges,
    lists.check_takeoff,
    lumber.check_lumber,
    lists.check_findings,
    lists.check_verdicts,
    lists.check_files,
    found.check_collisions,
    found.check_spacing_found,
    flatness.check_schedule,
    flatness.check_thickness,
    flatness.check_planes,
    flatness.check_material,
)


def verify(plan: Record) -> Iterator[Violation]:
    """All violations of one plan, as they are found; a plan whose form is wrong is not read further."""
    wrong = [violation for check in FORM for violation in check(plan)]
    yield from wrong or (violation for check in CHECKS for violation in check(plan))


def unexplained(plan: Record) -> list[Violation]:
    """Violations that no failing finding of the same rule on the same wall admits."""
    phases = ("found", "planned", "solid")
    return [v for v in verify(plan) if not (v.rule and found.is_failed(plan, v.rule, v.wall, phases))]


def main() -> int:
    plan = json.loads(Path(sys.argv[1]).read_text("utf-8"))
    wrong = list(verify(plan))
    for violation in wrong:
        print(f"{violation.code}: {violation.message}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
