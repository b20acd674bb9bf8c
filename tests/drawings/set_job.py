"""The worked room with its solids as a Job for the drawing set: on any paper, in either unit, sound or failed."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from generator.model.findings import Cure, Finding, Place
from generator.model.job import Job
from generator.model.profiles import PaperProfile
from generator.model.room import Room
from generator.planning.cuts import detail_cuts
from generator.solids import make_bodies, projections, sections
from generator.units import Units
from tests.planning.finished import finished
from tests.worked_plan import worked_plan
from tests.worked_room import END_STUDS, END_STUDS_AS_FOUND, ORIGIN, WIDTHS, mirrored, mm, worked_room

PAPERS = {
    "letter": PaperProfile("letter", "Letter", ORIGIN, {}, mm(8.5), mm(11), 10.0),
    "tabloid": PaperProfile("tabloid", "Tabloid", ORIGIN, {}, mm(11), mm(17), 10.0),
    "a3": PaperProfile("a3", "A3", ORIGIN, {}, 297.0, 420.0, 10.0),
}


@cache
def set_job(paper: str = "letter", units: Units = "in", failed: bool = False) -> Job:
    """The job; `failed`: the end studs as found, with the three collisions of worked-room.md and their cure."""
    return _on_paper(_job(failed), paper, units)


@cache
def detailed_job(paper: str = "letter", units: Units = "in", failed: bool = False) -> Job:
    """The same, finished, with the cuts of its details."""
    return _on_paper(_detailed(failed), paper, units)


def _on_paper(job: Job, paper: str, units: Units) -> Job:
    choices = replace(job.room.choices, sheet_paper=PAPERS[paper], drawing_units=units)
    return replace(job, room=replace(job.room, choices=choices))


@cache
def _job(failed: bool) -> Job:
    room = _with_entered(worked_room(END_STUDS_AS_FOUND if failed else END_STUDS))
    plan = worked_plan(room)
    bodies = make_bodies(room, plan)
    findings = (*_planned(), *(_collisions(room) if failed else ()))
    walls = frozenset({"right"}) if failed else frozenset()
    return Job(room, plan, findings, walls, projections(bodies), sections(bodies, plan))


@cache
def _detailed(failed: bool) -> Job:
    job = _job(failed)
    plan = finished(job.room, worked_plan(job.room))
    cut = sections(bodies := make_bodies(job.room, plan), plan, detail_cuts(job.room, plan))
    return replace(job, plan=plan, sections={**job.sections, **cut}, projections=projections(bodies))


def _with_entered(room: Room) -> Room:
    """Centres and fittings as somebody would have entered them: end walls from the back corner."""
    entered = {**room.entered, "base.deck": "18 1/2"}
    for wall in room.walls:
        entered[f"{wall.path}.width"] = f"{WIDTHS[wall.id]:g}"
        entered[f"{wall.path}.height"] = "96"
        for s in wall.supports:
            entered[s.path] = f"{mirrored(wall.id, s.axis[0][0] / 25.4):g}"
    for f in room.fittings:
        entered |= {f"{f.path}.across": "15-7/8", f"{f.path}.up": f"{f.centre[1] / 25.4:g}"}
    return replace(room, entered=entered)


def _planned() -> tuple[Finding, ...]:
    seam = Place("back", ((mm(31), mm(19)), (mm(31), mm(95))))
    return (
        Finding(
            "bearing-seam-wood", "planned", "pass", "seam at 31", mm(0.75), mm(0.625), mm(0.125), seam, None, "", 0
        ),
        Finding("shower-area", "planned", "confirm", "tile unknown", None, None, None, Place("", ()), None, "", 0),
    )


def _collisions(room: Room) -> tuple[Finding, ...]:
    stud = room.walls[2].supports[1]
    cure = Cure("move the stud at 16 1/4 in to 12 1/2 in", "move_support", "right", stud.path, mm(12.5))
    names = (("collision-body", "valve", 28.0), ("collision-pipe", "spout", 23.0), ("collision-pipe", "arm", 78.0))
    return tuple(
        Finding(rule, "found", "fail", f"{name} in a stud", -1.0, 0.0, -1.0, _spot(up), cure, "", 12)
        for rule, name, up in names
    )


def _spot(up: float) -> Place:
    return Place("right", ((mm(15.875), mm(up)),))
