# ruff: noqa: E501 (a table of mistakes reads best with one mistake to a line)
"""Mistakes in room files: every one found, on its line, with what would be right; and never a traceback."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.errors import InputError
from generator.reading import read_room
from tests.reading.rooms import EXAMPLES, GOOD, SMALL, changed, complaints, read

STUDS = "centres: [3/4, 15, 34]"
VALVE = "across: 22, from: right, up: 30"
TUB = "kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16"
NEO = "kind: shower_base, shape: neo_angle, profile: thick-1-2, along: back, length: 38, width: 38, returns: {left: 18, back: 18}, deck: 4"
CORNER = ("fittings:", "corners:\n  - {between: [left, back], ANGLE}\nfittings:")

MISTAKES = {
    "unknown key": ([("name: small", "nam: small")], 1, "unknown key `nam`; did you mean `name`?"),
    "missing key": ([("    height: 96\n    boards", "    boards")], 6, "`height` is missing: from the floor to the ceiling"),
    "missing units": ([("units: in\n", "")], 0, "`units` is missing: the unit of bare numbers, in or mm"),
    "wrong units": ([("units: in", "units: feet")], 2, "units: `feet` is not one of the words known here; there is in, mm"),
    "repeated key": ([("units: in", "units: in\nunits: mm")], 3, "`units` is given twice, first on line 2; keep one"),
    "list for keys": ([("place: {code: none}", "place: [none]")], 3, "place: a group of keys is expected here, not a list"),
    "word for list": ([(STUDS, "centres: 15")], 13, "centres: a list is expected here, not `15`"),
    "text for length": ([("width: 40", "width: wide")], 7, "width: `wide`: write a number with an optional unit"),
    "octal": ([("width: 40", "width: 040")], 7, "width: `040`: a number does not begin with 0"),
    "not finite": ([("width: 40", "width: .inf")], 7, "width: `.inf`: that is not a number"),
    "a date": ([("width: 40", "width: 2026-11-24")], 7, "width: `2026-11-24`: that is a date"),
    "negative": ([("width: 40", "width: -40")], 7, "width: `-40`: a length is never negative"),
    "zero": ([("width: 40", "width: 0")], 7, "width: `0` is next to nothing"),
    "absurd": ([("width: 40", "width: 4000")], 7, "width: `4000` is longer than 30 m"),
    "nothing": ([("width: 40", "width:")], 7, "width: a length such as 60 1/4 is expected here, not nothing"),
    "unclear": ([("width: 40", "width: 40 1")], 7, "width: `40 1`: two numbers stand side by side"),
    "empty name": ([("name: small", 'name: ""')], 1, "name: nothing is written here"),
    "wall's name": ([("- name: back", "- name: back wall")], 14, "name: `back wall` is no name"),
    "same wall": ([("- name: back", "- name: left")], 14, 'a second wall "left"'),
    "stud profile": ([("wood-2x4", "wod-2x4")], 13, "unknown profile `wod-2x4` of studs; did you mean `wood-2x4`?"),
    "stud outside": ([("59 1/4]", "71]")], 19, 'stud at 71 in lies outside the 60 in wall "back"'),
    "stud over the end": ([("59 1/4]", "59 1/2]")], 19, 'stud at 59 1/2 in reaches past an end of wall "back"; its centre is at least 3/4" from the end'),
    "studs overlap": ([(STUDS, "centres: [3/4, 15, 16, 34]")], 13, "stud at 16 in overlaps the stud at 15 in"),
    "same stud twice": ([(STUDS, "centres: [3/4, 15, 15, 34]")], 13, "stud at 15 in overlaps the stud at 15 in"),
    "stud upside down": ([("34]}", "34], bottom: 50, top: 20}")], 13, "`top`, its higher end, is not above `bottom`"),
    "stud too high": ([("34]}", "34], top: 97}")], 13, "it ends above the 96 in ceiling"),
    "no studs listed": ([(STUDS, "centres: []")], 13, "centres: at least 1 are expected here; there are 0"),
    "blocking in a stud": ([(f"{STUDS}}}", f"{STUDS}}}\n      blocking: [{{profile: wood-2x4, from: 10, to: 20, centre: 40}}]")], 14, "blocking at 40 in overlaps the stud at 15 in; blocking runs from face to face"),
    "blocking of no length": ([(f"{STUDS}}}", f"{STUDS}}}\n      blocking: [{{profile: wood-2x4, from: 10, to: 10, centre: 40}}]")], 14, "blocking of no length"),
    "reach beyond": ([("reach: 34", "reach: 41")], 9, 'boards reach to 41 in, beyond the 40 in wall "left"'),
    "reach of one": ([("height: 96\n    supports:\n      studs", "height: 96\n    boards: {reach: 30}\n    supports:\n      studs"), ("fittings:", "  - {name: third, width: 40, height: 96, supports: {studs: []}}\nfittings:")], 17, 'wall "back" has two corners; write the reach as [from, to]'),
    "reach turned": ([("reach: 34", "reach: [30, 10]")], 9, "a reach runs from left to right"),
    "reach of three": ([("reach: 34", "reach: [1, 2, 3]")], 9, "reach: a reach is one length from the corner, or [from, to]"),
    "boards too high": ([("reach: 34", "reach: 34, top: 97")], 9, "boards up to 97 in on a wall 96 in high; write `ceiling`"),
    "boards' top": ([("reach: 34", "reach: 34, top: sky")], 9, "top: `ceiling` or a height above the floor is expected here"),
    "base too long": ([("length: 60", "length: 61")], 4, 'a base 61 in long does not fit the 60 in of wall "back"'),
    "base starts too late": ([("length: 60", "length: 50, start: 12")], 4, 'a base 50 in long that starts at 12 in does not fit'),
    "gap and start": ([("length: 60", "length: 59, start: 1/2, gaps: {left: 1/8}")], 4, '`start` and the gap at wall "left" (1/8 in) are one space, and 3/8" apart'),
    "gap at nobody": ([("length: 60", "length: 59, gaps: {lft: 1/8}")], 4, "unknown wall `lft`; did you mean `left`?"),
    "gap without a flange": ([("length: 60", "length: 59, flanged: [back], gaps: {left: 1/8}")], 4, 'the base has no flange at wall "left"; it has one at back'),
    "treatment": ([("length: 60", "length: 60, at_flange: glue")], 4, "`rabbet`, `fur` or a thickness of furring is expected here"),
    "notch at a thick flange": ([("thin-3-16", "thick-1-2"), ("length: 60", "length: 60, at_flange: rabbet")], 4, "boards stand above a thick flange and are not notched for it; write `fur`"),
    "base along": ([("along: back", "along: bak")], 4, "unknown wall `bak`; did you mean `back`?"),
    "flange": ([("thin-3-16", "thin-3-17")], 4, "unknown profile `thin-3-17` of flanges; did you mean `thin-3-16`?"),
    "tray's flange": ([("kind: tub", "kind: tray")], 4, "unknown profile `thin-3-16` of trays; there is tray-boards-first, tray-tray-first"),
    "no deck": ([(", deck: 16", "")], 4, "`deck` is missing: height of the deck above the floor"),
    "empty profile": ([("profile: thin-3-16", "profile:")], 4, "`profile` is missing"),
    "base and none": ([("kind: tub", "kind: none")], 4, "`deck` has no place where the kind of base is `none`"),
    "deck too high": ([("deck: 16", "deck: 98")], 4, 'the deck at 98 in is above the boards of wall "left"'),
    "deck above boards": ([("reach: 34", "reach: 34, top: 15")], 4, 'the deck at 16 in is above the boards of wall "left"'),
    "flange above boards": ([("reach: 34", "reach: 34, top: 16 1/2")], 9, "end below the top of the base's flange"),
    "flanged elsewhere": ([("deck: 16", "deck: 16, flanged: [right]")], 4, "unknown wall `right`"),
    "flanged away": ([("length: 60", "length: 50, start: 5, flanged: [left]")], 4, 'the base does not stand against wall "left"; it does at back'),
    "fitting's wall": ([("wall: left, kind: valve", "wall: lef, kind: valve")], 21, "unknown wall `lef`; did you mean `left`?"),
    "fitting's profile": ([("trim-5-round", "trim-5-roun")], 21, "unknown profile `trim-5-roun` of pipes and cutouts; did you mean `trim-5-round`?"),
    "fitting's kind": ([("kind: valve", "kind: valv")], 21, "kind: `valv` is not one of the words known here; did you mean `valve`?"),
    "above the ceiling": ([("up: 30", "up: 98")], 21, '"valve" at 98 in above the floor lies above the 96 in ceiling of wall "left"'),
    "in the ceiling": ([("up: 30", "up: 95")], 21, 'the opening of "valve" reaches past the floor or the ceiling'),
    "outside its wall": ([("across: 22", "across: 50")], 21, '"valve" at 50 in lies outside the 40 in wall "left"'),
    "over its wall's end": ([("across: 22", "across: 39")], 21, 'the opening of "valve" reaches past an end of wall "left"'),
    "fittings overlap": ([("up: 22", "up: 28")], 22, 'the openings of "spout" and "valve" overlap'),
    "same fitting": ([("name: spout", "name: valve")], 22, 'there is a fitting "valve" already'),
    "wall's own name": ([("name: spout", "name: left")], 22, 'there is a wall "left" already'),
    "deck of no base": ([("{kind: tub, profile: thin-3-16, along: back, length: 60, width: 30, deck: 16}", "{kind: none}"), (VALVE, VALVE + ", above: deck")], 21, "there is no deck to measure from"),
    "deck of elsewhere": ([("length: 60", "length: 50, start: 5"), (VALVE, VALVE + ", above: deck")], 21, 'the base does not stand against wall "left"; measure from the floor'),
    "blunt outside corner": ([(CORNER[0], CORNER[1].replace("ANGLE", "angle: 200"))], 21, "outside corners from 220 to 320, measured inside the room"),
    "sharp outside corner": ([(CORNER[0], CORNER[1].replace("ANGLE", "angle: 321"))], 21, "outside corners from 220 to 320, measured inside the room"),
    "sharp corner": ([(CORNER[0], CORNER[1].replace("ANGLE", "angle: 30"))], 21, "corners can be planned from 40 to 140 degrees"),
    "neo-angle without returns": ([(TUB, NEO.replace(", returns: {left: 18, back: 18}", ""))], 4, "`returns` is missing"),
    "neo-angle's misfit": ([(TUB, NEO.replace("back: 18", "back: 19"))], 4, 'length less the return at left is 20", width less the return at back is 19": off by 1"'),
    "neo-angle's front": ([(TUB, NEO.replace("deck", "front: 28 1/2, deck"))], 4, 'the front is 3/16" off what sides and returns make it (28 5/16")'),
    "neo-angle of no front": ([(TUB, NEO.replace("left: 18, back: 18", "left: 39, back: 39"))], 4, "here no front is left"),
    "neo-angle's other wall": ([(TUB, NEO.replace("left: 18", "lft: 18"))], 4, "unknown wall `lft`; did you mean `left`?"),
    "neo-angle's one return": ([(TUB, NEO.replace("left: 18, ", ""))], 4, 'a return each for wall "back" and the neighbour'),
    "neo-angle in a skew corner": ([(TUB, NEO), (CORNER[0], CORNER[1].replace("ANGLE", "angle: 120"))], 4, "stands in a corner of 90 degrees; this one has 120"),
    "neo-angle tub": ([(TUB, NEO.replace("shower_base", "tub"))], 4, "a tub is no neo-angle base"),
    "returns of a rectangle": ([("deck: 16", "deck: 16, returns: {left: 18}")], 4, "`returns` belongs to a neo-angle base"),
    "no front": ([(CORNER[0], CORNER[1].replace("ANGLE", "angle: 45")), ("length: 60, width: 30", "length: 29, width: 30, start: 0")], 4, "meet before its front"),
    "decks' wall": ([("deck: 16", "deck: 16, decks: {bak: [16, 16]}")], 4, "unknown wall `bak`; did you mean `back`?"),
    "decks of three": ([("deck: 16", "deck: 16, decks: {back: [16, 16, 16]}")], 4, "at most 2 are expected here; there are 3"),
    "decks of elsewhere": ([("length: 60, width: 30, deck: 16", "length: 50, start: 5, width: 30, deck: 16, decks: {left: [16, 16]}")], 4, 'the base does not stand against wall "left"'),
    "decks that leave one out": ([("deck: 16", "decks: {back: [16, 16]}")], 4, "`deck` is missing: height of the deck above the floor (at left, which `decks` leaves out)"),
    "decks disagree": ([("deck: 16", "decks: {left: [16, 16 1/4], back: [16, 16]}")], 4, 'the deck is 16 1/4" high at the right end of "left" and 16" at the left end of "back", the same corner: off by 1/4"'),
    "steep deck": ([("deck: 16", "deck: 16, decks: {back: [16, 23]}")], 4, "falls more than 1 in 10 along this wall"),
    "corner's first": ([(CORNER[0], CORNER[1].replace("ANGLE", "first: right"))], 21, "`first` is one of the corner's two walls: left or back"),
    "corner turned": ([(CORNER[0], CORNER[1].replace("left, back", "back, left").replace(", ANGLE", ""))], 21, "write [left, back], left to right"),
    "corner of nobody": ([(CORNER[0], CORNER[1].replace("left, back", "left, front").replace(", ANGLE", ""))], 21, "unknown wall `front`"),
    "code": ([("code: none", "code: irk")], 3, "unknown code `irk`; did you mean `irc`?"),
    "datum": ([("walls:", "floor: {datum: carpet}\nwalls:")], 5, "datum: `carpet` is not one of the words known here"),
    "beside": ([("width: 40", "width: 40\n    beside: glass")], 8, "beside: `wallboard` or `free` is expected here"),
    "board": ([("fittings:", "choices: {sheets: [{board: foam-1-3, size: 36x60}]}\nfittings:")], 20, "unknown profile `foam-1-3` of boards; did you mean `foam-1-2`?"),
    "sheet": ([("fittings:", "choices: {sheets: [{board: foam-1-2, size: 36x61}]}\nfittings:")], 20, "`foam-1-2` has no sheet `36x61`; did you mean `36x60`?"),
    "two thicknesses": ([("fittings:", "choices: {sheets: [{board: foam-1-2, size: 36x60}, {board: foam-5-8, size: 36x60}]}\nfittings:")], 20, "sheets of two thicknesses"),
    "same sheet": ([("fittings:", "choices: {sheets: [{board: foam-1-2, size: 36x60}, {board: foam-1-2, size: 36x60}]}\nfittings:")], 20, "this sheet is listed twice"),
    "price": ([("fittings:", "choices: {sheets: [{board: foam-1-2, size: 36x60, price: -1}]}\nfittings:")], 20, "price: `-1` is negative"),
    "have": ([("fittings:", "choices: {sheets: [{board: foam-1-2, size: 36x60, have: 1.5}]}\nfittings:")], 20, "have: a whole number is expected here, not `1.5`"),
    "rule": ([("fittings:", "choices: {allowances: {fitt: 1/8}}\nfittings:")], 20, "unknown rule `fitt`; did you mean `fit`?"),
    "limit": ([("fittings:", "choices: {allowances: {shower-area: 900}}\nfittings:")], 20, "shower-area: an area such as 900 in2"),
    "screw": ([("fittings:", "choices: {screws: {wood: screw-sharp-1-1-4}}\nfittings:")], 20, "`screw-sharp-1-1-4` is a screw for light_steel; for wood there is screw-wood-1-5-8"),
    "band": ([("fittings:", "choices: {band: bnd-5}\nfittings:")], 20, "unknown profile `bnd-5` of bands; did you mean `band-5`?"),
    "paper": ([("fittings:", "choices: {template_papers: [a5]}\nfittings:")], 20, "unknown profile `a5` of papers"),
    "set on a roll": ([("fittings:", "choices: {paper: roll-24}\nfittings:")], 20, "`roll-24` is a roll; the drawing set goes on cut sheets: write one of a1, a2, a3, a4, ansi-c"),
    "labels on a roll": ([("fittings:", "choices: {template_papers: [roll-24, letter]}\nfittings:")], 20, "`roll-24` is a roll; labels are printed on the first, a cut sheet"),
    "plotter on sheets": ([("fittings:", "choices: {plotter: a3}\nfittings:")], 20, "`a3` is no roll; a plotter draws on a roll: write one of roll-24, roll-610-mm"),
    "cutter": ([("fittings:", "choices: {shop: {cutter: 3/8, offset: outside}}\nfittings:")], 20, "a cutter of 3/8 does not pass between parts laid 1/8 in apart; write `kerf: 3/8` beside `shop`, or more"),
    "offset": ([("fittings:", "choices: {shop: {offset: half}}\nfittings:")], 20, "offset: `half` is not one of the words known here; there is none, outside"),
}  # fmt: skip


@pytest.mark.parametrize(("changes", "line", "words"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_named_on_its_line(changes: list[tuple[str, str]], line: int, words: str) -> None:
    found = complaints(changed(*changes))
    assert any(at == line and words in message for at, message in found), found


def test_the_small_room_and_the_examples_have_no_mistakes() -> None:
    assert complaints(SMALL) == []
    for path in sorted(EXAMPLES.glob("*.yaml")):
        assert complaints(path.read_bytes()) == []


def test_one_mistake_is_one_sentence() -> None:
    """A mistake that touches nothing else is reported once."""
    alone = [name for name, (changes, _, _) in MISTAKES.items() if len(complaints(changed(*changes))) == 1]
    assert len(alone) > 0.8 * len(MISTAKES)


def test_all_mistakes_come_in_one_run() -> None:
    """Ten mistakes of every kind, in ten parts of one file."""
    found = complaints(
        changed(
            ("name: small", "nam: small"),
            ("code: none", "code: nowhere"),
            ("along: back", "along: front"),
            ("width: 40", "width: 40\n    hight: 3"),
            ("34]}", "34, 41]}"),
            ("  - name: back\n    width: 60", "  - name: back\n    width: 60\n    width: 61"),
            ("trim-5-round", "trim-6-round"),
            ("up: 22", "up: ten"),
        )
    )
    assert [line for line, _ in found] == sorted(line for line, _ in found)
    wanted = (
        "`name` is missing",
        "unknown key `nam`",
        "nowhere",
        "front",
        "hight",
        "stud at 41",
        "twice",
        "trim-6",
        "ten",
    )
    for words in wanted:
        assert sum(words in message for _, message in found) == 1, words
    assert len(found) == len(wanted)


@pytest.mark.parametrize("text", ["", "# nothing\n", "[]", "- a\n", "word\n", "12\n", "~\n", "---\n"])
def test_a_file_that_is_no_group_of_keys(text: str) -> None:
    ((line, message),) = complaints(text)
    assert line == 1
    assert message.startswith("a room file begins with keys")


def test_an_empty_group_says_what_is_missing() -> None:
    found = {message.split(":")[0] for _, message in complaints("{}")}
    assert found == {f"`{key}` is missing" for key in ("name", "units", "place", "base", "walls")}


def test_a_path_that_is_no_file() -> None:
    with pytest.raises(InputError, match=r"rooms: cannot be read"):
        read_room(EXAMPLES)
    with pytest.raises(InputError, match=r"nowhere\.yaml: cannot be read: No such file"):
        read_room(EXAMPLES / "nowhere.yaml")


SCALARS = st.sampled_from(
    ["", "~", "0", "-1", "60 1/4", "010", ".nan", "1e999", "left", "back", "true", "[]", "{}", "[[1]]", "{a: 1}", "*a",
     "&a 1", "'", '"', "wood-2x4", "none", "tub", "5' 14\"", "999999", "0.0001", "1/0", "½", "\x00", "!x 1", "? 1", "[1, 2]",
     "[left]", "[back, left]", "ceiling", "270", "mm", "30000 mm"]
)  # fmt: skip


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A room file with values, lines and characters changed, doubled or taken away."""
    lines = draw(st.sampled_from([SMALL, GOOD])).split("\n")
    for _ in range(draw(st.integers(1, 4))):
        i = draw(st.integers(0, len(lines) - 1))
        what = draw(st.sampled_from(["value", "drop", "double", "cut", "indent", "inner", "key"]))
        lines[i : i + 1] = _mutate(draw, lines[i], what)
        lines = lines or [""]
    return "\n".join(lines)


