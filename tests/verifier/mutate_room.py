"""Wrong things in the form of the file, in walls, edges and framing."""

from __future__ import annotations

from tests.verifier.changing import Mutation, first, remove, shift, upright_edge, wall_of
from tests.verifier.plain import Record, by_id

INCH = 25.4


def drop_key(plan: Record) -> None:
    del plan["boards"][0]["thickness"]


def fine_number(plan: Record) -> None:
    plan["boards"][0]["thickness"] += 1e-8


def clockwise(plan: Record) -> None:
    plan["boards"][0]["outline"].reverse()


def other_start(plan: Record) -> None:
    plan["boards"][0]["outline"].append(plan["boards"][0]["outline"].pop(0))


def same_id(plan: Record) -> None:
    plan["fasteners"][1]["id"] = plan["supports"][0]["id"]


def unsorted(plan: Record) -> None:
    plan["fasteners"].reverse()


def dangling(plan: Record) -> None:
    plan["fasteners"][0]["support_id"] = "S-nowhere"


def dangling_ref(plan: Record) -> None:
    plan["takeoff"][0]["terms"][0]["refs"].append("nowhere")


def skewed(plan: Record) -> None:
    plan["walls"][0]["w_axis"] = [-x for x in plan["walls"][0]["w_axis"]]


def parted(plan: Record) -> None:
    plan["walls"][0]["origin"][0] += 1.0


def wrong_angle(plan: Record) -> None:
    plan["corners"][0]["angle_deg"] = 91.0


def wrong_first(plan: Record) -> None:
    corner = plan["corners"][0]
    away = first(plan["walls"], lambda w: w["id"] not in (corner["left_wall"], corner["right_wall"]))
    corner["first"] = away["id"]


def walls_apart(plan: Record) -> None:
    plan["corners"][0]["left_wall"] = plan["corners"][0]["right_wall"]


def wet_off(plan: Record) -> None:
    plan["walls"][0]["allowances"].pop()


def gap_in_boards(plan: Record) -> None:
    gone = plan["boards"].pop()
    plan["edges"] = [e for e in plan["edges"] if e["board"] != gone["id"]]


def overlapping(plan: Record) -> None:
    edge = upright_edge(plan, "seam")
    shift(by_id(plan, "boards")[edge["board"]]["outline"], 5.0 if edge["q"][1] > edge["p"][1] else -5.0, 0.0)


def axis_off(plan: Record) -> None:
    shift(plan["supports"][0]["axis"], 1.0, 0.0)


def edge_gone(plan: Record) -> None:
    remove(plan, "edges", [upright_edge(plan, "corner")])


def edge_twice(plan: Record) -> None:
    plan["edges"].append(dict(plan["edges"][-1], id=plan["edges"][-1]["id"] + "b"))


def role_off(plan: Record) -> None:
    upright_edge(plan, "seam")["role"] = "free"


def neighbour_off(plan: Record) -> None:
    edge = upright_edge(plan, "seam")
    edge["neighbour"] = edge["board"]


def twin_off(plan: Record) -> None:
    seam = upright_edge(plan, "seam")
    seam["neighbour"] = None


def bearing_off(plan: Record) -> None:
    upright_edge(plan, "seam", "wallboard")["bearing"] += 0.5


def bearing_missing(plan: Record) -> None:
    upright_edge(plan, "corner")["bearing"] = None


def stud_moved(plan: Record) -> None:
    """Half an inch along: the seam is off its middle and one board bears too little."""
    edge = upright_edge(plan, "seam")
    support = by_id(plan, "supports")[edge["support_ids"][0]]
    shift(support["outline"], INCH / 2, 0.0)
    shift(support["axis"], INCH / 2, 0.0)


def corner_stud_moved(plan: Record) -> None:
    edge = upright_edge(plan, "corner")
    support = by_id(plan, "supports")[edge["support_ids"][0]]
    away = 1.2 * INCH * (1 if edge["q"][1] > edge["p"][1] else -1)
    shift(support["outline"], away, 0.0)
    shift(support["axis"], away, 0.0)


