"""What the detail of a base says: how the board ends over it, what is filled, what a tape checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.drawings.callouts import Note
from generator.drawings.detail_ink import BED, Patch, Seen
from generator.drawings.detail_said import Said, Size, band_notes, part_notes, rings_of
from generator.model.ends import height_at
from generator.model.geometry import TOUCH, Point, box, rectangle
from generator.model.plan import Board, PlannedSide
from generator.planning.cuts import bottom_at
from generator.units import PaperUnits, either, label

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LINING = 1.5
"""mm at which a tray's lining is drawn."""


def base_said(shown: Seen) -> Said:
    """The words of a base's detail, by how boards meet it."""
    job = shown.job
    side = next(s for s in job.plan.base.sides if s.wall == shown.cut.subject)
    u = shown.along(side.wall)
    board = min((b for b in shown.boards() if b.wall == side.wall), key=lambda b: bottom_at(b, u))
    gap = _gap(shown, board)
    patches = (*(Patch(ring, "sealant") for ring in rings_of(gap)), _mortar(shown, board), *_lining(shown, side, board))
    notes = (
        *_treated(shown, side, board, gap),
        *_screw(shown, side),
        *band_notes(shown, "base"),
        *_strip(shown, board),
    )
    return Said(_title(shown), patches, (*part_notes(shown), *_off(shown, side), *notes), _sizes(shown, side, board))


def _title(shown: Seen) -> str:
    wall = next(w for w in shown.job.room.walls if w.id == shown.cut.wall)
    on = ", on masonry" if wall.masonry else ", furred wall" if wall.furring else ""
    return f"{_TITLES[_sort(shown)]}{on}"


_TITLES = {
    "lapped": "Base: board laps a thin flange",
    "butted": "Base: board stands over a thick flange",
    "boards_first": "Base: tray made after the boards",
    "tray_first": "Base: boards after the tray",
    "tray": "Base: tray",
}


def _sort(shown: Seen) -> str:
    tray = shown.job.room.base.tray
    return tray.order if tray else shown.job.plan.base.kind


def _deck(shown: Seen, side: PlannedSide) -> float:
    return height_at(side.deck, shown.along(shown.cut.wall))


def _gap(shown: Seen, board: Board) -> BaseGeometry:
    """What the joint under a board's edge holds: the space below it, in front of the flange, down to base or floor."""
    from shapely import Polygon

    edge = bottom_at(board, shown.along(shown.cut.wall))
    floor = max(_top_of_base(shown, board, edge), edge - 2 * shown.job.room.limit("deck-gap"))
    under = Polygon(rectangle(0.0, floor, board.thickness, edge)) if edge - floor > TOUCH else Polygon()
    free = under.difference(shown.solid())
    front = [g for g in getattr(free, "geoms", (free,)) if not g.is_empty and g.bounds[2] > board.thickness - TOUCH]
    return front[0] if front else Polygon()


def _top_of_base(shown: Seen, board: Board, edge: float) -> float:
    """The highest point of the base under the front half of a board's edge; the floor where it stands before none."""
    from shapely import Polygon

    under = Polygon(rectangle(board.thickness * 0.55, shown.cut.window[1], board.thickness * 0.95, edge))
    met = shown.shape("base").intersection(under)
    return float(met.bounds[3]) if not met.is_empty else 0.0


def _treated(shown: Seen, side: PlannedSide, board: Board, gap: BaseGeometry) -> tuple[Note, ...]:
    units, deck = shown.job.room.choices.paper_units, _deck(shown, side)
    edge, sort = bottom_at(board, shown.along(shown.cut.wall)), _sort(shown)
    low = edge if gap.is_empty else gap.bounds[1]
    joint = (board.thickness * 0.75, (low + edge) / 2)
    if sort == "lapped":
        return (
            Note(joint, "sealant fills the gap completely, from the flange to the board's face; mask the deck first"),
            Note(
                (board.thickness, edge + 1.0),
                f"board stops {label(edge - deck, units)} above the deck and never rests on it",
            ),
            *_rabbet(shown, side, board),
        )
    if sort == "butted":
        bed = shown.job.room.limit("thick-flush")
        return (
            Note(joint, f"bed of sealant, {label(edge - low, units)} high: the board never rests on the base"),
            Note(
                (board.thickness, edge + 4.0), f"faces of board and flange flush within {_fine(bed, units)}, else shim"
            ),
        )
    lining = side.flange_top
    words = (
        "boards first; the tray and its lining are made against their faces"
        if sort == "boards_first"
        else ("tray and lining first; the boards stand before the upturned lining")
    )
    return (
        Note(
            joint,
            f"board stops {label(edge - low, units)} above the {'floor' if low <= TOUCH else 'tray'}; "
            "sealant fills the gap",
        ),
        Note(
            (_lining_at(shown, board), lining - 6.0),
            f"lining turned up to {label(lining, units)} above the floor; no screw through it",
        ),
        Note((board.thickness + 25.0, deck - 6.0), words),
    )


