"""Mistakes in partitions, benches, decks and curbs: each is told at its line, with what would be right."""

from __future__ import annotations

import pytest

from tests.reading.built_rooms import BENCH, CORNER, CURB, DECK, HALF, TUB
from tests.reading.rooms import changed, complaints

PANE = "mounts:\n  - {name: pane, kind: glass, across: 1 3/4, up: 4, length: 34, wall: "
MISTAKES = [
    (HALF, "cap: true}", "cap: true}\n    boards: {reach: 20}", "go to its free end and round it; leave `reach` out"),
    (HALF, "thickness: 3 1/2", "thickness: 5 1/2", "wood-2x4 does not reach through; measure both again"),
    (HALF, "cap: true", "cap: true, outside: 40", 'farther than the 34 in wall "half" is wide'),
    (HALF, "cap: true}", "cap: true}\n    boards: {top: 40}", "boards go up to the cap; leave `top` out"),
    (HALF, "height: 42", "heights: [{at: 0, is: 42}, {at: 20, is: 42}, {at: 34, is: 36}]", "a cap is one flat piece"),
    (HALF, "height: 42", "heights: [{at: 0, is: 60}, {at: 34, is: 26}]", "a cap that rises 45 degrees or more cannot"),
    (HALF, "walls:", f"{PANE}half-cap}}\nwalls:", "the plate under a cap backs all that stands on it"),
    (HALF, "walls:", f"{PANE}half-ende}}\nwalls:", "unknown wall `half-ende`; did you mean `half-end`?"),
    (HALF, "walls:", f"{PANE}half-end}}\nwalls:", ""),
    (HALF, "walls:", f"{PANE}half-end, across: 3}}\nwalls:".replace("across: 1 3/4, ", ""), "reaches past an end"),
    (HALF, "height: 42", "height: 42\n    plumb: {right: 2}", "a partition is planned plumb"),
    (BENCH, "name: right\n", "name: right\n    partition: {thickness: 3 1/2}\n", ""),
    (
        BENCH,
        "name: back\n",
        "name: back\n    partition: {thickness: 3 1/2}\n",
        "is the first or the last wall of the list",
    ),
    (BENCH, "depth: 15, ", "", "`depth` is missing: out from that wall's framing"),
    (BENCH, "along: back, from", "along: bock, from", "unknown wall `bock`; did you mean `back`?"),
    (BENCH, "from: 36, ", "from: 36, length: 30, ", 'it ends at 66", beyond the 60 in wall "back"'),
    (BENCH, "from: 36, ", "from: 2, ", 'it leaves a gap of 2" in the corner; let it run to the wall'),
    (BENCH, "name: seat, ", "name: back, ", 'there is a wall "back" already; choose another name'),
    (BENCH, "height: 17}", "height: 96}", 'as high as the 96 in wall "back"; measure from the floor'),
    (BENCH, "height: 17}", "height: 17, legs: [3, 4]}", "`legs` has no place where the kind is `bench`"),
    (CORNER, "[left, back]", "[back, left]", "no corner in common; write the left one, then the right one"),
    (CORNER, "legs: [16, 16], ", "legs: [16, 61], ", 'it goes farther than the 60 in wall "back"'),
    (CORNER, "legs: [16, 16], ", "", "`legs` is missing: of a corner seat"),
    (CORNER, "legs: [16, 16], ", "legs: [30, 12], ", "its front meets a wall at 22 degrees, too acute to frame"),
    (DECK, "length: 12", "length: 10", "a deck runs from an end of the tub to the wall beside it"),
    (CURB, "curb, along: back", "curb, along: left", "`out` is missing: from that wall's framing to its own"),
]


def test_a_partition_stands_against_a_wall() -> None:
    alone = HALF[: HALF.index("  - name: back")] + HALF[HALF.index("  - name: half") :]
    assert [message for _, message in complaints(alone)] == [
        "a partition that stands free at both ends cannot be planned; list the wall that one end stands at"
    ]


@pytest.mark.parametrize(("text", "old", "new", "said"), MISTAKES, ids=[m[3] or f"good {m[2]}" for m in MISTAKES])
def test_a_mistake_is_told_with_what_would_be_right(text: str, old: str, new: str, said: str) -> None:
    found = complaints(changed((old, new), text=text))
    assert (not found and not said) or (said and any(said in message for _, message in found)), found
    assert all(line > 0 for line, _ in found)


def test_a_bench_does_not_stand_on_a_tub() -> None:
    text = TUB + "benches:\n  - {name: seat, along: back, from: 30, depth: 15, height: 17}\n"
    assert [message for _, message in complaints(text)] == [
        "it would stand on the tub; benches stand on the floor or on a tray"
    ]


def test_a_tub_has_no_curb() -> None:
    text = TUB + "curbs:\n  - {name: curb, along: back, thickness: 3 1/2, height: 4 1/2}\n"
    assert [message for _, message in complaints(text)] == [
        "a curb belongs to a site-built tray; a tub or a shower base has its own threshold"
    ]
