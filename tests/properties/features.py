"""What is built into rooms: niches, windows, benches, corner seats, curbs, partitions, soffits, neo-angle bases,
bars, seats."""

from __future__ import annotations

from fractions import Fraction

from tests.properties.bare import DEPTH, PROFILES, STUD, Drawing, Record, bays, boards_of, centres


def niche_in_bay(drawing: Drawing) -> None:
    """One in a bay of each of one or two walls, as wide as its bay or narrower."""
    walls = drawing.rng.sample(drawing.walls, min(len(drawing.walls), drawing.rng.choice((1, 2))))
    for wall in walls:
        found = [bay for bay in bays(wall, boards_of(drawing, wall), drawing.face) if bay[1] - bay[0] >= 8]
        if found:
            left, right = drawing.rng.choice(found)
            width = "bay" if drawing.rng.random() < 0.6 else drawing.tape.read((right - left) * Fraction(2, 5))
            _niche(drawing, wall, (left + right) / 2, width, drawing.tape.draw(30, 50))


def niche_across_studs(drawing: Drawing) -> None:
    """As wide as two bays: the studs between its sides are cut."""
    for wall in drawing.walls:
        found = bays(wall, boards_of(drawing, wall), drawing.face)
        if len(found) >= 2:
            (left, _), (_, right) = found[0], found[1]
            _niche(drawing, wall, (left + right) / 2, right - left - 5, drawing.tape.draw(30, 46))
            return


def niches_in_a_stack(drawing: Drawing) -> None:
    """Two or three above one another in one bay, and one in the next."""
    wall = max(drawing.walls, key=lambda one: one["width"])
    found = [bay for bay in bays(wall, boards_of(drawing, wall), drawing.face) if bay[1] - bay[0] >= 8]
    for index, (left, right) in enumerate(found[:2]):
        for up in (26, 50)[: 2 - index]:
            _niche(drawing, wall, (left + right) / 2, "bay", drawing.tape.draw(up, up + 2), tallest=10)


def _niche(
    drawing: Drawing, wall: Record, across: Fraction, width: Fraction | str, up: Fraction, tallest: float = 18
) -> None:
    tape = drawing.tape
    size = {"width": width, "height": tape.draw(6, tallest), "depth": tape.draw(2, 3.25)}
    drawing.add("niches", {"wall": wall["name"], "across": tape.read(across), "up": up, **size})


def window(drawing: Drawing) -> None:
    """In the back wall, between studs that leave room for it."""
    tape, wall = drawing.tape, drawing.wall("back")
    left, right = boards_of(drawing, wall)
    width = tape.draw(16, min(30.0, float(right - left) - 16))
    middle = tape.read((left + right) / 2)
    studs = wall["supports"]["studs"][0]
    clear = width / 2 + drawing.face
    studs["centres"] = [one for one in studs["centres"] if abs(one - middle) >= clear + drawing.face / 2 + 1]
    studs["centres"] = sorted(
        [*studs["centres"], *(tape.read(middle + side * (clear - drawing.face / 2)) for side in (-1, 1))]
    )
    up = tape.draw(38, 48)
    height = tape.draw(12, min(36.0, float(wall["height"] - up) - 8))
    size = {"width": width - 1, "height": height, "depth": tape.draw(1.5, 3.5)}
    drawing.add("windows", {"wall": "back", "across": middle, "up": up, **size})


def bench(drawing: Drawing) -> None:
    """Across one end of the tray, along the back wall."""
    tape, wall = drawing.tape, drawing.wall("back")
    length = tape.draw(14, float(wall["width"]) / 2)
    start = drawing.rng.choice((Fraction(0), wall["width"] - length))
    size = {"depth": tape.draw(11, 18), "height": tape.draw(14, 20)}
    drawing.add("benches", {"along": "back", "from": start, "length": length, **size})


