"""Grab bars of accessible places (ADA 607.4, 608.3, 609). ANSI A117.1 differs: it asks for upright bars as well."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.access_place import PLACE, Bathing, between_finished_faces, of_mount
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import box
from generator.model.mounts import Mount
from generator.model.room import Fitting


def _all_bars(place: Bathing) -> tuple[Mount, ...]:
    return tuple(bar for wall in (place.ends[0], place.back, place.ends[1]) for bar in place.bars(wall))


def _rim_bars(place: Bathing) -> tuple[Mount, ...]:
    """The lower one of two bars on the back wall of a tub."""
    bars = place.bars(place.back)
    return bars[:1] if place.room.accessible == "bathtub" and len(bars) > 1 else ()


def _high_bars(place: Bathing) -> tuple[Mount, ...]:
    return tuple(bar for bar in _all_bars(place) if bar not in _rim_bars(place))


def _wanted(place: Bathing) -> dict[str, int]:
    """How many bars each wall must have."""
    seat = place.seat.wall if place.seat else ""
    if place.room.accessible == "transfer_shower":
        return {place.control or place.opposite(seat) or place.ends[1]: 1, place.back: 1}
    if place.room.accessible == "roll_in":
        return {wall: 1 for wall in (place.ends[0], place.back, place.ends[1]) if wall != seat}
    ends = {wall: 1 for wall in place.ends if wall != seat}
    return {place.back: 2, **ends}


@between_finished_faces
def bars_there(place: Bathing) -> Iterator[Measure]:
    """Each wall that is asked for grab bars has them."""
    for wall, count in _wanted(place).items():
        missing = max(0, count - len(place.bars(wall)))
        text = f"add a grab bar to wall {wall} under `mounts`"
        cure = Cure(text, "advice", wall, PLACE, 0.0) if missing else None
        outline = place.plan.wall(wall).outline
        yield Measure(f"{wall}: grab bars missing of {count}", float(missing), Place(wall, outline), PLACE, cure)


@between_finished_faces
def bar_low(place: Bathing) -> Iterator[Measure]:
    """The top of each grip is high enough above the finished floor."""
    return (of_mount(bar, "top of the grip above the floor", bar.top - place.floor) for bar in _high_bars(place))


@between_finished_faces
def bar_high(place: Bathing) -> Iterator[Measure]:
    """The top of each grip is not too high above the finished floor."""
    return (of_mount(bar, "top of the grip above the floor", bar.top - place.floor) for bar in _high_bars(place))


@between_finished_faces
def bar_rim_low(place: Bathing) -> Iterator[Measure]:
    """The lower bar is high enough above the rim."""
    return (of_mount(bar, "top of the grip above the rim", bar.top - place.deck) for bar in _rim_bars(place))


@between_finished_faces
def bar_rim_high(place: Bathing) -> Iterator[Measure]:
    """The lower bar is not too high above the rim."""
    return (of_mount(bar, "top of the grip above the rim", bar.top - place.deck) for bar in _rim_bars(place))


@between_finished_faces
def bar_section_least(place: Bathing) -> Iterator[Measure]:
    """No bar is too thin."""
    return (of_mount(bar, "section", bar.diameter) for bar in _all_bars(place))


@between_finished_faces
def bar_section_most(place: Bathing) -> Iterator[Measure]:
    """No bar is too thick."""
    return (of_mount(bar, "section", bar.diameter) for bar in _all_bars(place))


@between_finished_faces
def bar_gap_least(place: Bathing) -> Iterator[Measure]:
    """No bar is too near to its wall."""
    return (of_mount(bar, "space to the finished wall", bar.gap) for bar in _all_bars(place))


@between_finished_faces
def bar_gap_most(place: Bathing) -> Iterator[Measure]:
    """No bar is too far from its wall."""
    return (of_mount(bar, "space to the finished wall", bar.gap) for bar in _all_bars(place))


@between_finished_faces
def bar_over(place: Bathing) -> Iterator[Measure]:
    """What stands out of the wall above a bar keeps clear of it; fittings and other bars may be nearer."""
    for bar in _all_bars(place):
        others = [
            m
            for m in place.room.mounts
            if m.wall == bar.wall and m.kind == "seat" and _side_by_side(bar, m) and m.top > bar.top
        ]
        clear = [box(m.ring)[1] - bar.top for m in others]
        ceiling = box(place.plan.wall(bar.wall).outline)[3] - bar.top
        yield of_mount(bar, "clear above the grip", min([*clear, ceiling]))


def _side_by_side(one: Mount, other: Mount) -> bool:
    """True where both take up some of the same stretch of their wall."""
    return other.ends[0] < one.ends[1] and one.ends[0] < other.ends[1]


@between_finished_faces
def bar_clear(place: Bathing) -> Iterator[Measure]:
    """Each bar keeps clear of fittings, seats and other bars on its wall."""
    for bar in _all_bars(place):
        rings = [box(m.ring) for m in place.room.mounts if m.wall == bar.wall and m is not bar]
        rings += [_round(f) for f in place.room.fittings if f.wall == bar.wall]
        if rings:
            yield of_mount(bar, "clear to what is nearest", min(_apart(box(bar.ring), ring) for ring in rings))


def _round(fitting: Fitting) -> tuple[float, float, float, float]:
    (u, v), half = fitting.centre, fitting.diameter / 2
    around = box(fitting.ring) if fitting.ring else (-half, -half, half, half)
    return u + around[0], v + around[1], u + around[2], v + around[3]


def _apart(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> float:
    across, up = max(a[0] - b[2], b[0] - a[2]), max(a[1] - b[3], b[1] - a[3])
    return float((across**2 + up**2) ** 0.5) if across > 0 and up > 0 else max(across, up)


@between_finished_faces
def bar_adjacent(place: Bathing) -> Iterator[Measure]:
    """Bars of a shower begin near the adjacent walls, and on the control wall end near the front edge."""
    seat = place.seat.wall if place.seat else ""
    for wall in place.ends:
        for bar in place.bars(wall):
            yield of_mount(bar, f"from the finished {place.back} wall", place.near_end(bar, place.back))
            if place.room.accessible == "transfer_shower":
                yield of_mount(bar, "short of the front edge", place.depth(wall) - place.far_end(bar, place.back))
    beside = [wall for wall in place.ends if wall != seat]
    for bar in place.bars(place.back):
        for wall in beside:
            yield of_mount(bar, f"from the finished {wall} wall", place.near_end(bar, wall))


@between_finished_faces
def bar_reach(place: Bathing) -> Iterator[Measure]:
    """The bar on the back wall reaches far enough from the control wall."""
    return (
        of_mount(bar, "far end from the finished control wall", place.far_end(bar, place.control))
        for bar in place.bars(place.back)
        if place.control
    )


@between_finished_faces
def bar_over_seat(place: Bathing) -> Iterator[Measure]:
    """No bar is above the seat, on the seat's wall or on the back wall."""
    seat = place.seat
    if seat is not None:
        own = [bar for bar in place.bars(seat.wall) if _side_by_side(bar, seat) and bar.top > seat.top]
        own += [bar for bar in place.bars(place.back) if place.near_end(bar, seat.wall) < seat.out]
        yield of_mount(seat, "bars above it", float(len(own)))


