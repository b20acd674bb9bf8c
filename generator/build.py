"""The pipeline as one readable function: read, plan, check, make solids, check those, draw, write."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from generator.errors import CannotPlanError, InputError, Problem
from generator.model.findings import Finding, failed_walls
from generator.model.job import Bar, FileRecord, Job
from generator.model.plan import Plan
from generator.model.room import Room, Units

if TYPE_CHECKING:
    from generator.drafting.page import Page
    from generator.drawings.templates import Template

STEPS = ("read", "plan", "check the plan", "make solids", "check the solids", "draw", "write")
Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Checked:
    """A room planned and judged."""

    room: Room
    plan: Plan
    findings: tuple[Finding, ...]

    @property
    def failed(self) -> bool:
        """True where any rule fails."""
        return any(finding.verdict == "fail" for finding in self.findings)


@dataclass(frozen=True, slots=True)
class Built(Checked):
    """What a build wrote, by path relative to its folder."""

    files: Mapping[str, bytes]
    faults: tuple[str, ...] = ()
    """What is hard to read on a sheet: faults of this program, not of the room."""


@dataclass(frozen=True, slots=True)
class _File:
    record: FileRecord
    data: bytes
    pages: tuple[Page, ...] = ()
    """What was printed, where its faults are looked for."""


def check_room(room_file: Path, profile_dirs: tuple[Path, ...]) -> Checked:
    """Read, plan and judge by the plan rules; solid rules are listed as not measured. InputError on bad input."""
    from generator.checks import run_plan_checks
    from generator.reading import read_room

    room = read_room(room_file, profile_dirs)
    plan = _plan(room)
    return Checked(room, plan, run_plan_checks(room, plan))


def build_room(
    room_file: Path, out: Path, profile_dirs: tuple[Path, ...], step: Step, since: Path | None = None
) -> Built:
    """The whole pipeline, written to `out` in one step. `step` is told each step's name as it starts.

    `since`: an earlier build (its folder, which may be `out`, or its plan.json), whose differences the set then lists.
    InputError on bad input, MissingSystemLibraryError where the solid kernel cannot load, OSError as the
    disk raises it; in each case nothing is written.
    """
    from generator.comparing.changes import compared
    from generator.comparing.record import read_record
    from generator.disk import swap_in

    before = read_record(since) if since else None
    job, step_file = _job(room_file, profile_dirs, step)
    step("draw")
    files, faults = files_of(compared(job, before) if before else job, step_file)
    step("write")
    swap_in(out, files, {"room": job.room.name, "room_sha256": job.room.sha256})
    return Built(job.room, job.plan, job.findings, files, faults)


def _job(room_file: Path, profile_dirs: tuple[Path, ...], step: Step) -> tuple[Job, bytes]:
    from generator.reading import read_room

    step("read")
    room = read_room(room_file, profile_dirs)
    step("plan")
    return job_from(room, _plan(room), step)


def job_from(room: Room, plan: Plan, step: Step) -> tuple[Job, bytes]:
    """All that the drawings of a planned room are made from, and its solids as a STEP file."""
    from generator.checks import run_plan_checks, run_solid_checks
    from generator.planning.cuts import detail_cuts
    from generator.solids import make_bodies, projections, sections, step_bytes
    from generator.solids.mesh import meshes

    step("check the plan")
    findings = run_plan_checks(room, plan, solids_follow=True)
    step("make solids")
    bodies = make_bodies(room, plan)
    step("check the solids")
    findings = (*findings, *run_solid_checks(room, plan, bodies))
    failed = failed_walls(findings, tuple(wall.id for wall in plan.walls))
    cut = sections(bodies, plan, detail_cuts(room, plan))
    job = Job(room, plan, findings, failed, projections(bodies), cut, meshes(bodies))
    return job, step_bytes(bodies)


def _plan(room: Room) -> Plan:
    from generator.planning.pipeline import make_plan
    from generator.reading.issues import line_of

    try:
        return make_plan(room)
    except CannotPlanError as error:
        raise InputError((Problem(room.file, line_of(error.path, room.lines), str(error)),)) from error


def files_of(job: Job, step_file: bytes) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Every file of the build by its path, and faults of sheets; plan.json lists the files, itself included."""
    from generator.drafting.layers import layers
    from generator.writers.json import plan_json

    made = [
        *_cutting_files(job),
        *_template_files(job),
        *_labels(job),
        _tape_card(job),
        *_drawing_set(job),
        *_lists(job),
        _model(job),
    ]
    made.append(_File(_record(job, "room.step", "step", job.plan.room, units="mm", scale=1.0), step_file))
    itself = _record(job, "plan.json", "plan", job.plan.room, units="mm")
    records = sorted([itself, *(file.record for file in made)], key=lambda record: record.path)
    names = layers(job.room.choices.layer_standard)
    wanted = {role: names[role] for role in ("cut", "opening", "pocket", "mark", "datum")}
    plan = plan_json(job, tuple(records), wanted)
    faults = tuple(fault for file in made for fault in _faults(file))
    return {"plan.json": plan, **{file.record.path: file.data for file in made}}, faults