def corner_seat(drawing: Drawing) -> None:
    """In the corner left of the back wall: three-sided, or five-sided with returns."""
    tape = drawing.tape
    leg = tape.draw(13, 22)
    seat: Record = {"kind": "corner", "between": ["left", "back"], "legs": [leg, leg], "height": tape.draw(14, 20)}
    if drawing.rng.random() < 0.4:
        seat["returns"] = tape.read(leg / 3)
    drawing.add("benches", seat)


def five_sided_seat(drawing: Drawing) -> None:
    """In the corner left of the back wall, its ends standing out from the walls, its legs unlike each other."""
    tape = drawing.tape
    legs = [tape.draw(15, 24), tape.draw(15, 24)]
    returns = tape.draw(4, 8)
    seat: Record = {"kind": "corner", "between": ["left", "back"], "legs": legs, "returns": returns}
    drawing.add("benches", {**seat, "height": tape.draw(14, 20)})


def curb(drawing: Drawing) -> None:
    """Along the open side of the tray; the side walls go on past it."""
    tape, base = drawing.tape, drawing.room["base"]
    thickness = DEPTH[tape.units]
    out = base["width"] + thickness + tape.draw(3, 8)
    for wall in (one for one in drawing.walls if one["name"] != "back"):
        rest = tape.draw(2, 20)
        wall["width"], wall["boards"]["reach"] = out + rest, out
        at = rest if wall["name"] == "left" else out
        wall["supports"]["studs"][0]["centres"] = centres(tape, wall["width"], [at])
    height = base["deck"] + tape.draw(2, 5)
    base["threshold"] = height + 1
    drawing.add("curbs", {"along": "back", "thickness": thickness, "height": height})


def partition(drawing: Drawing) -> None:
    """The last wall stands free: to the ceiling, or a half wall with a cap."""
    tape, wall = drawing.tape, drawing.walls[-1]
    capped = drawing.rng.random() < 0.6
    for key in ("beside",):
        wall.pop(key)
    width = drawing.room["base"].get("width") or tape.draw(24, 44)
    wall.update(width=width, boards={}, height=tape.draw(36, 60) if capped else wall["height"])
    wall["partition"] = {"thickness": DEPTH[tape.units], "cap": capped, "faces": drawing.rng.choice(("both", "inside"))}
    wall["supports"]["studs"][0]["centres"] = centres(tape, width)
    if drawing.rng.random() < 0.6:
        wall["supports"]["plates"] = {"profile": STUD[tape.units]}


def half_wall(drawing: Drawing) -> None:
    """The first or the last wall stands free, with a cap: boarded on one side or both, on the other perhaps in part."""
    tape, wall = drawing.tape, drawing.walls[drawing.rng.choice((0, -1))]
    wall.pop("beside")
    width = drawing.room["base"].get("width") or tape.draw(20, 60)
    wall.update(width=width, boards={}, height=tape.draw(30, 62))
    wall["partition"] = {"thickness": DEPTH[tape.units], "cap": True}
    if drawing.rng.random() < 0.3:
        wall["partition"]["faces"] = "inside"
    elif drawing.rng.random() < 0.3:
        wall["partition"]["outside"] = tape.draw(12, float(width) - 4)
    wall["supports"]["studs"][0]["centres"] = centres(tape, width)
    if drawing.rng.random() < 0.6:
        wall["supports"]["plates"] = {"profile": STUD[tape.units]}


def raked_half_wall(drawing: Drawing) -> None:
    """Its top falls along the wall, to its free end or from it, as steep as it may or hardly at all."""
    half_wall(drawing)
    tape = drawing.tape
    wall = next(wall for wall in drawing.walls if "partition" in wall)
    high = tape.draw(40, 62)
    low = max(tape.draw(24, 30), tape.read(high - wall["width"] * Fraction(drawing.rng.uniform(0.02, 0.95))))
    ends = drawing.rng.choice(((high, low), (low, high)))
    wall["height"] = max(ends)
    wall["heights"] = [{"at": Fraction(0), "is": ends[0]}, {"at": wall["width"], "is": ends[1]}]
    if "plates" in wall["supports"] and drawing.rng.random() < 0.5:
        wall["supports"]["plates"]["top"] = False


