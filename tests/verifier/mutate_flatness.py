"""Wrong shims and planes, of the room with crooked studs."""

from __future__ import annotations

from tests.verifier.changing import Mutation, first
from tests.verifier.plain import Record, by_id, limit


def shim_gone(plan: Record) -> None:
    gone = first(plan["shims"], lambda s: s["work"] == "shim")
    plan["shims"].remove(gone)
    plan["planes"][0]["material"] -= (gone["high"] - gone["low"]) * gone["width"] * gone["thickness"]


def face_proud(plan: Record) -> None:
    plan["stud_faces"][0]["off"] -= 3.0


def neighbours_apart(plan: Record) -> None:
    """Within the far limit, but not alike."""
    plan["stud_faces"][0]["off"] += 0.9 * limit(plan, "flatness-far-large")


def plane_tipped(plan: Record) -> None:
    point = plan["planes"][0]["points"][1]
    point[2] = round(point[2] - 6.0, 6)


def shim_thicker(plan: Record) -> None:
    first(plan["shims"], lambda s: s["work"] == "shim")["thickness"] += 0.5


def planed_away(plan: Record) -> None:
    first(plan["shims"], lambda s: s["work"] == "plane")["thickness"] = round(limit(plan, "planing") + 25.4 / 16, 6)


def planed_steel(plan: Record) -> None:
    shim = first(plan["shims"], lambda s: s["work"] == "plane")
    by_id(plan, "supports")[shim["support_id"]]["material"] = "steel"


def shim_elsewhere(plan: Record) -> None:
    plan["shims"][0]["v"] += 5.0


def shim_long(plan: Record) -> None:
    plan["shims"][0]["high"] += 5000.0


def shim_narrow(plan: Record) -> None:
    plan["shims"][0]["width"] -= 5.0


def shim_over_shim(plan: Record) -> None:
    one, other = plan["shims"][:2]
    one["high"] = other["low"] + 20.0


def plane_gone(plan: Record) -> None:
    plan["planes"].clear()


def volume_off(plan: Record) -> None:
    plan["planes"][0]["material"] += 10.0


def bound_above(plan: Record) -> None:
    plan["planes"][0]["bound"] = plan["planes"][0]["material"] * 1.1


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("flatness", shim_gone),
    ("flatness", face_proud),
    ("flatness", neighbours_apart),
    ("flatness", plane_tipped),
    ("shim-step", shim_thicker),
    ("planing", planed_away),
    ("planing", planed_steel),
    ("shim-reading", shim_elsewhere),
    ("shim-stretch", shim_long),
    ("shim-width", shim_narrow),
    ("shim-lap", shim_over_shim),
    ("plane-wall", plane_gone),
    ("shim-material", volume_off),
    ("shim-bound", bound_above),
)
