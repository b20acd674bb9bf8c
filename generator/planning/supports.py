"""Supports as records: those found, those added, and where one more could stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import floor
from typing import Literal

from generator.model.ends import highest, top_line
from generator.model.geometry import NOISE, box, rectangle, tidy
from generator.model.plan import Support
from generator.model.room import Fitting, FoundSupport, Room, Wall
from generator.planning.bays import fills, heights, is_upright
from generator.units import paper_step

Cause = Literal["cure", "seam", "mount"]
"""Why a support is added; see `Support.cause`."""


def found_supports(wall: Wall) -> tuple[Support, ...]:
    """The wall's supports as measured; ids are given once all supports are known."""
    return tuple(found_support(wall, s) for s in wall.supports)


def found_support(wall: Wall, found: FoundSupport) -> Support:
    """One piece as measured, without an id."""
    return Support(
        id="",
        wall=wall.id,
        kind=found.kind,
        origin="found",
        outline=found.outline,
        axis=found.axis,
        depth=found.profile.depth,
        material=found.profile.material,
        reason=found.state,
        cause="found",
        profile_id=found.profile.id,
        room_path=found.path,
        plies=found.plies,
    )


def added_stud(room: Room, wall: Wall, u: float, reason: str, cause: Cause) -> Support:
    """A stud with its centre at u, as high as the wall's own studs."""
    profile = room.choices.added_stud[wall.id]
    low, high = stud_heights(wall, (u - profile.face / 2, u + profile.face / 2))
    return Support(
        id="",
        wall=wall.id,
        kind="stud",
        origin="added",
        outline=rectangle(u - profile.face / 2, low, u + profile.face / 2, high),
        axis=((tidy(u), low), (tidy(u), high)),
        depth=profile.depth,
        material=profile.material,
        reason=reason,
        cause=cause,
        profile_id=profile.id,
        room_path=wall.path,
    )


def stud_heights(wall: Wall, across: tuple[float, float]) -> tuple[float, float]:
    """From, to of a stud with its face between two u: between plates where there are any, else floor to ceiling.

    Under a slope it is as high as the higher side of its face; on site its end is cut to the slope.
    """
    top = highest(top_line(wall.outline), *across)
    plates = [box(s.outline) for s in wall.supports if s.kind == "plate"]
    low = max((p[3] for p in plates if p[3] < top / 2), default=0.0)
    high = min((p[1] for p in plates if p[1] > top / 2), default=top)
    return low, high


def named(supports: Iterable[Support], wall_ids: Sequence[str]) -> tuple[Support, ...]:
    """All supports with their ids: by wall, then from left to right, then upwards."""
    named_supports: list[Support] = []
    by_wall: dict[str, list[Support]] = {wall_id: [] for wall_id in wall_ids}
    for support in supports:
        by_wall[support.wall].append(support)
    for wall_id, own in by_wall.items():
        ordered = sorted(own, key=lambda s: (box(s.outline), s.kind, s.origin))
        digits = max(2, len(str(len(ordered))))
        named_supports += [replace(s, id=f"S-{wall_id}-{index:0{digits}d}") for index, s in enumerate(ordered, 1)]
    return tuple(sorted(named_supports, key=lambda s: s.id))


def taken_spans(room: Room, fitting: Fitting) -> tuple[tuple[float, float], ...]:
    """The stretches of u that a stud's face must keep out of, because of one fitting of the wall."""
    centre, half = fitting.centre[0], fitting.diameter / 2
    if fitting.ring:
        left, _, right, _ = box(fitting.ring)
    else:
        left, right = -half, half
    if fitting.is_pipe:
        clear = room.limit("pipe-clearance") / 2
        left, right = left - clear, right + clear
    clear = room.limit("opening-stud-clearance")
    spans = [(centre + left - clear, centre + right + clear)]
    if fitting.body:
        spans.append((centre - fitting.body.width / 2, centre + fitting.body.width / 2))
    return tuple(spans)


def has_room(room: Room, wall: Wall, others: Iterable[Support], u: float) -> bool:
    """True where a stud of the wall's added kind, centred at u, touches no other support and no fitting."""
    half = room.choices.added_stud[wall.id].face / 2
    low, high = stud_heights(wall, (u - half, u + half))
    spans = [fills(s) for s in others if is_upright(s) and min(high, heights(s)[1]) - max(low, heights(s)[0]) > NOISE]
    for fitting in room.fittings:
        if fitting.wall == wall.id:
            spans += taken_spans(room, fitting)
    left, _, right, _ = box(wall.outline)
    low_u = left + (half if wall.beside[0] == "corner" else 0.0)
    high_u = right - (half if wall.beside[1] == "corner" else 0.0)
    inside = low_u - NOISE <= u <= high_u + NOISE
    return inside and all(u + half <= a + NOISE or b <= u - half + NOISE for a, b in spans)


def steps_near(room: Room, wanted: float, low: float, high: float) -> Iterator[float]:
    """Positions on the paper's step from low to high, the nearest to the wanted one first; wanted itself leads."""
    step = paper_step(room.units)
    first, last = floor(low / step - NOISE) + 1, floor(high / step + NOISE)
    ticks = [tidy(index * step) for index in range(first, last + 1)]
    yield from sorted(ticks, key=lambda u: (abs(u - wanted), u))


def nearest_place(
    room: Room, wall: Wall, others: Iterable[Support], wanted: float, low: float, high: float
) -> float | None:
    """Where a stud can stand nearest to `wanted`, between low and high (mm); None when nowhere."""
    own = tuple(others)
    candidates = (
        (wanted, *steps_near(room, wanted, low, high)) if low <= wanted <= high else steps_near(room, wanted, low, high)
    )
    return next((u for u in candidates if has_room(room, wall, own, u)), None)
