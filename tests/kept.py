"""What is slow to make is made once in a run of the tests, whatever process asks for it first."""

from __future__ import annotations

import os
import pickle
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar, cast

T = TypeVar("T")


def kept(name: str, make: Callable[[], T]) -> T:
    """What `make` gives, from the run's folder if a process of the same run has put it there."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID", "")
    if not run:
        return make()
    file = folder(run) / f"{name}.pickle"
    if file.exists():
        return cast(T, pickle.loads(file.read_bytes()))
    made = make()
    file.parent.mkdir(exist_ok=True)
    own = file.with_suffix(f".{os.getpid()}")
    own.write_bytes(pickle.dumps(made))
    own.replace(file)
    return made


def folder(run: str) -> Path:
    return Path(tempfile.gettempdir()) / f"boardwright-tests-{run}"


def clear(run: str) -> None:
    shutil.rmtree(folder(run), ignore_errors=True)
