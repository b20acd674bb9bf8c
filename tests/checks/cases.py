"""For every plan rule a plan that holds it, and a change that breaks it: rule, value and place are expected by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.model.features import Feature
from generator.model.findings import Phase, Verdict
from generator.model.plan import Board, EdgeRole, Plan
from generator.model.room import Finish, Room
from generator.reading import load_catalogue
from tests.checks import changes as ch
from tests.checks.niche_changes import in_bay, niche
from tests.checks.soffit_changes import soffit
from tests.checks.stud_changes import bored, corner_shim, cut, cut_and_bored, hollow, planed, shimmed, tied
from tests.worked_room import mm, rect_in

Pair = tuple[Room, Plan]
Change = Callable[[Room, Plan], Pair]
SQUARE_INCH = 25.4**2


def same(room: Room, plan: Plan) -> Pair:
    return room, plan


def on_plan(change: Callable[[Plan], Plan]) -> Change:
    return lambda room, plan: (room, change(plan))


def on_room(change: Callable[[Room], Room]) -> Change:
    return lambda room, plan: (change(room), plan)


@dataclass(frozen=True)
class Case:
    """`measured` in mm (mm2, ratio, count) after `bad`, on `wall`; `good` is the plan that holds the rule."""

    rule: str
    phase: Phase
    bad: Change
    measured: float
    wall: str
    verdict: Verdict = "fail"
    good: Change = same


def _known_duty(room: Room) -> Room:
    return replace(room, walls=tuple(replace(w, duty="non_bearing") for w in room.walls))


def _tray(threshold: float) -> Change:
    return on_room(lambda r: ch.change_base(r, lambda b: replace(b, kind="tray", threshold=mm(threshold))))


def _drain(height: float) -> Change:
    def change(room: Room) -> Room:
        code = load_catalogue().codes["ipc"]
        return replace(ch.change_base(room, lambda b: replace(b, drain=mm(height))), code=code)

    return on_room(change)


def _short_above_drain(room: Room, plan: Plan) -> Pair:
    """Boards that stop at 73 in, 69 above the drain. A high drain alone asks nothing: above boards is the ceiling."""
    return _edge("B-right-1", "top", v=73 - 95.875)(*_drain(4)(room, plan))


def _shower(width: float) -> Change:
    def change(room: Room) -> Room:
        room = replace(room, finish=Finish(mm(3 / 8), 0.0))
        # What is left of a base within the finish is measured on its footprint, as it may be no rectangle.
        ring = rect_in(0, 0, 60.25, width)
        return ch.change_base(room, lambda b: replace(b, kind="shower_base", width=mm(width), footprint=ring))

    return on_room(change)


def _laps(low: float) -> Change:
    """The seam's band from a height on, lapping the band along the base, which ends at 21."""

    def change(plan: Plan) -> Plan:
        plan = ch.rebanded(plan, "T-seam-1", "back", (28.5, low, 33.5, 95.875), "T-base-1")
        return ch.lapped_to(plan, "T-base-1", "T-seam-1")

    return on_plan(change)


def _two_seams(upper: float) -> Change:
    """Seams above and below the level seam of the left wall: the lower at 40."""

    def change(plan: Plan) -> Plan:
        plan = ch.add_seam(plan, "E-x-1", "B-left-1", (40, 18.75), (40, 60))
        return ch.add_seam(plan, "E-x-2", "B-left-2", (upper, 60), (upper, 95.875))

    return on_plan(change)


def _rabbet(depth: float, top: float = 19.625) -> Change:
    """The right board's rabbet with another depth and upper edge."""

    def change(plan: Plan) -> Plan:
        def cut(board: Board) -> Board:
            ring = ch.moved_ring(board.rabbets[0].ring, lambda p: (p[0], mm(top) if p[1] > mm(19) else p[1]))
            return replace(board, rabbets=(replace(board.rabbets[0], ring=ring, depth=mm(depth)),))

        return ch.change_board(plan, "B-right-1", cut)

    return on_plan(change)


def _without_screw(screw: str) -> Change:
    return on_plan(lambda p: replace(p, fasteners=tuple(f for f in p.fasteners if f.id != screw)))


