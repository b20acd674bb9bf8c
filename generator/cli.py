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
    from generator.build import Step
    from generator.reading import Row

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
ProfileDirs = Annotated[
    Optional[list[Path]],  # noqa: UP045  (typer reads the annotation at run time on 3.11)
    typer.Option("--profiles", metavar="DIR", help="A folder of your own profiles; may be given more than once."),
]


@contextmanager
def _said_to_people() -> Iterator[None]:
    """Errors that are meant for people become sentences and exit code 2."""
    try:
        yield
    except InputError as error:
        _complain(str(error))
    except (CannotPlanError, MissingSystemLibraryError) as error:
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
) -> None:
    """Plan a room and write everything: plan, solids, drawings, cutting files, templates, lists."""
    from generator.build import build_room
    from generator.checks.table import findings_table

    with _said_to_people(), _progress() as step:
        built = build_room(room_file, out, tuple(profiles or ()), step)
    typer.echo(findings_table(built.findings, built.room))
    typer.echo(f"{len(built.files)} files in {out}")
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
    named = dict.fromkeys((row.kind, row.id, row.name) for row in rows)
    for kind_name, profile_id, name in named:
        typer.echo(f"{kind_name:<11}{profile_id:<24}{name}")


@profiles_app.command("show")
def show_profile(
    kind: Annotated[str, typer.Argument(help="Kind, e.g. flanges.")],
    profile_id: Annotated[str, typer.Argument(metavar="ID", help="Id of the profile.")],
    units: Annotated[str, typer.Option(help="in or mm")] = "in",
    profiles: ProfileDirs = None,
) -> None:
    """Show every number of one profile with its source and confidence."""
    if units not in ("in", "mm"):
        _complain(f'units are "in" or "mm", not "{units}"')
    rows = [row for row in _described(profiles, units) if (row.kind, row.id) == (kind, profile_id)]
    if not rows:
        _complain(f'there is no profile "{profile_id}" of kind "{kind}"; `boardwright profiles list` shows them')
    typer.echo(f"{rows[0].kind} {rows[0].id}: {rows[0].name}")
    for row in rows:
        typer.echo(f"  {row.field:<20}{row.value}\n  {'':<20}{row.confidence}: {row.source}")


def _described(profiles: list[Path] | None, units: str) -> tuple[Row, ...]:
    from generator.reading import describe, load_catalogue

    with _said_to_people():
        return describe(load_catalogue(tuple(profiles or ())), "mm" if units == "mm" else "in")


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
