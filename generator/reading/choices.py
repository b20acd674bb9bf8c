"""What the person chose, over the shipped defaults, with profiles resolved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from generator.errors import InputError
from generator.model.choices import Choices, Prices, Shop, Stock
from generator.model.profiles import Catalogue, Origin, Rule
from generator.model.room import FoundSupport, Units, Wall
from generator.reading import profile_shapes
from generator.reading.catalogue import DEFAULTS, shipped
from generator.reading.choice_shapes import ChoicesShape, ShopShape
from generator.reading.fields import said
from generator.reading.issues import Issue, join, nearest, problems
from generator.reading.source import read_document
from generator.reading.validate import validate
from generator.units import LengthError

ENTERED = Origin("entered in the room file", "maker")
_PROFILES = {
    "band": "bands",
    "sealant": "sealants",
    "mortar": "mortars",
    "trowel": "trowels",
    "bond_trowel": "trowels",
    "added_stud": "studs",
    "added_block": "studs",
    "paper": "papers",
    "plotter": "papers",
    "label": "labels",
    "practice": "practices",
}


@cache
def defaults(units: Units) -> ChoicesShape:
    """The shipped choices for room files in these units."""
    document = read_document(shipped() / DEFAULTS, f"profiles/{DEFAULTS}")
    shape, issues = validate(ChoicesShape, document.data[units], units, units)
    if shape is None:
        raise InputError(problems(document.file, document.lines, issues))
    return shape


def over_defaults(shape: ChoicesShape, units: Units) -> ChoicesShape:
    """The choices with the defaults where none was made."""
    base = defaults(units)
    values: dict[str, Any] = {}
    for name in ChoicesShape.model_fields:
        own, default = getattr(shape, name), getattr(base, name)
        if name in ("screws", "prices", "shop"):
            kept = {key: value for key, value in own if value is not None}
            values[name] = default.model_copy(update=kept)
        else:
            values[name] = default if own is None or own == {} else own
    return ChoicesShape.model_construct(**values)


def judge_choices(shape: ChoicesShape, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    """Unknown ids, sheets of more than one thickness, limits that are none."""
    full = over_defaults(shape, units)
    for key, kind in _PROFILES.items():
        yield from _unknown(join("choices", key), getattr(full, key), getattr(catalogue, kind), kind)
    for i, paper in enumerate(full.template_papers or ()):
        yield from _unknown(join("choices.template_papers", i), paper, catalogue.papers, "papers")
    yield from _judge_rolls(full, catalogue)
    yield from _judge_screws(full, catalogue)
    yield from _judge_sheets(full, catalogue)
    yield from _judge_cutter(shape, full)
    for rule_id, value in shape.allowances.items():
        yield from _judge_allowance(rule_id, value, catalogue, units)


def _unknown(path: str, wanted: str, table: Mapping[str, Any], kind: str) -> Iterator[Issue]:
    if wanted not in table:
        yield Issue(path, f"unknown profile `{wanted}` of {kind}{nearest(wanted, table)}")


def _judge_rolls(full: Any, catalogue: Catalogue) -> Iterator[Issue]:
    """Sheets of the set and labels need cut paper, a plotter a roll."""
    wanted = (
        ("choices.paper", full.paper, False, "the drawing set goes on cut sheets"),
        ("choices.template_papers.0", full.template_papers[0], False, "labels are printed on the first, a cut sheet"),
        ("choices.plotter", full.plotter, True, "a plotter draws on a roll"),
    )
    for path, paper, roll, why in wanted:
        if paper in catalogue.papers and catalogue.papers[paper].roll != roll:
            others = ", ".join(sorted(id for id, other in catalogue.papers.items() if other.roll == roll))
            yield Issue(path, f"`{paper}` is {'no' if roll else 'a'} roll; {why}: write one of {others}")


def _judge_screws(full: ChoicesShape, catalogue: Catalogue) -> Iterator[Issue]:
    for support, wanted in full.screws:
        path = join("choices.screws", support)
        yield from _unknown(path, wanted, catalogue.fasteners, "fasteners")
        screw = catalogue.fasteners.get(wanted)
        if screw is not None and screw.support != support:
            others = sorted(f.id for f in catalogue.fasteners.values() if f.support == support)
            yield Issue(path, f"`{wanted}` is a screw for {screw.support}; for {support} there is {', '.join(others)}")


def _judge_sheets(full: ChoicesShape, catalogue: Catalogue) -> Iterator[Issue]:
    seen: dict[tuple[str, str], int] = {}
    thickness: float | None = None
    for i, sheet in enumerate(full.sheets or ()):
        path = join("choices.sheets", i)
        board = catalogue.boards.get(sheet.board)
        if board is None:
            yield from _unknown(join(path, "board"), sheet.board, catalogue.boards, "boards")
            continue
        sizes = [size.id for size in board.sheets]
        if sheet.size not in sizes:
            yield Issue(join(path, "size"), f"`{sheet.board}` has no sheet `{sheet.size}`{nearest(sheet.size, sizes)}")
        if (sheet.board, sheet.size) in seen:
            yield Issue(
                path, f"this sheet is listed twice, first as number {seen[sheet.board, sheet.size] + 1}; keep one"
            )
        seen.setdefault((sheet.board, sheet.size), i)
        thickness = board.thickness if thickness is None else thickness
        if board.thickness != thickness:
            yield Issue(join(path, "board"), "sheets of two thicknesses; the boards of one room have one thickness")


def _judge_cutter(shape: ChoicesShape, full: Any) -> Iterator[Issue]:
    """A cutter wider than the kerf would eat into the next part; asked only where a room speaks of its shop."""
    if shape.shop != ShopShape() and full.shop.cutter.mm > full.kerf.mm:
        cutter, kerf = full.shop.cutter, full.kerf
        yield Issue(
            "choices.shop",
            f"a cutter of {cutter.text} does not pass between parts laid {kerf.text} apart;"
            f" write `kerf: {cutter.text}` beside `shop`, or more",
        )


def _judge_allowance(rule_id: str, value: Any, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    path = join("choices.allowances", rule_id)
    rule = catalogue.rules.get(rule_id)
    if rule is None:
        yield Issue(path, f"unknown rule {said(rule_id)}{nearest(rule_id, catalogue.rules)}")
        return
    try:
        profile_shapes.read_limit(value, rule.unit, units)
    except (LengthError, ValueError) as error:
        yield Issue(path, f"{rule_id}: {error}")


def rules_of(shape: ChoicesShape, catalogue: Catalogue, units: Units) -> dict[str, Rule]:
    """Every limit in force. The kerf is a choice, and the distance that boards keep on a sheet."""
    rules = dict(catalogue.rules)
    kerf = over_defaults(shape, units).kerf
    if kerf is not None:
        origin = ENTERED if shape.kerf else rules["sheet-kerf"].origin
        rules["sheet-kerf"] = replace(rules["sheet-kerf"], limit=kerf.mm, origin=origin)
    for rule_id, value in shape.allowances.items():
        limit = profile_shapes.read_limit(value, rules[rule_id].unit, units)
        rules[rule_id] = replace(rules[rule_id], limit=limit, origin=ENTERED)
    return rules


def limit_of(rule_id: str, shape: ChoicesShape | None, catalogue: Catalogue, units: Units) -> float:
    """The limit of a rule in a file that may have mistakes: the profiles' own where the room's cannot be read."""
    rule = catalogue.rules[rule_id]
    try:
        return profile_shapes.read_limit(shape.allowances[rule_id], rule.unit, units) if shape else rule.limit
    except (KeyError, ValueError):
        return rule.limit


def square_of(shape: ChoicesShape | None, catalogue: Catalogue, units: Units) -> float:
    """mm out of square or plumb that still count as none: the rule's, and never more than boards can give way."""
    return min(limit_of(rule_id, shape, catalogue, units) for rule_id in ("square", "fit"))


