"""From plain data to shapes, with every error in words that say what would be right."""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from generator.reading.fields import said
from generator.reading.issues import Issue, join, nearest
from generator.units import Units

Model = TypeVar("Model", bound=BaseModel)
_TYPES = {
    "model_type": "a group of keys",
    "model_attributes_type": "a group of keys",
    "dict_type": "a group of keys",
    "tuple_type": "a list",
    "list_type": "a list",
}


def validate(shape: type[Model], data: Any, path: str, units: Units) -> tuple[Model | None, tuple[Issue, ...]]:
    """The shape that the data has, or None and what is wrong with it."""
    try:
        return shape.model_validate(data, context={"units": units}), ()
    except ValidationError as error:
        return None, tuple(_issue(shape, one, path) for one in error.errors(include_url=False))


def without_unknown(shape: type[Model], data: Any, path: str, units: Units) -> Model | None:
    """The shape, with unknown keys set aside, so that the rest can still be judged; None if more is wrong."""
    try:
        return shape.model_validate(data, context={"units": units})
    except ValidationError as error:
        errors = error.errors(include_url=False)
        if any(one["type"] != "extra_forbidden" for one in errors):
            return None
        return validate(shape, _without(data, {one["loc"] for one in errors}, ()), path, units)[0]


def without_broken(shape: type[Model], data: Any, path: str, units: Units) -> Model | None:
    """The shape, with every key set aside that has something wrong in it; None if what is left will not do."""
    try:
        return shape.model_validate(data, context={"units": units})
    except ValidationError as error:
        keys = {one["loc"][0] for one in error.errors(include_url=False) if one["loc"]}
    kept = {key: value for key, value in data.items() if key not in keys} if isinstance(data, dict) else {}
    return validate(shape, kept, path, units)[0]


def _without(data: Any, unknown: Set[tuple[int | str, ...]], here: tuple[int | str, ...]) -> Any:
    """A copy of the data, which lies `here`, without what lies at the unknown places."""
    if isinstance(data, list):
        return [_without(item, unknown, (*here, i)) for i, item in enumerate(data)]
    if isinstance(data, dict):
        kept = {key: (*here, key) for key in data}
        return {key: _without(data[key], unknown, at) for key, at in kept.items() if at not in unknown}
    return data


def _issue(shape: type[BaseModel], error: Any, path: str) -> Issue:
    loc, kind, value = error["loc"], error["type"], error["input"]
    where = join(path, *loc)
    if kind == "missing":
        return Issue(where, f"`{loc[-1]}` is missing{_meaning(shape, loc)}")
    if kind == "extra_forbidden":
        return Issue(where, f"unknown key {said(loc[-1])}{nearest(str(loc[-1]), _keys(shape, loc[:-1]))}")
    label = f"{loc[-1]}: " if loc and isinstance(loc[-1], str) else ""
    if kind in _TYPES:
        return Issue(where, f"{label}{_TYPES[kind]} is expected here, not {said(value)}")
    if kind == "literal_error":
        words = [word.strip("' ") for word in error["ctx"]["expected"].replace(" or ", ",").split(",")]
        return Issue(where, f"{label}{said(value)} is not one of the words known here{nearest(str(value), words)}")
    if kind in ("too_long", "too_short"):
        return Issue(where, label + _entries(error["ctx"]))
    return Issue(where, label + error["msg"].removeprefix("Value error, "))


def _entries(context: Any) -> str:
    bound = f"at most {context['max_length']}" if "max_length" in context else f"at least {context['min_length']}"
    return f"{bound} are expected here; there are {context['actual_length']}"


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    """The shapes that an annotation speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _models(part)


def _shape_at(shape: type[BaseModel], loc: tuple[int | str, ...]) -> type[BaseModel]:
    """The shape of the mapping at this place."""
    for part in loc:
        known = {field.alias or name: field for name, field in shape.model_fields.items()}
        if part in known:
            shape = next(_models(known[str(part)].annotation), shape)
    return shape


def _keys(shape: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    return [field.alias or name for name, field in _shape_at(shape, loc).model_fields.items()]


def _meaning(shape: type[BaseModel], loc: tuple[int | str, ...]) -> str:
    """What a missing key would have said, from the description that the schema shows."""
    fields = {field.alias or name: field for name, field in _shape_at(shape, loc[:-1]).model_fields.items()}
    text = fields[str(loc[-1])].description if loc[-1] in fields else None
    return f": {text}" if text else ""
