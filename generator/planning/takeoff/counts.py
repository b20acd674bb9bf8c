"""What is counted: sheets, screws with their washers, collars, pieces of lumber."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby
from typing import TypeVar

from generator.model.choices import Stock
from generator.model.plan import Fastener, Plan
from generator.model.profiles import FastenerProfile
from generator.model.purchase import LumberStick, Sheet, TakeoffRow, Term
from generator.model.room import Room
from generator.planning.fastening.screws import screw_for, stud_profile
from generator.planning.takeoff.rows import in_van, make_row, term
from generator.units import label

Thing = TypeVar("Thing")
Key = TypeVar("Key", str, float, tuple[str, ...])


def sheet_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """One for each size of sheet, a term for each sheet."""
    stocks = {stock.id: stock for stock in room.choices.stocks}
    for index, (stock_id, sheets) in enumerate(_grouped(plan.sheets, lambda s: s.stock_id)):
        stock = stocks[stock_id]
        there = in_van(room, "sheet", index == 0)
        held = float(stock.available) if stock.available is not None else there
        terms = (term(_sheet_text(sheet), 1.0, (sheet.id,)) for sheet in sheets)
        yield make_row("sheet", stock.id, _stock_text(room, stock), "sheets", terms, 1.0, held)


def _sheet_text(sheet: Sheet) -> str:
    return f"{sheet.id}: {', '.join(sorted(p.board_id for p in sheet.placements))}"


def _stock_text(room: Room, stock: Stock) -> str:
    units = room.choices.drawing_units
    return f"{stock.board.name}, {label(stock.width, units)} x {label(stock.height, units)}"


def screw_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """Screws and then washers of each profile, a term for each board."""
    supports = {support.id: support for support in plan.supports}
    profiles: dict[str, FastenerProfile] = {}
    by_profile: dict[str, list[Fastener]] = {}
    for fastener in plan.fasteners:
        profile = screw_for(room, supports[fastener.support_id])
        profiles[profile.id] = profile
        by_profile.setdefault(profile.id, []).append(fastener)
    for kind in ("screw", "washer"):
        for index, (profile_id, fasteners) in enumerate(sorted(by_profile.items())):
            profile = profiles[profile_id]
            washer = f"washer {label(profile.washer_diameter, room.choices.drawing_units)} of {profile.name}"
            item = profile.name if kind == "screw" else washer
            there = in_van(room, kind, index == 0)
            yield make_row(kind, profile_id, item, "pieces", _board_terms(fasteners), float(profile.package), there)


def _board_terms(fasteners: Iterable[Fastener]) -> Iterator[Term]:
    for board, own in _grouped(fasteners, lambda f: f.board_ids):
        rows = {f.point[0] for f in own}
        text = f"{' and '.join(board)}, {len(rows)} row{'s' * (len(rows) != 1)}"
        yield term(text, float(len(own)), (f.id for f in own))


def collar_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """One for each profile of fitting and size of collar, a term for each collar."""
    profiles = {fitting.id: fitting.profile_id for fitting in room.fittings}
    collars = [band for band in plan.bands if band.kind == "collar"]
    sorted_out = _sorted_out(collars, lambda b: profiles[b.covers[0]], lambda b: b.length)
    for index, (profile_id, diameter, own) in enumerate(sorted_out):
        item = f"collar {label(diameter, room.choices.drawing_units)} for {profile_id}"
        terms = (term(band.covers[0], 1.0, (band.id,)) for band in own)
        yield make_row("collar", profile_id, item, "pieces", terms, 1.0, in_van(room, "collar", index == 0))


def lumber_rows(room: Room, plan: Plan) -> Iterator[TakeoffRow]:
    """Lumber to buy: one row for each profile and length in stock, a term for each stick with what is cut from it."""
    supports = {support.id: support for support in plan.supports}
    for index, (profile_id, length, own) in enumerate(
        _sorted_out(plan.lumber, lambda s: s.profile_id, lambda s: s.length)
    ):
        profile = stud_profile(room, supports[own[0].cuts[0].support_id])
        item = f"{profile.name if profile else profile_id}, {label(length, room.choices.drawing_units)} long"
        terms = (term(_stick_text(room, stick), 1.0, (cut.support_id for cut in stick.cuts)) for stick in own)
        yield make_row("lumber", profile_id, item, "pieces", terms, 1.0, in_van(room, "lumber", index == 0))


def _stick_text(room: Room, stick: LumberStick) -> str:
    cuts = ", ".join(label(cut.length, room.choices.drawing_units) for cut in stick.cuts)
    return f"{stick.id}: {cuts}"


def _grouped(things: Iterable[Thing], key: Callable[[Thing], Key]) -> Iterator[tuple[Key, list[Thing]]]:
    for value, group in groupby(sorted(things, key=key), key):
        yield value, list(group)


def _sorted_out(
    things: Iterable[Thing], name: Callable[[Thing], str], size: Callable[[Thing], float]
) -> Iterator[tuple[str, float, list[Thing]]]:
    """By name, then by size."""
    for text, own in _grouped(things, name):
        for number, same in _grouped(own, size):
            yield text, number, same