def _faults(file: _File) -> Iterator[str]:
    """Whatever gets in the way of the writing on the pages of a file."""
    from generator.drafting.overlap import overlaps

    for number, page in enumerate(file.pages, 1):
        for fault in overlaps(page):
            yield f"{file.record.path}, sheet {number}, {page.title}: {fault}"


def _record(
    job: Job,
    path: str,
    kind: str,
    subject: str,
    units: Units | None = None,
    scale: float = 0.0,
    not_for_cutting: bool = False,
    bars: tuple[Bar, ...] = (),
    mirrored: bool = False,
) -> FileRecord:
    """`scale` 0: several scales, or none."""
    chosen = units or job.room.choices.drawing_units
    return FileRecord(path, kind, subject, chosen, scale, mirrored, not_for_cutting, bars)


def _cutting_files(job: Job) -> Iterator[_File]:
    from generator.drawings.parts import part_drawings
    from generator.drawings.sheet_files import sheet_drawings
    from generator.writers.csv import parts_csv, sheets_csv
    from generator.writers.dxf import dxf_bytes

    choices = job.room.choices
    for drawing in (*part_drawings(job), *sheet_drawings(job)):
        folder = "parts" if drawing.kind == "part-dxf" else "sheets"
        path, subject, no = f"{folder}/{drawing.name}.dxf", drawing.subject, drawing.not_for_cutting
        record = _record(job, path, drawing.kind, subject, scale=1.0, not_for_cutting=no, mirrored=drawing.mirrored)
        how = (choices.drawing_units, choices.layer_standard, choices.practice)
        yield _File(record, dxf_bytes(drawing.ink, *how))
    for path, data in (("parts/list.csv", parts_csv(job)), ("sheets/list.csv", sheets_csv(job))):
        yield _File(_record(job, path, "csv", job.plan.room), data)


def _template_files(job: Job) -> Iterator[_File]:
    from generator.drawings.templates import templates
    from generator.writers.dxf import dxf_bytes
    from generator.writers.pdf import pdf_bytes

    choices = job.room.choices
    for paper in choices.papers:
        for template in templates(job, paper):
            record = _template(job, template, template.pages, f"{template.paper}.pdf", "template-pdf")
            data = pdf_bytes(template.pages, f"{job.room.name}: templates of {template.board}")
            yield _File(record, data, template.pages)
    for template in templates(job, choices.plotter) if choices.plotter else ():
        for i, page in enumerate((page for page in template.pages if page.bars), 1):
            record = _template(job, template, (page,), f"{i}.dxf", "template-dxf")
            yield _File(record, dxf_bytes(page.ink, choices.drawing_units, choices.layer_standard, dashed=True))


def _template(job: Job, template: Template, pages: tuple[Page, ...], end: str, kind: str) -> FileRecord:
    from generator.drafting.page import job_bars

    bars, no = job_bars(pages), template.not_for_cutting
    path, back = f"templates/{template.name}-{end}", template.face == "back"
    return _record(job, path, kind, template.board, scale=1.0, not_for_cutting=no, bars=bars, mirrored=back)


