"""The question put to the layout optimiser: where seams may stand on each wall, and which sheets there are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.errors import CannotPlanError
from generator.model.geometry import NOISE, TOUCH, Ring, box, rectangle, tidy
from generator.model.plan import PlannedWall, Region, Support
from generator.model.room import Fitting, Room, Wall
from generator.planning.base_edge import screw_floor
from generator.planning.bays import centre, face, heights_at, is_upright, sideways
from generator.planning.boards import opening_of
from generator.planning.framing import leg_edges
from generator.planning.layout.task import Disc, LayoutTask, Leg, SeamPlace, StockSize, Unscrewed, WallTask
from generator.planning.masonry import seams_offered
from generator.planning.room_corners import board_thickness
from generator.planning.soffits import soffit_edges
from generator.planning.supports import has_room, stud_heights

Supports = tuple[Support, ...]


def layout_task(room: Room, walls: tuple[PlannedWall, ...], supports: Supports) -> LayoutTask:
    """The whole room as one task; CannotPlanError where a wall leaves nothing, or two pieces, to board."""
    tasks = tuple(_wall_task(room, wall, planned, supports) for wall, planned in zip(room.walls, walls, strict=True))
    stocks = tuple(StockSize(s.id, s.width, s.height, s.price, s.available or 0) for s in room.choices.stocks)
    return LayoutTask(
        walls=tasks,
        stocks=stocks,
        kerf=room.choices.kerf,
        stagger=room.limit("stagger"),
        least_rip=room.limit("least-rip"),
        support_price=room.choices.prices.support,
    )


def _wall_task(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> WallTask:
    region = _only_region(wall, planned)
    own = tuple(s for s in supports if s.wall == wall.id)
    fittings = [fitting for fitting in room.fittings if fitting.wall == wall.id]
    return WallTask(
        id=wall.id,
        region=region,
        seams=tuple(sorted(_seam_places(room, wall, planned, region, own), key=lambda s: (s.u, s.from_v))),
        discs=tuple(_disc(room, fitting) for fitting in fittings),
        uncut=(
            *_kept_whole(room, [opening_of(room, f).ring for f in fittings if f.ring]),
            *_niches(room, wall),
            *_soffit_corners(room, wall, planned),
        ),
        legs=tuple(_legs(room, wall, planned)),
        unscrewed=tuple(_unscrewed(room, wall)),
        minor=wall.face != "wall",
    )


def _only_region(wall: Wall, planned: PlannedWall) -> Region:
    if not planned.wet_region:
        raise CannotPlanError(
            f'nothing is left to board on wall "{wall.id}": reach, height or base leave no room', wall.path
        )
    if len(planned.wet_region) > 1:
        raise CannotPlanError(
            f'the boards of wall "{wall.id}" fall into {len(planned.wet_region)} separate pieces', wall.path
        )
    return planned.wet_region[0]


def _disc(room: Room, fitting: Fitting) -> Disc:
    """Seams keep clear of the collar, and of the opening with its margin where that is larger."""
    collar = fitting.collar_diameter / 2 + room.limit("collar-seam")
    opening = opening_of(room, fitting)
    return Disc(opening.centre, tidy(max(collar, opening.diameter / 2 + room.limit("opening-margin"))))


def _kept_whole(room: Room, openings: Iterable[Ring], least: float = 0.0) -> Iterator[Ring]:
    margin = max(room.limit("opening-margin"), least)
    for ring in openings:
        left, low, right, high = box(ring)
        yield rectangle(left - margin, low - margin, right + margin, high + margin)


def _niches(room: Room, wall: Wall) -> Iterator[Ring]:
    """No seam runs into a niche or close beside it; windows may be wider than any sheet, and seams meet them.

    The band of a seam has its cover as far as the fold, which is a board inside the niche.
    """
    band = room.limit("band-cover") - board_thickness(room)
    return _kept_whole(room, (mouth.ring for mouth in wall.mouths if mouth.kind == "niche"), band)


def _soffit_corners(room: Room, wall: Wall, planned: PlannedWall) -> Iterator[Ring]:
    """A board goes round the lower corner of a soffit in one piece: beside it a seam would leave a tongue."""
    least = room.limit("least-rip")
    for u, _, low in soffit_edges(wall, planned):
        yield rectangle(u - least, low - least, u + least, low + least)


def _legs(room: Room, wall: Wall, planned: PlannedWall) -> Iterator[Leg]:
    for u, side, _, top in leg_edges(room, wall, planned):
        from_u, to_u = (u, wall.reach[1]) if side == "left" else (wall.reach[0], u)
        yield Leg(from_u, to_u, top)


def _unscrewed(room: Room, wall: Wall) -> Iterator[Unscrewed]:
    """Over a base the lowest boards reach at least the least rip above their first screws."""
    screws = room.choices.screws.items()
    washer = max(screw.washer_diameter for kind, screw in screws if (kind == "masonry") == bool(wall.masonry))
    for side in room.base.sides:
        if side.wall == wall.id:
            first = screw_floor(room, side) + room.limit("flange-clearance") + washer / 2
            yield Unscrewed(side.start, side.end, tidy(first + room.limit("least-rip")))


def _seam_places(room: Room, wall: Wall, planned: PlannedWall, region: Region, own: Supports) -> Iterator[SeamPlace]:
    left, bottom, right, top = box(region.ring)
    if wall.masonry:
        yield from (
            SeamPlace(u, bottom, top, adds=False)
            for u in seams_offered(room, wall, planned, _useful(room, left, right))
        )
        return
    if wall.frame is not None and _goes_on_a_sheet(room, region):
        return
    uprights = [s for s in own if is_upright(s) and left + TOUCH < centre(s) < right - TOUCH and _wide_enough(room, s)]
    plates = [s for s in own if not is_upright(s)]
    for support in uprights:
        yield SeamPlace(centre(support), *_with_laps(wall, region, *_carried_heights(support, plates)), adds=False)
    taken = [centre(s) for s in uprights]
    if not _added_is_wide_enough(room, wall):
        return
    half = room.choices.added_stud[wall.id].face / 2
    plate_heights = [box(p.outline) for p in plates if p.kind == "plate"]
    for u in _useful(room, left, right):
        clear = all(abs(u - other) >= room.choices.added_stud[wall.id].face - NOISE for other in taken)
        if clear and has_room(room, wall, own, u):
            taken.append(u)
            low, high = stud_heights(wall, (u - half, u + half))
            low, high = min([low, *(p[1] for p in plate_heights)]), max([high, *(p[3] for p in plate_heights)])
            yield SeamPlace(u, *_with_laps(wall, region, low, high), adds=True)


def _with_laps(wall: Wall, region: Region, low: float, high: float) -> tuple[float, float]:
    """The heights where a seam is carried, and beyond the ends of a face's framing where its boards lap others'."""
    _, sole, _, crown = box(wall.outline)
    _, bottom, _, top = box(region.ring)
    if wall.frame is not None and low <= sole + TOUCH:
        low = min(low, bottom)
    if wall.frame is not None and high >= crown - TOUCH:
        high = max(high, top)
    return low, high


def _goes_on_a_sheet(room: Room, region: Region) -> bool:
    """True of a face, such as a niche's, that one board covers: a seam there would only be one more to seal."""
    left, low, right, high = box(region.ring)
    short, long = sorted((right - left, high - low))
    sheets = (sorted((stock.width, stock.height)) for stock in room.choices.stocks)
    return any(short <= sheet[0] + NOISE and long <= sheet[1] + NOISE for sheet in sheets)


