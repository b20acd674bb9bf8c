"""The profile files: shipped ones, overlaid by a user's folders.

A file holds `units`, and under its own name the records by id. Each record says the `source` and `confidence` of
its numbers; a number with an origin of its own is written `{value: ..., source: ..., confidence: ...}`. A user's
folder holds files of the same names; a record there adds to the shipped ones, or replaces the one of the same id.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from generator.errors import InputError, Problem
from generator.model import profiles as records
from generator.model.profiles import Catalogue, Origin
from generator.reading import profile_shapes as shapes
from generator.reading.fields import Shape, said
from generator.reading.issues import Issue, join, nearest, problems
from generator.reading.source import Document, read_document
from generator.reading.validate import validate
from generator.units import Length, Units

Record = records.Profile | records.Rule


@dataclass(frozen=True, slots=True)
class _Kind:
    """What one profile file holds."""

    shape: type[Shape]
    record: type[Any]


KINDS: Mapping[str, _Kind] = {
    "boards": _Kind(shapes.BoardShape, records.BoardProfile),
    "flanges": _Kind(shapes.FlangeShape, records.FlangeProfile),
    "trays": _Kind(shapes.TrayShape, records.TrayProfile),
    "studs": _Kind(shapes.StudShape, records.StudProfile),
    "lumber": _Kind(shapes.LumberShape, records.LumberProfile),
    "pipes": _Kind(shapes.PipeShape, records.PipeProfile),
    "cutouts": _Kind(shapes.CutoutShape, records.CutoutProfile),
    "fasteners": _Kind(shapes.FastenerShape, records.FastenerProfile),
    "bands": _Kind(shapes.BandShape, records.BandProfile),
    "sealants": _Kind(shapes.SealantShape, records.SealantProfile),
    "mortars": _Kind(shapes.MortarShape, records.MortarProfile),
    "trowels": _Kind(shapes.TrowelShape, records.TrowelProfile),
    "papers": _Kind(shapes.PaperShape, records.PaperProfile),
    "labels": _Kind(shapes.LabelShape, records.LabelProfile),
    "practices": _Kind(shapes.PracticeShape, records.PracticeProfile),
    "codes": _Kind(shapes.CodeShape, records.CodeProfile),
    "rules": _Kind(shapes.RuleShape, records.Rule),
}
DEFAULTS = "defaults.yaml"
"""What a room's choices are where it makes none; read with the room."""


def shipped() -> Path:
    """The folder of shipped profiles: inside the package in a wheel, else beside it."""
    inside = Path(str(files("generator"))) / "profiles"
    return inside if inside.is_dir() else inside.parent.parent / "profiles"


def load_catalogue(profile_dirs: tuple[Path, ...] = ()) -> Catalogue:
    """All profiles, later folders over earlier ones. Raises InputError with every problem of every file."""
    found: list[Problem] = []
    tables: dict[str, dict[str, Any]] = {kind: dict(_shipped_records(kind)) for kind in KINDS}
    for folder in profile_dirs:
        found += _strange_files(folder)
        for kind in KINDS:
            path = folder / f"{kind}.yaml"
            if path.is_file():
                entries, wrong = _read_kind(kind, path, f"{folder.name}/{path.name}")
                tables[kind] |= entries
                found += wrong
    catalogue = Catalogue(**{kind: dict(sorted(table.items())) for kind, table in tables.items()})
    found += _clashes(catalogue)
    if found:
        raise InputError(tuple(sorted(set(found))))
    return catalogue


@cache
def _shipped_records(kind: str) -> Mapping[str, Record]:
    """The shipped records of a kind; they do not change while the program runs."""
    entries, wrong = _read_kind(kind, shipped() / f"{kind}.yaml", f"profiles/{kind}.yaml")
    if wrong:
        raise InputError(wrong)
    return entries


def _strange_files(folder: Path) -> list[Problem]:
    """A folder that is not there, or files in it that nobody would read."""
    if not folder.is_dir():
        return [Problem(str(folder), 0, "is not a folder; name one that holds profile files such as boards.yaml")]
    names = [f"{kind}.yaml" for kind in KINDS]
    strange = sorted(p.name for p in folder.iterdir() if p.suffix in (".yaml", ".yml") and p.name not in names)
    return [Problem(f"{folder.name}/{name}", 0, f"is not a profile file{nearest(name, names)}") for name in strange]


