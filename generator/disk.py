"""Puts a build on the disk: whole or not at all, and never over a file that is not its own."""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from generator import __version__
from generator.errors import InputError, Problem

MANIFEST = "manifest.json"


def swap_in(target: Path, files: Mapping[str, bytes], head: Mapping[str, str]) -> None:
    """Make `target` hold these files (by relative path) and a manifest of them, in one step.

    Files that an earlier build's manifest lists are replaced or removed; all others in the folder stay. A
    crash leaves the earlier build, in the folder itself or, between two renames, beside it under a name
    that the next build puts back. InputError where the target is no folder, or a file that is not ours
    has a name that we need; OSError as the system raises it.
    """
    target = target.resolve()
    target.parent.mkdir(parents=True, exist_ok=True)
    aside = target.with_name(f".{target.name}.previous")
    _restore(target, aside)
    kept = _foreign(target)
    _refuse_clashes(target, kept, files)
    fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
    try:
        _write_all(fresh, files, head)
        _carry_over(target, fresh, kept)
        fresh.chmod(0o755)
        if target.exists():
            target.rename(aside)
        fresh.rename(target)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    shutil.rmtree(aside, ignore_errors=True)


def refuse_to_replace(target: Path) -> None:
    """InputError where the target is there already, or has no folder to be written in."""
    if target.exists():
        raise InputError((Problem(str(target), 0, "is there already; choose another name, or move it away"),))
    if not target.absolute().parent.is_dir():
        raise InputError((Problem(str(target), 0, "would be in a folder that is not there"),))


def write_new(target: Path, data: bytes) -> None:
    """A new file, whole or not at all; never over another. InputError where the name is taken, OSError as raised."""
    refuse_to_replace(target)
    handle, fresh = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.absolute().parent)
    try:
        with open(handle, "wb") as file:  # noqa: PTH123  (a handle, not a path)
            file.write(data)
        Path(fresh).chmod(0o644)
        Path(fresh).rename(target)
    finally:
        Path(fresh).unlink(missing_ok=True)


def manifest(files: Mapping[str, bytes], head: Mapping[str, str]) -> bytes:
    """The list of a build's files with their sizes and SHA-256 hashes; it does not list itself."""
    rows = [
        {"path": path, "bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
        for path, data in sorted(files.items())
    ]
    text = json.dumps({"made_by": f"boardwright {__version__}", **head, "files": rows}, indent=1)
    return (text + "\n").encode()


def _restore(target: Path, aside: Path) -> None:
    """Put back a build that a crash left aside; one that stands beside a finished build is old."""
    if not aside.exists():
        return
    if target.exists():
        shutil.rmtree(aside)
    else:
        aside.rename(target)


def _foreign(target: Path) -> tuple[Path, ...]:
    """Files in the target, relative to it, that no manifest of ours lists."""
    if not target.exists():
        return ()
    if not target.is_dir():
        raise InputError((Problem(str(target), 0, "is a file; name a folder for the build"),))
    own = _listed(target)
    found = (path.relative_to(target) for path in target.rglob("*") if path.is_file() or path.is_symlink())
    return tuple(sorted(path for path in found if path.as_posix() not in own))


def _listed(target: Path) -> frozenset[str]:
    """What the manifest in the target lists, itself included; nothing where there is none of ours."""
    try:
        read = json.loads((target / MANIFEST).read_text(encoding="utf-8"))
        listed = [str(row["path"]) for row in read["files"]]
        made_by = str(read["made_by"])
    except (OSError, ValueError, KeyError, TypeError):
        return frozenset()
    return frozenset((*listed, MANIFEST)) if made_by.startswith("boardwright ") else frozenset()


def _refuse_clashes(target: Path, kept: tuple[Path, ...], files: Mapping[str, bytes]) -> None:
    names = {path.as_posix() for path in kept}
    clashes = sorted(names & {*files, MANIFEST})
    if clashes:
        message = "was not written by a build; move it, or build into another folder"
        raise InputError(tuple(Problem(str(target / name), 0, message) for name in clashes))


def _write_all(folder: Path, files: Mapping[str, bytes], head: Mapping[str, str]) -> None:
    for name, data in {**files, MANIFEST: manifest(files, head)}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


def _carry_over(target: Path, fresh: Path, kept: tuple[Path, ...]) -> None:
    for path in kept:
        (fresh / path).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(target / path, fresh / path, follow_symlinks=False)
