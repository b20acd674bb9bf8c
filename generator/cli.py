"""The commands. Prints; everything else is asked of `build` and below.

Exit codes: 0 no rule fails, 1 a rule fails, 2 bad input (nothing is written).
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn, Optional

import typer

from generator import __version__
from generator.errors import CannotPlanError, InputError, MissingSystemLibraryError

if TYPE_CHECKING:
    from generator.asking.dialogue import Reply
    from generator.asking.questions import Form, Question
    from generator.build import Step
    from generator.reading import Row
    from generator.units import Units

BAD_INPUT = 2
INTERNAL = 70
"""EX_SOFTWARE of sysexits.h: an error of the program itself."""

app = typer.Typer(
    name="boardwright",
    help="From a measured tub or shower recess to cut boards, drawings, templates, a take-off and checks.",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
)
profiles_app = typer.Typer(no_args_is_help=True, help="List and show the profiles: boards, flanges, studs, rules ...")
app.add_typer(profiles_app, name="profiles")

RoomFile = Annotated[Path, typer.Argument(metavar="ROOM.yaml", help="The room as measured.", show_default=False)]
MaybePath = Optional[Path]  # noqa: UP045  (typer reads annotations at run time on 3.11)
ProfileDirs = Annotated[
    Optional[list[Path]],  # noqa: UP045  (typer reads the annotation at run time on 3.11)
    typer.Option("--profiles", metavar="DIR", help="A folder of your own profiles; may be given more than once."),
]


@contextmanager
def _said_to_people() -> Iterator[None]:
    """Errors that are meant for people become sentences and exit code 2."""
    try:
        yield
    except (InputError, CannotPlanError, MissingSystemLibraryError) as error:
        _complain(str(error))
    except OSError as error:
        _complain(f"{error.filename or 'the disk'}: {error.strerror or error}")


def _complain(text: str) -> NoReturn:
    typer.echo(text, err=True)
    raise typer.Exit(BAD_INPUT)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"boardwright {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """From a measured tub or shower recess to cut boards, drawings, templates, a take-off and checks."""


@app.command()
def check(room_file: RoomFile, profiles: ProfileDirs = None) -> None:
    """Plan a room and print what the checks find; writes nothing."""
    from generator.build import check_room
    from generator.checks.table import findings_table

    with _said_to_people():
        checked = check_room(room_file, tuple(profiles or ()))
    typer.echo(findings_table(checked.findings, checked.room))
    raise typer.Exit(1 if checked.failed else 0)


@app.command()
def build(
    room_file: RoomFile,
    out: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for the build.")],
    profiles: ProfileDirs = None,
    since: Annotated[
        MaybePath,
        typer.Option(metavar="OLD", help="An earlier build, whose differences a sheet of the set then lists."),
    ] = None,
) -> None:
    """Plan a room and write everything: plan, solids, drawings, cutting files, templates, lists."""
    from generator.build import build_room
    from generator.checks.table import findings_table

    with _said_to_people(), _progress() as step:
        built = build_room(room_file, out, tuple(profiles or ()), step, since)
    typer.echo(findings_table(built.findings, built.room))
    typer.echo(f"{len(built.files)} files in {out}")
    for fault in built.faults:
        typer.echo(f"drawing fault: {fault}; please report it with the room file", err=True)
    raise typer.Exit(1 if built.failed else 0)


@contextmanager
def _progress() -> Iterator[Step]:
    """A Rich progress line on standard error, quiet where that is no terminal."""
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    from generator.build import STEPS

    columns = (TextColumn("{task.description:<28}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("", total=len(STEPS))

        def step(name: str) -> None:
            progress.update(task, description=name, completed=STEPS.index(name))

        yield step


KindOfRoom = Annotated[str, typer.Argument(metavar="KIND", help="recess, corner, single or tray.")]
Built = Annotated[Path, typer.Argument(help="A build folder, or a plan.json.", show_default=False)]
UnitsOption = Annotated[str, typer.Option("--units", help="Unit of bare numbers: in or mm.")]


@app.command()
def form(
    kind: KindOfRoom,
    out: Annotated[Path, typer.Option("-o", "--out", metavar="FORM.pdf", help="The file to write.")],
    paper: Annotated[str, typer.Option(help="letter or a4")] = "letter",
    units: UnitsOption = "in",
    profiles: ProfileDirs = None,
) -> None:
    """Write a blank measuring form to print: a box for everything that the room file needs."""
    from generator.disk import write_new
    from generator.forms import blank_form, form_pdf

    with _said_to_people():
        blank = blank_form(kind, _units(units), tuple(profiles or ()))
        write_new(out, form_pdf(blank, paper, tuple(profiles or ())))
    typer.echo(f"{out}: print it at 100 %, measure, then run `boardwright new {kind} -o ROOM.yaml --units {units}`")


@app.command()
def new(
    kind: KindOfRoom,
    out: Annotated[Path, typer.Option("-o", "--out", metavar="ROOM.yaml", help="The room file to write.")],
    answers: Annotated[
        MaybePath,
        typer.Option(metavar="FILE", help="Answers by box instead of questions, such as B3: 60 1/4."),
    ] = None,
    units: UnitsOption = "in",
    profiles: ProfileDirs = None,
) -> None:
    """Ask for the measurements, box by box, and write a commented room file."""
    from generator.disk import refuse_to_replace, write_new
    from generator.forms import asked_room, blank_form, filled_room

    dirs = tuple(profiles or ())
    with _said_to_people():
        refuse_to_replace(out)
        blank = blank_form(kind, _units(units), dirs)
        try:
            data = filled_room(blank, answers, dirs) if answers else asked_room(blank, dirs, _reply(blank), typer.echo)
        except typer.Abort:
            _complain("stopped; nothing was written")
        write_new(out, data)
    typer.echo(f"{out} is written; `boardwright check {out}` plans it")


def _reply(blank: Form) -> Reply:
    """Puts a question on the terminal, with its section's title and hints where a section begins."""
    typer.echo("`?` explains, `back` goes to the question before, `-` is for none or not measured, Enter takes [..].")

    def reply(question: Question, usual: str) -> str:
        section = blank.section_of(question)
        if question is section.questions[0]:
            typer.echo("\n".join(("", section.title, *(f"  {hint}" for hint in section.hints))))
        words = ", ".join(word.id for word in question.words) if question.answer == "choice" else ""
        text = f"{question.box} {question.prompt}{f' ({words})' if words else ''}"
        return str(typer.prompt(text, default=usual, show_default=bool(usual)))

    return reply