def _clashes(catalogue: Catalogue) -> list[Problem]:
    """A fitting names a pipe or a cut-out by id alone, and a code its rules: both must be clear."""
    both = sorted(set(catalogue.pipes) & set(catalogue.cutouts))
    found = [Problem("cutouts.yaml", 0, f"`{one}` is a pipe too; give the cut-out another id") for one in both]
    for code in catalogue.codes.values():
        unknown = sorted(set(code.rules) - set(catalogue.rules))
        found += [
            Problem("codes.yaml", 0, f"`{code.id}`: unknown rule `{rule}`{nearest(rule, catalogue.rules)}")
            for rule in unknown
        ]
    return found


def _read_kind(kind: str, path: Path, shown: str) -> tuple[dict[str, Record], tuple[Problem, ...]]:
    """The records of one file, and what is wrong in it."""
    try:
        document = read_document(path, shown)
    except InputError as error:
        return {}, error.problems
    entries, issues = _entries(kind, document)
    return entries, problems(shown, document.lines, (*document.issues, *issues))


def _entries(kind: str, document: Document) -> tuple[dict[str, Record], list[Issue]]:
    data = document.data
    if not isinstance(data, dict):
        return {}, [Issue("", f"`units` and `{kind}` are expected here, not {said(data)}")]
    issues = [
        Issue(str(key), f"unknown key {said(key)}{nearest(key, ('units', kind))}")
        for key in data
        if key not in ("units", kind)
    ]
    if data.get("units") not in ("in", "mm"):
        issues.append(Issue("units", "`units` is missing or wrong: the unit of bare numbers, `in` or `mm`"))
    if not isinstance(data.get(kind), dict):
        return {}, [*issues, Issue(kind, f"`{kind}` is missing: the records by id")]
    units: Units = "mm" if data.get("units") == "mm" else "in"
    entries: dict[str, Record] = {}
    for key, entry in data[kind].items():
        record, wrong = _record(kind, key, entry, units)
        issues += wrong
        if record is not None:
            entries[key] = record
    return entries, issues


def _record(kind: str, key: str, entry: Any, units: Units) -> tuple[Record | None, tuple[Issue, ...]]:
    """One record, or what is wrong with it."""
    path = join(kind, key)
    if not isinstance(entry, dict):
        return None, (Issue(path, f"the keys of `{key}` are expected here, not {said(entry)}"),)
    values, named = _apart(entry)
    origin, wrong = validate(shapes.OriginShape, named.pop(""), path, units)
    origins: dict[str, Origin] = {}
    for name, own in named.items():
        one, more = validate(shapes.OriginShape, own, join(path, name), units)
        wrong += more
        if one is not None:
            origins[name] = Origin(one.source, one.confidence)
    shape, more = validate(KINDS[kind].shape, values, path, units)
    if shape is None or origin is None or wrong:
        return None, wrong + more
    fixed = {"id": key, "origin": Origin(origin.source, origin.confidence), "origins": origins}
    return _build(KINDS[kind].record, fixed, shape, units), ()


def _apart(entry: dict[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    """The values of a record, and the origins: the record's own under "", others by field."""
    values: dict[str, Any] = {}
    origins: dict[str, Any] = {"": {key: entry[key] for key in ("source", "confidence") if key in entry}}
    for key, value in entry.items():
        if isinstance(value, dict) and "value" in value:
            values[key] = value["value"]
            origins[key] = {name: one for name, one in value.items() if name != "value"}
        elif key not in ("source", "confidence"):
            values[key] = value
    return values, origins


def _build(record: type[Any], fixed: dict[str, Any], shape: Shape, units: Units) -> Record:
    """The record: lengths in mm, and what is worked out from them."""
    values = {name: _plain(getattr(shape, name)) for name in type(shape).model_fields}
    if isinstance(shape, shapes.FlangeShape | shapes.CutoutShape):
        values |= shape.derived()
    if isinstance(shape, shapes.LumberShape):
        values["lengths"] = tuple(length.mm for length in shape.lengths)
    if isinstance(shape, shapes.BoardShape):
        values["sheets"] = tuple(records.SheetSize(s.id, s.width.mm, s.height.mm) for s in shape.sheets)
    if isinstance(shape, shapes.RuleShape):
        values["limit"] = shapes.read_limit(shape.limit, shape.unit, units)
    known = {field.name for field in fields(record)}
    built: Record = record(**{name: value for name, value in (fixed | values).items() if name in known})
    return built


def _plain(value: Any) -> Any:
    return value.mm if isinstance(value, Length) else value
