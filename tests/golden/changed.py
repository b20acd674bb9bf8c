"""Golden drawings compared as geometry, and shown as pictures where they differ."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from xml.etree import ElementTree

import resvg_py
from PIL import Image, ImageChops

from generator.lettering import DEJAVU, font_file

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
WIDTH = 1600
"""Dots across a picture."""
Element = tuple[str, tuple[float, ...], str]


def changed(before: Mapping[str, bytes], after: Mapping[str, bytes]) -> tuple[str, ...]:
    """Names of the drawings that are not the same; one that only one side has is among them."""
    names = sorted({*before, *after})
    return tuple(n for n in names if n not in before or n not in after or not same(before[n], after[n]))


def same(before: bytes, after: bytes) -> bool:
    """True where both draw the same to 0.01 mm. Only fills must come in the same order, as they hide each other."""
    if before == after:
        return True
    (fills, strokes), (other_fills, other_strokes) = _drawn(before), _drawn(after)
    return fills == other_fills and strokes == other_strokes


def _drawn(svg: bytes) -> tuple[list[Element], Counter[Element]]:
    elements = [(e.tag.rpartition("}")[2], e.attrib, e.text or "") for e in ElementTree.fromstring(svg).iter()]
    seen = [(_element(tag, attributes, text), _fills(tag, attributes)) for tag, attributes, text in elements]
    return [e for e, fills in seen if fills], Counter(e for e, fills in seen if not fills)


def _fills(tag: str, attributes: Mapping[str, str]) -> bool:
    return tag != "text" and attributes.get("fill", "none") != "none"


def _element(tag: str, attributes: Mapping[str, str], text: str) -> Element:
    """Its tag, its numbers in their order, and all of its words."""
    said = "|".join(f"{key}={attributes[key]}" for key in sorted(attributes))
    numbers = tuple(round(float(n), 2) for n in NUMBER.findall(said))
    return tag, numbers, f"{NUMBER.sub('#', said)}|{text.strip()}"


def show(name: str, before: bytes | None, after: bytes | None, folder: Path) -> Path:
    """Writes NAME-before.png, NAME-after.png and NAME-difference.png; the difference's path.

    In the difference what is gone is red, what is new is blue, what stayed is grey.
    """
    folder.mkdir(parents=True, exist_ok=True)
    stem = Path(name).stem
    pictures = [_picture(svg) for svg in (before, after) if svg is not None]
    size = (max(p.width for p in pictures), max(p.height for p in pictures))
    old, new = (_on_paper(svg, size) for svg in (before, after))
    difference = Image.merge("RGB", (new, ImageChops.darker(old, new), old))
    for end, picture in (("before", old), ("after", new), ("difference", difference)):
        picture.save(folder / f"{stem}-{end}.png")
    return folder / f"{stem}-difference.png"


def _picture(svg: bytes) -> Image.Image:
    """In greys, all writing in a typeface that every machine has."""
    files = [str(font_file(DEJAVU.name(bold))) for bold in (False, True)]
    png = resvg_py.svg_to_bytes(
        svg_string=svg.decode(),
        width=WIDTH,
        dpi=96.0,
        skip_system_fonts=True,
        font_files=files,
        sans_serif_family=DEJAVU.family,
        background="#ffffff",
    )
    return Image.open(io.BytesIO(bytes(png))).convert("L")


def _on_paper(svg: bytes | None, size: tuple[int, int]) -> Image.Image:
    """On white of that size; nothing but white where there is no drawing."""
    paper = Image.new("L", size, 255)
    if svg is not None:
        paper.paste(_picture(svg))
    return paper