def _plug_length(length: float) -> Change:
    """Plugs of so many mm in a room of masonry."""

    def change(plan: Plan) -> Plan:
        plan = replace(plan, supports=tuple(replace(s, material="masonry") for s in plan.supports))
        return ch.change_screws(plan, lambda f: replace(f, length=length))

    return on_plan(change)


def _screw_length(length: float, steel: bool = False) -> Change:
    def change(plan: Plan) -> Plan:
        plan = ch.all_steel(plan) if steel else plan
        return ch.change_screws(plan, lambda f: replace(f, length=mm(length)))

    return on_plan(change)


def _steel_seam(u: float) -> Change:
    return on_plan(lambda p: ch.move_support(ch.all_steel(p), "S-back-03", u))


def _sheet_width(plan: Plan) -> Plan:
    return replace(plan, sheets=tuple(replace(s, width=mm(30)) if s.id == "SH-01" else s for s in plan.sheets))


def _closer(plan: Plan) -> Plan:
    """The second board on the third sheet slid half a kerf towards the first."""
    sheet = next(s for s in plan.sheets if s.id == "SH-03")
    last = max(sheet.placements, key=lambda p: p.y)
    slid = tuple(replace(p, y=p.y - mm(1 / 16)) if p == last else p for p in sheet.placements)
    return replace(plan, sheets=tuple(replace(s, placements=slid) if s == sheet else s for s in plan.sheets))


def _squeezed(plan: Plan) -> Plan:
    return ch.reshape(plan, "B-back-2", lambda p: (mm(31) + (p[0] - mm(31)) / 10, p[1]))


def _stretch_board(board: str, from_v: float, to_v: float) -> Change:
    """A board whose points at one height lie at another."""
    return on_plan(lambda p: ch.reshape(p, board, lambda q: (q[0], mm(to_v) if abs(q[1] - mm(from_v)) < 1 else q[1])))


def _moved_fitting(plan: Plan) -> Plan:
    fittings = tuple(replace(f, centre=(mm(34), f.centre[1])) if f.id == "valve" else f for f in plan.fittings)
    return replace(plan, fittings=fittings)


def _opening_at(u: float) -> Change:
    return on_plan(lambda p: ch.change_opening(p, "O-valve", lambda o: replace(o, centre=(mm(u), o.centre[1]))))


def _spout_hole(diameter: float) -> Change:
    return on_plan(lambda p: ch.change_opening(p, "O-spout", lambda o: replace(o, diameter=mm(diameter))))


def _edge(board: str, role: EdgeRole, u: float = 0.0, v: float = 0.0) -> Change:
    return on_plan(lambda p: ch.move_edges(p, board, role, lambda q: ch.shift(q, u, v)))


def _screw_at(screw: str, u: float = 0.0, v: float = 0.0) -> Change:
    return on_plan(lambda p: ch.change_screws(p, lambda f: replace(f, point=ch.shift(f.point, u, v)), screw))


def _without_row(board: str, support: str) -> Change:
    def change(plan: Plan) -> Plan:
        left = (f for f in plan.fasteners if not (board in f.board_ids and f.support_id == support))
        return replace(plan, fasteners=tuple(left))

    return on_plan(change)


def _bare(plan: Plan) -> Plan:
    gone = "T-patch-B-right-1-020"
    return replace(plan, bands=tuple(b for b in plan.bands if b.id != gone))


def _stud(support: str, u: float) -> Change:
    return on_plan(lambda p: ch.move_support(p, support, u))


def _no_stud(support: str) -> Change:
    return on_plan(lambda p: ch.drop_support(p, support))


def _added(u: float) -> Change:
    return on_plan(lambda p: ch.add_stud(p, "S-right-02", u))


def _curb(screws: int) -> Change:
    """The back wall as the inside face of a curb, with so many screws through it."""

    def change(room: Room, plan: Plan) -> Pair:
        walls = tuple(replace(w, face="inside") if w.id == "back" else w for w in room.walls)
        feature = Feature("curbs.0", "curb", "curb", "back", ("back",), ())
        through = tuple(f for f in plan.fasteners if f.wall == "back")[:screws]
        others = tuple(f for f in plan.fasteners if f.wall != "back")
        return replace(room, walls=walls, features=(feature,)), replace(plan, fasteners=(*others, *through))

    return change


