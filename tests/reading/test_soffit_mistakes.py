"""Mistakes in soffits: each is told at its line, with what would be right."""

from __future__ import annotations

import pytest

from tests.reading.built_rooms import HALF, TUB
from tests.reading.rooms import changed, complaints

SOFFIT = TUB + "soffits:\n  - {name: box, along: back, from: 36, depth: 15, height: 84}\n"
NICHE = "niches:\n  - {name: shelf, wall: back, across: 52, up: 74, width: 12, height: 12, depth: 3}\n"
PIPE = "fittings:\n  - {name: arm, wall: right, kind: arm, profile: copper-1-2, across: 10, up: 90}\n"
BAR = "mounts:\n  - {name: bar, kind: grab_bar, wall: back, across: 40, up: 88, length: 16}\n"
SEAT = "benches:\n  - {name: seat, along: left, from: 0, length: 16, depth: 15, height: 88}\n"
MISTAKES = [
    ("", "", ""),
    ("from: 36, ", "", ""),
    ("from: 36, ", "length: 60, ", ""),
    ("from: 36, ", "from: 20, length: 20, ", ""),
    ("along: back, from", "along: bock, from", "unknown wall `bock`; did you mean `back`?"),
    ("name: box", "name: right", 'there is a wall "right" already; choose another name'),
    ("from: 36, ", "from: 36, length: 30, ", 'it ends at 66", beyond the 60 in wall "back"'),
    ("from: 36, ", "from: 36, length: 2, ", 'it is 2" long; measure again'),
    ("from: 36, ", "from: 5, length: 20, ", 'it leaves a gap of 5" in the corner; let it run to the wall'),
    ("height: 84}", "height: 96}", 'its underside hangs below the 96" ceiling of wall "back"; measure from the floor'),
    ("height: 84}", "height: 92}", 'it hangs 4" below the ceiling; framed of wood-2x4 it takes 6 1/2" or more'),
    ("height: 84}", "height: 12}", 'leaves no boards above the deck or the floor at 16"; measure from the floor'),
    ("depth: 15", "depth: 6", 'it is 6 in deep; framed of wood-2x4 it takes 8 1/2" or more'),
    ("depth: 15", "depth: 58", 'boards of wall "right" reach 60" from the corner; beside a soffit 58 in deep they'),
    ("  - name: back\n", "  - name: back\n    boards: {top: 90}\n", 'boards of wall "back" end below the ceiling'),
    ("  - name: right\n", "  - name: right\n    boards: {top: 90}\n", 'boards of wall "right" end below the ceiling'),
    (
        "  - name: right\n    width: 60\n    height: 96\n",
        "  - name: right\n    width: 60\n    heights: [{at: 0, is: 96}, {at: 40, is: 86}]\n",
        'the ceiling of wall "right" slopes or steps over it; let it end where that is level',
    ),
    (
        "  - name: right\n    width: 60\n    height: 96\n",
        "  - name: right\n    width: 60\n    height: 102\n",
        'the ceilings of its walls are at 96" and 102"; it is planned under one level ceiling',
    ),
    ("soffits:", "corners:\n  - {between: [back, right], angle: 100}\nsoffits:", "runs up to a square neighbour only"),
    ("  - name: back\n", "  - name: back\n    plumb: {right: 2}\n", "runs up to a plumb neighbour only"),
    (
        "supports: {studs: [{profile: wood-2x4, centres: [3/4, 16, 32, 44, 59 1/4]}]}\n  - name: right",
        "supports: {masonry: {kind: brick}}\n  - name: right",
        'wall "back" is of masonry, and a soffit is framed to studs; frame it first',
    ),
    ("soffits:", NICHE + "soffits:", 'niche "shelf" is behind or in the soffit "box"; move it, or end that before'),
    ("soffits:", PIPE + "soffits:", '"arm" is behind or in the soffit "box"; move it, or end that before'),
    ("soffits:", BAR + "soffits:", '"bar" is behind or in the soffit "box"; move it, or end that before'),
    ("soffits:", SEAT + "soffits:", '"seat" is as high as the soffit "box"'),
    ("84}", "84}\n  - {name: two, along: back, from: 20, length: 12, depth: 15, height: 80}", "it meets the soffit"),
    ("84}", "84}\n  - {name: two, along: right, from: 10, length: 20, depth: 15, height: 80}", "it meets the soffit"),
    ("back, from: 36", "right, from: 30", '"right" go on past its right end by 0"; they go on by 4 1/8"'),
    # The stud at 44 ends at 44 3/4; boards begin at 44 1/8, and half a washer off the soffit's board is 45 1/8.
    ("from: 36, ", "from: 36, length: 8, ", 'let it end 5/8" farther right, or 3/8" farther left'),
    ("depth: 15", "depth: 16 1/4", 'which leaves screws beside it no place; let it end 3/8" farther out'),
    ("from: 36, ", "from: 16, ", 'on the stud 16" from the left end of wall "back"'),
    ("from: 36, ", "from: 36, length: 8 5/8, ", ""),
    ("from: 36, ", "from: 36, length: 7 5/8, ", ""),
    ("depth: 15", "depth: fifteen", ""),
]


@pytest.mark.parametrize(("old", "new", "said"), MISTAKES, ids=[str(i) for i in range(len(MISTAKES))])
def test_a_mistake_is_told_with_what_would_be_right(old: str, new: str, said: str) -> None:
    found = complaints(changed((old, new), text=SOFFIT))
    if new == "depth: fifteen":
        assert len(found) == 1
        return
    assert (not found and not said) or (said and any(said in message for _, message in found)), found
    assert all(line > 0 for line, _ in found)


def test_a_half_wall_carries_no_soffit_and_meets_none() -> None:
    across = HALF + "soffits:\n  - {name: box, along: back, from: 10, depth: 15, height: 84}\n"
    assert any("the ceilings of its walls are at" in message for _, message in complaints(across))
    along = across.replace("along: back, from: 10", "along: half")
    assert any("a soffit along a partition cannot be planned" in message for _, message in complaints(along))
