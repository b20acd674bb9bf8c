"""What stands before the walls, joined to the room: partitions in the chain, then caps, benches, curbs, soffits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from generator.model.placing import placed
from generator.model.profiles import StudProfile
from generator.model.room import Room, Wall
from generator.reading.benches import Made, Site, bench_at
from generator.reading.curbs import curb_at
from generator.reading.facing import Against
from generator.reading.issues import join
from generator.reading.partitions import Partition, cap_of, chain_of
from generator.reading.room_shapes import RoomShape, WallShape
from generator.reading.soffits import Taken, soffit_at


def corner_ends(walls: tuple[WallShape, ...], index: int) -> tuple[bool, bool]:
    """Whether the ends of a wall of the file are corners: between two walls, and at the free end of a partition."""
    last, free = len(walls) - 1, walls[index].partition is not None
    return index > 0 or free, index < last or free


def with_built(room: Room, shape: RoomShape) -> Room:
    """The room with its partitions as walls of the chain, and the faces of all that is built; the shape is judged."""
    partitions = tuple(_partitions(room, shape))
    room = _with_chain(room, partitions)
    soffits = [soffit_at(join("soffits", i), one, _site(room)) for i, one in enumerate(shape.soffits)]
    made = (*_made(room, shape, partitions), *(made for made, _ in soffits))
    taken = [own for _, own in soffits]
    studs = {face.id: _stud_of(room, feature.wall) for faces, _, feature in made for face in faces}
    return replace(
        room,
        walls=(*(_round(wall, taken) for wall in room.walls), *(face for faces, _, _ in made for face in faces)),
        features=(*room.features, *(feature for _, _, feature in made)),
        folds=(*room.folds, *(fold for _, folds, _ in made for fold in folds)),
        choices=replace(room.choices, added_stud={**room.choices.added_stud, **studs}),
    )


def _round(wall: Wall, taken: Iterable[Taken]) -> Wall:
    """The wall with its boards ending round what soffits take of it."""
    return replace(wall, allowances=(*wall.allowances, *(own[wall.id] for own in taken if wall.id in own)))


def _partitions(room: Room, shape: RoomShape) -> Iterator[Partition]:
    last = len(shape.walls) - 1
    fall, board = room.limit("drain-fall"), room.choices.stocks[0].board.thickness
    for i, wall in enumerate(shape.walls):
        if wall.partition is not None:
            yield Partition(room.walls[i], wall.partition, i == last, fall, board, room.limit("fit"))


def _with_chain(room: Room, partitions: tuple[Partition, ...]) -> Room:
    """Each partition as walls of the chain in its place, with the corners at its arrises."""
    chains = {one.wall.id: chain_of(one) for one in partitions}
    walls = [wall for one in room.walls for wall in (chains[one.id][0] if one.id in chains else (one,))]
    corners = list(room.corners)
    studs: dict[str, StudProfile] = {}
    for one in partitions:
        own = chains[one.wall.id]
        corners = [*corners, *own[1]] if one.at_right else [*own[1], *corners]
        studs |= {wall.id: _stud_of(room, one.wall.id) for wall in own[0]}
    choices = replace(room.choices, added_stud={**room.choices.added_stud, **studs})
    return replace(room, walls=tuple(walls), corners=tuple(corners), choices=choices)


def _stud_of(room: Room, wall: str) -> StudProfile:
    return room.choices.added_stud[wall]


def _made(room: Room, shape: RoomShape, partitions: tuple[Partition, ...]) -> Iterator[Made]:
    """Caps, benches, curbs, in the order of the file."""
    site = _site(room)
    for one in partitions:
        if one.shape.cap:
            yield cap_of(one, site.frames[one.wall.id], _beside(site, one))
    for i, bench in enumerate(shape.benches):
        yield bench_at(join("benches", i), bench, site)
    for i, curb in enumerate(shape.curbs):
        yield curb_at(join("curbs", i), curb, site)


def _beside(site: Site, one: Partition) -> Against:
    """The wall that a cap runs up to. Behind the half wall it goes on with wallboard, as thick as the boards: the fold
    passes their end by that much, and its band goes onto both."""
    return site.boarded(site.beside(one.wall.id, "left" if one.at_right else "right"))


def _site(room: Room) -> Site:
    walls: tuple[Wall, ...] = room.chain
    return Site(
        walls=walls,
        frames=placed(walls, room.corners, room.base),
        corners=room.corners,
        base=room.base,
        board=room.choices.stocks[0].board.thickness,
        fit=room.limit("fit"),
        leg_gap=room.limit("leg-gap"),
        deck_gap=room.limit("deck-gap"),
        fall=room.limit("drain-fall"),
    )
