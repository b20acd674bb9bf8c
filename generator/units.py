"""Lengths as people write and read them. Millimetres inside, feet and inches only here and on paper."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor
from typing import Literal

INCH = 25.4
"""mm in one inch, exact by definition (international yard and pound agreement, 1959)."""

Units = Literal["in", "mm"]


_POINT = re.compile(r"(?<=[0-9])\.(?=[0-9])")


@dataclass(frozen=True, slots=True)
class PaperUnits:
    """What paper says lengths in: the main unit and, where both are wanted, the `other` behind it in brackets.

    `comma`: the sign before decimals; a point by default.
    """

    main: Units
    other: Units | None = None
    comma: bool = False

    @property
    def each(self) -> tuple[Units, ...]:
        """The main one first."""
        return (self.main, self.other) if self.other else (self.main,)


@dataclass(frozen=True, slots=True)
class Length:
    """A length as entered: exact in mm, with the text that the person wrote."""

    exact: Fraction
    text: str

    @property
    def mm(self) -> float:
        return float(self.exact)


def paper_step(units: Units) -> float:
    """The step that lengths on paper are rounded to, in mm: 1/16 in or 1 mm."""
    return INCH / 16 if units == "in" else 1.0


def in_each(units: Units | PaperUnits, say: Callable[[Units], str]) -> str:
    """What `say` says in the main unit and, where paper has another, behind it in square brackets (dual dimensioning
    by the bracket method: the place is the same throughout a drawing)."""
    if not isinstance(units, PaperUnits):
        return say(units)
    main, *others = (_POINT.sub(",", say(one)) if units.comma else say(one) for one in units.each)
    return " ".join((main, *(f"[{other}]" for other in others)))


def either(units: Units | PaperUnits, inches: str, metric: str) -> str:
    """Of two texts for one quantity the one in the unit of the paper, or both as `in_each` has them."""
    return in_each(units, lambda one: inches if one == "in" else metric)


def decimals(number: str, units: Units | PaperUnits) -> str:
    """A number that is no length, with the sign before its decimals that the lengths beside it have."""
    return _POINT.sub(",", number) if isinstance(units, PaperUnits) and units.comma else number


def label(mm: float, units: Units | PaperUnits) -> str:
    """A computed length as paper says it, rounded half up, once: `60 1/4"`, `1530` in mm, `60 1/4" [1530]` in both."""
    return in_each(units, lambda one: _label(mm, one))


def label_size(lengths: Iterable[float], units: Units | PaperUnits) -> str:
    """Width by height, and by depth: `36" x 60"`, in both units `36" x 60" [914 x 1524]`."""
    sides = tuple(lengths)
    return in_each(units, lambda one: " x ".join(_label(mm, one) for mm in sides))


def _label(mm: float, units: Units) -> str:
    return str(_half_up(mm)) if units == "mm" else _inches(mm, 16)


def _inches(mm: float, parts: int) -> str:
    """Inches with a fraction, to one of so many parts of an inch."""
    steps = _half_up(mm / INCH * parts)
    sign = "-" if steps < 0 else ""
    whole, rest = divmod(abs(steps), parts)
    fraction = str(Fraction(rest, parts)) if rest else ""
    return sign + " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part) + '"'


def label_feet(mm: float, units: Units) -> str:
    """As `label`, in feet and inches from one foot up: `5'-0 1/4"`; plain mm in metric."""
    inches = _half_up(mm / INCH * 16) if units == "in" else 0
    if abs(inches) < 12 * 16:
        return _label(mm, units)
    feet, rest = divmod(abs(inches), 12 * 16)
    inch_text = _label(rest * INCH / 16, "in")
    zero = "0 " if 0 < rest < 16 else ""
    return f"{'-' if inches < 0 else ''}{feet}'-{zero}{inch_text}"


def label_opening(mm: float, units: Units | PaperUnits) -> str:
    """A diameter as paper says it, to the size of a drill: 1/32 in or 0.1 mm, rounded half up."""
    return in_each(units, lambda one: _label_opening(mm, one))


def _label_opening(mm: float, units: Units) -> str:
    if units == "in":
        return _inches(mm, 32)
    return str(Decimal(repr(round(mm, 9))).quantize(Decimal("0.1"), ROUND_HALF_UP)).removesuffix(".0")


def label_thickness(mm: float, units: Units | PaperUnits) -> str:
    """Of a board, as it is sold: a fraction of an inch, or mm with a tenth where it has one (`12.5`, not `13`)."""
    return in_each(units, lambda one: _label_thickness(mm, one))


def _label_thickness(mm: float, units: Units) -> str:
    return _label(mm, "in") if units == "in" else _label_opening(mm, "mm")


def label_named(mm: float, units: Units | PaperUnits) -> str:
    """As `label`, for a sentence: millimetres, which are bare on drawings only, carry their unit."""
    return in_each(units, lambda one: _named(_label(mm, one), one))


def size_named(lengths: Iterable[float], units: Units | PaperUnits) -> str:
    """As `label_size`, for where no drawing tells the unit."""
    sides = tuple(lengths)
    return in_each(units, lambda one: _named(label_size(sides, one), one))


def thickness_named(mm: float, units: Units | PaperUnits) -> str:
    """As `label_thickness`, for where no drawing tells the unit."""
    return in_each(units, lambda one: _named(_label_thickness(mm, one), one))


def _named(text: str, units: Units) -> str:
    return f"{text} mm" if units == "mm" else text


def to_units(mm: float, units: Units) -> float:
    """The number that a drawing in these units carries: inches at 9 decimals, mm at 6 (see technology notes)."""
    return round(mm / INCH, 9) + 0.0 if units == "in" else round(mm, 6) + 0.0


def _half_up(value: float) -> int:
    """Nearest whole number, halves up; float noise of 1e-9 does not push a half down."""
    return floor(round(value, 9) + 0.5)


class LengthError(ValueError):
    """A text that is no length, or could be read as two; the message says why and what to write."""


LONGEST = Fraction(30_000)
"""mm: anything longer in a bathroom is a slip of the pen."""
_MM = {"in": Fraction(127, 5), "ft": Fraction(1524, 5), "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_UNITS = {'"': "in", "in": "in", "mm": "mm", "cm": "cm", "m": "m"}
_NUMBER = r"(?:[0-9]+(?: +|-))?[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+"
_FEET = re.compile(rf"({_NUMBER}) *('|ft\.?|foot|feet)(?:(?:-| *)({_NUMBER}) *(\"|in\.?|inch|inches))?")
_ONE = re.compile(rf"({_NUMBER}) *(\"|in\.?|inch|inches|mm|cm|m|)")
_REASONS = (
    (r"", "nothing is written here; a length is a number such as 60 1/4"),
    (r"[-−].*", "a length is never negative; measure from the other end"),
    (r"[+].*", "a length carries no sign"),
    (r".*(nan|inf(?!\w)|infinity).*", "that is not a number"),
    (r"0[xob].*", "that is programmer's notation; write the plain number"),
    (r".*[0-9]_.*", "leave the underscores out"),
    (r".*[0-9]e[-+]?[0-9].*", "write the number in full, without an exponent"),
    (r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}.*", "that is a date"),
    (r".*[0-9],[0-9]{3}\b.*", "is the comma a decimal point or does it part thousands? write 1530 or 1.53"),
    (r".*,.*", "write a decimal point, not a comma"),
    (r".*/[^/]*[- ]+[0-9]*/.*", "two fractions follow each other; write one number"),
    (r".*/ *[0-9]+ */.*", "two strokes in one fraction"),
    (r".*('|ft|feet|foot)[- ]*[0-9][-0-9/ .]*", "the inches lack their mark; write 5' 3\""),
    (
        r".*(in|inch|inches|\"|'|ft|feet|foot|mm|cm|m).*[0-9].*",
        "units are mixed; write feet and inches, or one unit",
    ),
    (r".*[0-9] +-.*|.*[0-9]- .*", "is that a minus sign or a joint? write 60-1/4 or 60 1/4"),
    (r".*[0-9][- ]+[0-9].*", "two numbers stand side by side; was 60 1/4 or 601 meant?"),
    (r".*\..*\..*", "two decimal points"),
    (r".*[0-9]\.(?![0-9]).*", "a digit is missing after the decimal point"),
    (r".*/.*", "the fraction is not complete; write 1/4"),
    (r".*[0-9] *[^0-9 ]+", "the unit is unknown; write in, ft, mm, cm or m"),
    (r".*", "write a number with an optional unit, such as 60 1/4 or 1530 mm"),
)
_GLYPHS = str.maketrans(
    {"’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "″": '"', "‐": "-", "‑": "-", "–": "-", "\xa0": " "}
)


def parse_length(text: str | int | float, default: Units) -> Length:
    """A length as a person writes it; bare numbers are in `default` units. LengthError says what is unclear.

    Read: `60 1/4`, `60-1/4"`, `5' 0-1/4"`, `5 ft 3/4 in`, `1530 mm`, `153 cm`, `1.53 m`, `60.25`.
    """
    entered = text if isinstance(text, str) else repr(text)
    plain = _plain(entered)
    feet, one = _FEET.fullmatch(plain), _ONE.fullmatch(plain)
    if feet:
        exact = _feet_inches(feet[1], feet[3], entered)
    elif one:
        exact = _single(one[1], _UNITS.get(one[2][:2].rstrip("."), default), entered)
    else:
        raise LengthError(f"{_quoted(entered)}: {_reason(plain)}")
    if exact > LONGEST:
        raise LengthError(f"{_quoted(entered)} is longer than 30 m; check the number and its unit")
    return Length(exact, entered.strip())


def _reason(plain: str) -> str:
    """Why this text is no length."""
    return next(reason for pattern, reason in _REASONS if re.fullmatch(pattern, plain, re.DOTALL))


def _feet_inches(feet: str, inches: str | None, entered: str) -> Fraction:
    """Feet with or without inches, in mm."""
    size = _number(feet, entered) * _MM["ft"]
    if inches is None:
        return size
    if not feet.isdecimal():
        raise LengthError(
            f"{_quoted(entered)}: a part of a foot and inches too; write whole feet and inches, or inches alone"
        )
    rest = _number(inches, entered)
    if rest >= 12:
        raise LengthError(f"{_quoted(entered)}: 12 inches or more beside feet; is that one foot more, or a slip?")
    return size + rest * _MM["in"]


def _single(number: str, unit: str, entered: str) -> Fraction:
    """A number in one unit, in mm."""
    if "/" in number and unit not in ("in", "ft"):
        raise LengthError(f"{_quoted(entered)}: a fraction in metric; were inches meant? write the unit, or a decimal")
    return _number(number, entered) * _MM[unit]


def _number(text: str, entered: str) -> Fraction:
    """A whole number, a decimal, a fraction or a whole number with a fraction, exactly."""
    words = re.split("[- ]+", text)
    if any(re.match("0[0-9]", part) for word in words for part in word.split("/")):
        raise LengthError(f"{_quoted(entered)}: a number does not begin with 0; leave the 0 out")
    if "/" not in text:
        return Fraction(text)
    top, bottom = (int(part) for part in words[-1].split("/"))
    if bottom == 0:
        raise LengthError(f"{_quoted(entered)}: a fraction with 0 below the stroke")
    if top >= bottom:
        raise LengthError(f"{_quoted(entered)}: a fraction of one or more; is a space missing, as in 1 1/4?")
    return sum((Fraction(word) for word in words), Fraction(0))


def _quoted(text: str) -> str:
    line = " ".join(text.split())
    return f"`{line if len(line) <= 40 else line[:37] + '...'}`"


def _plain(entered: str) -> str:
    """Primes, curly quotes and fraction glyphs in plain characters; a glyph keeps its distance from a digit."""
    if len(entered) > 60:
        raise LengthError(f"{_quoted(entered)} is too long to be a length")
    spaced = "".join(f" {_glyph(c)}" if _glyph(c) else c for c in entered)
    return re.sub(r"- (?=[0-9]+/)", "-", spaced.translate(_GLYPHS)).strip().lower()


def _glyph(char: str) -> str:
    """`1/2` for a fraction glyph, "" for any other character."""
    text = unicodedata.normalize("NFKC", char)
    return text.replace("\u2044", "/") if "\u2044" in text else ""
