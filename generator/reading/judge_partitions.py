"""What is wrong with partitions: where they stand, how thick they are, what cannot go round their end."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import TOUCH
from generator.model.profiles import Catalogue
from generator.reading.bench_shapes import PartitionShape
from generator.reading.draft import Draft, shown
from generator.reading.issues import Issue, join
from generator.reading.room_shapes import WallShape


def judge_partitions(draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """Every wall that stands free."""
    for i, wall in enumerate(draft.walls):
        if wall is not None and wall.partition is not None:
            path = join("walls", i)
            yield from _judge_place(path, wall, i, draft)
            yield from _judge_thickness(path, wall, wall.partition, catalogue, draft)
            yield from _judge_shape(path, wall, wall.partition, draft)


def _judge_place(path: str, wall: WallShape, index: int, draft: Draft) -> Iterator[Issue]:
    last = len(draft.names) - 1
    if last == 0:
        text = "a partition that stands free at both ends cannot be planned; list the wall that one end stands at"
        yield Issue(join(path, "partition"), text)
        return
    if index not in (0, last):
        text = "a partition is the first or the last wall of the list: no wall can start from its free end"
        yield Issue(join(path, "partition"), text)
        return
    for i, corner in enumerate(draft.corners):
        if corner is not None and wall.name in corner.between and abs(corner.angle - 90.0) > 1e-6:
            yield Issue(join("corners", i, "angle"), "a partition can be planned at 90 degrees to its neighbour only")


def _judge_thickness(
    path: str, wall: WallShape, shape: PartitionShape, catalogue: Catalogue, draft: Draft
) -> Iterator[Issue]:
    """Its other side is fastened to the same studs, which must reach through it."""
    for i, studs in enumerate(wall.supports.studs):
        profile = catalogue.studs.get(studs.profile)
        depth = (profile.face if studs.flat else profile.depth) if profile is not None else shape.thickness.mm
        if abs(depth - shape.thickness.mm) > TOUCH:
            thick = shown(shape.thickness, draft.units)
            text = f'"{wall.name}" is {thick} thick, and {studs.profile} does not reach through; measure both again'
            yield Issue(join(path, "supports.studs", i, "profile"), text)
    if wall.supports.masonry:
        yield Issue(join(path, "supports.masonry"), "a partition of masonry cannot be planned; list its framing")


def _judge_shape(path: str, wall: WallShape, shape: PartitionShape, draft: Draft) -> Iterator[Issue]:
    if wall.boards.reach is not None:
        text = "boards of a partition go to its free end and round it; leave `reach` out"
        yield Issue(join(path, "boards.reach"), text)
    if shape.outside is not None and shape.outside.mm > wall.width.mm + TOUCH:
        width = shown(wall.width, draft.units)
        yield Issue(join(path, "partition.outside"), f'farther than the {width} wall "{wall.name}" is wide')
    if wall.widths or wall.plumb.left or wall.plumb.right:
        key = "widths" if wall.widths else "plumb"
        yield Issue(join(path, key), "a partition is planned plumb; give its `width`, and shim what leans")
    if shape.cap:
        yield from _judge_cap(path, wall)


def _judge_cap(path: str, wall: WallShape) -> Iterator[Issue]:
    """One flat piece over all of it."""
    tops = [one.height.mm for one in wall.heights]
    if tops and max(tops) - min(tops) >= wall.width.mm - TOUCH:  # a plate on it would stand, and be no plate
        text = "a cap that rises 45 degrees or more cannot be planned; measure both heights again, or leave out `cap`"
        yield Issue(join(path, "heights"), text)
    if wall.boards.top != "ceiling":
        yield Issue(join(path, "boards.top"), "boards go up to the cap; leave `top` out, or leave out `cap`")
    ends = [one.at.mm for one in wall.heights]
    if ends and (len(ends) != 2 or abs(ends[0]) > TOUCH or abs(ends[1] - wall.width.mm) > TOUCH):
        yield Issue(join(path, "heights"), "a cap is one flat piece: give the heights at the two ends of the wall only")