CASES = (
    Case("support-spacing", "found", _no_stud("S-back-03"), mm(46.5 - 15.875), "back"),
    Case("corner-backing", "found", _no_stud("S-left-05"), 0.0, "left"),
    Case("collision-body", "found", _stud("S-right-02", 3.75), mm(13.625 - 16.25), "right"),
    Case("collision-pipe", "found", _stud("S-right-02", 3.75), mm(-0.375 - 1.09 / 2), "right"),
    Case("opening-stud-clearance", "found", _stud("S-right-02", 0.25), mm(-1 / 8), "right", "warn"),
    Case("flatness", "found", hollow(4), 4.0, "back", "warn", good=hollow(0)),
    Case("duty-known", "found", same, 1.0, "left", "confirm", on_room(_known_duty)),
    Case("notch-bearing", "found", cut(1, 0.875 + 1 / 4), 1.125 / 3.5, "back", good=cut(1, 0.875)),
    Case("notch-nonbearing", "found", cut(1, 2, "non_bearing"), 2 / 3.5, "back", good=cut(1, 1.4, "non_bearing")),
    Case("bore-bearing", "found", bored((1,), 1.5), 1.5 / 3.5, "back", good=bored((1,), 1.4)),
    Case("bore-doubled", "found", bored((1,), 2.25, True), 2.25 / 3.5, "back", good=bored((1,), 2.1, True)),
    Case("bore-run", "found", bored((1, 2, 3), 2, True), 3.0, "back", good=bored((1, 2), 2, True)),
    Case(
        "bore-nonbearing", "found", bored((1,), 2.25, duty="non_bearing"), 2.25 / 3.5, "back",
        good=bored((1,), 2.1, duty="non_bearing"),
    ),
    Case("flatness", "planned", hollow(4), 4.0, "back", good=shimmed(4)),
    Case("flatness-corner", "planned", corner_shim(3), mm(-1 / 16), "back", good=corner_shim(2)),
    Case("flatness-flange", "planned", tied(1 / 8), mm(1 / 8), "back", good=tied(0)),
    Case("planing", "planned", planed(3), mm(3 / 16), "back", good=planed(2)),
    Case("bore-edge", "found", bored((1,), 2.5), mm(0.5), "back", good=bored((1,), 2.25)),
    Case("bore-notch", "found", cut_and_bored(41), mm(-0.5), "back", good=cut_and_bored(42)),
    Case("shield-plate", "found", bored((1,), 1.25), mm(1.125), "back", "warn", good=bored((1,), 1)),
    Case("collision-body", "planned", _added(3.75), mm(-2.625), "right", good=_added(9.5)),
    Case("collision-pipe", "planned", _added(3.75), mm(-0.375 - 1.09 / 2), "right", good=_added(9.5)),
    Case("support-spacing", "planned", _no_stud("S-back-02"), mm(31 - 0.75), "back"),
    Case("edge-on-support", "planned", _no_stud("S-back-03"), 1.0, "back"),
    Case("seam-on-axis", "planned", _stud("S-back-03", 0.25), mm(0.25), "back"),
    Case("bearing-seam-wood", "planned", _stud("S-back-03", 0.25), mm(0.5), "back"),
    Case("bearing-seam-steel", "planned", _steel_seam(3 / 8), mm(3 / 8), "back", good=_steel_seam(0)),
    Case("bearing-edge", "planned", _stud("S-back-01", -1), mm(3 / 8), "back"),
    Case("niche-clear", "found", in_bay(29, 30), mm(-1), "back", good=in_bay(31, 32)),
    Case("cut-stud", "planned", niche(24, 38), 1.0, "back", "confirm", good=niche()),
    Case("niche-depth", "planned", niche(depth=2.5), mm(-0.5), "back", good=niche(depth=2)),
    Case("drain-fall", "planned", niche(fall=1 / 96), 1 / 96, "shelf-sill", good=niche()),
    Case("coverage", "planned", _stretch_board("B-left-2", 95.875, 94.875), 35.375 * SQUARE_INCH, "left"),
    Case("overlap", "planned", _stretch_board("B-left-2", 60, 59), 35.375 * SQUARE_INCH, "left"),
    Case("fit", "planned", _edge("B-back-1", "corner", u=-1 / 16), mm(1 / 16), "back"),
    Case("stagger", "planned", _two_seams(43), mm(3), "left", good=_two_seams(50)),
    Case("least-rip", "planned", on_plan(_squeezed), mm(2.9125), "back", "warn"),
    Case("fits-sheet", "planned", on_plan(_sheet_width), mm(0.875), "back"),
    Case("sheet-kerf", "planned", on_plan(_closer), mm(1 / 16), ""),
    Case("opening-margin", "planned", _opening_at(0.625 + 2.5 + 0.5), mm(0.5), "right"),
    Case("pipe-clearance", "planned", _spout_hole(0.75), mm(1 / 8), "right"),
    Case("collar-seam", "planned", on_plan(_moved_fitting), mm(-2), "right"),
    Case("deck-gap", "planned", _edge("B-right-1", "bottom", v=-1 / 8), mm(1 / 8), "right"),
    Case("flange-clearance", "planned", _rabbet(0.25, 19.5625), mm(1 / 16), "right"),
    Case("rabbet-clearance", "planned", _rabbet(7 / 32), mm(1 / 32), "right"),
    Case("rabbet-share", "planned", _rabbet(0.3), 0.6, "right"),
    Case(
        "bed-gap", "planned", on_room(lambda r: ch.butted(r, 3 / 16, 0.5)), mm(1 / 16), "back",
        good=on_room(lambda r: ch.butted(r, 1 / 8, 0.5)),
    ),
    Case(
        "thick-flush", "planned", on_room(lambda r: ch.butted(r, 1 / 8, 9 / 16)), mm(1 / 16), "back",
        good=on_room(lambda r: ch.butted(r, 1 / 8, 0.5)),
    ),
    Case("leg-gap", "planned", _edge("B-right-1", "apron", u=-1 / 8), mm(1 / 8), "right"),
    Case("lining-clear", "planned", _tray(19.5), mm(0.75), "back", good=_tray(19)),
    Case("screwed", "planned", _without_row("B-back-1", "S-back-02"), 1.0, "back"),
    Case("washer-gap", "planned", same, mm(-1 / 2), "back", "note", good=_without_row("B-back-2", "S-back-03")),
    Case("curb-screws", "planned", _curb(1), 1.0, "back", good=_curb(0)),
    Case("screw-spacing", "planned", _without_screw("F-B-back-1-002"), mm(2 * (95.125 - 20.25) / 7), "back"),
    Case("screw-edge-distance", "planned", _screw_at("F-B-back-1-008", v=1 / 4), mm(0.5), "back"),
    Case("screw-side-distance", "planned", _screw_at("F-B-back-1-017", u=1 / 8), mm(0.25), "back"),
    Case("screw-bite-wood", "planned", _screw_length(1.125), mm(0.625), "back"),
    Case("screw-bite-steel", "planned", _screw_length(0.75, True), mm(0.25), "back", good=_screw_length(1, True)),
    Case("plug-depth", "planned", _plug_length(45), 45 - mm(0.5), "back", good=_plug_length(35 + mm(0.5))),
    Case("pipe-zone", "planned", _screw_length(2), mm(1.5), "back", "warn"),
    Case("band-lap", "planned", _laps(19.25), mm(1.75), "back", good=_laps(18.75)),
    Case(
        "band-cover", "planned",
        on_plan(lambda p: ch.rebanded(p, "T-seam-1", "back", (29.5, 18.75, 32.5, 95.875))), mm(1.5), "back",
    ),
    Case("fastener-cover", "planned", on_plan(_bare), 1.0, "right"),
    Case("finish-height", "planned", _edge("B-right-1", "top", v=71.5 - 95.875), mm(71.5), "right"),
    Case("headroom", "planned", soffit(80), mm(79.5), "box-underside", "confirm", good=soffit(80.5)),
    Case("finish-height-drain", "planned", _short_above_drain, mm(69), "right", good=_drain(4)),
    Case("shower-area", "planned", _shower(16), 58.5 * 15.125 * SQUARE_INCH, "", good=_shower(31.75)),
    Case("shower-side", "planned", _shower(25.75), mm(24.875), "", good=_shower(31.75)),
)  # fmt: skip