def _fine(mm: float, units: PaperUnits) -> str:
    """Smaller than paper's step: thirty-seconds of an inch, or tenths of a millimetre."""
    return either(units, f'{round(mm / 25.4 * 32)}/32"', f"{mm:.1f}")


def _lining_at(shown: Seen, board: Board) -> float:
    return board.thickness if _sort(shown) == "boards_first" else 0.0


def _mortar(shown: Seen, board: Board) -> Patch:
    """The strip that the band is bedded in."""
    edge, high = bottom_at(board, shown.along(board.wall)), shown.job.room.limit("mortar-strip")
    return Patch(rectangle(board.thickness, edge, board.thickness + BED, edge + high), "mortar")


def _lining(shown: Seen, side: PlannedSide, board: Board) -> tuple[Patch, ...]:
    """The upturned lining of a tray, as high as the profile says."""
    if shown.job.room.base.tray is None:
        return ()
    at = _lining_at(shown, board)
    return (Patch(rectangle(at, _deck(shown, side), at + LINING, side.flange_top), "lining"),)


def _rabbet(shown: Seen, side: PlannedSide, board: Board) -> tuple[Note, ...]:
    units, u = shown.job.room.choices.paper_units, shown.along(shown.cut.wall)
    cut = [r for r in board.rabbets if r.face == "back" and box(r.ring)[0] < u < box(r.ring)[2]]
    if not cut:
        return ()
    rabbet = min(cut, key=lambda r: box(r.ring)[1])
    top = box(rabbet.ring)[3]
    clear = top - (_deck(shown, side) + box(shown.job.plan.base.flange_section)[3])
    words = f"rabbet in the back {label(rabbet.depth, units)} deep, clears the flange's top by {label(clear, units)}"
    return (Note((rabbet.depth, top), words),)


def _off(shown: Seen, side: PlannedSide) -> tuple[Note, ...]:
    """How far the flange stands off the faces that boards are fastened to."""
    if abs(side.gap) <= TOUCH or not shown.job.plan.base.flange_section:
        return ()
    words = "off the stud faces" if side.gap > 0 else "behind the faces of the furring"
    spot = (side.gap, _deck(shown, side) + box(shown.job.plan.base.flange_section)[3] * 0.7)
    return (Note(spot, f"back of the flange {label(abs(side.gap), shown.job.room.choices.paper_units)} {words}"),)


def _screw(shown: Seen, side: PlannedSide) -> tuple[Note, ...]:
    """The lowest screw: nothing is driven below it."""
    if not shown.screws:
        return ()
    low = min(shown.screws, key=lambda s: s.head[1])
    units = shown.job.room.choices.paper_units
    above = low.head[1] - _deck(shown, side)
    return (
        Note(
            (low.head[0] - 0.5, low.head[1] - 4.0),
            f"lowest screw {label(above, units)} above the deck; none below it, none through the {_kept(shown)}",
        ),
    )


def _kept(shown: Seen) -> str:
    return "lining" if shown.job.room.base.tray else "flange"


def _strip(shown: Seen, board: Board) -> tuple[Note, ...]:
    high = shown.job.room.limit("mortar-strip")
    edge = bottom_at(board, shown.along(shown.cut.wall))
    said = label(high, shown.job.room.choices.paper_units)
    words = f"strip of thin-set mortar {said} high on the board, under the band"
    return (Note((board.thickness + 0.6, edge + high * 0.82), words),)


def _sizes(shown: Seen, side: PlannedSide, board: Board) -> tuple[Size, ...]:
    deck, edge = _deck(shown, side), bottom_at(board, shown.along(shown.cut.wall))
    top = shown.cut.window[3]
    sizes = [Size((0.0, top), (board.thickness, top), "x", board.thickness)]
    start: Point = (0.0, min(deck, edge))
    if abs(edge - deck) > TOUCH:
        sizes.append(Size((0.0, min(deck, edge)), (0.0, max(deck, edge)), "y", abs(edge - deck)))
    for rabbet in board.rabbets:
        left, low, right, high = box(rabbet.ring)
        if rabbet.face == "back" and left < shown.along(shown.cut.wall) < right and abs(low - edge) < TOUCH:
            sizes.append(Size((0.0, low), (0.0, high), "y", high - low))
    if shown.screws:
        head = min(s.head[1] for s in shown.screws)
        sizes.append(Size((start[0], deck), (start[0], head), "y", head - deck))
    return tuple(sizes)