def _mutate(draw: st.DrawFn, line: str, what: str) -> list[str]:
    if what == "drop":
        return []
    if what == "double":
        return [line, line]
    if what == "indent":
        return [draw(st.sampled_from(["", " ", "  ", "\t", "      "])) + line.lstrip()]
    parts = line.split(":")
    if what == "key":
        return [line.replace(parts[0].strip(), draw(SCALARS), 1)] if parts[0].strip() else [draw(SCALARS) + ":"]
    at = draw(st.integers(0, len(line)))
    if what == "cut":
        return [line[:at] + line[at + draw(st.integers(1, 5)) :]]
    if what == "inner" and len(parts) > 2:
        i = draw(st.integers(1, len(parts) - 1))
        rest = parts[i].partition(",")
        return [":".join([*parts[:i], f" {draw(SCALARS)}{rest[1]}{rest[2]}", *parts[i + 1 :]])]
    return [f"{parts[0]}: {draw(SCALARS)}"]


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mutated())
def test_a_mutated_file_is_a_room_or_problems(text: str) -> None:
    try:
        room = read(text)
    except InputError as error:
        assert error.problems
        for problem in error.problems:
            assert problem.file == "room.yaml"
            assert 0 <= problem.line <= text.count("\n") + 2
            assert problem.message
            assert "\n" not in problem.message
            assert len(problem.message) < 400
    else:
        assert room.walls


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=40), st.integers(0, len(SMALL)))
def test_bytes_in_the_middle_of_a_file(raw: bytes, at: int) -> None:
    text = SMALL.encode()
    try:
        read(text[:at] + raw + text[at:])
    except InputError as error:
        assert error.problems
