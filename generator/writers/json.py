"""plan.json: the plan in plain numbers, to the contract that somebody else's verifier is written from."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from importlib.resources import files as package_files

from generator.model.findings import Finding, worst
from generator.model.frames import Vector
from generator.model.geometry import tidy
from generator.model.job import FileRecord, Job
from generator.model.plan import (
    Band,
    Board,
    Edge,
    Fastener,
    Opening,
    Plan,
    PlannedBase,
    PlannedFitting,
    PlannedWall,
    Record,
)
from generator.model.profiles import Rule
from generator.model.purchase import CutNode, Sheet, TakeoffRow

Json = dict[str, object]
SCHEMA = "boardwright-plan-1"
SUPPORT_KEYS = "id wall kind origin outline axis depth material reason same_as set_back bevels"


def plan_schema() -> Json:
    """The JSON Schema of plan.json, as shipped with the tool."""
    text = package_files("generator").joinpath("writers", "schemas", "plan.schema.json").read_text("utf-8")
    schema: Json = json.loads(text)
    return schema


def plan_json(job: Job, files: tuple[FileRecord, ...], layers: Mapping[str, str]) -> bytes:
    """plan.json of a job as UTF-8: millimetres to 6 decimals, unit vectors to 12, one record a line.

    `layers` maps cut, opening, pocket, mark and datum to the DXF layers that the part files use.
    """
    return _text(plan_record(job, files, layers)).encode("utf-8")


def plan_record(job: Job, files: tuple[FileRecord, ...], layers: Mapping[str, str]) -> Json:
    """What plan.json holds, as plain lists and mappings."""
    return {
        **_head(job),
        **_walls_and_base(job.plan),
        **_pieces(job.plan),
        "takeoff": [_takeoff_row(row) for row in job.plan.takeoff],
        "findings": [_finding(f) for f in job.findings],
        "layers": dict(sorted(layers.items())),
        "files": [_plain(f) for f in sorted(files, key=lambda f: f.path)],
        "proof": _plain(job.plan.proof),
        "sequence": list(job.plan.sequence),
        **_stud_work(job.plan),
        **_lumber(job),
        "folds": [_pick(f, "id faces lines angle_deg first") for f in _by_id(job.plan.folds)],
    }


def _head(job: Job) -> Json:
    return {
        "schema": SCHEMA,
        "units": "mm",
        "room": {"name": job.room.name, "sha256": job.room.sha256},
        "verdicts": {
            "as_found": worst(job.findings, ("found",)),
            "as_planned": worst(job.findings, ("planned", "solid")),
        },
        "rules": {rule_id: _rule(rule) for rule_id, rule in sorted(job.room.rules.items())},
        "stocks": [_pick(s, "id material thickness width height density") for s in _by_id(job.plan.stocks)],
    }


def _walls_and_base(plan: Plan) -> Json:
    return {
        "walls": [_wall(w) for w in plan.walls],
        "corners": [_pick(c, "id left_wall right_wall angle_deg first") for c in _by_id(plan.corners)],
        "base": _base(plan.base),
    }


def _pieces(plan: Plan) -> Json:
    return {
        "supports": [_pick(s, SUPPORT_KEYS) for s in _by_id(plan.supports)],
        "boards": [_board(b) for b in _by_id(plan.boards)],
        "edges": [_edge(e) for e in _by_id(plan.edges)],
        "fittings": [_fitting(f) for f in _by_id(plan.fittings)],
        "fasteners": [_fastener(f) for f in _by_id(plan.fasteners)],
        "bands": [_band(b) for b in _by_id(plan.bands)],
        "sheets": [_sheet(s) for s in _by_id(plan.sheets)],
    }


def _stud_work(plan: Plan) -> Json:
    """Furring; stud faces as measured, what brings them to one plane; the plates over pipes."""
    return {
        "furring": [_plain(strip) for strip in _by_id(plan.furring)],
        "stud_faces": [_plain(face) for face in plan.faces],
        "shims": [_plain(s) for s in _by_id(plan.shims)],
        "planes": [_plain(plane) for plane in plan.planes],
        "shield_plates": [_plain(p) for p in _by_id(plan.plates)],
    }


def _lumber(job: Job) -> Json:
    """What is cut from which stick, how near to the least that is, and what the blocking is for."""
    return {
        "lumber": [_plain(stick) for stick in _by_id(job.plan.lumber)],
        "lumber_proof": _plain(job.plan.lumber_proof),
        "mounts": [_plain(mount) for mount in _by_id(job.room.mounts)],
    }


def _by_id(records: tuple[Record, ...]) -> list[Record]:
    return sorted(records, key=lambda record: record.id)


def _plain(value: object) -> object:
    """Numbers on the noise grid, tuples as lists, records as mappings of all their fields."""
    if isinstance(value, float):
        return tidy(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if is_dataclass(value):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value)}
    return value


def _pick(record: object, names: str) -> Json:
    """The named fields of a record, in that order."""
    return {name: _plain(getattr(record, name)) for name in names.split()}


def _unit(vector: Vector) -> list[float]:
    return [round(x, 12) + 0.0 for x in vector]


def _rule(rule: Rule) -> Json:
    return {
        **_pick(rule, "limit unit sense"),
        "source": rule.origin.source,
        "confidence": rule.origin.confidence,
    }


def _wall(wall: PlannedWall) -> Json:
    return {
        **_pick(wall, "id origin"),
        "u_axis": _unit(wall.u_axis),
        "v_axis": _unit(wall.v_axis),
        "w_axis": _unit(wall.w_axis),
        "datum": {"name": wall.datum_name, "v": tidy(wall.datum_v)},
        **_pick(wall, "outline extent allowances wet_region mouths face feature_id furring"),
    }


def _base(base: PlannedBase) -> Json:
    sides = [
        {"wall": s.wall, "from": tidy(s.start), "to": tidy(s.end), **_pick(s, "deck flange_top gap")}
        for s in base.sides
    ]
    return {**_pick(base, "kind flange_section"), "sides": sides}


def _board(board: Board) -> Json:
    return {
        **_pick(board, "id wall stock_id thickness outline"),
        "openings": [_opening(o) for o in _by_id(board.openings)],
        **_pick(board, "rabbets sheet_id"),
        "factory_edges": sorted(board.factory_edges),
        **_pick(board, "weight_kg"),
    }


def _opening(opening: Opening) -> Json:
    names = "id fitting_id" if opening.feature_id is None else "id fitting_id feature_id"
    if opening.ring:
        return {**_pick(opening, names), "shape": "ring", **_pick(opening, "ring")}
    return {**_pick(opening, names), "shape": "circle", **_pick(opening, "centre diameter")}


def _edge(edge: Edge) -> Json:
    return {
        **_pick(edge, "id board p q role neighbour"),
        "support_ids": sorted(edge.support_ids),
        **_pick(edge, "bearing"),
    }


def _fitting(fitting: PlannedFitting) -> Json:
    body = None if fitting.body is None else dict(zip(("width", "height", "depth"), fitting.body, strict=True))
    return {
        **_pick(fitting, "id wall kind centre outside_diameter"),
        "cutout": _cutout(fitting),
        "body": body and {name: tidy(value) for name, value in body.items()},
        **_pick(fitting, "collar_diameter"),
    }


def _cutout(fitting: PlannedFitting) -> Json | None:
    if fitting.cutout_ring:
        return {"shape": "ring", "ring": _plain(fitting.cutout_ring)}
    if fitting.cutout_diameter is not None:
        return {"shape": "circle", "diameter": tidy(fitting.cutout_diameter)}
    return None


def _fastener(fastener: Fastener) -> Json:
    return {
        **_pick(fastener, "id wall point"),
        "board_ids": sorted(fastener.board_ids),
        **_pick(fastener, "support_id length washer_diameter"),
    }


def _band(band: Band) -> Json:
    return {
        **_pick(band, "id kind"),
        "covers": sorted(band.covers),
        **_pick(band, "rings length"),
        "lap_ids": sorted(band.lap_ids),
    }


def _sheet(sheet: Sheet) -> Json:
    placements = sorted(sheet.placements, key=lambda placement: placement.board_id)
    return {
        **_pick(sheet, "id stock_id width height kerf"),
        "placements": [_plain(placement) for placement in placements],
        "cut_tree": _cut_node(sheet.cut_tree),
    }


def _cut_node(node: CutNode) -> Json:
    return {
        **_pick(node, "x y width height"),
        "cut": None if node.axis is None else _pick(node, "axis at"),
        "children": [_cut_node(child) for child in node.children],
        "board_id": node.board_id,
    }


def _takeoff_row(row: TakeoffRow) -> Json:
    return {
        **_pick(row, "kind profile_id item quantity unit"),
        "terms": [{**_pick(term, "label value"), "refs": sorted(term.refs)} for term in row.terms],
        **_pick(row, "package_size packages in_van"),
    }


def _finding(finding: Finding) -> Json:
    return {
        **_pick(finding, "rule phase verdict subject measured limit margin"),
        "place": {"wall": finding.place.wall or None, **_pick(finding.place, "geometry")},
        **_pick(finding, "cure room_path line"),
    }


def _text(record: Json) -> str:
    """JSON with one line for every record of a list, so that a revision shows as the lines that changed."""
    entries = [f"{_compact(key)}: {_value(value)}" for key, value in record.items()]
    return "{\n" + ",\n".join(entries) + "\n}\n"


def _value(value: object) -> str:
    if isinstance(value, list) and value:
        return "[\n  " + ",\n  ".join(_compact(item) for item in value) + "\n]"
    return _compact(value)


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