def neo_angle(drawing: Drawing) -> None:
    """In the corner of two walls: a base with returns and a front across at 135 degrees."""
    tape, side = drawing.tape, drawing.tape.draw(34, 44)
    back, other = drawing.wall("back"), drawing.walls[0]
    deck, inset = tape.draw(2, 6), tape.draw(14, 22)
    drawing.room["base"] = {"kind": "shower_base", "shape": "neo_angle", "profile": PROFILES["neo_angle"]}
    drawing.room["base"] |= {"along": "back", "length": side, "width": side, "deck": deck, "threshold": deck + 1}
    drawing.room["base"]["returns"] = {other["name"]: side - inset, "back": side - inset}
    for wall in (other, back):
        rest = tape.draw(6, 30)
        wall["width"], wall["boards"]["reach"] = side + rest, side
        wall["supports"]["studs"][0]["centres"] = centres(tape, wall["width"], [rest if wall is other else side])


def deck_of_tub(drawing: Drawing) -> None:
    """A tub that is shorter than its recess, and a deck between its end and the wall, level with the tub or higher."""
    tape, base, back = drawing.tape, drawing.room["base"], drawing.wall("back")
    gap = tape.draw(8, 18)
    start = drawing.rng.choice((Fraction(0), gap))
    base["length"] = back["width"] - gap
    base["start"] = start
    where = {"from": Fraction(0) if start else base["length"], "length": gap}
    height = base["deck"] + drawing.rng.choice((Fraction(0), tape.draw(0.25, 3)))
    drawing.add("benches", {"kind": "deck", "along": "back", "depth": base["width"], "height": height, **where})


def soffit(drawing: Drawing) -> None:
    """Along the back wall: from end to end of its boards, up to one neighbour, or free at both ends."""
    tape, wall = drawing.tape, drawing.wall("back")
    for one in drawing.walls:
        one["boards"].pop("top", None)
    left, right = boards_of(drawing, wall)
    index, past = [one["name"] for one in drawing.walls].index("back"), Fraction(9)
    walled = index > 0, index < len(drawing.walls) - 1
    start = left if walled[0] and drawing.rng.random() < 0.6 else left + past + tape.draw(0, 4)
    end = right if walled[1] and drawing.rng.random() < 0.6 else right - past - tape.draw(0, 4)
    beside = [b - a for a, b in (boards_of(drawing, one) for one in drawing.walls if one is not wall)]
    deepest = min([Fraction(30), *(reach - 5 for reach in beside)])
    size = {"depth": tape.draw(10, float(deepest)), "height": wall["height"] - tape.draw(7, 16)}
    drawing.add("soffits", {"along": "back", "from": tape.read(start), "length": tape.read(end - start), **size})


def mounts(drawing: Drawing) -> None:
    """A level bar on one wall, an upright one on another, a folding seat on the back."""
    tape = drawing.tape
    for wall in drawing.walls:
        left, right = boards_of(drawing, wall)
        room = float(right - left)
        what = drawing.rng.choice(("level", "upright", "seat", "none"))
        if what == "level" and room > 30:
            size = {"across": left + tape.draw(4, 6), "up": tape.draw(33, 36), "length": tape.draw(16, room - 12)}
            drawing.add("mounts", {"kind": "grab_bar", "wall": wall["name"], **size})
        elif what == "upright":
            size = {"across": left + tape.draw(6, room - 6), "up": tape.draw(36, 42), "length": tape.draw(12, 24)}
            drawing.add("mounts", {"kind": "grab_bar", "wall": wall["name"], "direction": "upright", **size})
        elif what == "seat" and room > 28:
            size = {"across": left + tape.draw(1.5, 4), "up": tape.draw(17, 19), "length": tape.draw(16, 22)}
            drawing.add("mounts", {"kind": "seat", "wall": wall["name"], **size, "out": tape.draw(14, 16)})
