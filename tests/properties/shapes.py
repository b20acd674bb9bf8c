"""Walls as they are: leaning, sloped, stepped, furred, of brick, with doubled, flat, crooked and steel studs."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

from tests.properties.bare import STUD, Drawing, Record, centres

ANGLES = (45, 60, 90, 100, 120, 135)
WALLBOARD = 4


def sloped(drawing: Drawing) -> None:
    """Ceilings that come down, straight or in steps; boards follow them."""
    for wall in drawing.walls:
        if drawing.rng.random() < 0.7:
            wall["heights"] = _line(drawing, wall.pop("width_at", wall["width"]), wall["height"])
            wall["boards"].pop("top", None)
            if wall["boards"].get("reach") is None:
                wall["boards"].pop("reach", None)


def _line(drawing: Drawing, width: Fraction, height: Fraction) -> list[Record]:
    tape, low = drawing.tape, height - drawing.tape.draw(2, 30)
    middle = tape.read(width / 2)
    rows = drawing.rng.choice(
        (
            [(Fraction(0), height), (width, low)],
            [(Fraction(0), low), (width, height)],
            [(Fraction(0), low), (middle, height), (width, height)],
            [(Fraction(0), height), (middle, height), (middle, low), (width, low)],
        )
    )
    return [{"at": at, "is": high} for at, high in rows]


def leaning(drawing: Drawing) -> None:
    """Ends in a corner that lean into the room or out of it; a top width agrees with them."""
    tape = drawing.tape
    for wall in drawing.walls[1:]:
        run = tape.draw(0.1, 0.75)
        wall["plumb"] = {"left": run if drawing.rng.random() < 0.5 else f"-{tape.said(run)}"}


def cornered(drawing: Drawing) -> None:
    """Corners that are not square."""
    names = [wall["name"] for wall in drawing.walls]
    drawing.room["corners"] = [{"between": list(pair), "angle": drawing.rng.choice(ANGLES)} for pair in pairwise(names)]


def off_the_studs(drawing: Drawing) -> None:
    """A flange that stands off the stud faces: notched for, or furred away."""
    tape, base = drawing.tape, drawing.room["base"]
    for wall in drawing.walls:
        if drawing.rng.random() < 0.7:
            base.setdefault("gaps", {})[wall["name"]] = tape.draw(0.05, 0.4)
    base["at_flange"] = drawing.rng.choice(("rabbet", "fur", {"back": "fur"}, {"back": tape.draw(0.2, 0.5)}))


def masonry(drawing: Drawing) -> None:
    """One wall of brick, block or concrete."""
    wall = drawing.rng.choice(drawing.walls)
    wall["supports"] = {"masonry": {"kind": drawing.rng.choice(("brick", "block", "concrete"))}}


def odd_studs(drawing: Drawing) -> None:
    """Each wall's studs as one framer or another left them."""
    for wall in drawing.walls:
        changes = (_steel_between, _doubled, _flat, _crooked, _plated, _backed, _damaged, _string_line)
        drawing.rng.choice(changes)(drawing, wall)


def _inner(wall: Record) -> list[Fraction]:
    listed: list[Fraction] = wall["supports"]["studs"][0]["centres"]
    return listed[1:-1]


def _split(wall: Record, **said: Any) -> None:
    """The second stud from the left on a row of its own."""
    studs, inner = wall["supports"]["studs"], _inner(wall)
    if inner:
        rest = [one for one in studs[0]["centres"] if one != inner[0]]
        studs[:] = [{**studs[0], "centres": rest}, {**studs[0], "centres": inner[:1], **said}]


def _steel_between(_: Drawing, wall: Record) -> None:
    _split(wall, profile="steel-362s125-18")


def _doubled(drawing: Drawing, wall: Record) -> None:
    inner = _inner(wall)
    if inner and inner[0] > 3 * drawing.face:
        _split(wall, doubled=True)


def _flat(drawing: Drawing, wall: Record) -> None:
    inner = _inner(wall)
    if inner and inner[0] > 4 * drawing.face:
        _split(wall, flat=True)


def _crooked(drawing: Drawing, wall: Record) -> None:
    inner = _inner(wall)
    if inner:
        off = drawing.tape.draw(0.1, 0.4)
        _split(wall, centres_top=[inner[0] + (off if drawing.rng.random() < 0.5 else -off)])


def _plated(drawing: Drawing, wall: Record) -> None:
    supports, half = wall["supports"], drawing.face / 2
    supports["plates"] = {"profile": STUD[drawing.tape.units], "top_plies": drawing.rng.choice((1, 2))}
    first, second = supports["studs"][0]["centres"][:2]
    if second - first > 8:
        block = {"profile": STUD[drawing.tape.units], "from": first + half, "to": second - half}
        supports["blocking"] = [{**block, "centre": drawing.tape.draw(24, 60), "fire": drawing.rng.random() < 0.5}]


def _backed(drawing: Drawing, wall: Record) -> None:
    """A nailer beside the stud in the left corner."""
    first = wall["supports"]["studs"][0]["centres"][0]
    wall["supports"]["backing"] = [{"profile": STUD[drawing.tape.units], "centre": first + drawing.face}]


def _damaged(drawing: Drawing, wall: Record) -> None:
    tape = drawing.tape
    for stud in _inner(wall)[:2]:
        hole = {"stud": stud, "at": tape.draw(20, 60), "diameter": tape.draw(0.5, 1.5), "carries": "pipe"}
        wall["supports"].setdefault("holes", []).append(hole)
    for stud in _inner(wall)[-1:]:
        notch = {"stud": stud, "at": tape.draw(64, 70), "height": tape.draw(1, 3), "depth": tape.draw(0.3, 1)}
        wall["supports"]["notches"] = [{**notch, "face": drawing.rng.choice(("front", "back"))}]


def _string_line(drawing: Drawing, wall: Record) -> None:
    tape, heights = drawing.tape, [drawing.tape.read(Fraction(h)) for h in (24, 48, 72)]
    wall["string_line"] = [
        {"stud": stud, "at": heights, "off": [tape.draw(0.4, 0.65) for _ in heights]}
        for stud in wall["supports"]["studs"][0]["centres"]
    ]


def chased(drawing: Drawing) -> None:
    """A boxed-out pipe in the right end of the back wall: a side that comes into the room, a front, the right wall."""
    tape, walls = drawing.tape, drawing.walls
    back, height = drawing.wall("back"), walls[0]["height"]
    rows = [("side", tape.draw(4, 12)), ("front", tape.draw(5, 16))]
    pieces = [
        {**back, "name": name, "width": width, "boards": {}, "supports": _studs(drawing, width), "height": height}
        for name, width in rows
    ]
    drawing.room["walls"] = [wall for wall in walls if wall["name"] != "right"] + pieces
    drawing.room["corners"] = [
        {"between": ["side", "front"], "angle": 270, "first": drawing.rng.choice(("side", "front"))}
    ]
    back["boards"].pop("reach", None)
    for wall in drawing.room["walls"]:
        wall["height"] = height
        wall["boards"].pop("top", None)


def _studs(drawing: Drawing, width: Fraction) -> Record:
    return {"from": "left", "studs": [{"profile": STUD[drawing.tape.units], "centres": centres(drawing.tape, width)}]}


def tall_or_short(drawing: Drawing) -> None:
    """A shower wall of 6 ft, or a hall of 12."""
    height = drawing.tape.draw(*drawing.rng.choice(((60, 76), (120, 144))))
    for wall in drawing.walls:
        wall["height"] = height
        wall["boards"].pop("top", None)
