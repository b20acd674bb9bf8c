"""Schedule of shims and planing: every measured stud with its readings and what to do at each height."""

from __future__ import annotations

from itertools import groupby, repeat

from generator.drawings.elevation import pages_of
from generator.drawings.flow import Block, Column, flow, heading, prose, table
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.said import measured_from, said
from generator.model.job import Job
from generator.model.plan import Support
from generator.model.room import Wall
from generator.model.stud_work import FinishedPlane, Shim, StudFace
from generator.units import either, label

TITLE = "Shim schedule"
CUBIC_INCH = 25.4**3
"""mm3 in one cubic inch."""


def flatness_leaves(job: Job) -> tuple[Leaf, ...]:
    """The schedule of every wall that was measured off a string line; no sheet where none was."""
    if not job.plan.planes:
        return ()
    left, _, right, _ = area(job)
    walls = {wall.id: wall for wall in job.room.walls}
    blocks = [heading(TITLE, right - left, 5.0), prose(_how(job), right - left)]
    for plane in job.plan.planes:
        blocks += _wall_blocks(job, walls[plane.wall], plane, right - left)
    first, *rest = flow(tuple(blocks), repeat(area(job)))
    more = pages_of(TITLE, f"{TITLE}{CONTINUED}", tuple(rest), 1)
    return (*pages_of(TITLE, TITLE, (first,), 1), *more)


def _how(job: Job) -> str:
    step = label(1.0 if job.room.units == "mm" else 25.4 / 16, job.room.choices.paper_units)
    return (
        "Readings are measured from the string line straight back to the stud's face: larger is hollow. Each stretch "
        f"runs from half way to the reading below to half way to the one above. Whole steps of {step}. Added studs are "
        "set to the finished plane. Shims are fixed before the boards; planing is a notch in the stud."
    )


def _wall_blocks(job: Job, wall: Wall, plane: FinishedPlane, width: float) -> tuple[Block, ...]:
    columns = (
        Column("Stud", 26),
        Column("Centre", 24),
        Column("Height", 22),
        Column("Reading", 24),
        Column("From", 24),
        Column("To", 24),
        Column("Do", 40),
        Column("Then behind the line", 36, "right"),
        Column("Plane there", 30, "right"),
    )
    faces = [f for f in job.plan.faces if f.wall == wall.id]
    shims = {(s.support_id, s.v): s for s in job.plan.shims if s.wall == wall.id}
    rows: list[tuple[str, ...]] = []
    for support_id, own in groupby(faces, lambda f: f.support_id):
        support = job.plan.support(support_id)
        for i, one in enumerate(own):
            rows.append(_row(job, wall, support, plane, one, shims.get((support_id, one.v)), i == 0))
    return (*table(columns, rows, width, f"{wall.id} wall"), prose(_said_of(job, plane), width))


def _row(
    job: Job, wall: Wall, support: Support, plane: FinishedPlane, face: StudFace, shim: Shim | None, first: bool
) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    left, right = wall.bare_ends
    across = face.u - left if measured_from(job.room, wall) == "left" else right - face.u
    centre = said(job, across, (support.room_path, f"{support.room_path}.centre"))
    moved = 0.0 if shim is None else shim.thickness if shim.work == "shim" else -shim.thickness
    return (
        face.support_id if first else "",
        centre if first else "",
        label(face.v, units),
        label(face.off, units),
        "" if shim is None else label(shim.low, units),
        "" if shim is None else label(shim.high, units),
        "leave" if shim is None else f"{shim.work} {label(shim.thickness, units)}",
        label(face.off - moved, units),
        label(plane.off(face.u, face.v), units),
    )


def _said_of(job: Job, plane: FinishedPlane) -> str:
    units = job.room.choices.paper_units
    size = either(units, f"{plane.material / CUBIC_INCH:.1f} in³", f"{plane.material / 1000:.0f} cm³")
    state = "proven least in whole steps" if plane.proven else "not proven least"
    corners = ", ".join(label(off, units) for _, _, off in plane.points)
    return (
        f"Finished plane behind the line at the lower left, lower right and upper left of the framing: {corners}. "
        f"Shimmed and planed in all: {size}, {state}."
    )
