"""The commands. Prints; everything else is asked of `build` and below.

Exit codes: 0 no rule fails, 1 a rule fails, 2 bad input (nothing is written).
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated, Optional

import typer

from generator import __version__
from generator.errors import CannotPlanError, InputError, MissingSystemLibraryError

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


def _complain(text: str) -> None:
    typer.echo(text, err=True)
    raise typer.Exit(BAD_INPUT)


@app.command()
def check(room_file: RoomFile, profiles: ProfileDirs = None) -> None:
    """Plan a room and print what the checks find; writes nothing."""
    from generator.build import check_room
    from generator.checks.table import findings_table

    with _said_to_people():
        checked = check_room(room_file, tuple(profiles or ()))
    typer.echo(findings_table(checked.room, checked.findings))
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
    typer.echo(findings_table(built.room, built.findings))
    typer.echo(f"{len(built.files)} files in {out}")
    raise typer.Exit(1 if built.failed else 0)


@contextmanager
def _progress() -> Iterator[object]:
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
    from generator.checks.explain import explain as explained
    from generator.reading import load_catalogue

    with _said_to_people():
        typer.echo(explained(load_catalogue(tuple(profiles or ())), rule))


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
    raise typer.Exit(0)


def main() -> None:
    """The command's entry: as `app`, but an error of the program itself is a sentence, not a traceback."""
    try:
        app()
    except Exception as error:
        where = error.__traceback__
        while where is not None and where.tb_next is not None:
            where = where.tb_next
        place = f"{Path(where.tb_frame.f_code.co_filename).name}:{where.tb_lineno}" if where else "?"
        message = f"boardwright {__version__} has a fault of its own ({type(error).__name__} at {place}: {error}); nothing was written. Please report it with the room file."
        typer.echo(message, err=True)
        sys.exit(INTERNAL)