def _units(units: str) -> Units:
    """The unit that was asked for."""
    if units not in ("in", "mm"):
        _complain(f'units are "in" or "mm", not "{units}"')
    return "mm" if units == "mm" else "in"


@app.command()
def compare(old: Built, new: Built) -> None:
    """Print what changed between two builds of a room; exit code 0 nothing, 1 something, 2 unreadable."""
    from generator.comparing.changes import changes, changes_table
    from generator.comparing.record import read_record

    with _said_to_people():
        found = changes(read_record(old), read_record(new))
    typer.echo(changes_table(found))
    raise typer.Exit(1 if found else 0)


@app.command()
def explain(
    rule: Annotated[str, typer.Argument(help="Id of a rule, e.g. seam-on-axis.")], profiles: ProfileDirs = None
) -> None:
    """Print why a rule exists, its limit and where that comes from."""
    from difflib import get_close_matches

    from generator.checks.explain import explain as explained
    from generator.reading import load_catalogue

    with _said_to_people():
        rules = load_catalogue(tuple(profiles or ())).rules
    if rule not in rules:
        near = get_close_matches(rule, rules, n=3)
        hint = f"did you mean {' or '.join(near)}?" if near else "`boardwright profiles list rules` shows them"
        _complain(f'there is no rule "{rule}"; {hint}')
    typer.echo(explained(rules[rule]))


@app.command()
def schema(which: Annotated[str, typer.Argument(help="room or plan")] = "room") -> None:
    """Print the JSON Schema of the room file or of plan.json."""
    from generator.reading import room_schema
    from generator.writers.json import plan_schema

    schemas = {"room": room_schema, "plan": plan_schema}
    if which not in schemas:
        _complain(f'there is no schema "{which}"; there are: room, plan')
    typer.echo(json.dumps(schemas[which](), indent=2))


@profiles_app.command("list")
def list_profiles(
    kind: Annotated[str, typer.Argument(help="Only this kind, e.g. boards.")] = "", profiles: ProfileDirs = None
) -> None:
    """List the profiles by kind."""
    rows = [row for row in _described(profiles, "in") if kind in ("", row.kind)]
    if not rows:
        _complain(f'there is no kind of profile "{kind}"; there are: {_kinds(profiles)}')
    for kind_name, profile_id, name in dict.fromkeys((row.kind, row.id, row.name) for row in rows):
        typer.echo(f"{kind_name:<11}{profile_id:<24}{name}")


@profiles_app.command("show")
def show_profile(
    kind: Annotated[str, typer.Argument(help="Kind, e.g. flanges.")],
    profile_id: Annotated[str, typer.Argument(metavar="ID", help="Id of the profile.")],
    units: Annotated[str, typer.Option(help="in or mm")] = "in",
    profiles: ProfileDirs = None,
) -> None:
    """Show every number of one profile with its source and confidence."""
    rows = [row for row in _described(profiles, _units(units)) if (row.kind, row.id) == (kind, profile_id)]
    if not rows:
        _complain(f'there is no profile "{profile_id}" of kind "{kind}"; `boardwright profiles list` shows them')
    typer.echo(f"{rows[0].kind} {rows[0].id}: {rows[0].name}")
    for row in rows:
        typer.echo(f"  {row.field:<20}{row.value}\n  {'':<20}{row.confidence}: {row.source}")


def _described(profiles: list[Path] | None, units: Units) -> tuple[Row, ...]:
    from generator.reading import describe, load_catalogue

    with _said_to_people():
        return describe(load_catalogue(tuple(profiles or ())), units)


def _kinds(profiles: list[Path] | None) -> str:
    return ", ".join(dict.fromkeys(row.kind for row in _described(profiles, "in")))


def main() -> None:
    """The command's entry: as `app`, but an error of the program itself is a sentence, not a traceback."""
    try:
        app()
    except Exception as error:
        where = error.__traceback__
        while where is not None and where.tb_next is not None:
            where = where.tb_next
        place = f"{Path(where.tb_frame.f_code.co_filename).name}:{where.tb_lineno}" if where else "?"
        message = (
            f"boardwright {__version__} has a fault of its own ({type(error).__name__} at {place}: {error}); "
            "nothing was written. Please report it with the room file."
        )
        typer.echo(message, err=True)
        sys.exit(INTERNAL)
