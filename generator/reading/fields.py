"""The kinds of value that files hold: how each is read from text, and what an editor is told about it.

Values arrive as the text that was written (see `source`); numbers are taken too, for callers with plain data.
Units of bare lengths come from the validation context, `{"units": "in" | "mm"}`.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import Annotated, Any, TypeVar
from unicodedata import normalize

from pydantic import BaseModel, ConfigDict, Field, PlainValidator, ValidationInfo

from generator.lettering import unwritable
from generator.units import Length, LengthError, Units, parse_length

_NUMERAL = re.compile(r"-?(0|[1-9][0-9]{0,14})(\.[0-9]{1,15})?")
_NAME = r"[A-Za-z][A-Za-z0-9_-]{0,31}"
_LONGEST_TEXT = 400
_FLUID_OUNCE = 29.5735295625
"""ml in one US fluid ounce: 231 / 128 cubic inches, exact by definition."""
_SMALLEST = Fraction(1, 10)
"""mm: no part of a room is smaller."""
_VOLUMES = {"ml": 1.0, "l": 1000.0, "fl oz": _FLUID_OUNCE}

Item = TypeVar("Item")
Many = Annotated[tuple[Item, ...], Field(strict=False)]
"""A list in the file, a tuple here."""


class Shape(BaseModel):
    """What a mapping in a file may hold: these keys and no others."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


def read_text(value: Any) -> str:
    """A line of text; an empty value is an empty text."""
    if value is None:
        return ""
    if isinstance(value, bool | dict | list):
        raise ValueError(f"a text is expected here, not {said(value)}")
    text = normalize("NFC", str(value).strip())
    if len(text) > _LONGEST_TEXT:
        raise ValueError(f"{said(text)} is longer than {_LONGEST_TEXT} characters")
    if why := unwritable(text):
        raise ValueError(f"{said(text)} {why}")
    return text


def _words(value: Any) -> str:
    text = read_text(value)
    if not text:
        raise ValueError("nothing is written here")
    return text


def _name(value: Any) -> str:
    text = _words(value)
    if not re.fullmatch(_NAME, text):
        raise ValueError(f"{said(value)} is no name; write letters a to z, digits, - and _, at most 32, a letter first")
    return text


def said(value: Any) -> str:
    """A wrong value, as a message names it."""
    if isinstance(value, dict):
        return "a group of keys"
    if isinstance(value, list):
        return "a list"
    if value is None:
        return "nothing"
    text = " ".join(str(value).split())
    return f"`{text if len(text) <= 40 else text[:37] + '...'}`"


def read_number(value: Any) -> float:
    """A plain decimal number."""
    text = str(value) if isinstance(value, str | int | float) and not isinstance(value, bool) else ""
    if not _NUMERAL.fullmatch(text.strip()):
        raise ValueError(f"a plain number such as 12 or 0.5 is expected here, not {said(value)}")
    return float(text)


def _amount(value: Any) -> float:
    number = read_number(value)
    if number < 0:
        raise ValueError(f"{said(value)} is negative; zero or more is expected here")
    return number


def _count(value: Any) -> int:
    number = _amount(value)
    if number != int(number) or number > 1e9:
        raise ValueError(f"a whole number is expected here, not {said(value)}")
    return int(number)


def _share(value: Any) -> float:
    number = _amount(value)
    if number > 1:
        raise ValueError(f"a share from 0 to 1 is expected here, not {said(value)}")
    return number


def _flag(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    if value not in ("true", "false"):
        raise ValueError(f"`true` or `false` is expected here, not {said(value)}")
    return bool(value == "true")


def read_length(value: Any, units: Units) -> Length:
    """A length of zero or more."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(f"a length such as 60 1/4 is expected here, not {said(value)}")
    return parse_length(value, units)


def context_units(info: ValidationInfo) -> Units:
    """The unit of bare numbers in the file that is being read."""
    return "mm" if (info.context or {}).get("units") == "mm" else "in"


def _span(value: Any, info: ValidationInfo) -> Length:
    return read_length(value, context_units(info))


def _lean(value: Any, info: ValidationInfo) -> Length:
    """A length that may be negative, with a minus sign before it."""
    text = str(value).strip() if isinstance(value, str | int | float) else value
    if isinstance(text, str) and text.startswith("-"):
        length = read_length(text[1:], context_units(info))
        return replace(length, text=text, exact=-length.exact)
    return read_length(value, context_units(info))


def _size(value: Any, info: ValidationInfo) -> Length:
    length = read_length(value, context_units(info))
    if length.exact < _SMALLEST:
        raise LengthError(f"{said(value)} is next to nothing; a length of more than 0.1 mm is expected here")
    return length


def _volume(value: Any) -> float:
    match = re.fullmatch(r"([0-9.]+) *(ml|l|fl oz)", value) if isinstance(value, str) else None
    if not match:
        raise ValueError(f"a volume such as 300 ml or 10.1 fl oz is expected here, not {said(value)}")
    return _amount(match[1]) * _VOLUMES[match[2]]


_LENGTH_SCHEMA = float | str
Text = Annotated[str, PlainValidator(read_text, json_schema_input_type=float | str | None)]
Words = Annotated[str, PlainValidator(_words, json_schema_input_type=float | Annotated[str, Field(min_length=1)])]
"""A text that says something."""
Name = Annotated[str, PlainValidator(_name, json_schema_input_type=Annotated[str, Field(pattern=f"^{_NAME}$")])]
"""A name that becomes an id."""
Number = Annotated[float, PlainValidator(read_number, json_schema_input_type=float)]
Amount = Annotated[float, PlainValidator(_amount, json_schema_input_type=Annotated[float, Field(ge=0)])]
Share = Annotated[float, PlainValidator(_share, json_schema_input_type=Annotated[float, Field(ge=0, le=1)])]
Count = Annotated[int, PlainValidator(_count, json_schema_input_type=Annotated[int, Field(ge=0)])]
Flag = Annotated[bool, PlainValidator(_flag, json_schema_input_type=bool)]
Volume = Annotated[float, PlainValidator(_volume, json_schema_input_type=str)]
Span = Annotated[Length, PlainValidator(_span, json_schema_input_type=_LENGTH_SCHEMA)]
"""A length of zero or more."""
Lean = Annotated[Length, PlainValidator(_lean, json_schema_input_type=_LENGTH_SCHEMA)]
"""A length that may be negative."""
Size = Annotated[Length, PlainValidator(_size, json_schema_input_type=_LENGTH_SCHEMA)]
"""A length of more than zero."""
