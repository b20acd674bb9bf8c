"""Seat, controls and size of accessible places (ADA 607.5, 608.3 to 608.7, 610)."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.access_place import PLACE, Bathing, between_finished_faces, of_mount
from generator.checks.measuring import WHOLE_ROOM, unmeasured
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import tidy
from generator.model.room import Fitting


@between_finished_faces
def seat_there(place: Bathing) -> Iterator[Measure]:
    """A transfer shower has a seat, opposite its controls."""
    wall = place.opposite(place.control) or place.ends[0]
    missing = place.seat is None or (place.control != "" and place.seat.wall != wall)
    cure = Cure(f"add a seat to wall {wall} under `mounts`", "advice", wall, PLACE, 0.0) if missing else None
    outline = place.plan.wall(wall).outline
    yield Measure(f"{wall}: seat missing opposite the controls", float(missing), Place(wall, outline), PLACE, cure)


@between_finished_faces
def seat_low(place: Bathing) -> Iterator[Measure]:
    """The top of the seat is high enough."""
    if place.seat:
        yield of_mount(place.seat, "top above the floor", place.seat.top - place.floor)


@between_finished_faces
def seat_high(place: Bathing) -> Iterator[Measure]:
    """The top of the seat is low enough."""
    if place.seat:
        yield of_mount(place.seat, "top above the floor", place.seat.top - place.floor)


@between_finished_faces
def seat_out_least(place: Bathing) -> Iterator[Measure]:
    """A shower's seat is deep enough."""
    if place.seat:
        yield of_mount(place.seat, "out from the finished wall", place.seat.out)


@between_finished_faces
def seat_out_most(place: Bathing) -> Iterator[Measure]:
    """A shower's seat leaves room for the feet."""
    if place.seat:
        yield of_mount(place.seat, "out from the finished wall", place.seat.out)


def _of_valve(valve: Fitting, words: str, value: float) -> Measure:
    return Measure(f"{valve.id}: {words}", tidy(value), Place(valve.wall, (valve.centre,)), valve.path)


def _no_valve() -> Measure:
    return unmeasured("no valve is listed; confirm where the controls are", "confirm", "", PLACE)


@between_finished_faces
def control_low(place: Bathing) -> Iterator[Measure]:
    """The controls are high enough above the shower's floor."""
    valve = place.valve
    yield _of_valve(valve, "above the shower's floor", valve.centre[1] - place.deck) if valve else _no_valve()


@between_finished_faces
def control_high(place: Bathing) -> Iterator[Measure]:
    """The controls are within reach above the shower's floor."""
    valve = place.valve
    yield _of_valve(valve, "above the shower's floor", valve.centre[1] - place.deck) if valve else _no_valve()


@between_finished_faces
def control_offset(place: Bathing) -> Iterator[Measure]:
    """The controls are near enough to the middle of the seat, towards the opening."""
    return _off_seat(place)


@between_finished_faces
def control_side(place: Bathing) -> Iterator[Measure]:
    """The controls are on the opening's side of the middle of the seat."""
    return _off_seat(place)


def _off_seat(place: Bathing) -> Iterator[Measure]:
    """From the middle of the seat to the controls, positive towards the opening; both as seen from the back wall."""
    valve, seat = place.valve, place.seat
    if valve is None or seat is None or not place.control:
        yield _no_valve()
        return
    middle = (place.near_end(seat, place.back) + place.far_end(seat, place.back)) / 2
    off = place.from_wall(valve.wall, valve.centre[0], place.back) - middle
    yield _of_valve(valve, "from the middle of the seat towards the opening", off)


@between_finished_faces
def control_wall(place: Bathing) -> Iterator[Measure]:
    """With a seat, the controls are on the back wall within reach of it."""
    valve, seat = place.valve, place.seat
    if valve and seat and valve.wall == place.back:
        off = place.from_wall(place.back, valve.centre[0], seat.wall)
        yield _of_valve(valve, "from the finished wall of the seat", off)
    elif seat:
        yield unmeasured(
            "the controls are not on the back wall; ADA 608.5.2 asks for that", "confirm", seat.wall, PLACE
        )


@between_finished_faces
def control_bar(place: Bathing) -> Iterator[Measure]:
    """The controls are above the bar on their wall."""
    valve = place.valve
    for bar in place.bars(valve.wall) if valve else ():
        assert valve is not None
        yield _of_valve(valve, f"above {bar.id}", valve.centre[1] - valve.diameter / 2 - bar.top)


@between_finished_faces
def tub_control(place: Bathing) -> Iterator[Measure]:
    """The controls of a tub are between its rim and the bar on their wall."""
    valve = place.valve
    for bar in place.bars(valve.wall) if valve else ():
        assert valve is not None
        below = bar.top - bar.diameter - valve.centre[1] - valve.diameter / 2
        yield _of_valve(valve, f"inside the rim and {bar.id}", min(valve.centre[1] - place.deck, below))


@between_finished_faces
def tub_control_side(place: Bathing) -> Iterator[Measure]:
    """The controls of a tub are between its open side and its middle."""
    valve = place.valve
    if valve is None or not place.control:
        yield _no_valve()
        return
    off = place.from_wall(valve.wall, valve.centre[0], place.back) - place.depth(valve.wall) / 2
    yield _of_valve(valve, "from the tub's middle towards the open side", off)


@between_finished_faces
def clear_least(place: Bathing) -> Iterator[Measure]:
    """A transfer shower is long and wide enough between finished faces."""
    least = min(place.width, _depth(place))
    yield Measure("least clear inside of the shower", least, WHOLE_ROOM, place.room.base.path)


def _depth(place: Bathing) -> float:
    return place.depth(place.ends[0])


@between_finished_faces
def clear_most(place: Bathing) -> Iterator[Measure]:
    """A transfer shower is no longer and no wider than its bars and seat reach."""
    most = max(place.width, _depth(place))
    yield Measure("greatest clear inside of the shower", most, WHOLE_ROOM, place.room.base.path)


@between_finished_faces
def rollin_deep(place: Bathing) -> Iterator[Measure]:
    """A roll-in shower is deep enough between finished faces."""
    yield Measure("clear depth of the shower", _depth(place), WHOLE_ROOM, place.room.base.path)


@between_finished_faces
def rollin_wide(place: Bathing) -> Iterator[Measure]:
    """A roll-in shower is wide enough between finished faces."""
    yield Measure("clear width of the shower", place.width, WHOLE_ROOM, place.room.base.path)


@between_finished_faces
def threshold(place: Bathing) -> Iterator[Measure]:
    """The threshold of a shower is low enough to roll over."""
    base = place.room.base
    if base.threshold is None:
        yield unmeasured("height of the threshold is not known; confirm it", "confirm", "", base.path)
        return
    yield Measure("threshold above the floor", tidy(base.threshold - place.floor), WHOLE_ROOM, base.path)
