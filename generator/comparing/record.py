"""plan.json read again, as far as a person would ask what has changed in it."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.errors import InputError, Problem
from generator.model.geometry import Point
from generator.units import Units
from generator.writers.json import SCHEMA

PLAN = "plan.json"
_ASIDE = frozenset({"room", "files", "rules", "verdicts", "layers"})
"""Parts of a plan that say nothing of the work by themselves, or are told in full as topics."""


@dataclass(frozen=True, slots=True)
class Lengths:
    """Lengths in mm that belong together, such as width and height."""

    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """A point in the frame of a wall, mm."""

    at: Point


Value = Lengths | Spot | str
Item = Mapping[str, Value]
Items = Mapping[str, Item]
Topics = Mapping[str, Items]


@dataclass(frozen=True, slots=True)
class Record:
    """A plan as topics of named items, each with what can be said of it; `units` of the drawings.

    `whole`: the text of each part of the plan, to notice what no topic tells.
    """

    units: Units
    topics: Topics
    whole: Mapping[str, str]


def read_record(path: Path) -> Record:
    """The plan in a build folder, or in the file itself. InputError where it cannot be read as one of ours."""
    file = path / PLAN if path.is_dir() else path
    try:
        return record_of(json.loads(file.read_text(encoding="utf-8")))
    except OSError as error:
        message = f"cannot be read ({error.strerror}); name a build folder, or the plan.json in it"
    except (ValueError, KeyError, TypeError, IndexError, AttributeError):
        message = "is no plan that this version of boardwright wrote; build the room again"
    raise InputError((Problem(str(file), 0, message),))


def record_of(plan: Mapping[str, Any]) -> Record:
    """The topics in the order in which they are told. ValueError, KeyError or TypeError where it is no such plan."""
    if plan["schema"] != SCHEMA:
        raise ValueError(plan["schema"])
    drawn = {file["units"] for file in plan["files"] if file["kind"] == "part-dxf"}
    topics: Topics = {
        "room": {"plan": {"name": str(plan["room"]["name"])}},
        "result": {name: {"verdict": str(verdict)} for name, verdict in plan["verdicts"].items()},
        "limit": {name: _limit(rule) for name, rule in plan["rules"].items()},
        "wall": {wall["id"]: {"size": _size(wall["outline"])} for wall in plan["walls"]},
        "support": {one["id"]: _support(one) for one in plan["supports"]},
        "board": {board["id"]: _board(board) for board in plan["boards"]},
        "opening": {one["id"]: _opening(one, board) for board in plan["boards"] for one in board["openings"]},
        "screws": _counted(Counter(screw["wall"] for screw in plan["fasteners"])),
        "bands": _bands(plan["bands"]),
        "sheet": {sheet["id"]: _sheet(sheet) for sheet in plan["sheets"]},
        "buy": {str(row["item"]): {"packages": str(row["packages"])} for row in plan["takeoff"]},
        "finding": _findings(plan["findings"]),
    }
    return Record("in" if "in" in drawn else "mm", topics, _whole(plan))


def _whole(plan: Mapping[str, Any]) -> dict[str, str]:
    """A finding without its line: a comment in the room file moves that."""
    findings = [{key: value for key, value in one.items() if key != "line"} for one in plan["findings"]]
    parts = {**plan, "findings": findings}
    return {key: json.dumps(value, sort_keys=True) for key, value in parts.items() if key not in _ASIDE}


def _size(ring: list[Point]) -> Lengths:
    across, up = [p[0] for p in ring], [p[1] for p in ring]
    return Lengths((max(across) - min(across), max(up) - min(up)))


def _corner(ring: list[Point]) -> Spot:
    return Spot((min(p[0] for p in ring), min(p[1] for p in ring)))


def _middle(ring: list[Point]) -> Point:
    (left, low), (width, height) = _corner(ring).at, _size(ring).values
    return (left + width / 2, low + height / 2)


def _limit(rule: Mapping[str, Any]) -> Item:
    limit = Lengths((float(rule["limit"]),)) if rule["unit"] == "mm" else f"{rule['limit']:g} {rule['unit']}"
    return {"limit": limit}


def _support(one: Mapping[str, Any]) -> Item:
    middle = _middle(one["outline"])
    kind = f"{one['kind']}, {one['origin']}"
    return {"wall": one["wall"], "kind": kind, "middle": Spot(middle), "size": _size(one["outline"])}


def _board(board: Mapping[str, Any]) -> Item:
    ring = board["outline"]
    corners = f"{len(ring)} corners"
    return {"stock": board["stock_id"], "size": _size(ring), "lower left": _corner(ring), "shape": corners}


def _opening(one: Mapping[str, Any], board: Mapping[str, Any]) -> Item:
    if one["shape"] == "circle":
        across, up = one["centre"]
        middle, diameter = Spot((float(across), float(up))), Lengths((float(one["diameter"]),))
        return {"board": board["id"], "middle": middle, "diameter": diameter}
    return {"board": board["id"], "middle": Spot(_middle(one["ring"])), "size": _size(one["ring"])}


def _counted(counts: Counter[str]) -> dict[str, Item]:
    return {name: {"number": str(count)} for name, count in counts.items()}


def _bands(bands: list[Mapping[str, Any]]) -> dict[str, Item]:
    """By kind: how many pieces, how long together."""
    counts = Counter(band["kind"] for band in bands)
    totals = {kind: sum(band["length"] for band in bands if band["kind"] == kind) for kind in counts}
    return {kind: {"number": str(n), "total": Lengths((totals[kind],))} for kind, n in counts.items()}


def _sheet(sheet: Mapping[str, Any]) -> Item:
    return {"stock": sheet["stock_id"], "boards": ", ".join(one["board_id"] for one in sheet["placements"])}


def _findings(findings: list[Mapping[str, Any]]) -> dict[str, Item]:
    """Those that do not simply pass, by rule, phase and subject; notes that nothing was measured are left out."""
    told = [one for one in findings if one["verdict"] in ("fail", "warn", "confirm")]
    return {f"{one['rule']}, {one['phase']}: {one['subject']}": {"verdict": one["verdict"]} for one in told}
