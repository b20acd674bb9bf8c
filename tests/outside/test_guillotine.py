"""The cutting against published instances: knapsacks on one sheet, least numbers of sheets.

Sources: cgcut1 Christofides & Whitlock 1977; ngcut1 Beasley 1985; OF1, OF2 Oliveira & Ferreira 1990; optima as
published (fixed) and re-solved by an exact best-first search (turned). Berkey & Wang 1987, class 1, first three
instances with 20 pieces; their least numbers of sheets were proven without the edge-to-edge rule and reached with it.
Where a folder shared/instances stands beside or above the checkout, its Berkey-Wang and room instances are read too.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from generator.planning.layout.guillotine import Cutter, grown
from generator.planning.layout.pack import Packer
from generator.planning.layout.shop import Shop
from generator.planning.layout.sizes import Size
from generator.planning.layout.task import LayoutTask, StockSize

Item = tuple[int, int, int, int]
"""(length, width, copies, value)."""

CGCUT1: tuple[Item, ...] = (
    (8, 4, 2, 66),
    (3, 7, 1, 35),
    (8, 2, 3, 24),
    (3, 4, 5, 17),
    (3, 3, 2, 11),
    (3, 2, 2, 8),
    (2, 1, 1, 2),
)
NGCUT1: tuple[Item, ...] = ((3, 7, 2, 35), (8, 2, 2, 40), (10, 2, 1, 27), (5, 4, 3, 23), (2, 9, 2, 43))
OF1 = "29x5 9x39x4 55x9 31x15 11x16x2 23x21x3 29x14x4 16x19x3 9x36x2 22x4x2"
OF2 = "22x18x2 40x10 13x27x3 23x18x2 29x8x4 16x4 47x9 19x19x4 13x16x2 36x16x4"
BERKEY_WANG = (
    ("9x5 2x4 6x10 7x5 3x6 7x10 5x1 5x3 9x6 4x2 7x6 2x7 3x8 10x4 5x4 3x10 3x8 8x7 3x8 7x8", 8, 7),
    ("2x2 8x6 2x10 3x1 4x8 10x3 9x1 5x1 3x6 1x1 2x4 2x9 9x1 5x9 7x4 2x2 4x3 7x9 1x4 8x9", 5, 5),
    ("5x7 6x10 6x5 2x7 8x4 10x9 5x8 6x8 9x4 3x9 10x3 5x9 7x1 9x8 6x4 6x3 3x4 2x10 1x6 4x1", 9, 7),
)


def _items(text: str) -> tuple[Item, ...]:
    """Items whose value is their area."""
    sides = [[int(n) for n in word.split("x")] for word in text.split()]
    return tuple((s[0], s[1], s[2] if len(s) > 2 else 1, s[0] * s[1]) for s in sides)


@pytest.mark.parametrize(
    ("sheet", "items", "turning", "optimum"),
    [
        ((15, 10), CGCUT1, False, 244),
        ((15, 10), CGCUT1, True, 260),
        ((10, 10), NGCUT1, False, 164),
        ((70, 40), _items(OF1), False, 2737),
        ((70, 40), _items(OF2), False, 2690),
        ((70, 40), _items(OF2), True, 2769),
    ],
)
def test_the_dearest_collection_of_a_sheet_is_the_published_one(
    sheet: tuple[int, int], items: tuple[Item, ...], turning: bool, optimum: int
) -> None:
    assert _dearest(sheet, items, turning) == optimum


def _dearest(sheet: tuple[int, int], items: tuple[Item, ...], turning: bool) -> int:
    """Collections by falling value until one can be cut."""
    cutter = Cutter(sheet[0], sheet[1], turning) if not turning else Cutter(min(sheet), max(sheet))
    for value, counts in sorted(_collections(sheet, items), reverse=True):
        sizes = tuple(_size(item[0], item[1], turning) for item, n in zip(items, counts, strict=True) for _ in range(n))
        if cutter.block_within(sizes, *sheet) is not None:
            return value
    return 0


def _collections(sheet: tuple[int, int], items: tuple[Item, ...]) -> Iterator[tuple[int, tuple[int, ...]]]:
    room = sheet[0] * sheet[1]
    for counts in product(*(range(item[2] + 1) for item in items)):
        if 0 < sum(n * item[0] * item[1] for n, item in zip(counts, items, strict=True)) <= room:
            yield sum(n * item[3] for n, item in zip(counts, items, strict=True)), counts


def _size(a: int, b: int, turning: bool) -> Size:
    return Size(min(a, b), max(a, b)) if turning else Size(a, b)


@pytest.mark.parametrize(("text", "fixed", "turned"), BERKEY_WANG)
def test_berkey_wang_least_numbers_of_sheets(text: str, fixed: int, turned: int) -> None:
    items = [(int(w), int(h)) for h, w in (word.split("x") for word in text.split())]
    for turning, least in ((False, fixed), (True, turned)):
        sizes = [_size(w, h, turning) for w, h in items]
        assert _packs(sizes, (10, 10), 0, least, turning)
        assert sum(w * h for w, h in items) > 100 * (least - 1) or not _packs(sizes, (10, 10), 0, least - 1, turning)


def _packs(sizes: list[Size], sheet: tuple[int, int], kerf: int, sheets: int, turning: bool) -> bool:
    """True when the boards can be cut from so many sheets; by the packer that rooms use, with all the time it needs."""
    whole = grown(Size(*sheet), kerf)
    boards = tuple(sorted(grown(s, kerf) for s in sizes))
    prices = {size: size.short * size.long / (whole.short * whole.long) for size in boards}
    stock = StockSize("sheet", sheet[0], sheet[1], 1.0, 0)
    task = LayoutTask((), (stock,), kerf, 0.0, 0.0, None)
    shop = Shop(task, (), (), (whole,), (1.0,), 0.0, True, Cutter(whole.short, whole.long, turning))
    packer = Packer(shop, prices, (1.0,), patience=10**9)
    found = packer.pack(boards, float(sheets), sheets)
    assert packer.given_up() == 0, "given up is no proof that nothing fits"
    return found is not None


def test_shared_instances_reach_their_best_known_counts() -> None:
    for path in _shared_instances():
        data = json.loads(path.read_text(encoding="utf-8"))
        stock = data["stocks"][0]
        sizes = [_size(i["w"], i["h"], True) for i in data["items"] for _ in range(i["demand"])]
        least = _best_known(data) or ONE_SHEET[path.stem]
        assert _packs(sizes, (stock["w"], stock["h"]), data.get("kerf", 0), least, True), path.stem
        assert not _packs(sizes, (stock["w"], stock["h"]), data.get("kerf", 0), least - 1, True), path.stem


ONE_SHEET = {"room7_96": 1}
"""Its boards are 0.721 of a sheet (index.csv), so one is the least."""


def _best_known(data: Any) -> int:
    """Boards turned, cut edge to edge; 0 when none is recorded."""
    return max((int(k["value"]) for k in data["best_known"] if k["rotation"] and k["guillotine"]), default=0)


def _shared_instances() -> list[Path]:
    """Those of 20 boards and less, by name; none when the folder is not there."""
    folders = [parent / "shared" / "instances" for parent in Path(__file__).resolve().parents]
    names = sorted(path for folder in folders if folder.is_dir() for path in folder.glob("*.json"))
    return [path for path in names if path.stem in ONE_SHEET or path.stem.endswith("_20_1")]
