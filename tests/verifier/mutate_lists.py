"""Wrong sheets, cuts, sums, findings, files."""

from __future__ import annotations

from tests.verifier.changing import Mutation, board_with, first
from tests.verifier.plain import Record


def placed_twice(plan: Record) -> None:
    plan["sheets"][-1]["placements"].append(dict(plan["sheets"][0]["placements"][0]))


def sheet_size(plan: Record) -> None:
    plan["sheets"][0]["width"] += 10.0


def sheet_other(plan: Record) -> None:
    placed = {p["board_id"] for p in plan["sheets"][-1]["placements"]}
    first(plan["boards"], lambda b: b["id"] not in placed)["sheet_id"] = plan["sheets"][-1]["id"]


def sheet_bare(plan: Record) -> None:
    plan["sheets"][0]["placements"] = []


def off_sheet(plan: Record) -> None:
    plan["sheets"][0]["placements"][0]["x"] += 2000.0


def on_each_other(plan: Record) -> None:
    sheet = first(plan["sheets"], lambda s: len(s["placements"]) > 1)
    sheet["placements"][1].update(x=sheet["placements"][0]["x"], y=sheet["placements"][0]["y"])


def cut_moved(plan: Record) -> None:
    first(plan["sheets"], lambda s: s["cut_tree"]["cut"])["cut_tree"]["cut"]["at"] += 2.0


def cut_root(plan: Record) -> None:
    plan["sheets"][0]["cut_tree"]["width"] -= 1.0


def leaf_lost(plan: Record) -> None:
    node = plan["sheets"][0]["cut_tree"]
    while node["board_id"] is None:
        node = first(node["children"], lambda n: n["board_id"] or n["children"])
    node["board_id"] = None


def leaf_loose(plan: Record) -> None:
    plan["sheets"][0]["placements"][0]["y"] += 1.0


def factory_edge(plan: Record) -> None:
    board = board_with(plan, "factory_edges")
    board["factory_edges"].pop()


def sum_off(plan: Record) -> None:
    plan["takeoff"][0]["quantity"] += 1.0


def packages_off(plan: Record) -> None:
    plan["takeoff"][0]["packages"] += 1


def screws_lost(plan: Record) -> None:
    row = first(plan["takeoff"], lambda r: r["kind"] == "screw")
    row["quantity"] -= 1
    row["terms"][0]["value"] -= 1


def unknown_rule(plan: Record) -> None:
    plan["findings"][0]["rule"] = "nowhere"


def unknown_wall(plan: Record) -> None:
    plan["findings"][0]["place"]["wall"] = "nowhere"


def half_null(plan: Record) -> None:
    first(plan["findings"], lambda f: f["measured"] is not None)["margin"] = None


def passed_unmeasured(plan: Record) -> None:
    first(plan["findings"], lambda f: f["measured"] is not None).update(
        measured=None, limit=None, margin=None, verdict="pass"
    )


def limit_off(plan: Record) -> None:
    first(plan["findings"], lambda f: f["measured"] is not None)["limit"] += 1.0


def margin_off(plan: Record) -> None:
    first(plan["findings"], lambda f: f["measured"] is not None)["margin"] += 1.0


def failed_with_room(plan: Record) -> None:
    first(plan["findings"], lambda f: f["verdict"] == "pass" and f["margin"] is not None)["verdict"] = "fail"


def head_off(plan: Record) -> None:
    plan["verdicts"]["as_planned"] = "fail" if plan["verdicts"]["as_planned"] != "fail" else "pass"


def cut_anyway(plan: Record) -> None:
    plan["files"][0]["not_for_cutting"] = not plan["files"][0]["not_for_cutting"]


def file_twice(plan: Record) -> None:
    plan["files"].append(plan["files"][0])


def part_of_nothing(plan: Record) -> None:
    first(plan["files"], lambda f: f["kind"] == "part-dxf")["subject"] = "B-nowhere"


def bar_off(plan: Record) -> None:
    first(plan["files"], lambda f: f["bars"])["bars"][0]["length"] += 1.0


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("sheet-once", placed_twice),
    ("sheet-size", sheet_size),
    ("sheet-board", sheet_other),
    ("sheet-empty", sheet_bare),
    ("fits-sheet", off_sheet),
    ("sheet-kerf", on_each_other),
    ("cut-tree", cut_moved),
    ("cut-root", cut_root),
    ("cut-boards", leaf_lost),
    ("cut-leaf", leaf_loose),
    ("factory-edges", factory_edge),
    ("takeoff-sum", sum_off),
    ("takeoff-packages", packages_off),
    ("takeoff-count", screws_lost),
    ("finding-rule", unknown_rule),
    ("finding-wall", unknown_wall),
    ("finding-null", half_null),
    ("finding-null", passed_unmeasured),
    ("finding-limit", limit_off),
    ("finding-margin", margin_off),
    ("finding-verdict", failed_with_room),
    ("verdict-head", head_off),
    ("file-cutting", cut_anyway),
    ("file-path", file_twice),
    ("file-subject", part_of_nothing),
    ("file-bar", bar_off),
)
