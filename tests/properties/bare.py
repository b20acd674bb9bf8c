"""Bare rooms for what is built into rooms: one to three walls, a base, studs at uneven centres, as a dictionary.

Lengths are Fractions in inches until `room_file` writes them in the room's unit. What is drawn on them stands in
`shapes.py` and `features.py`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Any

from tests.properties.rooms import INCH, Tape

Record = dict[str, Any]
FACE = {"in": Fraction(3, 2), "mm": 38 / INCH}
DEPTH = {"in": Fraction(7, 2), "mm": 89 / INCH}
STUD = {"in": "wood-2x4", "mm": "wood-38x89"}
SHEETS = {
    "in": [{"board": "foam-1-2", "size": size} for size in ("48x64", "48x96")],
    "mm": [{"board": "foam-12-5-mm", "size": size} for size in ("900x1500", "1200x2400")],
}
PROFILES = {"tub": "thin-3-16", "shower_base": "thick-1-2", "tray": "tray-boards-first", "neo_angle": "thin-1-8"}


@dataclass(frozen=True, slots=True)
class Drawing:
    """A room being drawn: `room` is filled in by one feature after the other, all with the same tape."""

    tape: Tape
    room: Record

    @property
    def rng(self) -> Random:
        return self.tape.rng

    @property
    def face(self) -> Fraction:
        return FACE[self.tape.units]

    @property
    def walls(self) -> list[Record]:
        return list(self.room["walls"])

    def wall(self, name: str) -> Record:
        return next(wall for wall in self.walls if wall["name"] == name)

    def add(self, key: str, record: Record) -> None:
        self.room.setdefault(key, []).append({"name": f"{key}-{len(self.room.get(key, ())) + 1}", **record})


def room_file(drawing: Drawing) -> str:
    """JSON is YAML too; lengths as they would be read off the tape."""
    return json.dumps(drawing.room, indent=1, default=drawing.tape.said) + "\n"


def bare_room(seed: int, kind: str, names: tuple[str, ...], base: str) -> Drawing:
    """Walls `names` (out of left, back, right); a base of that kind along the back, filling a recess of three."""
    rng = Random(f"{kind} {seed}")
    tape = Tape(rng, rng.choice(("in", "mm")))
    drawing = Drawing(tape, {"name": f"{kind} {seed}", "units": tape.units, "place": {"code": rng.choice(CODES)}})
    length, out, height = tape.draw(40, 64), tape.draw(31, 40), tape.draw(84, 108)
    drawing.room["base"] = _base(tape, base, length, out)
    drawing.room["walls"] = [_wall(tape, names, name, (length, out, height)) for name in names]
    if rng.random() < 0.5:
        drawing.room["tile"] = {"thickness": tape.read(Fraction(3, 8)), "bed": tape.read(Fraction(1, 8))}
    drawing.room["choices"] = {"sheets": SHEETS[tape.units][rng.choice((0, 1, 1, 1, 1)) :]}
    return drawing


CODES = ("irc", "ipc", "none")


def _base(tape: Tape, kind: str, length: Fraction, out: Fraction) -> Record:
    if kind == "none":
        return {"kind": "none"}
    deck = tape.draw(15, 20) if kind == "tub" else tape.draw(1, 4)
    base = {"kind": kind, "profile": PROFILES[kind], "along": "back", "length": length, "width": out, "deck": deck}
    return base if kind == "tub" else base | {"threshold": deck + tape.draw(1, 3)}


def _wall(tape: Tape, names: tuple[str, ...], name: str, sizes: tuple[Fraction, Fraction, Fraction]) -> Record:
    """Boards reach past the base; a stud stands where they end."""
    length, out, height = sizes
    index, covered = names.index(name), length if name == "back" else out
    closed = 0 < index < len(names) - 1
    past, rest = (Fraction(0), Fraction(0)) if closed else (tape.draw(3, 9), tape.draw(4, 24))
    width, reach = covered + past + rest, covered + past
    if len(names) == 1:
        past = Fraction(0)
    far_left = index == 0 and len(names) > 1
    asked = [] if closed else [width - reach if far_left else reach]
    asked += [] if closed else [width - covered if far_left else covered]
    spread = {} if closed else {"reach": [Fraction(0), reach] if len(names) == 1 else reach}
    return {
        "name": name,
        "width": width,
        "height": height,
        "boards": {**spread, "top": height - tape.draw(4, 20)} if tape.rng.random() < 0.3 else spread,
        "beside": tape.rng.choice(("wallboard", "free")),
        "duty": tape.rng.choice(("unknown", "bearing", "non_bearing")),
        "supports": {"from": "left", "studs": [{"profile": STUD[tape.units], "centres": centres(tape, width, asked)}]},
    }


def centres(tape: Tape, width: Fraction, asked: Iterable[Fraction] = ()) -> list[Fraction]:
    """A stud at each end, one where each of `asked` is, and more at 13 to 16 in between them."""
    face = FACE[tape.units]
    kept = [face / 2, width - face / 2]
    kept += [at for at in asked if all(abs(at - other) >= face for other in kept)]
    at = face / 2 + tape.draw(13, 16)
    while at < width - face:
        if all(abs(at - other) >= 2 * face for other in kept):
            kept.append(at)
        at += tape.draw(13, 16)
    return sorted(dict.fromkeys(tape.read(one) if one != kept[1] else one for one in kept))


def bays(wall: Record, reach: tuple[Fraction, Fraction], face: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Clear stretches between neighbouring studs within the boards, from the left end."""
    listed = sorted(wall["supports"]["studs"][0]["centres"])
    pairs = [(a + face / 2, b - face / 2) for a, b in pairwise(listed)]
    return [(a, b) for a, b in pairs if a >= reach[0] and b <= reach[1]]


def boards_of(drawing: Drawing, wall: Record) -> tuple[Fraction, Fraction]:
    """Where the boards of a wall begin and end, from its left end."""
    reach = wall["boards"].get("reach")
    if reach is None:
        return Fraction(0), wall["width"]
    if isinstance(reach, list):
        return reach[0], reach[1]
    first = drawing.walls[0]["name"] == wall["name"]
    return (wall["width"] - reach, wall["width"]) if first else (Fraction(0), reach)
