"""A build reaches the disk whole or not at all, and takes nothing that is not its own."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from generator import disk
from generator.disk import swap_in
from generator.errors import InputError

HEAD = {"room": "test"}


def _tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_second_build_removes_what_only_the_first_had_and_keeps_a_strangers_file(tmp_path: Path) -> None:
    target = tmp_path / "out"
    swap_in(target, {"a.txt": b"1", "parts/b.txt": b"2"}, HEAD)
    (target / "parts" / "mine.txt").write_text("a person's note")
    swap_in(target, {"a.txt": b"3"}, HEAD)
    tree = _tree(target)
    assert set(tree) == {"a.txt", "parts/mine.txt", "manifest.json"}
    assert (tree["a.txt"], tree["parts/mine.txt"]) == (b"3", b"a person's note")
    assert list(tmp_path.iterdir()) == [target]


def test_the_manifest_lists_hashes_but_not_itself(tmp_path: Path) -> None:
    swap_in(tmp_path / "out", {"a.txt": b"abc"}, HEAD)
    listed = json.loads((tmp_path / "out" / "manifest.json").read_text())["files"]
    assert listed == [{"path": "a.txt", "bytes": 3, "sha256": hashlib.sha256(b"abc").hexdigest()}]


def test_a_strangers_file_is_never_overwritten(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("not ours")
    with pytest.raises(InputError, match=r"a\.txt: was not written by a build"):
        swap_in(tmp_path, {"a.txt": b"1"}, HEAD)
    assert (tmp_path / "a.txt").read_text() == "not ours"


def test_a_file_as_target_is_refused(tmp_path: Path) -> None:
    (tmp_path / "f").write_text("x")
    with pytest.raises(InputError, match="is a file"):
        swap_in(tmp_path / "f", {"a.txt": b"1"}, HEAD)


def test_a_crash_while_writing_leaves_the_earlier_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "out"
    swap_in(target, {"a.txt": b"1"}, HEAD)
    before = _tree(target)

    def full(*_: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr(disk, "_carry_over", full)
    with pytest.raises(OSError, match="no space"):
        swap_in(target, {"a.txt": b"2"}, HEAD)
    assert _tree(target) == before
    assert list(tmp_path.iterdir()) == [target]


def test_a_crash_between_the_renames_is_mended_by_the_next_build(tmp_path: Path) -> None:
    target = tmp_path / "out"
    swap_in(target, {"a.txt": b"1"}, HEAD)
    (target / "mine.txt").write_text("note")
    target.rename(tmp_path / ".out.previous")
    swap_in(target, {"b.txt": b"2"}, HEAD)
    assert set(_tree(target)) == {"b.txt", "mine.txt", "manifest.json"}
    assert list(tmp_path.iterdir()) == [target]
