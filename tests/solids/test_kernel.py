"""A missing system library gives a sentence that names the Debian package."""

from __future__ import annotations

import sys
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec

import pytest

from generator.errors import MissingSystemLibraryError
from generator.solids.kernel import at, in_wall, kernel
from tests.worked_plan import worked_plan


class NoGraphics(MetaPathFinder):
    """Fails as the loader does where libGL is absent."""

    def find_spec(self, name: str, path: object, target: object = None) -> ModuleSpec | None:  # noqa: ARG002
        if name == "cadquery":
            raise ImportError("libGL.so.1: cannot open shared object file: No such file or directory")
        return None


def test_absent_library_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "cadquery", raising=False)
    monkeypatch.setattr(sys, "meta_path", [NoGraphics(), *sys.meta_path])
    with pytest.raises(MissingSystemLibraryError, match=r"libGL\.so\.1.*libgl1"):
        kernel()


def test_wall_frame_and_back() -> None:
    for wall in worked_plan().walls:
        assert in_wall(wall, at(wall, 10.0, 20.0, 30.0)) == pytest.approx((10.0, 20.0, 30.0))


def test_right_wall_stands_where_worked_by_hand() -> None:
    assert at(worked_plan().wall("right"), 100.0, 50.0, 12.7) == pytest.approx((60.25 * 25.4 - 12.7, -100.0, 50.0))
