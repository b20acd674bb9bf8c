"""The commands as a person runs them: exit codes, whole sentences, no traceback, nothing half-written."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

ROOT = Path(__file__).parent.parent
ROOMS = ROOT / "profiles" / "rooms"


def _run(*words: str, cwd: Path = ROOT, **environment: str) -> subprocess.CompletedProcess[str]:
    code = "from generator.cli import main; main()"
    own = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80", "TERM": "dumb", **environment}
    return subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True, cwd=cwd, env=own)


def test_a_failed_rule_exits_1_and_the_table_fits_80_columns_without_colour() -> None:
    done = _run("check", str(ROOMS / "recess-as-measured.yaml"))
    assert done.returncode == 1
    assert "move the stud at 16 1/4" in done.stdout
    assert max(len(line) for line in done.stdout.splitlines()) <= 80
    assert "\x1b" not in done.stdout


def test_a_passing_room_exits_0() -> None:
    assert _run("check", str(ROOMS / "corner-shower.yaml")).returncode == 0


def test_all_mistakes_of_a_file_are_told_with_their_lines_and_exit_2(tmp_path: Path) -> None:
    text = (ROOMS / "recess.yaml").read_text()
    lines = text.splitlines()
    wrong = next(i for i, line in enumerate(lines, 1) if "46 1/2" in line)
    lines[wrong - 1] = lines[wrong - 1].replace("46 1/2", "71")
    unit = next(i for i, line in enumerate(lines, 1) if line.startswith("units:"))
    lines[unit - 1] = "unts: in"
    room = tmp_path / "room.yaml"
    room.write_text("\n".join(lines))
    done = _run("build", str(room), "-o", str(tmp_path / "out"))
    assert done.returncode == 2
    assert f"room.yaml:{unit}:" in done.stderr
    assert "units" in done.stderr
    assert not (tmp_path / "out").exists()
    assert "Traceback" not in done.stderr


def test_a_stud_outside_its_wall_is_named_as_the_person_wrote_it(tmp_path: Path) -> None:
    text = (ROOMS / "recess.yaml").read_text().replace("46 1/2, 59 1/2]", "46 1/2, 71]")
    room = tmp_path / "room.yaml"
    room.write_text(text)
    done = _run("check", str(room))
    line = next(i for i, row in enumerate(text.splitlines(), 1) if "71]" in row)
    assert done.returncode == 2
    assert f'room.yaml:{line}: stud at 71 in lies outside the 60 1/4 in wall "back"' in done.stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("check", "nowhere.yaml"), "nowhere.yaml"),
        (("explain", "seam-on-axs"), "seam-on-axis"),
        (("profiles", "list", "bords"), "boards"),
        (("profiles", "show", "flanges", "thin"), "profiles list"),
        (("schema", "house"), "room, plan"),
        (("check", str(ROOMS)), "rooms"),
    ],
)
def test_wrong_words_get_a_sentence_and_exit_2(words: tuple[str, ...], said: str) -> None:
    done = _run(*words)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_a_build_is_the_same_bytes_on_any_day_hash_seed_and_folder(tmp_path: Path) -> None:
    room = str(ROOMS / "corner-shower.yaml")
    (tmp_path / "elsewhere").mkdir()
    first = _run("build", room, "-o", str(tmp_path / "a"), PYTHONHASHSEED="1", TZ="Asia/Tokyo")
    second = _run("build", room, "-o", "../b", cwd=tmp_path / "elsewhere", PYTHONHASHSEED="2", TZ="UTC")
    assert (first.returncode, second.returncode) == (0, 0), first.stderr + second.stderr
    ours, theirs = (
        {p.relative_to(tmp_path / d): p.read_bytes() for p in (tmp_path / d).rglob("*") if p.is_file()} for d in "ab"
    )
    assert ours == theirs
    names = {path.as_posix() for path in ours}
    assert {"labels.pdf", "lists.xlsx", "room.glb", "room.step", "pictures/room.svg", "drawings.pdf"} <= names
    sheets = range(1, len(PdfReader(tmp_path / "a" / "drawings.pdf").pages) + 1)
    assert {f"pictures/{i:02d}.{kind}" for i in sheets for kind in ("svg", "png")} <= names


def test_an_unwritable_target_is_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    done = _run("build", str(ROOMS / "corner-shower.yaml"), "-o", str(tmp_path / "file" / "out"))
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
