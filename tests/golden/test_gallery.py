"""The README's pictures are what the tool draws today; when a drawing changes, look, then remake them."""

from __future__ import annotations

import re

from tests.golden.gallery import GALLERY, ROOT, gallery


def test_the_gallery_is_what_the_tool_draws() -> None:
    made = gallery()
    kept = {path.name: path.read_bytes() for path in sorted(GALLERY.glob("*.svg"))}
    changed = sorted(name for name in {*made, *kept} if made.get(name) != kept.get(name))
    assert not changed, "look at these, then run `python -m tests.golden.gallery`"


def test_every_picture_of_the_readme_is_there() -> None:
    shown = re.findall(r"!\[[^]]*\]\(([^)]+)\)", (ROOT / "README.md").read_text(encoding="utf-8"))
    assert shown
    assert [path for path in shown if not (ROOT / path).exists()] == []
