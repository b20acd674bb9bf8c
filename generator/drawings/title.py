"""The first sheet: picture, key plan, what the checks say, index of sheets, general notes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, cycle, groupby

from generator.drafting.ink import Ink, Text
from generator.drafting.inview import InView
from generator.drafting.titleblock import too_long
from generator.drawings.cautions import DISCLAIMER
from generator.drawings.elevation import pages_of
from generator.drawings.flow import Block, Box, Column, columns_of, flow, heading, prose, table
from generator.drawings.leaf import CONTINUED, NO_SCALE, Leaf, area
from generator.drawings.picture import key_plan, picture_view
from generator.drawings.said import ENTERED
from generator.model.findings import Phase, worst
from generator.model.job import Job
from generator.units import either, label_thickness

KIND = "Title sheet"
TITLE = "Picture, key plan, index"
NOTES = 108.0
"""mm: width of the column of notes and index."""
BETWEEN = 8.0
"""mm between columns, and between them and the pictures."""
PLAN_SHARE = 0.4
"""Part of the left side's height that the key plan takes above the general notes; the picture takes the rest."""
SAYS = {
    "pass": "passes",
    "note": "passes, with notes",
    "confirm": "passes, with values to confirm",
    "warn": "passes, with warnings",
    "fail": "FAILS",
}


def title_leaves(job: Job, others: Sequence[Leaf]) -> tuple[Leaf, ...]:
    """The title sheet of a set that goes on with these leaves.

    Its index stands in one column, in two where that is too short, and needs a sheet more where two are.
    """
    tries = (_leaves(job, others, 1, columns) for columns in (1, 2))
    leaves = next((leaves for leaves in tries if len(leaves) == 1), None)
    return leaves or _leaves(job, others, len(_leaves(job, others, 1, 2)), 2)


def _leaves(job: Job, others: Sequence[Leaf], own: int, columns: int) -> tuple[Leaf, ...]:
    left, bottom, right, top = area(job)
    split = right - columns * (NOTES + BETWEEN) + BETWEEN
    beside = columns_of((split, bottom, right, top), NOTES, BETWEEN)
    ink, views = _left_side(job, (left, bottom, split - BETWEEN, top))
    whole = columns_of((left, bottom, right, top), NOTES, BETWEEN)
    width = min(NOTES, whole[0][2] - whole[0][0])
    filled = flow(_notes(job, others, own, width), chain(beside, cycle(whole)))
    first = Leaf(KIND, TITLE, NO_SCALE, (*ink, *chain(*filled[:columns])), views=views)
    return (first, *pages_of(KIND, f"{TITLE}{CONTINUED}", filled[columns:], len(whole)))


def _left_side(job: Job, space: Box) -> tuple[tuple[Ink, ...], tuple[InView, ...]]:
    """General notes; above them the key plan, above that the picture."""
    left, bottom, right, top = space
    notes = _general(job, right - left)
    height = sum(b.height for b in notes)
    written = flow(notes, ((left, 0.0, right, bottom + height),))[0]
    split = bottom + height + 2.0 + (top - bottom - height - 2.0) * PLAN_SHARE
    plan, scale = key_plan(job, (left, bottom + height + 2.0, right, split - 8.0))
    words = (Text((left, split - 6.0), f"KEY PLAN, scale {scale.text}", 2.5, bold=True),)
    picture = job.projections.get("isometric")
    if picture is None or not picture.faces:
        return (*written, *words), (plan,)
    title = Text((left, top - 3.0), "PICTURE, not to scale", 2.5, bold=True)
    return (*written, *words, title), (plan, picture_view(picture, (left, split + 3.0, right, top - 7.0)))


def _notes(job: Job, others: Sequence[Leaf], own: int, width: float) -> tuple[Block, ...]:
    return (
        heading(job.room.job.title or job.room.name, width, 7.0),
        prose(f"{job.room.name}, from {job.room.file}", width),
        prose(_result(job), width, bold=True),
        *_index(others, own, width),
        *_revisions(job, width),
    )


def _verdict(job: Job, phases: tuple[Phase, ...]) -> str:
    return SAYS[worst(job.findings, phases)]


def _result(job: Job) -> str:
    """What the checks say, in two sentences or three."""
    found, planned = _verdict(job, ("found",)), _verdict(job, ("planned", "solid"))
    walls = ", ".join(w.id for w in job.plan.walls if w.id in job.failed)
    stop = f" Boards of {walls}: not for cutting until the findings are cured." if walls else ""
    return f"Framing as found {found}. Work as planned {planned}.{stop}"


def _general(job: Job, width: float) -> tuple[Block, ...]:
    units = job.room.choices.paper_units
    step = either(units, "1/16 in (diameters to 1/32 in)", "1 mm (diameters to 0.1 mm)")
    datum = job.plan.walls[0].datum_name if job.plan.walls else job.room.datum
    notes = (
        "Walls are listed left to right as seen from inside the room, and drawn from their boarded side. Widths run "
        f"from a wall's framing corner, heights from the {datum}. A length with {ENTERED} is as entered; all others "
        f"are computed and rounded once, to {step}. Framing is drawn bare: boards are {_thicknesses(job)} thick.",
        DISCLAIMER,
        *too_long(job.room.job),
    )
    return (heading("General notes", width), *(prose(note, width) for note in notes))


def _thicknesses(job: Job) -> str:
    units = job.room.choices.paper_units
    values = sorted({b.thickness for b in job.plan.boards})
    return " and ".join(label_thickness(v, units) for v in values)


def _index(others: Sequence[Leaf], own: int, width: float) -> tuple[Block, ...]:
    """A row for each drawing; a drawing that goes on over several sheets has one row with its range."""
    rows: list[tuple[str, str, str]] = [(_range(1, own), TITLE, NO_SCALE)]
    number = own + 1
    for _, group in groupby(others, key=lambda leaf: (leaf.kind, leaf.title.removesuffix(CONTINUED))):
        sheets = tuple(group)
        rows.append((_range(number, len(sheets)), sheets[0].title, sheets[0].scale))
        number += len(sheets)
    columns = (Column("Sheet", 18), Column("Drawing", 60), Column("Scale", 30))
    return table(columns, rows, width, "Index of sheets")


def _revisions(job: Job, width: float) -> tuple[Block, ...]:
    """What changed from revision to revision, as the room file lists it; nothing where it lists none."""
    rows = [(one.mark, one.date, one.what) for one in job.room.job.revisions]
    columns = (Column("Rev.", 12), Column("Date", 22), Column("What changed", 74))
    return table(columns, rows, width, "Revisions") if rows else ()


def _range(first: int, count: int) -> str:
    return str(first) if count == 1 else f"{first} to {first + count - 1}"