def choices_of(shape: ChoicesShape, walls: tuple[Wall, ...], catalogue: Catalogue, units: Units) -> Choices:
    """The choices, resolved; the shape has been judged."""
    full: Any = over_defaults(shape, units)
    main, _, other = full.drawing_units.partition("+")
    return Choices(
        stocks=_stocks(full, catalogue),
        prices=Prices(full.prices.added_support, full.prices.currency),
        screws={support: catalogue.fasteners[wanted] for support, wanted in full.screws},
        band=catalogue.bands[full.band],
        sealant=catalogue.sealants[full.sealant],
        mortar=catalogue.mortars[full.mortar],
        trowel=catalogue.trowels[full.trowel],
        bond_trowel=catalogue.trowels[full.bond_trowel],
        added_stud={wall.id: _stud_like(wall, shape, full, catalogue) for wall in walls},
        kerf=full.kerf.mm,
        shop=Shop(full.shop.cutter.mm, full.shop.offset, full.shop.relief),
        papers=tuple(catalogue.papers[paper] for paper in full.template_papers),
        sheet_paper=catalogue.papers[full.paper],
        plotter=catalogue.papers[full.plotter],
        label=catalogue.labels[full.label],
        drawing_units=main,
        other_units=other or None,
        practice=catalogue.practices[full.practice],
        layer_standard=full.layer_standard,
        in_van=dict(sorted(shape.in_van.items())),
        added_block=catalogue.studs[full.added_block],
        lumber=_lumber(catalogue),
    )


def _lumber(catalogue: Catalogue) -> dict[str, tuple[float, ...]]:
    """Every length in which a stud profile is sold, shortest first."""
    found: dict[str, set[float]] = {}
    for stock in catalogue.lumber.values():
        for stud in stock.studs:
            found.setdefault(stud, set()).update(stock.lengths)
    return {stud: tuple(sorted(lengths)) for stud, lengths in sorted(found.items())}


def _stocks(full: Any, catalogue: Catalogue) -> tuple[Stock, ...]:
    stocks = []
    for sheet in full.sheets:
        board = catalogue.boards[sheet.board]
        size = next(size for size in board.sheets if size.id == sheet.size)
        stocks.append(Stock(f"{board.id}-{size.id}", board, size.width, size.height, sheet.price, sheet.have))
    return tuple(sorted(stocks, key=lambda stock: stock.id))


def _stud_like(wall: Wall, shape: ChoicesShape, full: Any, catalogue: Catalogue) -> Any:
    """The stud to add to a wall: as chosen, else as its first stud, else the default."""
    found: FoundSupport | None = next((one for one in wall.supports if one.kind == "stud"), None)
    return catalogue.studs[found.profile.id if found and shape.added_stud is None else full.added_stud]
