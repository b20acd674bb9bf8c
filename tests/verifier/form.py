"""The form of plan.json: schema, number grid, rings, ids, references."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from shapely import LinearRing

from tests.verifier.plain import Record, Ring, Violation, sides, twice_area

SCHEMA = Path(__file__).parents[2] / "generator" / "writers" / "schemas" / "plan.schema.json"
SORTED = (
    "stocks",
    "corners",
    "supports",
    "boards",
    "edges",
    "fittings",
    "fasteners",
    "bands",
    "sheets",
    "furring",
    "shims",
    "shield_plates",
    "lumber",
    "mounts",
)
RING_KEYS = ("ring", "outline", "extent", "flange_section")
REFERENCES = (
    ("corners", "left_wall", "walls"),
    ("corners", "right_wall", "walls"),
    ("corners", "first", "walls"),
    ("supports", "wall", "walls"),
    ("boards", "wall", "walls"),
    ("boards", "stock_id", "stocks"),
    ("boards", "sheet_id", "sheets"),
    ("boards", "factory_edges", "edges"),
    ("edges", "board", "boards"),
    ("edges", "support_ids", "supports"),
    ("fittings", "wall", "walls"),
    ("fasteners", "wall", "walls"),
    ("fasteners", "board_ids", "boards"),
    ("fasteners", "support_id", "supports"),
    ("bands", "lap_ids", "bands"),
    ("sheets", "stock_id", "stocks"),
    ("stud_faces", "wall", "walls"),
    ("stud_faces", "support_id", "supports"),
    ("planes", "wall", "walls"),
    ("furring", "wall", "walls"),
    ("furring", "support_id", "supports"),
    ("shims", "wall", "walls"),
    ("shims", "support_id", "supports"),
    ("shield_plates", "wall", "walls"),
    ("shield_plates", "support_id", "supports"),
    ("mounts", "wall", "walls"),
)


def check_schema(plan: Record) -> Iterator[Violation]:
    validator = Draft202012Validator(json.loads(SCHEMA.read_text("utf-8")))
    for error in sorted(validator.iter_errors(plan), key=lambda e: e.json_path):
        yield Violation("schema", f"{error.json_path}: {error.message[:200]}")


def check_numbers(plan: Record) -> Iterator[Violation]:
    """Six decimals everywhere, twelve on unit vectors, nothing infinite."""
    for path, value in _walk(plan, ""):
        digits = 12 if "_axis" in path else 6
        if isinstance(value, float) and not abs(value) < 1e12:
            yield Violation("number", f"{path} is {value}")
        elif isinstance(value, float) and round(value, digits) != value:
            yield Violation("number", f"{path} = {value!r} has more than {digits} decimals")


def check_rings(plan: Record) -> Iterator[Violation]:
    for path, value in _walk(plan, ""):
        key = path.rsplit(".", 1)[-1]
        if isinstance(value, list) and value and (key in RING_KEYS or (".holes." in path and _is_ring(value))):
            yield from (Violation("ring", f"{path}: {fault}") for fault in _ring_faults(value))


def _is_ring(value: list[Any]) -> bool:
    return len(value) >= 3 and all(isinstance(p, list) and len(p) == 2 for p in value)


def _ring_faults(ring: Ring) -> Iterator[str]:
    if twice_area(ring) <= 0:
        yield "runs clockwise or has no inside"
    if ring[0] != min(ring, key=lambda p: (p[1], p[0])):
        yield "does not start lowest-left"
    if any(p == q for p, q in sides(ring)):
        yield "repeats a point or is closed"
    elif not LinearRing(ring).is_simple:
        yield "crosses itself"


def check_ids(plan: Record) -> Iterator[Violation]:
    seen: dict[str, str] = {}
    for kind in ("walls", *SORTED):
        for record_id, where in _ids(plan, kind):
            if record_id in seen:
                yield Violation("id-unique", f"{record_id} is in {seen[record_id]} and in {where}")
            seen[record_id] = where
    for kind in SORTED:
        yield from _order(kind, [record["id"] for record in plan[kind]])
    for board in plan["boards"]:
        yield from _order(f"openings of {board['id']}", [o["id"] for o in board["openings"]])


def _ids(plan: Record, kind: str) -> Iterator[tuple[str, str]]:
    for record in plan[kind]:
        yield record["id"], kind
        for opening in record.get("openings", ()):
            yield opening["id"], "openings"


def _order(what: str, ids: list[str]) -> Iterator[Violation]:
    if ids != sorted(ids):
        yield Violation("id-order", f"{what} are not sorted by id")


def check_references(plan: Record) -> Iterator[Violation]:
    known = {kind: {record["id"] for record in plan[kind]} for kind in ("walls", *SORTED)}
    for kind, key, target in REFERENCES:
        for record in plan[kind]:
            for wanted in [record[key]] if isinstance(record[key], str) else record[key]:
                if wanted not in known[target]:
                    yield Violation("reference", f"{key} of {record['id']} names {wanted}, not one of {target}")
    yield from _loose_references(plan, known)


def _loose_references(plan: Record, known: dict[str, set[str]]) -> Iterator[Violation]:
    """References whose kind the contract leaves open, and the ones of records without an id."""
    everything = set().union(*known.values()) | {o["id"] for b in plan["boards"] for o in b["openings"]}
    everything |= {fold["id"] for fold in plan["folds"]}
    coverable = known["edges"] | known["fasteners"] | known["fittings"]
    wanted = [(f"covers of {b['id']}", coverable, b["covers"]) for b in plan["bands"]]
    wanted += [(f"terms of {r['kind']}", everything, t["refs"]) for r in plan["takeoff"] for t in r["terms"]]
    wanted += [(f"neighbour of {e['id']}", everything, [e["neighbour"]]) for e in plan["edges"] if e["neighbour"]]
    wanted += [("sides of the base", known["walls"], [s["wall"] for s in plan["base"]["sides"]])]
    wanted += [(f"rings of {b['id']}", known["walls"], [r["wall"] for r in b["rings"]]) for b in plan["bands"]]
    wanted += [
        (f"places on {s['id']}", known["boards"], [p["board_id"] for p in s["placements"]]) for s in plan["sheets"]
    ]
    wanted += [("sequence", known["boards"], plan.get("sequence", []))]
    for what, among, ids in wanted:
        yield from (Violation("reference", f"{what}: no record {i}") for i in ids if i not in among)


def _walk(value: object, path: str) -> Iterator[tuple[str, object]]:
    yield path, value
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in items:
        yield from _walk(item, f"{path}.{key}")
