"""Wrong folds, laps, mouths and shared lumber, of the walk-in room with its niches and benches."""

from __future__ import annotations

from tests.verifier.changing import Mutation, first, shift
from tests.verifier.plain import Record, box, by_id


def fold_moved(plan: Record) -> None:
    """On one of its two faces only."""
    shift(plan["folds"][0]["lines"][0], 3.0, 3.0)


def fold_obtuse(plan: Record) -> None:
    plan["folds"][0]["angle_deg"] += 5.0


def face_far_out(plan: Record) -> None:
    """A face that passes its framing by two boards or more."""
    face = first(plan["walls"], lambda w: w["face"] != "wall")
    right = box(face["extent"])[2]
    for point in face["extent"]:
        point[0] = round(point[0] + 40.0, 6) if point[0] == right else point[0]


def mouth_elsewhere(plan: Record) -> None:
    """The board is cut for a mouth 10 mm beside the one that is framed."""
    openings = [o for b in plan["boards"] for o in b["openings"]]
    shift(first(openings, lambda o: o.get("feature_id"))["ring"], 10.0, 0.0)


def lent_elsewhere(plan: Record) -> None:
    """The side of a stud, as a face sees it, 3 mm from where the stud is."""
    walls = by_id(plan, "walls")
    seen = first(plan["supports"], lambda s: s["same_as"] and walls[s["wall"]]["w_axis"][2] in (0.0, 1.0))
    shift(seen["outline"], 3.0, 0.0)
    shift(seen["axis"], 3.0, 0.0)


def cap_without_a_fold(plan: Record) -> None:
    """Nobody thought of the line where the cap runs up to the wall: neither fold nor band."""
    left_out = ("F-back-half-cap", "T-back-half-cap-corner-001")
    for kind in ("folds", "bands"):
        plan[kind] = [record for record in plan[kind] if record["id"] not in left_out]
    named = [b["lap_ids"] for b in plan["bands"]] + [t["refs"] for row in plan["takeoff"] for t in row["terms"]]
    for ids in named:
        ids[:] = [one for one in ids if one not in left_out]


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("fold", fold_moved),
    ("fold-angle", fold_obtuse),
    ("lap", face_far_out),
    ("mouth", mouth_elsewhere),
    ("same-as", lent_elsewhere),
    ("cap-fold", cap_without_a_fold),
)