@between_finished_faces
def tub_bar_length(place: Bathing) -> Iterator[Measure]:
    """Bars on the back wall of a tub without a permanent seat, and on its control wall, are long enough."""
    walls = (*(() if place.seat else (place.back,)), place.control)
    return (of_mount(bar, "length", bar.ends[1] - bar.ends[0]) for wall in walls for bar in place.bars(wall))


@between_finished_faces
def tub_bar_head_length(place: Bathing) -> Iterator[Measure]:
    """The bar on the head wall of a tub is long enough."""
    return (of_mount(bar, "length", bar.ends[1] - bar.ends[0]) for bar in place.bars(place.opposite(place.control)))


@between_finished_faces
def tub_bar_head(place: Bathing) -> Iterator[Measure]:
    """Without a permanent seat, bars on the back wall of a tub begin near enough to the head wall."""
    return iter(()) if place.seat else _from_head(place)


@between_finished_faces
def tub_bar_head_seat(place: Bathing) -> Iterator[Measure]:
    """With a permanent seat, bars on the back wall of a tub begin nearer to the head wall."""
    return _from_head(place) if place.seat else iter(())


def _from_head(place: Bathing) -> Iterator[Measure]:
    head = place.opposite(place.control)
    bars = place.bars(place.back) if head else ()
    return (of_mount(bar, "from the finished head wall", place.near_end(bar, head)) for bar in bars)


@between_finished_faces
def tub_bar_control(place: Bathing) -> Iterator[Measure]:
    """Bars on the back wall of a tub end near enough to the control wall."""
    bars = place.bars(place.back) if place.control else ()
    return (of_mount(bar, "from the finished control wall", place.near_end(bar, place.control)) for bar in bars)