def _wide_enough(room: Room, support: Support) -> bool:
    """True where a seam can stand on it: its axis stays under a plumb seam, and its face is wide enough for two."""
    a, b = face(support)
    plumb = sideways(support) / 2 <= room.limit("seam-on-axis") + NOISE
    return plumb and (b - a) / 2 >= room.limit(f"bearing-seam-{support.material}") - NOISE


def _added_is_wide_enough(room: Room, wall: Wall) -> bool:
    profile = room.choices.added_stud[wall.id]
    return profile.face / 2 >= room.limit(f"bearing-seam-{profile.material}") - NOISE


def _carried_heights(support: Support, plates: list[Support]) -> tuple[float, float]:
    """The heights where a seam on this stud is carried, the plates at its ends included."""
    u = centre(support)
    low, high = heights_at(support, u)
    for plate in plates * len(plates):  # plates may lie on one another
        covers = face(plate)[0] - TOUCH <= face(support)[0] and face(support)[1] <= face(plate)[1] + TOUCH
        if covers and abs(heights_at(plate, u)[1] - low) <= TOUCH:
            low = heights_at(plate, u)[0]
        if covers and abs(heights_at(plate, u)[0] - high) <= TOUCH:
            high = heights_at(plate, u)[1]
    return low, high


def _useful(room: Room, left: float, right: float) -> list[float]:
    """Places a whole number of sheet sides from an end of the boards, nearest to the left first."""
    sides = {side for s in room.choices.stocks for side in (s.width, s.height)}
    reach = {0.0}
    for _ in range(3):
        reach |= {tidy(a + b) for a in reach for b in sides if a + b < right - left}
    places = {tidy(left + r) for r in reach if r} | {tidy(right - r) for r in reach if r}
    return sorted(u for u in places if left + TOUCH < u < right - TOUCH)
