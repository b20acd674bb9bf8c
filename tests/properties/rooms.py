"""Rooms that nobody measured: a room file, as YAML text, for every seed.

Any number of walls from one to six, uneven studs of wood or steel, both units, all kinds of base, corners of 90
and 135 degrees, legs, open ends, fittings anywhere, sheets of one family. Many of them are bad rooms (a stud behind
the valve, a bay too wide): planning must still give a plan and the checks must say what is wrong.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from tests.properties.fittings import Reachable, fittings

INCH = Fraction(254, 10)
BASES = ("tub", "shower_base", "boards_first", "tray_first", "none")
PROFILES = {
    "tub": ("thin-3-16", "thin-1-8"),
    "shower_base": ("thick-1-2",),
    "boards_first": ("tray-boards-first",),
    "tray_first": ("tray-tray-first",),
}
WOOD = {"in": ("wood-2x4", "wood-2x6"), "mm": ("wood-38x89", "wood-38x63")}
STEEL = ("steel-362s125-18", "steel-362s125-33")
FACES = {"wood-2x4": Fraction(3, 2), "wood-2x6": Fraction(3, 2), "wood-38x89": 38 / INCH, "wood-38x63": 38 / INCH}
BOARDS = {
    "in": ("foam-1-2", ("32x48", "36x60", "48x64", "48x96")),
    "mm": ("foam-12-5-mm", ("600x1250", "900x1500", "1200x2400")),
}


@dataclass(frozen=True, slots=True)
class Tape:
    """A tape in one unit: draws lengths (given in inches) that can be read off it, and writes them."""

    rng: Random
    units: str

    def read(self, inches: Fraction) -> Fraction:
        """The nearest mark: 1/8 in or 1 mm; in inches."""
        step = Fraction(1, 8) if self.units == "in" else 1 / INCH
        return round(inches / step) * step

    def draw(self, low: float, high: float) -> Fraction:
        return self.read(Fraction(self.rng.uniform(low, high)))

    def said(self, inches: Fraction) -> str:
        if self.units == "mm":
            return str(round(inches * INCH))
        whole, rest = divmod(inches, 1)
        return " ".join(part for part in (str(whole) if whole or not rest else "", str(rest) if rest else "") if part)


@dataclass(frozen=True, slots=True)
class Site:
    """What the walls share. Lengths in inches; `length`, `out` 0 without a base; `along` the wall it stands against."""

    tape: Tape
    kind: str
    count: int
    along: int
    length: Fraction
    out: Fraction
    deck: Fraction
    height: Fraction
    stud: str
    most: float
    """Widest bay that the framer left, for the most part."""

    @property
    def rng(self) -> Random:
        return self.tape.rng

    @property
    def face(self) -> Fraction:
        return FACES.get(self.stud, Fraction(5, 4))

    def beside(self, index: int) -> bool:
        """True for the walls next to the one that the base stands along."""
        return self.kind != "none" and abs(index - self.along) == 1

    def at_base(self, index: int) -> bool:
        """True for every wall that the base stands against."""
        return self.kind != "none" and abs(index - self.along) <= 1


@dataclass(frozen=True, slots=True)
class DrawnWall:
    index: int
    width: Fraction
    near: Fraction
    far: Fraction
    """Boards from `near` to `far`, from the left end."""
    text: str


def room_text(seed: int) -> str:
    """The room file of a seed; the same seed gives the same text."""
    site = _site(seed, Random(seed))
    walls = [_wall(site, index) for index in range(site.count)]
    reachable = tuple(Reachable(f"w{w.index + 1}", w.near, w.far, site.at_base(w.index)) for w in walls)
    parts = [
        f"name: generated {seed}\nunits: {site.tape.units}\nplace: {{code: {site.rng.choice(('irc', 'ipc', 'none'))}}}",
        _base(site),
        "walls:\n" + "\n".join(w.text for w in walls),
        _corners(site),
        fittings(site.tape, reachable, site.deck),
        _tile(site),
        _choices(site),
    ]
    return "\n".join(part for part in parts if part) + "\n"


def _site(seed: int, rng: Random) -> Site:
    tape = Tape(rng, "in" if seed // 5 % 2 == 0 else "mm")
    kind, count = BASES[seed % 5], 1 + seed // 10 % 6
    along = rng.randrange(count)
    closed = 0 < along < count - 1
    length = tape.draw(32, 66) if kind != "none" else Fraction(0)
    return Site(
        tape=tape,
        kind=kind,
        count=count,
        along=along,
        length=length if closed or count > 1 else tape.read(length * Fraction(9, 10)),
        out=tape.draw(29, 42) if kind != "none" else Fraction(0),
        deck=tape.draw(14, 20) if kind == "tub" else tape.draw(2, 6) if kind != "none" else Fraction(0),
        height=tape.draw(78, 108),
        stud=rng.choice(STEEL if rng.random() < 0.25 else WOOD[tape.units]),
        most=rng.choice((15.5, 15.9, 16.0, 16.0, 19.2, 24.0)),
    )


def _base(site: Site) -> str:
    if site.kind == "none":
        return "base: {kind: none}"
    tape, rng = site.tape, site.rng
    kind = "tray" if site.kind.endswith("first") else site.kind
    extra = ""
    if kind != "tub" and rng.random() < 0.5:
        extra += f", threshold: {tape.said(site.deck + tape.draw(0, 3))}"
    if kind != "tub" and rng.random() < 0.3:
        extra += f", drain: {tape.said(tape.draw(0, 1))}"
    return (
        f"base: {{kind: {kind}, profile: {rng.choice(PROFILES[site.kind])}, along: w{site.along + 1}, "
        f"length: {tape.said(site.length)}, width: {tape.said(site.out)}, {_deck(site)}{extra}}}"
    )


def _deck(site: Site) -> str:
    """Level, or in one room of five out by up to 3/8 in along each side; sides agree where they meet."""
    tape = site.tape
    if site.rng.random() < 0.8:
        return f"deck: {tape.said(site.deck)}"
    ends = [tape.said(site.deck + tape.draw(0, 0.375)) for _ in range(4)]
    walls = range(max(0, site.along - 1), min(site.count, site.along + 2))
    sides = (f"w{i + 1}: [{ends[i - site.along + 1]}, {ends[i - site.along + 2]}]" for i in walls)
    return f"decks: {{{', '.join(sides)}}}"


def _width(site: Site, index: int) -> Fraction:
    """A wall wide enough for the base; a base between two neighbours fills its recess."""
    tape = site.tape
    if site.kind != "none" and index == site.along:
        closed = 0 < index < site.count - 1
        return site.length if closed else site.length + tape.draw(2, 30)
    if site.beside(index):
        return site.out + tape.draw(0, 36)
    return tape.draw(16, 72)


def _wall(site: Site, index: int) -> DrawnWall:
    tape, rng = site.tape, site.rng
    width = _width(site, index)
    near, far = _reach(site, index, width)
    open_left, open_right = index == 0, index == site.count - 1
    reach = ""
    if near > 0 or far < width:
        one_corner = open_left != open_right
        span = tape.said(width - near if open_left else far)
        reach = f"reach: {span}" if one_corner else f"reach: [{tape.said(near)}, {tape.said(far)}]"
    top = f"top: {tape.said(tape.draw(60, float(site.height) - 4))}" if rng.random() < 0.3 else ""
    boards = ", ".join(part for part in (reach, top) if part)
    lines = [
        f"  - name: w{index + 1}",
        f"    width: {tape.said(width)}",
        f"    height: {tape.said(site.height)}",
        f"    ceiling: {rng.choice(('framing', 'framing', 'finished'))}",
        *([f"    boards: {{{boards}}}"] if boards else []),
        f"    beside: {rng.choice(('wallboard', 'wallboard', 'free'))}",
        f"    duty: {rng.choice(('unknown', 'bearing', 'non_bearing'))}",
        *_supports(site, index, width, (near, far)),
    ]
    return DrawnWall(index, width, near, far, "\n".join(lines))


def _reach(site: Site, index: int, width: Fraction) -> tuple[Fraction, Fraction]:
    """Boards go to a corner wherever there is one, and at an open end as far as somebody asked."""
    open_left, open_right = index == 0, index == site.count - 1
    if not (open_left or open_right) or site.rng.random() < 0.25:
        return Fraction(0), width
    if site.beside(index):
        reach = min(width, site.out + site.rng.choice((Fraction(0), site.tape.draw(3, 10), site.tape.draw(3, 10))))
    elif site.kind != "none" and index == site.along:
        reach = min(width, site.length + site.tape.draw(3, 8))
    else:
        reach = min(width, site.tape.draw(14, 60))
    if open_left and open_right:
        return (Fraction(0), reach) if site.kind != "none" else (width - reach, width)
    return (width - reach, width) if open_left else (Fraction(0), reach)


def _supports(site: Site, index: int, width: Fraction, span: tuple[Fraction, Fraction]) -> list[str]:
    tape, rng = site.tape, site.rng
    end = rng.choice(("left", "right"))
    centres = _centres(site, index, width, span)
    measured = sorted(tape.read(c if end == "left" else width - c) for c in centres)
    lines = [
        "    supports:",
        f"      from: {end}",
        f"      studs: [{{profile: {site.stud}, centres: [{', '.join(tape.said(c) for c in measured)}]}}]",
    ]
    if rng.random() < 0.4:
        lines.append(f"      plates: {{profile: {site.stud}}}")
    if rng.random() < 0.25 and len(measured) > 2:
        half = tape.read(site.face / 2)
        at = rng.randrange(len(measured) - 1)
        low, high = measured[at] + half, measured[at + 1] - half
        if high - low > 4:
            height = tape.said(tape.draw(24, 60))
            lines.append(
                f"      blocking: [{{profile: {site.stud}, from: {tape.said(low)}, "
                f"to: {tape.said(high)}, centre: {height}}}]"
            )
    return lines


def _centres(site: Site, index: int, width: Fraction, span: tuple[Fraction, Fraction]) -> list[Fraction]:
    """Studs from one end to the other at uneven centres, and mostly those that open ends and legs ask for."""
    tape, rng, half = site.tape, site.rng, site.face / 2
    wanted = [half, width - half]
    wanted += [end for end in span if half < end < width - half and rng.random() < 0.85]
    if site.beside(index) and rng.random() < 0.85:
        leg = site.out + Fraction(1, 4) + half
        wanted.append(leg if index > site.along else width - leg)
    at = half
    while at < width - half:
        at += tape.draw(site.most - 3, site.most)
        wanted.append(at)
    kept: list[Fraction] = []
    for centre in wanted:
        marked = tape.read(centre)
        free = all(abs(marked - other) >= site.face for other in kept)
        if free and half - Fraction(1, 8) <= marked <= width - half + Fraction(1, 8):
            kept.append(min(max(marked, half), width - half))
    return kept


def _corners(site: Site) -> str:
    """Corners away from the base may be 135; with five and six walls they are, or the room would bite its tail."""
    rows = []
    for left in range(site.count - 1):
        at_base = site.kind != "none" and site.along in (left, left + 1)
        if not at_base and (site.count > 4 or site.rng.random() < 0.5):
            rows.append(f"  - {{between: [w{left + 1}, w{left + 2}], angle: 135}}")
        elif site.rng.random() < 0.2:
            first = site.rng.choice((left + 1, left + 2))
            rows.append(f"  - {{between: [w{left + 1}, w{left + 2}], first: w{first}}}")
    return "corners:\n" + "\n".join(rows) if rows else ""


def _tile(site: Site) -> str:
    if site.rng.random() < 0.6:
        return ""
    return "tile: {thickness: 3/8, bed: 1/8}" if site.tape.units == "in" else "tile: {thickness: 9, bed: 3}"


def _choices(site: Site) -> str:
    rng = site.rng
    board, sizes = BOARDS[site.tape.units]
    chosen = sorted({sizes[-1] if rng.random() < 0.8 else sizes[-2], *rng.sample(sizes, rng.choice((0, 0, 1)))})
    priced = rng.random() < 0.5
    rows = [
        f"    - {{board: {board}, size: {size}{f', price: {rng.randint(20, 90)}' if priced else ''}}}"
        for size in chosen
    ]
    lines = ["choices:", "  sheets:", *rows]
    if priced:
        lines.append(f"  prices: {{added_support: {rng.randint(5, 15)}}}")
    if rng.random() < 0.3:
        lines.append(f"  kerf: {'3/32' if site.tape.units == 'in' else '4'}")
    return "\n".join(lines)