def _tape_card(job: Job) -> _File:
    from generator.drawings.tape_card import tape_card
    from generator.writers.pdf import pdf_bytes

    record = _record(job, "marks.pdf", "marks-pdf", job.plan.room, not_for_cutting=bool(job.failed))
    pages = tape_card(job)
    return _File(record, pdf_bytes(pages, f"{job.room.name}: running marks", job.room.name), pages)


def _drawing_set(job: Job) -> Iterator[_File]:
    from generator.drawings.set import draw_set
    from generator.writers.pdf import pdf_bytes

    pages = draw_set(job)
    pdf = pdf_bytes(pages, job.room.job.title or job.room.name, job.room.name)
    record = _record(job, "drawings.pdf", "drawings-pdf", job.plan.room, not_for_cutting=bool(job.failed))
    yield _File(record, pdf, pages)
    yield from _pictures(job, pages, pdf)
    yield from _sheets_for_cad(job, pages)


def _sheets_for_cad(job: Job, pages: tuple[Page, ...]) -> Iterator[_File]:
    """Every sheet of the set, by its number and its title; the scale is told where the sheet has one alone."""
    from generator.drawings.leaf import NO_SCALE
    from generator.writers.sheet_dxf import sheet_bytes, sheet_name

    choices = job.room.choices
    for page, sheet in ((page, page.sheet) for page in pages if page.sheet):
        path, scales = f"drawings/{sheet_name(page)}.dxf", {view.view.scale for view in sheet.views}
        scale = scales.pop() if len(scales) == 1 and page.scale != NO_SCALE else 0.0
        no = bool(sheet.stamp or (job.failed and not sheet.views))
        record = _record(job, path, "drawing-dxf", job.plan.room, scale=scale, not_for_cutting=no)
        yield _File(record, sheet_bytes(page, sheet, choices.drawing_units, choices.layer_standard))


def _pictures(job: Job, pages: tuple[Page, ...], pdf: bytes) -> Iterator[_File]:
    """Every sheet of the set for the screen, by its number in the set, and the picture of the room by itself."""
    from generator.drawings.picture import room_picture
    from generator.writers.png import png_pages
    from generator.writers.svg import svg_bytes

    no = bool(job.failed)
    for i, (page, png) in enumerate(zip(pages, png_pages(pdf), strict=True), 1):
        for kind, data in (("svg", svg_bytes(page)), ("png", png)):
            yield _File(_record(job, f"pictures/{i:02d}.{kind}", kind, job.plan.room, not_for_cutting=no), data)
    if (alone := room_picture(job)) is not None:
        yield _File(_record(job, "pictures/room.svg", "svg", job.plan.room), svg_bytes(alone))


def _labels(job: Job) -> Iterator[_File]:
    from generator.drawings.labels import label_pages
    from generator.writers.pdf import pdf_bytes

    record = _record(job, "labels.pdf", "labels-pdf", job.plan.room, not_for_cutting=bool(job.failed))
    if pages := label_pages(job):
        yield _File(record, pdf_bytes(pages, f"{job.room.name}: labels", job.room.name), pages)


def _model(job: Job) -> _File:
    from generator.writers.glb import glb_bytes

    # Its numbers are metres, as glTF demands: thousandths of the model's mm.
    return _File(_record(job, "room.glb", "glb", job.plan.room, units="mm", scale=0.001), glb_bytes(job))


def _lists(job: Job) -> Iterator[_File]:
    from generator.checks import findings_table
    from generator.writers.csv import cut_list_csv, fasteners_csv, takeoff_csv
    from generator.writers.xlsx import lists_xlsx

    lists = {
        "takeoff.csv": takeoff_csv(job),
        "cut-list.csv": cut_list_csv(job),
        "screws.csv": fasteners_csv(job),
        "lists.xlsx": lists_xlsx(job),
        "findings.txt": (findings_table(job.findings, job.room) + "\n").encode(),
    }
    for path, data in lists.items():
        yield _File(_record(job, path, path.rpartition(".")[2], job.plan.room), data)