def stray_support(plan: Record) -> None:
    edge = upright_edge(plan, "corner")
    other = first(plan["supports"], lambda s: s["wall"] != wall_of(plan, edge))
    edge["support_ids"] = sorted([*edge["support_ids"], other["id"]])


def stud_gone(plan: Record) -> None:
    """Take out a stud that no edge names: its board now spans two bays."""
    named = {s for e in plan["edges"] for s in e["support_ids"]}
    screwed = [f["support_id"] for f in plan["fasteners"]]
    loose = first(plan["supports"], lambda s: s["id"] not in named and s["id"] in screwed)
    remove(plan, "fasteners", [f for f in plan["fasteners"] if f["support_id"] == loose["id"]])
    remove(plan, "supports", [loose])


def crossing_seams(plan: Record) -> None:
    """Two seams drawn across each other on a board."""
    board = plan["boards"][0]["id"]
    extra = {"board": board, "role": "seam", "neighbour": board, "support_ids": [], "bearing": 20.0}
    plan["edges"].append({**extra, "id": "Z-1", "p": [500.0, 900.0], "q": [500.0, 1200.0]})
    plan["edges"].append({**extra, "id": "Z-2", "p": [400.0, 1000.0], "q": [700.0, 1000.0], "bearing": None})


def seams_near(plan: Record) -> None:
    """Two upright seams that end on a level one, from below and from above, an inch apart."""
    crossing_seams(plan)
    board = plan["boards"][0]["id"]
    plan["edges"][-2]["q"] = [500.0, 1000.0]
    plan["edges"].append({**plan["edges"][-2], "id": "Z-3", "p": [525.4, 1000.0], "q": [525.4, 1200.0], "board": board})


def found_wide(plan: Record) -> None:
    """A found stud that is a proposal after all, with no finding of the bay that it leaves."""
    named = {s for e in plan["edges"] for s in e["support_ids"]}
    screwed = [f["support_id"] for f in plan["fasteners"]]
    first(plan["supports"], lambda s: s["id"] not in named and s["id"] in screwed)["origin"] = "added"


def valve_on_stud(plan: Record) -> None:
    """A found stud under a fitting that no finding speaks of."""
    fitting = first(plan["fittings"], lambda f: f["body"] is not None)
    stud = first(plan["supports"], lambda s: s["wall"] == fitting["wall"] and s["origin"] == "found")
    away = fitting["centre"][0] - stud["axis"][0][0]
    shift(stud["outline"], away, 0.0)
    shift(stud["axis"], away, 0.0)


MUTATIONS: tuple[tuple[str, Mutation], ...] = (
    ("schema", drop_key),
    ("number", fine_number),
    ("ring", clockwise),
    ("ring", other_start),
    ("id-unique", same_id),
    ("id-order", unsorted),
    ("reference", dangling),
    ("reference", dangling_ref),
    ("frame", skewed),
    ("corner-ends", parted),
    ("corner-angle", wrong_angle),
    ("corner-first", wrong_first),
    ("corner-order", walls_apart),
    ("wet-region", wet_off),
    ("overlap", overlapping),
    ("coverage", overlapping),
    ("support-axis", axis_off),
    ("edge-outline", edge_gone),
    ("edge-outline", edge_twice),
    ("edge-role", role_off),
    ("edge-neighbour", neighbour_off),
    ("edge-twin", twin_off),
    ("bearing", bearing_off),
    ("bearing-null", bearing_missing),
    ("bearing-seam-wood", stud_moved),
    ("seam-on-axis", stud_moved),
    ("bearing-edge", corner_stud_moved),
    ("bearing-supports", stray_support),
    ("support-spacing", stud_gone),
    ("stagger", crossing_seams),
    ("stagger", seams_near),
    ("found-spacing", found_wide),
    ("found-collision", valve_on_stud),
)
