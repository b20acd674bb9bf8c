"""The README's pictures are what the tool draws today; when a drawing changes, look, then remake them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PIL import Image

from tests.golden.changed import changed, same, show
from tests.golden.gallery import CHANGED, GALLERY, ROOT, gallery

LINE = re.compile(r'<path d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+)" fill="none"')


def _kept() -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(GALLERY.glob("*.svg"))}


def test_the_gallery_is_what_the_tool_draws() -> None:
    made, kept = gallery(), _kept()
    names = changed(kept, made)
    for name in names:
        show(name, kept.get(name), made.get(name), CHANGED)
    assert not names, f"look at the pictures in {CHANGED}, then run `python -m tests.golden.gallery`"


def test_every_picture_of_the_readme_is_there() -> None:
    shown = re.findall(r"!\[[^]]*\]\(([^)]+)\)", (ROOT / "README.md").read_text(encoding="utf-8"))
    assert shown
    assert [path for path in shown if not (ROOT / path).exists()] == []


def _moved(svg: bytes, mm: float) -> tuple[bytes, re.Match[str]]:
    """A drawing with its longest level line moved up, and that line."""
    text = svg.decode()
    level = [m for m in LINE.finditer(text) if m[2] == m[4]]
    line = max(level, key=lambda m: abs(float(m[3]) - float(m[1])))
    y = f"{float(line[2]) - mm:g}"
    other = line[0].replace(f"{line[2]} L", f"{y} L").replace(f'{line[4]}"', f'{y}"')
    return text.replace(line[0], other, 1).encode(), line


def test_a_line_that_moved_is_shown_red_where_it_was_and_blue_where_it_is(tmp_path: Path) -> None:
    before = _kept()["takeoff.svg"]
    after, line = _moved(before, 0.6)
    assert changed({"a.svg": before}, {"a.svg": after}) == ("a.svg",)
    picture = Image.open(show("a.svg", before, after, tmp_path)).convert("RGB")
    width = float(re.search(r'viewBox="0 0 ([\d.]+)', before.decode())[1])  # type: ignore[index]
    dots = picture.width / width
    x, y = round((float(line[1]) + 1.0) * dots), float(line[2]) * dots

    def red_or_blue(at: float) -> set[str]:
        near = [picture.getpixel((x, round(at) + i)) for i in (-1, 0, 1)]
        return {("red" if r > b else "blue") for r, _, b in near if abs(r - b) > 60}  # type: ignore[misc]

    assert red_or_blue(y) == {"red"}
    assert red_or_blue(y - 0.6 * dots) == {"blue"}
    assert {p.name for p in tmp_path.iterdir()} == {"a-before.png", "a-after.png", "a-difference.png"}


@pytest.mark.parametrize("mm", [0.001, 0.6])
def test_drawings_are_compared_as_geometry(mm: float) -> None:
    """A thousandth of a mm is noise; so is the order of lines. A word is not."""
    before = _kept()["takeoff.svg"]
    after, line = _moved(before, mm)
    assert same(before, after) == (mm < 0.005)
    (whole,) = [row for row in before.decode().split("\n") if row.startswith(line[0])][:1]
    last = before.decode().replace(f"{whole}\n", "", 1).replace("</svg>", f"{whole}\n</svg>").encode()
    assert last != before
    assert same(before, last)
    assert not same(before, before.replace(b"Take-off", b"Take-out"))


def test_a_drawing_that_is_new_is_all_blue(tmp_path: Path) -> None:
    assert changed({}, {"new.svg": b""}) == ("new.svg",)
    picture = Image.open(show("new.svg", None, _kept()["takeoff.svg"], tmp_path)).convert("RGB")
    colours = {(r > b) - (r < b) for _, (r, _, b) in picture.getcolors(1 << 24)}  # type: ignore[misc,union-attr]
    assert colours == {0, -1}
