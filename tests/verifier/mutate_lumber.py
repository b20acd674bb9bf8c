"""Wrong sticks and cuts."""

from __future__ import annotations

from tests.verifier.changing import Mutation
from tests.verifier.plain import Record


def piece_lost(plan: Record) -> None:
    plan["lumber"][-1]["cuts"].pop()


def stick_short(plan: Record) -> None:
    plan["lumber"][-1]["length"] = 300.0


def cut_short(plan: Record) -> None:
    plan["lumber"][-1]["cuts"][0]["length"] -= 5.0


def stick_unbought(plan: Record) -> None:
    row = next(row for row in plan["takeoff"] if row["kind"] == "lumber")
    row["terms"][0]["value"] += 1.0
    row["quantity"] += 1.0
    row["packages"] += 1


def proof_of_less(plan: Record) -> None:
    plan["lumber_proof"]["value"] -= 100.0


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("lumber-once", piece_lost),
    ("lumber-length", stick_short),
    ("lumber-cut", cut_short),
    ("lumber-bought", stick_unbought),
    ("lumber-proof", proof_of_less),
)
