"""Typefaces: which one writes a text, how wide it is written, and what none of them can write.

Helvetica, a standard font of every PDF reader, writes what Windows code page 1252 holds: nothing has to be embedded.
Any other text (Greek, Cyrillic, Polish, a prime) is written whole in DejaVu Sans, embedded as far as it is used. Its
files come with matplotlib, which the solid kernel needs anyway; their licence is that of Bitstream Vera.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class Typeface:
    """`plain` and `bold`: its PDF names; `capital`: height of its capitals, `descent`: depth of its descenders, em."""

    family: str
    plain: str
    bold: str
    capital: float
    descent: float

    def name(self, bold: bool) -> str:
        """The PDF name of its upright or its bold cut."""
        return self.bold if bold else self.plain


HELVETICA = Typeface("Helvetica", "Helvetica", "Helvetica-Bold", 0.718, 0.207)
"""Sizes from its published font metrics."""
DEJAVU = Typeface("DejaVu Sans", "DejaVuSans", "DejaVuSans-Bold", 0.729, 0.236)
"""Sizes from the font's own tables: the top of its H, and hhea."""


def typeface(text: str) -> Typeface:
    """The one that writes the text."""
    return HELVETICA if _in_helvetica(text) else DEJAVU


def written_width(text: str, capitals: float, bold: bool = False) -> float:
    """Of one line whose capitals are `capitals` mm high, in mm, from the font's own metrics."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    face = typeface(text)
    return float(stringWidth(text, known(face, bold), capitals / face.capital))


def known(face: Typeface, bold: bool) -> str:
    """The font's PDF name, which reportlab knows from now on."""
    name = face.name(bold)
    if face is DEJAVU:
        _registered(name)
    return name


def unwritable(text: str) -> str:
    """Why the drawings cannot show the text, as the end of a sentence; empty where they can."""
    for letter in "".join(text.split()):
        if unicodedata.category(letter).startswith("C"):
            return f"holds a sign that cannot be seen, U+{ord(letter):04X}; leave it out"
        if unicodedata.bidirectional(letter) in ("R", "AL"):
            return f"holds `{letter}`, which is written from right to left; the drawings can only write the other way"
        if unicodedata.combining(letter) or not (_in_helvetica(letter) or _in_dejavu(letter)):
            return f"holds `{letter}`, which no typeface of the drawings has; write it in Latin, Greek or Cyrillic"
    return ""


def font_file(name: str) -> Path:
    """The file of a cut of DejaVu Sans, found without loading the package that brings it."""
    spec = find_spec("matplotlib")
    folders = spec.submodule_search_locations if spec else None
    if not folders:
        raise FileNotFoundError(f"{name}.ttf: matplotlib, which brings it, is not installed")
    return Path(next(iter(folders))) / "mpl-data" / "fonts" / "ttf" / f"{name}.ttf"


def _in_helvetica(text: str) -> bool:
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


def _in_dejavu(letter: str) -> bool:
    return ord(letter) in _registered(DEJAVU.plain).face.charToGlyph


@cache
def _registered(name: str) -> Any:
    """The font as reportlab has it."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    font = TTFont(name, str(font_file(name)))
    registerFont(font)
    return font
